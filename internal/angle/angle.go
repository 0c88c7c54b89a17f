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
	if !(math.Abs(deg) <= 720) {
		deg = math.Remainder(deg, 360)
	}
	q := math.RoundToEven(deg / 90)
	r := deg - 90*q
	s, c := octant(r * rad)
	if r == 45 || r == -45 {
		c = math.Sqrt2 / 2
		s = math.Copysign(c, r)
	}
	// Turning by whole quarters is products with 1, 0 and -1, all exact; no branch,
	// since no predictor learns the directions of winds. Neither sum is a negative zero:
	// the products with c, which is above 0, are none.
	i := int(q) & 3
	return s*quarterCos[i] + c*quarterSin[i], c*quarterCos[i] - s*quarterSin[i]
}

// The sine and cosine of the quarter turns.
var (
	quarterSin = [4]float64{0, 1, 0, -1}
	quarterCos = [4]float64{1, 0, -1, 0}
)

// octant gives the sine and cosine of an angle in radians within an eighth of a turn
// of 0. It is what math.Sincos comes to there, without its own reduction, which costs
// more than all the rest.
//
// Source: the polynomials of the Cephes library (sin.c, release 2.8), as in package
// math; error below 1 unit in the last place.
func octant(x float64) (sin, cos float64) {
	xx := x * x
	cos = 1 - 0.5*xx + xx*xx*((((((-1.13585365213876817300e-11*xx)+2.08757008419747316778e-9)*xx+
		-2.75573141792967388112e-7)*xx+2.48015872888517045348e-5)*xx+
		-1.38888888888730564116e-3)*xx+4.16666666666665929218e-2)
	sin = x + x*xx*((((((1.58962301576546568060e-10*xx)+-2.50507477628578072866e-8)*xx+
		2.75573136213857245213e-6)*xx+-1.98412698295895385996e-4)*xx+
		8.33333333332211858878e-3)*xx+-1.66666666666666307295e-1)
	return sin, cos
}

// Atan2 gives the angle of the vector (x, y) in degrees, in (-180, 180]; exact
// along the axes and the diagonals, whose angle not every machine's math.Atan2 rounds
// to a multiple of pi/4.
func Atan2(y, x float64) float64 {
	if size := math.Abs(x); size == math.Abs(y) && size > 0 {
		return diagonal(y, x)
	}
	d := math.Atan2(y+0, x) / rad
	if d == -180 { // y is negative, but too small for the angle to show it
		return 180
	}
	return d
}

func diagonal(y, x float64) float64 {
	if x > 0 {
		return math.Copysign(45, y)
	}
	return math.Copysign(135, y)
}

// Asin gives degrees from -90 to 90; NaN where x is beyond 1 in size.
func Asin(x float64) float64 { return math.Asin(x) / rad }

// Acos gives degrees from 0 to 180; NaN where x is beyond 1 in size.
func Acos(x float64) float64 { return math.Acos(x) / rad }
