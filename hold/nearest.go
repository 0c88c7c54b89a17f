package hold

import (
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/kinematics"
)

// nearest is the search for the place of a track that is nearest to a point.
type nearest struct {
	x, y     float64
	distance float64 // so far
	phase    int
	t        float64 // since the phase began
}

// sameplace is the distance in NM, 2 micrometres, below which two places are equally
// near: the corners, which the two phases that meet there compute apart.
const sameplace = 1e-9

func (n *nearest) offer(phase int, s *kinematics.Segment, t float64) {
	at := s.At(t)
	if d := math.Hypot(n.x-at.X, n.y-at.Y); d <= n.distance+sameplace {
		n.distance, n.phase, n.t = math.Min(d, n.distance), phase, t
	}
}

// search offers the nearest places of one phase among those where the heading lies
// within half degrees of mid.
func (n *nearest) search(phase int, s *kinematics.Segment, mid, half float64) {
	if s.Rate == 0 {
		if abeam.Degrees(s.Heading-mid).Rounded().Abs() <= abeam.Degrees(half).Rounded() {
			n.straight(phase, s)
		}
		return
	}
	// The headings begin lo from the start of the turn, and a circle sooner or later.
	lo := math.Remainder(mid-half-s.Heading, 360)
	for _, first := range [3]float64{lo - 360, lo, lo + 360} {
		from, to := math.Max(0, first/s.Rate), math.Min(s.Duration, (first+2*half)/s.Rate)
		if from <= to {
			n.turn(phase, s, from, to)
		}
	}
}

func (n *nearest) straight(phase int, s *kinematics.Segment) {
	_, _, vx, vy := n.from(s, 0)
	t := ((n.x-s.X)*vx + (n.y-s.Y)*vy) / (vx*vx + vy*vy)
	n.offer(phase, s, math.Max(0, math.Min(t, s.Duration)))
}

// from gives the way from the point to the place at t, and the velocity there.
func (n *nearest) from(s *kinematics.Segment, t float64) (dx, dy, vx, vy float64) {
	at := s.At(t)
	vx, vy = s.Velocity(t)
	return at.X - n.x, at.Y - n.y, vx, vy
}

// panel is the angle in degrees in which a turn is searched for a nearest place. On a
// circle there is one; in a wind a trochoid can have two, never so close together.
const panel = 10

// turn offers both ends of a stretch of a turn, and every place between where the
// distance stops falling.
func (n *nearest) turn(phase int, s *kinematics.Segment, from, to float64) {
	n.offer(phase, s, from)
	t, slope := from, n.slope(s, from)
	for t < to {
		next := math.Min(t+panel/s.Rate, to)
		nextSlope := n.slope(s, next)
		if slope < 0 && nextSlope >= 0 {
			at, _ := n.foot(s, t, next)
			n.offer(phase, s, at)
		}
		t, slope = next, nextSlope
	}
	n.offer(phase, s, to)
}

// slope is the rate at which half the squared distance grows.
func (n *nearest) slope(s *kinematics.Segment, t float64) float64 {
	dx, dy, vx, vy := n.from(s, t)
	return dx*vx + dy*vy
}

// foot solves slope = 0 between two times by Newton's method, held inside the bracket
// by bisection, and tells the steps taken. A step of a nanosecond, a thousandth of a
// millimetre, is the last.
func (n *nearest) foot(s *kinematics.Segment, lo, hi float64) (t float64, steps int) {
	t = (lo + hi) / 2
	omega := s.Rate * (math.Pi / 180)
	for steps = range 60 {
		dx, dy, vx, vy := n.from(s, t)
		f := dx*vx + dy*vy
		if f < 0 {
			lo = t
		} else {
			hi = t
		}
		// The air velocity turns with the heading, the wind does not.
		ax, ay := -omega*(vy-s.WY), omega*(vx-s.WX)
		next := t - f/(vx*vx+vy*vy+dx*ax+dy*ay)
		if !(next >= lo && next <= hi) {
			next = (lo + hi) / 2
		}
		step := next - t
		t = next
		if math.Abs(step) < 1e-9 {
			break
		}
	}
	return t, steps
}
