package hold

import (
	"math"
)

// findAbeam finds the time from wings level to abeam, and notes where that is. The track is
// convex and leaves the fix in the inbound direction, so the line through the fix at right
// angles to the course is crossed exactly once more: on the outbound leg of the given time,
// where the answer is a quotient, or in one of the turns, where it is the root of a
// trochoid.
func (l *lap) findAbeam(fr *frame, leg float64) {
	onLeg := -l.x1 / l.gx
	switch {
	case l.x1 <= 0:
		// Along is greatest, and not negative, at the heading top.
		l.notes = Notes(AbeamInTurn)
		l.abeam = fr.crossing(l.x1, l.uy, l.ux, (l.top-l.in)*fr.perRate-l.t1, 0)
	case l.gx < 0 && onLeg <= leg:
		l.abeam = onLeg
	default:
		// Along falls from the end of the leg to the heading 360 - top.
		l.notes = Notes(AbeamAfterOutbound)
		l.abeam = leg + fr.crossing(l.x1+l.gx*leg, l.uy, l.ux, 0, (360-l.top-l.out)*fr.perRate)
	}
}

// crossing solves for the time t in [lo, hi] at which a turn that passes (x0, heading
// sin0, cos0) at t = 0 crosses x = 0, falling:
//
//	x(t) = x0 + r (sin(h0 + rate t) - sin h0) + wx t = 0
//
// Halley's method from t = 0, held inside the bracket by bisection: two or three
// steps, and the bracket alone would end it within 60. Cubic convergence makes a step
// of 1e-4 s the last one: the next would be below 1e-12 s.
func (fr *frame) crossing(x0, sin0, cos0, lo, hi float64) float64 {
	omega := 1 / fr.r
	t, x := 0.0, x0
	s, c := sin0, cos0
	for range 60 {
		d1 := c + fr.wx
		d2 := -omega * s
		next := t - 2*x*d1/(2*d1*d1-x*d2)
		if math.Abs(next-t) < 1e-4 && next >= lo && next <= hi {
			return next
		}
		if x > 0 {
			lo = t
		} else {
			hi = t
		}
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		t = next
		sd, cd := math.Sincos(omega * t)
		s, c = sin0*cd+cos0*sd, cos0*cd-sin0*sd
		x = x0 + fr.r*(s-sin0) + fr.wx*t
	}
	return t
}
