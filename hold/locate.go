package hold

import (
	"math"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/internal/geodesy"
)

// MaxRange is how far from its fix a point of a pattern can be placed or located.
const MaxRange abeam.NM = 500

// Place puts a point of the course frame on WGS-84: at its distance from the fix, along
// the geodesic that leaves the fix at the point's angle from the course. The variation
// of the fix takes the course to true north. Accuracy: 1 mm.
//
// Errors: [abeam.ErrInvalid] for a zero pattern, or a point that is not finite or
// farther from the fix than [MaxRange].
func (p Pattern) Place(at Point) (s2.LatLng, error) {
	const op = "hold.Pattern.Place"
	if err := p.leg.validate(op); err != nil {
		return s2.LatLng{}, err
	}
	if err := at.validate(op); err != nil {
		return s2.LatLng{}, err
	}
	return place(p.fix, p.fix.Variation.True(p.inbound), p.turn, at), nil
}

// Locate gives a position on WGS-84 in the course frame: the inverse of [Pattern.Place],
// wherever the fix lies but at a pole. Accuracy: 1 mm.
//
// Errors: [abeam.ErrInvalid] for a zero pattern, or a position off the globe or farther
// from the fix than [MaxRange].
func (p Pattern) Locate(at s2.LatLng) (Point, error) {
	const op = "hold.Pattern.Locate"
	if err := p.leg.validate(op); err != nil {
		return Point{}, err
	}
	if !at.IsValid() {
		return Point{}, check.Invalid(op, "position", at.String(), "a latitude from -90 to 90 and a longitude from -180 to 180")
	}
	fix := p.fix.Position
	azimuth, metres, ok := geodesy.Inverse(fix.Lat.Degrees(), fix.Lng.Degrees(), at.Lat.Degrees(), at.Lng.Degrees())
	if d := abeam.NM(metres / abeam.MetresPerNM); ok && d <= MaxRange {
		s, c := angle.Sincos(azimuth - float64(p.fix.Variation.True(p.inbound)))
		return Point{d * abeam.NM(c), abeam.NM(p.turn.mirror(s)) * d}, nil
	}
	return Point{}, check.Invalid(op, "position", at.String(), "within "+MaxRange.String()+" of the fix")
}

func (at Point) validate(op string) error {
	if math.Hypot(float64(at.Along), float64(at.Abreast)) <= float64(MaxRange) {
		return nil
	}
	return check.Invalid(op, "point", at, "within "+MaxRange.String()+" of the fix")
}

// mirror takes an angle or a distance across the course between the compass and the
// course frame, in which every turn is to the right.
func (t Turn) mirror(x float64) float64 {
	if t == Left {
		return 0 - x
	}
	return x
}
