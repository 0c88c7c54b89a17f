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

// firstTurn is every place from the fix to the end of a first turn to the right, arriving
// on headings between two and turning to `out` and as much beyond as the heading is off.
func (m *allowed) firstTurn(from, to, out float64) convex.Region {
	all := convex.Point(0, 0)
	for _, delay := range m.delays {
		begun := convex.Arc(m.v*delay, from, to, 0)
		turned := convex.Sum(m.centres(delay, from, from), m.turned(from, out+m.heading))
		for a := from; a < to; {
			b := math.Min(a+90, to)
			part := convex.Sum(m.centres(delay, a, b), m.turned(b, out+m.heading))
			turned = convex.Hull(turned, convex.Sum(part, m.turning(b-a)))
			a = b
		}
		all = convex.Hull(all, m.drifted(convex.Hull(begun, turned), delay))
	}
	return all
}

// around is every place of an outbound leg that follows a turn to the right to heading
// `out`, and of the turn to the right after it up to heading `end`, from the centre of the
// first turn and as the wind blurs it from the lowest outbound heading on.
func (m *allowed) around(out, end float64) convex.Region {
	var all convex.Region
	for _, l := range m.legs {
		radius, ahead := combined(l.length, -m.r)
		ends := convex.Arc(radius, out-m.heading+ahead, out+m.heading+ahead, m.perTurn)
		centre := convex.Arc(l.length, out-m.heading, out+m.heading, 0)
		back := m.back(centre, l.length, 0, out, end)
		all = convex.Hull(all, m.drifted(convex.Hull(ends, back), l.wind))
	}
	return all
}

// back is the turn to the right at the end of an outbound leg, whose centre is on an arc,
// for the lowest outbound heading at radius u(out - heading + ahead).
func (m *allowed) back(centre convex.Region, radius, ahead, out, end float64) convex.Region {
	sin, cos := angle.Sincos(out - m.heading + ahead)
	lowest := convex.Point(radius*cos, radius*sin)
	spread := convex.Sum(convex.Sum(centre, m.turning(2*m.heading)), m.turned(out+m.heading, end))
	return convex.Hull(convex.Sum(lowest, m.turned(out-m.heading, out+m.heading)), spread)
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

// straight is every place of a flight that arrives on the outbound heading, within what
// that may be off, flies on for the leg and turns right to heading `end`.
func (m *allowed) straight(out, end float64) convex.Region {
	all := convex.Point(0, 0)
	for _, delay := range m.delays {
		for _, l := range m.legs {
			length := l.length + m.v*delay
			radius, ahead := combined(length, m.r)
			ends := convex.Arc(length, out-m.heading, out+m.heading, 0)
			centre := convex.Arc(radius, out-m.heading+ahead, out+m.heading+ahead, -m.perTurn)
			all = convex.Hull(all, m.drifted(convex.Hull(ends, m.back(centre, radius, ahead, out, end)), l.wind+delay))
		}
	}
	return all
}

// other is every place of a flight that arrives on headings between two, turns LEFT to the
// outbound heading, flies the leg and turns right to heading `end`.
func (m *allowed) other(from, to, out, end float64) convex.Region {
	var after convex.Region
	for _, l := range m.legs {
		radius, ahead := combined(l.length, m.r)
		ends := convex.Arc(radius, out-m.heading+ahead, out+m.heading+ahead, -m.perTurn)
		// From the centre of the turn to the left it is twice the radius to the other's, and
		// each degree by which the first turns less is one by which the second does too.
		radius, ahead = combined(l.length, 2*m.r)
		centre := convex.Arc(radius, out-m.heading+ahead, out+m.heading+ahead, -2*m.perTurn)
		back := m.back(centre, radius, ahead, out, end)
		after = convex.Hull(after, m.drifted(convex.Hull(ends, back), l.wind))
	}
	all := m.firstTurn(360-to, 360-from, 360-out).Mirrored()
	after = convex.Sum(after, m.turning(to-out+m.heading))
	for _, delay := range m.delays {
		centres := m.centres(delay, 360-to, 360-from).Mirrored()
		all = convex.Hull(all, m.drifted(convex.Sum(centres, after), delay))
	}
	return all
}
