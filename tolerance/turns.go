package tolerance

import (
	"math"

	"github.com/holdingfix/abeam/hold"
)

// A turn begins where the course changes faster than the upper rate and ends where it
// changes slower than the lower, in deg/s: between the two nothing changes, so that a
// wandering needle starts no turn and a slow spot ends none. The slowest turn of a jet,
// 25 degrees of bank at 450 kt, is 1.1 deg/s.
const (
	turning  = 0.8
	straight = 0.4
)

// bigTurn is the angle from which on a change of course is a turn of the pattern; less
// is a correction and belongs to its leg.
const bigTurn = 45

// stretch is a turn, from a time to a time, through a signed angle.
type stretch struct {
	from, to float64 // s
	angle    float64 // positive to the right
}

func (s stretch) turn() hold.Turn {
	if math.Signbit(s.angle) {
		return hold.Left
	}
	return hold.Right
}

// turns finds the turns of at least bigTurn in the order of time. Turns the same way
// with less than a moment between them are one.
func (m *motion) turns() []stretch {
	moment := max(12, m.window/2)
	var found []stretch
	// A change of less than a wobble is dropped before turns are joined: a single wrong
	// track in a turn would part it otherwise.
	const wobble = 20
	for i := 0; i < len(m.rate); i++ {
		if math.Abs(m.rate[i]) < turning {
			continue
		}
		sign := math.Copysign(1, m.rate[i])
		j := i
		for j+1 < len(m.rate) && sign*m.rate[j+1] > straight {
			j++
		}
		from, to := m.corner(i, -1, sign), m.corner(j, 1, sign)
		s := stretch{from: from, to: to, angle: m.courseAt(to) - m.courseAt(from)}
		i = j
		if math.Abs(s.angle) < wobble {
			continue
		}
		n := len(found)
		if n > 1 && math.Abs(found[n-1].angle) < bigTurn && found[n-2].turn() == s.turn() && s.from-found[n-2].to < 2*moment {
			n-- // between two turns the same way, a moment the other way is a bad fix
		}
		if n > 0 && found[n-1].turn() == s.turn() && (n < len(found) || s.from-found[n-1].to < moment) {
			found = found[:n]
			found[n-1].to = s.to
			found[n-1].angle = m.courseAt(s.to) - m.courseAt(found[n-1].from)
			continue
		}
		found = append(found, s)
	}
	kept := found[:0]
	for _, s := range found {
		if math.Abs(s.angle) >= bigTurn {
			kept = append(kept, s)
		}
	}
	return kept
}

// corner is the time at which the rate passes half of what it is inside the turn: the
// corner of an abrupt turn, the middle of the roll of a smooth one. It looks from a
// sample at the edge of a turn outwards (-1 back, 1 on).
func (m *motion) corner(edge, outwards int, sign float64) float64 {
	rate := func(k int) float64 { return sign * m.rate[k] }
	near := func(k int) bool { return k >= 0 && k < len(m.rate) && math.Abs(m.t[k]-m.t[edge]) <= m.window }
	inside := rate(edge)
	for k := edge - outwards; near(k) && rate(k) > straight; k -= outwards {
		inside = max(inside, rate(k))
	}
	half := inside / 2
	// From the edge inwards to where the rate is half, then back out over it.
	k := edge
	for rate(k) < half {
		k -= outwards
	}
	for near(k+outwards) && rate(k+outwards) >= half {
		k += outwards
	}
	next := k + outwards
	if next < 0 || next >= len(m.rate) {
		return m.t[k]
	}
	a, b := rate(k), rate(next)
	if !(a > b) {
		return m.t[k]
	}
	share := min(1, max(0, (a-half)/(a-b)))
	return m.t[k] + share*(m.t[next]-m.t[k])
}

// courseAt is the course at a time, between samples in proportion.
func (m *motion) courseAt(t float64) float64 {
	i := m.index(t)
	switch {
	case i == 0:
		return m.course[0]
	case i >= len(m.t):
		return m.course[len(m.t)-1]
	}
	share := (t - m.t[i-1]) / (m.t[i] - m.t[i-1])
	return m.course[i-1] + share*(m.course[i]-m.course[i-1])
}
