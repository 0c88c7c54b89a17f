package tolerance

import (
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
)

// Guidance is what shows the deviation from the inbound course, and what full scale
// means on it. Exactly one of Angle and Distance is given; the zero Guidance is none,
// and the course is then judged by the deviation in the log, if there is one.
type Guidance struct {
	Name     string
	Angle    abeam.Degrees // full scale, angular from the station
	Distance abeam.NM      // full scale, linear
	// Station is where the station lies from the fix: positive ahead, in the inbound
	// direction; negative behind, where the pattern lies; 0 at the fix. Angular guidance
	// only.
	Station abeam.NM
	// Blind is how near the station angular guidance is not judged: overhead it swings
	// through any angle.
	Blind  abeam.NM
	Source string
}

// VORRadial is the guidance of a VOR with its station at a distance ahead of the fix
// (negative: behind it): full scale 10 degrees, five dots of 2. Within 1 NM of the
// station it is not judged, which is our choice.
//
// Source: 10 degrees in public texts (secondary); one FAA handbook copy says 12.
func VORRadial(station abeam.NM) Guidance {
	return Guidance{Name: "VOR radial", Angle: 10, Station: station, Blind: 1, Source: "VOR, 5 dots of 2 degrees (secondary copies)"}
}

// Localizer is the guidance of a localizer at a distance ahead of the fix: full scale
// 2.5 degrees. A localizer is tailored to its runway: set Angle where the chart lets
// you know it.
//
// Source: from memory, a course 3 to 6 degrees wide.
func Localizer(station abeam.NM) Guidance {
	return Guidance{Name: "localizer", Angle: 2.5, Station: station, Blind: 1, Source: "from memory: tailored, 3 to 6 degrees wide"}
}

const aimGPS = "AIM 1-1-17"

// GPSEnRoute has 5 NM at full scale. Source: AIM 1-1-17.
func GPSEnRoute() Guidance { return Guidance{Name: "GPS en route", Distance: 5, Source: aimGPS} }

// WAASEnRoute has 2 NM at full scale. Source: public texts (secondary).
func WAASEnRoute() Guidance {
	return Guidance{Name: "WAAS en route", Distance: 2, Source: "public texts (secondary copies)"}
}

// GPSTerminal has 1 NM at full scale. Source: AIM 1-1-17.
func GPSTerminal() Guidance { return Guidance{Name: "GPS terminal", Distance: 1, Source: aimGPS} }

// GPSApproach has 0.3 NM at full scale. Source: AIM 1-1-17.
func GPSApproach() Guidance { return Guidance{Name: "GPS approach", Distance: 0.3, Source: aimGPS} }

// String names the guidance.
func (g Guidance) String() string {
	if g.Name == "" {
		return "no guidance"
	}
	return g.Name
}

func (g Guidance) validate(op string) error {
	if g == (Guidance{}) {
		return nil
	}
	for _, v := range []struct {
		field  string
		x      float64
		lo, hi float64
	}{
		{"guidance angle", float64(g.Angle), 0, 45}, {"guidance distance", float64(g.Distance), 0, 100},
		{"station distance", float64(g.Station), -300, 300}, {"blind distance", float64(g.Blind), 0, 50},
	} {
		if err := check.Within(op, v.field, v.x, v.lo, v.hi); err != nil {
			return err
		}
	}
	if (g.Angle > 0) == (g.Distance > 0) {
		return check.Invalid(op, "guidance", g.String(), "angular or linear, with its full scale")
	}
	return nil
}

// limit is the share of full scale that the standard tolerates on this guidance.
func (l CourseLimit) of(g Guidance) float64 {
	scale := l.Scale
	if l.Degrees > 0 && g.Angle > 0 {
		by := float64(l.Degrees / g.Angle)
		if scale == 0 {
			return by
		}
		return min(scale, by)
	}
	return scale
}

// deviation is where the aeroplane is on the scale: 1 is full scale to the holding
// side. It is false where the guidance cannot be read.
func (g Guidance) deviation(along, abreast float64) (float64, bool) {
	if g.Distance > 0 {
		return abreast / float64(g.Distance), true
	}
	ahead := float64(g.Station) - along
	if g.Angle <= 0 || math.Hypot(ahead, abreast) < float64(g.Blind) || ahead == 0 {
		return 0, false
	}
	return angle.Atan2(abreast, math.Abs(ahead)) / float64(g.Angle), true
}
