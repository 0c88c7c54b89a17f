package hold

import (
	"math"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// MaxRange is how far from its fix a point of a pattern can be placed.
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
	if !(math.Hypot(float64(at.Along), float64(at.Abreast)) <= float64(MaxRange)) {
		return s2.LatLng{}, check.Invalid(op, "point", at, "within "+MaxRange.String()+" of the fix")
	}
	return place(p.fix, p.fix.Variation.True(p.inbound), p.turn, at), nil
}
