package edges

import (
	"iter"
	"slices"
	"testing"
	"time"
)

// Track holds a sampled track to what every room promises of one: the same each time it is
// ranged over and when appended, from the first sample given on one at every whole step and one
// at the end, and no more once its consumer stops.
func Track[S comparable](t testing.TB, track iter.Seq[S], appended []S, first S, at func(S) time.Duration, step, total time.Duration) {
	t.Helper()
	all, again := slices.Collect(track), slices.Collect(track)
	if !slices.Equal(all, again) {
		t.Errorf("step %v: another track when ranged over again", step)
	}
	if !slices.Equal(all, appended) {
		t.Errorf("step %v: another track when appended", step)
	}
	last := int((total + step - 1) / step)
	if len(all) != last+1 {
		t.Errorf("step %v: %d samples, want %d", step, len(all), last+1)
		return
	}
	if all[0] != first || at(all[last]) != total {
		t.Errorf("step %v: from %+v to %+v, want from %+v to %v", step, all[0], all[last], first, total)
	}
	for i, s := range all[:last] {
		if at(s) != time.Duration(i)*step {
			t.Errorf("step %v: sample %d at %v", step, i, at(s))
		}
	}
	for range track { // a consumer that stops must not be called again, which the runtime sees to
		if last--; last == 0 {
			break
		}
	}
}
