package tolerance

import (
	"math"

	"github.com/holdingfix/abeam/entry"
)

// atOnce is a turn at the fix, with the pattern, that only a direct entry makes: a
// teardrop turns through 40 degrees at most where the sectors call for it.
const atOnce = 100

// enter says which entry was flown between the first passage and the next.
//
// It goes by the geometry, which the wind moves little. A parallel entry comes back by
// a turn against the pattern. Of the two that come back with it, a teardrop leaves the
// fix on a slant, so that its outbound leg begins nearer the course than half of where
// it ends; a direct entry is abreast by then.
func (c *cutter) enter(f *Flown, from, to float64) {
	i := c.index(from)
	f.Entry.Span = Span{at(from), at(to)}
	f.Entry.Heading = c.pattern.Fix().Variation.Magnetic(c.mean(i, i+1))
	side := sideOf(c.pattern.Turn())
	var in []stretch // turns, positive with the pattern
	for _, s := range c.list {
		if mid := (s.from + s.to) / 2; mid > from && mid < to {
			s.angle *= side
			in = append(in, s)
		}
	}
	if len(in) == 0 {
		return
	}
	back := in[len(in)-1]
	// A parallel entry turns back through more than half a circle, perhaps in two.
	if back.angle < -90 {
		f.Entry.Kind = entry.Parallel
		return
	}
	f.Entry.Kind = entry.Direct
	if back.angle < bigTurn {
		return
	}
	// The outbound leg ends where the turn back begins, and begins where the turn before
	// it ends, or as soon as the course is within 20 degrees of that of the leg.
	end := max(c.index(from), c.index(back.from)-1)
	leg := c.course[end]
	start := end
	for start > i && math.Abs(c.course[start-1]-leg) <= 20 {
		start--
	}
	turned := side * (leg - c.course[i])
	if turned < atOnce && c.y[end] > 0 && c.y[start] < c.y[end]/2 {
		f.Entry.Kind = entry.Teardrop
	}
}
