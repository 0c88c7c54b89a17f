package area

import (
	"math"

	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/convex"
)

// Every place that a permitted flight can come to without correcting for the wind: for
// each the disc that the wind, of any direction and up to its standard strength, can have
// carried the aeroplane by then. The places are sums of what varies on its own (heading of
// arrival, heading outbound, angle turned), each along an arc about something, so that the
// hull of the discs has a closed form. What varies in a straight line (delays, times, the
// strength of the wind) is at one of its ends where the reach is greatest.
//
// Where two of them are tied (no aeroplane turns back from where its turn began), the sums
// are taken over parts in which every pair is possible, so that the reach is neither
// missed nor overstated. The reach can be greatest inside two arcs at once only where the
// aeroplane has turned a quarter or more between them, which decides the parts.
//
// Nothing is farthest just where a turn meets the outbound leg. What the aeroplane gains in a
// direction it gains on either side of such a point, and what it loses it loses; where it does
// neither, this flight or the one on the lowest outbound heading comes farther in the turn
// inbound. So the first turn is not followed beyond `out`, and the end of a leg is taken only
// with the turn that begins there.

// combined is the arc of across u(a + 90) + along u(a): its radius and by how much its
// angle is ahead of a.
func combined(along, across float64) (radius, ahead float64) {
	return math.Hypot(along, across), angle.Atan2(across, along)
}

// centres is where the first turn, to the right, has its centre after a delay, for every
// heading of arrival between two; the wind grows less by what the turn is shorter.
func (m *allowed) centres(delay, from, to float64) convex.Region {
	radius, ahead := combined(m.v*delay, m.r)
	return convex.Arc(radius, from+ahead, to+ahead, -m.perTurn)
}

// firstTurn is every place from the fix to heading `out` in a first turn to the right,
// arriving on headings between two.
func (m *allowed) firstTurn(from, to, out float64) convex.Region {
	all := convex.Point(0, 0)
	for _, delay := range m.delays {
		begun := convex.Arc(m.v*delay, from, to, 0)
		turned := convex.Sum(m.centres(delay, from, from), m.turned(from, out))
		for a := from; a < to; {
			b := math.Min(a+90, to)
			part := convex.Sum(m.centres(delay, a, b), m.turned(b, out))
			turned = convex.Hull(turned, convex.Sum(part, m.turning(b-a)))
			a = b
		}
		all = convex.Hull(all, m.drifted(convex.Hull(begun, turned), delay))
	}
	return all
}

// around is where a flight is that turned to the right to heading `out`, flew a leg and turns
// right up to heading `end`, from the centre of the first turn and as the wind blurs it from
// the lowest outbound heading on. The sum takes in turns inbound that begin at a heading below
// that of their leg; nobody flies them, and they never reach farthest.
func (m *allowed) around(out, end float64) convex.Region {
	var all convex.Region
	for _, l := range m.legs {
		centre := convex.Arc(l.length, out-m.heading, out+m.heading, 0)
		all = convex.Hull(all, m.drifted(convex.Sum(centre, m.turned(out-m.heading, end)), l.wind))
	}
	return all
}

// back is the turn to the right at the end of an outbound leg on any heading from the lowest
// to the highest: its centre is on an arc, for the lowest at radius u(lowest + ahead), over
// which the wind grows less.
func (m *allowed) back(centre convex.Region, radius, ahead, lowest, highest, end float64) convex.Region {
	sin, cos := angle.Sincos(lowest + ahead)
	first := convex.Point(radius*cos, radius*sin)
	spread := convex.Sum(convex.Sum(centre, m.turning(highest-lowest)), m.turned(highest, end))
	return convex.Hull(convex.Sum(first, m.turned(lowest, highest)), spread)
}

// lap is every place of a flight that arrives on headings between two, turns right to the
// outbound heading, flies the leg, and turns right to heading `end`.
func (m *allowed) lap(from, to, out, end float64) convex.Region {
	all := m.firstTurn(from, to, out)
	around := convex.Sum(m.around(out, end), m.turning(out-m.heading-from))
	for _, delay := range m.delays {
		all = convex.Hull(all, m.drifted(convex.Sum(m.centres(delay, from, to), around), delay))
	}
	return all
}

// straight is every place of a flight that arrives on any outbound heading from the lowest to
// the highest, flies on for the leg and turns right to heading `end`.
func (m *allowed) straight(lowest, highest, end float64) convex.Region {
	all := convex.Point(0, 0)
	for _, delay := range m.delays {
		for _, l := range m.legs {
			length := l.length + m.v*delay
			radius, ahead := combined(length, m.r)
			centre := convex.Arc(radius, lowest+ahead, highest+ahead, -m.perTurn)
			all = convex.Hull(all, m.drifted(m.back(centre, radius, ahead, lowest, highest, end), l.wind+delay))
		}
	}
	return all
}

// other is every place of a flight that arrives on headings between two, turns LEFT to the
// outbound heading, flies the leg and turns right to heading `end`.
func (m *allowed) other(from, to, out, end float64) convex.Region {
	var after convex.Region
	for _, l := range m.legs {
		// From the centre of the turn to the left it is twice the radius to the other's, and
		// each degree by which the first turns less is one by which the second does too.
		radius, ahead := combined(l.length, 2*m.r)
		centre := convex.Arc(radius, out-m.heading+ahead, out+m.heading+ahead, -2*m.perTurn)
		after = convex.Hull(after, m.drifted(m.back(centre, radius, ahead, out-m.heading, out+m.heading, end), l.wind))
	}
	all := m.firstTurn(360-to, 360-from, 360-out).Mirrored()
	after = convex.Sum(after, m.turning(to-out+m.heading))
	for _, delay := range m.delays {
		centres := m.centres(delay, 360-to, 360-from).Mirrored()
		all = convex.Hull(all, m.drifted(convex.Sum(centres, after), delay))
	}
	return all
}
