package area

import (
	"slices"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
)

// MaxTolerance is the greatest tolerance accepted as a distance.
const MaxTolerance abeam.NM = 50

// FixTolerance is where an aeroplane may be that believes itself over the fix: a convex
// polygon, or a disc about the fix, in the course frame. The zero FixTolerance is a fix
// without tolerance, the fix itself.
type FixTolerance struct {
	corners []hold.Point
	radius  abeam.NM
}

// Corners are those of the polygon, in the sense from Along to Abreast; none for a disc or
// an exact fix. The slice is the caller's.
func (f FixTolerance) Corners() []hold.Point { return slices.Clone(f.corners) }

// Radius is that of the disc; 0 for a polygon or an exact fix.
func (f FixTolerance) Radius() abeam.NM { return f.radius }

// Disc is a tolerance that is the same in every direction.
//
// Errors: [abeam.ErrInvalid] for a radius not above 0 or beyond [MaxTolerance].
func Disc(radius abeam.NM) (FixTolerance, error) {
	if err := check.Above("area.Disc", "radius", radius, 0, MaxTolerance); err != nil {
		return FixTolerance{}, err
	}
	return FixTolerance{radius: radius}, nil
}

// RNAV is the tolerance of a waypoint: its along-track tolerance to either side on the
// inbound course, its cross-track tolerance across it.
//
// Errors: [abeam.ErrInvalid] for a tolerance not above 0 or beyond [MaxTolerance].
func RNAV(alongTrack, crossTrack abeam.NM) (FixTolerance, error) {
	const op = "area.RNAV"
	if err := check.Above(op, "along-track tolerance", alongTrack, 0, MaxTolerance); err != nil {
		return FixTolerance{}, err
	}
	if err := check.Above(op, "cross-track tolerance", crossTrack, 0, MaxTolerance); err != nil {
		return FixTolerance{}, err
	}
	return quadrilateral(-alongTrack, crossTrack, alongTrack, crossTrack), nil
}

// quadrilateral lies across the course from one distance along it to another, with half its width at
// either end.
func quadrilateral(from, halfFrom, to, halfTo abeam.NM) FixTolerance {
	return FixTolerance{corners: []hold.Point{
		{Along: to, Abreast: -halfTo}, {Along: to, Abreast: halfTo},
		{Along: from, Abreast: halfFrom}, {Along: from, Abreast: -halfFrom},
	}}
}
