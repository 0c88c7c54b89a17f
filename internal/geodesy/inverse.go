package geodesy

import (
	"math"

	"github.com/holdingfix/abeam/internal/angle"
)

// Reach is the longest distance in metres that [Inverse] answers for. It is far beyond
// any hold and far short of the other side of the globe, where the iteration ends
// without an answer.
const Reach = 1_000_000.0

// Inverse solves the inverse geodesic problem: the azimuth at the start, in (-180, 180],
// and the distance in metres from one latitude and longitude to another, in degrees. It
// is false for NaN and infinities, a latitude beyond a pole, and points farther apart
// than [Reach]. Between points that are one the azimuth is 0.
//
// Formulae (13) to (19) of T. Vincenty, "Direct and inverse solutions of geodesics on
// the ellipsoid", Survey Review XXIII no. 176, 1975 (from memory; checked row by row
// against another solution, and as the inverse of [Direct]). Accuracy: 0.1 mm by the
// author's own estimate. Within reach the iteration contracts by the flattening a step.
func Inverse(lat1, lon1, lat2, lon2 float64) (azimuth, metres float64, ok bool) {
	if !(lat1 >= -90 && lat1 <= 90 && lat2 >= -90 && lat2 <= 90) {
		return 0, 0, false
	}
	const b = A * (1 - F)
	su1, cu1 := reduced(lat1)
	su2, cu2 := reduced(lat2)
	l := math.Remainder(lon2-lon1, 360) * math.Pi / 180
	lambda := l
	for range 20 {
		sl, cl := math.Sincos(lambda)
		half := math.Sin(lambda / 2)
		// cu1 su2 - su1 cu2 cos(lambda), without its loss of figures nearby. The products
		// are rounded each (float64 forbids to fuse them with the difference), so that a
		// point is at no distance from itself on every machine.
		x := float64(su2*cu1) - float64(cu2*su1) + 2*su1*cu2*half*half
		y := cu2 * sl
		ss := math.Hypot(x, y)
		cs := su1*su2 + cu1*cu2*cl
		if ss == 0 {
			return 0, 0, cs > 0
		}
		sigma := math.Atan2(ss, cs)
		sa := cu1 * y / ss
		c2a := (1 - sa) * (1 + sa)
		c2m := 0.0 // along the equator, where the term that holds it vanishes
		if c2a > 0 {
			c2m = cs - 2*su1*su2/c2a
		}
		c := F / 16 * c2a * (4 + F*(4-3*c2a))
		next := l + (1-c)*F*sa*(sigma+c*ss*(c2m+c*cs*(2*c2m*c2m-1)))
		if math.Abs(next-lambda) > 1e-14 {
			lambda = next
			continue
		}
		u2 := c2a * (A*A - b*b) / (b * b)
		ka := 1 + u2/16384*(4096+u2*(-768+u2*(320-175*u2)))
		kb := u2 / 1024 * (256 + u2*(-128+u2*(74-47*u2)))
		d := kb * ss * (c2m + kb/4*(cs*(2*c2m*c2m-1)-kb/6*c2m*(4*ss*ss-3)*(4*c2m*c2m-3)))
		if metres = b * ka * (sigma - d); !(metres <= Reach) {
			return 0, 0, false
		}
		return angle.Atan2(y, x), metres, true
	}
	return 0, 0, false
}

// reduced is the reduced latitude by its sine and cosine, so that a pole is no special
// case.
func reduced(lat float64) (sin, cos float64) {
	s, c := angle.Sincos(lat)
	n := math.Hypot((1-F)*s, c)
	return (1 - F) * s / n, c / n
}
