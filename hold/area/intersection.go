package area

import (
	"math"
	"slices"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
)

// Radial is one of the two lines that make a fix, with the station it comes from.
type Radial struct {
	// Station is where the station lies as seen from the fix, in degrees from the inbound
	// course towards the holding side: 0 ahead, 180 behind, 90 square on the holding side.
	Station  abeam.Degrees
	Distance abeam.NM      // of the station, above 0 and at most hold.MaxLength
	Accuracy abeam.Degrees // to either side: above 0 and at most MaxHeading
}

// Intersection is the tolerance of the crossing of two radials: the quadrilateral between
// the lines off by the accuracies, [VORTracking] for the one that is flown and
// [VORCrossing] for the other.
//
// Source: geometry; ICAO Doc 8168 Vol II I-2-2 for the accuracies (from memory).
//
// Errors: [abeam.ErrInvalid] for a field out of range; [abeam.ErrUnflyable] for radials that
// cross at so small an angle, or stations so near, that the lines make no quadrilateral
// within [hold.MaxRange] of the fix.
func Intersection(inbound, crossing Radial) (FixTolerance, error) {
	const op = "area.Intersection"
	if err := inbound.validate(op, "inbound radial"); err != nil {
		return FixTolerance{}, err
	}
	if err := crossing.validate(op, "crossing radial"); err != nil {
		return FixTolerance{}, err
	}
	corners := make([]hold.Point, 0, 4)
	along, across := inbound.sides(), crossing.sides()
	for _, side := range [][2]int{{1, 1}, {1, 0}, {0, 0}, {0, 1}} {
		p, ok := inbound.meet(crossing, along[side[0]], across[side[1]])
		if !ok {
			return FixTolerance{}, check.Unflyable(op, "crossing radial", crossing,
				"at an angle to the inbound radial, and from afar, that makes a fix of the two")
		}
		corners = append(corners, p)
	}
	if bend(corners[0], corners[1], corners[2]) < 0 {
		slices.Reverse(corners)
	}
	return FixTolerance{corners: corners}, nil
}

func (r Radial) validate(op, name string) error {
	if err := check.Within(op, name+" station", r.Station, -360, 360); err != nil {
		return err
	}
	if err := check.Above(op, name+" distance", r.Distance, 0, hold.MaxLength); err != nil {
		return err
	}
	return check.Above(op, name+" accuracy", r.Accuracy, 0, MaxHeading)
}

// sides are the directions in which the station lies as seen from the lines that the accuracy
// allows for.
func (r Radial) sides() [2]float64 {
	return [2]float64{float64(r.Station - r.Accuracy), float64(r.Station + r.Accuracy)}
}

// meet is where two lines cross, each of which sees its station in a direction, if they do so
// ahead of both stations and within range.
func (a Radial) meet(b Radial, toA, toB float64) (hold.Point, bool) {
	ax, ay := a.place()
	bx, by := b.place()
	aSin, aCos := angle.Sincos(toA)
	bSin, bCos := angle.Sincos(toB)
	across := aCos*bSin - aSin*bCos
	fromA := ((ax-bx)*bSin - (ay-by)*bCos) / across
	fromB := ((ax-bx)*aSin - (ay-by)*aCos) / across
	p := hold.Point{Along: abeam.NM(ax - fromA*aCos), Abreast: abeam.NM(ay - fromA*aSin)}
	inRange := math.Hypot(float64(p.Along), float64(p.Abreast)) <= float64(hold.MaxRange)
	return p, fromA > 0 && fromB > 0 && inRange
}

// place is the station in the course frame.
func (r Radial) place() (x, y float64) {
	sin, cos := angle.Sincos(float64(r.Station))
	return float64(r.Distance) * cos, float64(r.Distance) * sin
}

// bend is positive where the way from a over b to c turns from Along to Abreast.
func bend(a, b, c hold.Point) abeam.NM {
	return (b.Along-a.Along)*(c.Abreast-b.Abreast) - (b.Abreast-a.Abreast)*(c.Along-b.Along)
}
