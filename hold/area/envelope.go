package area

import "github.com/holdingfix/abeam/internal/convex"

// Envelope is what permitted flights can reach, from first principles: the smallest convex
// area around every ground track of a pilot who makes no correction for the wind, in any
// wind up to that of the design, from any direction, within the allowances. Overhead the
// fix exactly; see [Area.Over] for where the fix may be.
//
// The flight waits from the bank's establishment to that and the pilot's reaction, turns
// right (left in a left-hand pattern) to the outbound heading, which may be off either way,
// flies the leg, early or late, and turns to the inbound course and as much beyond as the
// heading may be off. A parallel entry turns 45 degrees beyond, to meet the course: that
// angle is ours. The outbound time runs from wings level. From there it flies straight to
// the fix, which stays inside whatever is convex.
//
// The entries arrive on any heading of their sectors, with the 5 degrees at each edge in
// which either of two entries may be flown (FAA AIM 5-3-8 j.8(d)); a teardrop entry takes
// the heading 30 degrees off outbound, and turns to it the shorter way.
//
// Accuracy: 1e-9 NM. It is not a guess from samples: the reach in each direction is the
// greatest there is, and some flight comes that far. It holds for the airspeed of the
// design; see [Design.Slower] for the speeds below it.
type Envelope struct {
	Hold                       Area
	Direct, Teardrop, Parallel Area
}

// Envelope gives what permitted flights can reach.
//
// Errors: as [Design.Lines].
func (d Design) Envelope() (Envelope, error) {
	m, err := d.allowed("area.Design.Envelope")
	if err != nil {
		return Envelope{}, err
	}
	return Envelope{
		Hold: Area{m.holding()}, Direct: Area{m.direct()}, Teardrop: Area{m.teardrop()}, Parallel: Area{m.parallel()},
	}, nil
}

// All is the smallest convex area around the holding and its entries.
func (e Envelope) All() Area {
	return Area{convex.Hull(e.Hold.region, e.Direct.region, e.Teardrop.region, e.Parallel.region)}
}
