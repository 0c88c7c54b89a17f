// Package angle is trigonometry in degrees, exact at the quarter turns.
package angle

import "math"

const rad = math.Pi / 180

// Sincos gives the sine and cosine of an angle in degrees. The angle is first
// brought within 45 degrees of a quarter turn, which is exact in floating point,
// so that sin 180 and cos 90 are 0 and not 1e-16: a wind straight down the course
// has no crosswind.
func Sincos(deg float64) (sin, cos float64) {
	if !(deg >= -720 && deg <= 720) {
		deg = math.Remainder(deg, 360)
	}
	q := math.Floor(deg*(1.0/90) + 0.5)
	s, c := math.Sincos((deg - 90*q) * rad)
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
func Atan2(y, x float64) float64 { return math.Atan2(y+0, x) / rad }

// Asin and Acos give degrees.
func Asin(x float64) float64 { return math.Asin(x) / rad }

// Acos gives degrees from 0 to 180.
func Acos(x float64) float64 { return math.Acos(x) / rad }
