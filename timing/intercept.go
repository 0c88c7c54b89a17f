package timing

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/internal/kinematics"
)

// Intercept is how the inbound course is joined after a turn that rolled out off it. The
// turn always rolls out on the inbound heading. Then, with a Cut, the aeroplane turns
// towards the course by the cut, holds that heading and turns back, so as to roll out on
// the course. Where the two turns alone would cross it, or where the wind would stop it on
// that heading, the cut is halved, down to a sixteenth; below that the heading is held.
// The fix is passed on or off the course, whatever has been reached by then.
//
// The zero Intercept holds the inbound heading until the fix is abeam.
type Intercept struct {
	Cut abeam.Degrees // 0 to MaxCut
}

// MaxCut is the largest cut accepted.
const MaxCut abeam.Degrees = 60

// StandardIntercept cuts by 30 degrees, as is taught for small errors.
//
// Source: common practice.
func StandardIntercept() Intercept { return Intercept{Cut: 30} }

func (i Intercept) validate(op string) error { return check.Within(op, "cut", i.Cut, 0, MaxCut) }

// inbound flies from wings level inbound at (x, y), x below 0, until the fix is abeam. It
// gives the time, where that is, and the cut that was flown.
//
// The turn by the cut and the turn back run through the same headings for the same time,
// so both have the same displacement (ax, ay). What is left of y after both is flown off on
// the straight between them. On the inbound heading y does not change.
func (a *air) inbound(x, y, cut float64) (t float64, at passage, flown float64) {
	side := -1.0 // towards the course
	if y < 0 {
		side = 1
	}
	for i := 0; i < 5 && cut > 0; i, cut = i+1, cut/2 {
		sin, cos := sincos(a.in + side*cut)
		gx, gy := a.v*cos+a.wx, a.v*sin+a.wy
		ta := cut / a.rate2
		ax, ay := a.arc(side*a.rate2, a.sinIn, a.cosIn, sin, cos, ta)
		ts := (-y - 2*ay) / gy
		if !(ts >= 0 && gx > 0) { // gx above 0 takes gy towards the course: the wind is below the airspeed
			continue
		}
		// Along the course all of it goes forward, so the fix comes once.
		turn := kinematics.Segment{X: x, Y: y, Heading: a.in, Rate: side * a.rate2, Speed: a.v, WX: a.wx, WY: a.wy, Duration: ta}
		if x+ax >= 0 {
			t, at = passing(turn)
			return t, at, side * cut
		}
		x, y = x+ax, y+ay
		if x+gx*ts >= 0 {
			t = -x / gx
			return ta + t, passage{y: y + gy*t, heading: a.in + side*cut, sin: sin, cos: cos}, side * cut
		}
		x, y = x+gx*ts, y+gy*ts
		if x+ax >= 0 {
			turn.X, turn.Y, turn.Heading, turn.Rate = x, y, a.in+side*cut, -side*a.rate2
			t, at = passing(turn)
			return ta + ts + t, at, side * cut
		}
		return 2*ta + ts - (x+ax)/a.g, a.level(0, 0), side * cut
	}
	return -x / a.g, a.level(0, y), 0
}

// passing is where a turn passes abeam the fix.
func passing(turn kinematics.Segment) (float64, passage) {
	t := turn.Crossing(0, turn.Duration)
	s := turn.At(t)
	sin, cos := sincos(s.Heading)
	return t, passage{y: s.Y, heading: s.Heading, sin: sin, cos: cos}
}
