package hold

import "math"

// findAbeam finds the time from wings level to abeam, and notes where that is. The track is
// convex and leaves the fix in the inbound direction, so the line through the fix at right
// angles to the course is crossed exactly once more: on the outbound leg of the given time,
// where the answer is a quotient, or in one of the turns, where it is the root of a
// trochoid.
func (l *lap) findAbeam(fr *frame, leg float64) {
	onLeg := -l.x1 / l.gx
	switch {
	case l.x1 <= 0:
		l.notes = Notes(AbeamInTurn)
		l.abeam, _ = fr.crossing(l.x1, l.uy, l.ux, l.in+l.d1)
	case l.gx < 0 && onLeg <= leg:
		l.abeam = onLeg
	default:
		l.notes = Notes(AbeamAfterOutbound)
		inTurn, _ := fr.crossing(l.x1+l.gx*leg, l.uy, l.ux, l.in+l.d1)
		l.abeam = leg + inTurn
	}
}

// crossing solves for the time t at which a turn that passes (x0, heading h0) at t = 0
// crosses x = 0, falling, and tells the steps taken. h0 is reckoned on from the inbound
// heading; sin0 and cos0 are of it:
//
//	x(t) = x0 + r (sin(h0 + rate t) - sin h0) + wx t = 0
//
// Halley's method from the heading of 180 degrees, around which x falls. That is Newton's
// for x/sqrt(-x'), which has the sign of its own curvature wherever x falls, because
//
//	-cos h (cos h + wx) - 3/2 sin² h = cos² h / 2 - wx cos h - 3/2 < 0
//
// there (the Schwarzian derivative of x); so each step goes towards the root and none
// beyond it. Cubic convergence makes a step of 1e-4 s the last one: the next would be
// below 1e-12 s.
func (fr *frame) crossing(x0, sin0, cos0, h0 float64) (t float64, steps int) {
	omega := 1 / fr.r
	t = (180 - h0) * fr.perRate
	s, c := 0.0, -1.0
	for steps = range 30 {
		x := x0 + fr.r*(s-sin0) + fr.wx*t
		d1 := c + fr.wx
		d2 := -omega * s
		step := 2 * x * d1 / (2*d1*d1 - x*d2)
		t -= step
		if math.Abs(step) < 1e-4 {
			break
		}
		sd, cd := math.Sincos(omega * t)
		s, c = sin0*cd+cos0*sd, cos0*cd-sin0*sd
	}
	return t, steps
}
