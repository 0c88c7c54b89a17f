package kinematics

import (
	"math"

	"github.com/holdingfix/abeam/internal/angle"
)

// Crossing gives the time t in [lo, hi] at which a turn crosses x = 0, a line across the
// course:
//
//	x(t) = X + r (sin(h0 + rate t) - sin h0) + WX t = 0
//
// The caller sees to it that x has opposite signs, or none, at lo and hi, and that Rate is
// not 0. It starts from hi, where callers have come to and where the line is near.
//
// Halley's method, held inside the bracket by bisection: two or three steps, and the
// bracket alone would end it within 60. Cubic convergence makes the step from where the line
// is 1e-4 s away, by Newton's method, the last one: unless the line is hardly more than
// touched, the next would be below 1e-12 s. Halley's own step says less, for it is none at
// all where x is greatest or least.
func (s Segment) Crossing(lo, hi float64) float64 {
	t, _ := s.crossing(lo, hi)
	return t
}

// crossing tells the corrections made before the last one too: the bracket hides a method
// gone wrong in the answer, but not in their number.
func (s Segment) crossing(lo, hi float64) (t float64, steps int) {
	omega := s.Rate * (math.Pi / 180)
	r := s.Speed / omega
	sin0, _ := angle.Sincos(s.Heading)
	x := func(t float64) (x, d1, d2 float64) {
		sin, cos := angle.Sincos(s.Heading + s.Rate*t)
		return s.X + r*(sin-sin0) + s.WX*t, s.Speed*cos + s.WX, -s.Speed * omega * sin
	}
	t = hi
	x0, d1, d2 := x(t)
	rising := x0 > 0
	for steps = range 60 {
		next := t - 2*x0*d1/(2*d1*d1-x0*d2)
		if math.Abs(x0) < 1e-4*math.Abs(d1) && next >= lo && next <= hi {
			return next, steps
		}
		if (x0 > 0) == rising {
			hi = t
		} else {
			lo = t
		}
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		t = next
		x0, d1, d2 = x(t)
	}
	return t, steps
}
