package tolerance

import (
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
)

// spot is a sample laid into the course frame by hand: a time in seconds, a place in NM and the
// direction in which the aeroplane moves, in degrees from the inbound course.
type spot struct{ t, x, y, course float64 }

// cutterOf cuts spots as they stand, without a way over the globe, so that edges are met to the
// bit. The pattern is a right-hand one, inbound due north.
func cutterOf(t *testing.T, spots []spot) *cutter {
	t.Helper()
	p, err := hold.NewPattern(hold.Fix{}, 360, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		t.Fatal(err)
	}
	log := Log{TrackNorth: abeam.True}
	for _, s := range spots {
		log.Samples = append(log.Samples, Sample{Time: at(s.t), Track: abeam.NewBearing(s.course), Has: Quantities(Time | Track)})
	}
	c := &cutter{motion: newMotion(&log, 0), pattern: p}
	for i, s := range spots {
		c.t[i], c.course[i] = s.t, s.course
		c.x, c.y = append(c.x, s.x), append(c.y, s.y)
	}
	return c
}

// idle are spots a second apart from a time up to another, far from the fix on the outbound side.
func idle(from, to int) (spots []spot) {
	for i := from; i < to; i++ {
		spots = append(spots, spot{float64(i), -3, 5, 180})
	}
	return spots
}

// joined puts runs of spots end to end.
func joined(runs ...[]spot) (all []spot) {
	for _, r := range runs {
		all = append(all, r...)
	}
	return all
}
