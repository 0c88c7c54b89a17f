// Package angle is trigonometry in degrees, exact at the quarter turns.
package angle

import "math"

const rad = math.Pi / 180

// Sincos gives the sine and cosine of an angle in degrees. The angle is first
// brought within 45 degrees of a quarter turn, which is exact in floating point,
// so that sin 180 and cos 90 are 0 and not 1e-16: a wind straight down the course
// has no crosswind. NaN and infinities give NaN.
//
// Mirror images agree to the last bit: sin -x = -sin x, sin (180 - x) = sin x and
// sin (90 - x) = cos x wherever the angle on the left is exact. That rests on a
// reduction without a side (a quotient that is a half only for odd multiples of 45,
// and those settled apart, since sin and cos of pi/4 round differently).
//
// Accuracy: 3e-16, from the rounding of the angle in radians (at most pi/4, twice
// half a unit of 1.1e-16) and of the sine itself.
func Sincos(deg float64) (sin, cos float64) {
	if !(deg >= -720 && deg <= 720) {
		deg = math.Remainder(deg, 360)
	}
	q := math.RoundToEven(deg / 90)
	r := deg - 90*q
	s, c := math.Sincos(r * rad)
	if r == 45 || r == -45 {
		c = math.Sqrt2 / 2
		s = math.Copysign(c, r)
	}
	// Which of the two is which goes by the quarter; a lookup, since no branch
	// predictor learns the directions of winds.
	i := int(q) & 3
	sc := [2]float64{s, c}
	return sc[i&1]*sign[i] + 0, sc[i&1^1]*sign[(i+1)&3] + 0 // + 0: no negative zero
}

// sign of the sine by quarter; that of the cosine is a quarter ahead.
var sign = [4]float64{1, 1, -1, -1}

// Atan2 gives the angle of the vector (x, y) in degrees, in (-180, 180]; exact
// along the axes.
func Atan2(y, x float64) float64 {
	d := math.Atan2(y+0, x) / rad
	if d == -180 { // y is negative, but too small for the angle to show it
		return 180
	}
	return d
}

// Asin gives degrees from -90 to 90; NaN where x is beyond 1 in size.
func Asin(x float64) float64 { return math.Asin(x) / rad }

// Acos gives degrees from 0 to 180; NaN where x is beyond 1 in size.
func Acos(x float64) float64 { return math.Acos(x) / rad }
