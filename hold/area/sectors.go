package area

import (
	"math"

	"github.com/holdingfix/abeam/internal/convex"
)

// Headings in the course frame of a right-hand pattern, from the inbound course. The
// sectors of entry are those of ICAO Doc 8168 Vol I, with the 5 degrees at each edge in
// which either of two entries may be flown (FAA AIM 5-3-8 j.8(d)).
const (
	outbound     = 180.0
	offset       = 150.0 // the outbound heading of a teardrop entry
	flexible     = 5.0
	directFrom   = -70 - flexible
	directTo     = 110 + flexible
	teardropTo   = 180 + flexible
	parallelFrom = 180 - flexible
	parallelTo   = 290 + flexible
	established  = 360.0
	interception = 45.0 // how far beyond the inbound course a parallel entry turns to meet it
)

// holding is every place of a lap.
func (m *allowed) holding() convex.Region {
	return m.lap(0, 0, outbound, established+m.heading)
}

// direct is every place of a direct entry: overhead the fix it turns right to outbound.
func (m *allowed) direct() convex.Region {
	return m.lap(directFrom, directTo, outbound, established+m.heading)
}

// teardrop is every place of a teardrop entry: from the fix it turns the shorter way to the
// heading 30 degrees off outbound, then right to the inbound course.
func (m *allowed) teardrop() convex.Region {
	lowest, highest, end := offset-m.heading, offset+m.heading, established+m.heading
	return convex.Hull(
		m.lap(directTo-2*flexible, lowest, offset, end),
		m.straight(lowest, highest, end),
		m.other(highest, teardropTo, offset, end),
	)
}

// parallel is every place of a parallel entry: from the fix it turns the shorter way, mostly
// left, to outbound, and left until it meets the inbound course. Seen in a mirror the latter
// is a turn to the right. It flies on where it arrives within what the outbound heading may
// be off.
func (m *allowed) parallel() convex.Region {
	const from, to = 360 - parallelTo, 360 - parallelFrom // of the arrival, in the mirror
	const end = established + interception
	lowest, highest := outbound-m.heading, outbound+m.heading
	all := convex.Hull(m.lap(from, lowest, outbound, end), m.straight(lowest, math.Min(highest, to), end))
	if highest < to {
		all = convex.Hull(all, m.other(highest, to, outbound, end))
	}
	return all.Mirrored()
}
