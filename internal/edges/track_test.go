package edges

import (
	"iter"
	"slices"
	"testing"
	"time"
)

func TestTrackFinds(t *testing.T) {
	seconds := func(s ...time.Duration) []time.Duration {
		for i := range s {
			s[i] *= time.Second
		}
		return s
	}
	good := seconds(0, 2, 4, 5)
	calls := 0
	changing := func(yield func(time.Duration) bool) {
		calls++
		for _, s := range good {
			if !yield(s + time.Duration(calls/2)) {
				return
			}
		}
	}
	for _, c := range []struct {
		name     string
		track    iter.Seq[time.Duration]
		appended []time.Duration
		first    time.Duration
		total    time.Duration
		found    int
	}{
		{"as promised", slices.Values(good), good, 0, 5 * time.Second, 0},
		{"total a whole number of steps", slices.Values(seconds(0, 2, 4)), seconds(0, 2, 4), 0, 4 * time.Second, 0},
		{"not the same again", changing, good, 0, 5 * time.Second, 1},
		{"otherwise when appended", slices.Values(good), seconds(0, 2, 4, 6), 0, 5 * time.Second, 1},
		{"one too few", slices.Values(good[:3]), good[:3], 0, 5 * time.Second, 1},
		{"one too many", slices.Values(good), good, 0, 4 * time.Second, 1},
		{"none", slices.Values(good[:0]), nil, 0, 4 * time.Second, 1},
		{"another first", slices.Values(good), good, 1, 5 * time.Second, 1},
		{"another end", slices.Values(good), good, 0, 5*time.Second + 1, 1},
		{"a step uneven", slices.Values(seconds(0, 3, 4, 5)), seconds(0, 3, 4, 5), 0, 5 * time.Second, 1},
	} {
		h := &heard{TB: t}
		Track(h, c.track, c.appended, c.first, func(s time.Duration) time.Duration { return s }, 2*time.Second, c.total)
		if len(h.said) != c.found {
			t.Errorf("%s: %q", c.name, h.said)
		}
	}
}
