package wind

import (
	"strings"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// SurfaceWind is the wind of a METAR or as a tower or an ATIS gives it.
type SurfaceWind struct {
	// Mean carries the north it is counted from. Where the direction is variable it
	// is calm, there being no vector to compute with; Speed is given all the same.
	Mean     Reported
	Speed    abeam.Knots // mean
	Gust     abeam.Knots // 0 if none is reported
	Variable bool        // VRB, no direction
	// Swings says that the direction varies clockwise between two extremes, in the
	// north of Mean.
	Swings      bool
	Left, Right abeam.Bearing
}

// METARWind decodes the wind of a METAR, which is from true north. See [TowerWind]
// for the groups.
func METARWind(text string) (SurfaceWind, error) {
	return surfaceWind("wind.METARWind", text, abeam.True)
}

// TowerWind decodes a wind as a tower or an ATIS gives it, which is from magnetic
// north, written in the groups of a METAR:
//
//	24015KT            from 240 at 15 kt
//	24015G27KT         gusting to 27 kt
//	240105KT           three figures from 100 kt
//	24008MPS           metres per second, 3600/1852 kt each
//	VRB03KT            variable, no direction
//	00000KT            calm
//	24015KT 210V270    the direction varying from 210 clockwise to 270
//
// Source: WMO No. 306 FM 15 and ICAO Annex 3 appendix 3 for the groups and their
// true north; magnetic north for what is spoken, ICAO Annex 11 (all from memory).
//
// Errors: [abeam.ErrInvalid] for any other text: a direction that is not 001 to 360
// (000 is for calm alone), a gust not above the mean, a speed above [MaxSpeed],
// small letters, extremes beside a variable or calm wind.
func TowerWind(text string) (SurfaceWind, error) {
	return surfaceWind("wind.TowerWind", text, abeam.Magnetic)
}

func surfaceWind(op, text string, north abeam.North) (SurfaceWind, error) {
	groups := strings.Fields(text)
	if len(groups) != 1 && len(groups) != 2 {
		return SurfaceWind{}, check.Invalid(op, "wind", quote(text), "one group of wind, and one of its extremes or none")
	}
	w, limit := meanGroup(groups[0])
	if limit != "" {
		return SurfaceWind{}, check.Invalid(op, "wind group", quote(groups[0]), limit)
	}
	if len(groups) == 2 {
		if limit := w.swing(groups[1]); limit != "" {
			return SurfaceWind{}, check.Invalid(op, "group of extremes", quote(groups[1]), limit)
		}
	}
	w.Mean.North = north
	return w, nil
}

// meanGroup decodes dddff(f)(Gff(f))KT or MPS, or says what the group must be.
func meanGroup(group string) (w SurfaceWind, limit string) {
	body, unit := group, abeam.Knots(1)
	switch {
	case strings.HasSuffix(group, "KT"):
		body = group[:len(group)-2]
	case strings.HasSuffix(group, "MPS"):
		body, unit = group[:len(group)-3], 3600.0/abeam.MetresPerNM
	default:
		return SurfaceWind{}, "in KT or MPS"
	}
	const direction = 3
	if len(body) < direction {
		return SurfaceWind{}, "a direction of three figures or VRB, then the speed"
	}
	mean, gust, gusts := strings.Cut(body[direction:], "G")
	speed, ok := speedFigures(mean)
	if !ok {
		return SurfaceWind{}, "a speed of two figures, or of three from 100"
	}
	w.Speed = abeam.Knots(speed) * unit
	if gusts {
		peak, ok := speedFigures(gust)
		if !ok || peak <= speed {
			return SurfaceWind{}, "a gust above the mean speed, of two figures, or of three from 100"
		}
		w.Gust = abeam.Knots(peak) * unit
	}
	if !(max(w.Speed, w.Gust) <= MaxSpeed) {
		return SurfaceWind{}, "at most " + MaxSpeed.String()
	}
	switch from := body[:direction]; {
	case from == "VRB" && speed > 0:
		w.Variable = true
	case from == "000" && speed == 0 && !gusts:
	default:
		b, ok := bearingFigures(from)
		if !ok || speed == 0 {
			return SurfaceWind{}, "from 001 to 360 or VRB with a speed, or calm, 00000"
		}
		w.Mean.Wind = Wind{From: b, Speed: w.Speed}
	}
	return w, ""
}

// swing decodes dddVddd, or says what the group must be.
func (w *SurfaceWind) swing(group string) (limit string) {
	left, right, ok := strings.Cut(group, "V")
	var ok1, ok2 bool
	w.Left, ok1 = bearingFigures(left)
	w.Right, ok2 = bearingFigures(right)
	if !ok || !ok1 || !ok2 || w.Left == w.Right {
		return "two different directions from 001 to 360, dddVddd"
	}
	if w.Mean.Wind.Speed == 0 {
		return "beside a wind that has a direction"
	}
	w.Swings = true
	return ""
}

// bearingFigures reads 001 to 360.
func bearingFigures(s string) (abeam.Bearing, bool) {
	n, ok := figures(s)
	return abeam.NewBearing(float64(n)), ok && len(s) == 3 && n >= 1 && n <= 360
}

// speedFigures reads 00 to 99, or 100 to 999.
func speedFigures(s string) (int, bool) {
	n, ok := figures(s)
	return n, ok && (len(s) == 2 || len(s) == 3 && n >= 100)
}

// figures reads a number of up to three digits.
func figures(s string) (int, bool) {
	if len(s) > 3 {
		return 0, false
	}
	n := 0
	for i := range len(s) {
		if !isDigit(s[i]) {
			return 0, false
		}
		n = 10*n + int(s[i]-'0')
	}
	return n, true
}
