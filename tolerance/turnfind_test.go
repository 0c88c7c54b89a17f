package tolerance

import (
	"math"
	"testing"

	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/near"
)

// spell is a rate of turn held for some samples, a second apart.
type spell struct {
	samples int
	rate    float64 // deg/s, positive to the right
}

// motionOf is a motion of spells, its rate of turn as given and its course the sum of that. From a
// spell of no turn to one of rate r the corners lie halfway between samples; n samples of r
// between such corners turn through r (n - 1/2): n - 1 whole seconds, and at either end from half
// of r to r over half a second, a quarter of r.
func motionOf(spells ...spell) *motion {
	m := &motion{window: 10}
	course := 100.0
	for _, s := range spells {
		for range s.samples {
			if n := len(m.rate); n > 0 {
				course += (m.rate[n-1] + s.rate) / 2
			}
			m.t = append(m.t, float64(len(m.t)))
			m.rate = append(m.rate, s.rate)
			m.course = append(m.course, course)
		}
	}
	return m
}

// A turn begins at 0.8 deg/s and ends at 0.4: at the rate itself, not just short of it.
func TestTurnBeginsAndEndsAtItsRates(t *testing.T) {
	for _, way := range []float64{1, -1} {
		for rate, want := range map[float64]int{turning: 1, math.Nextafter(turning, 0): 0, 0.9: 1, 0.7: 0} {
			got := motionOf(spell{20, 0}, spell{100, way * rate}, spell{20, 0}).turns()
			if len(got) != want {
				t.Errorf("%v deg/s: %+v", way*rate, got)
			}
			for _, s := range got {
				if s.from != 19.5 || s.to != 119.5 || !near.Equal(s.angle, way*rate*99.5, 1e-9) || (s.turn() == hold.Right) != (way > 0) {
					t.Errorf("%v deg/s: %+v", way*rate, s)
				}
			}
		}
		// Slowed to 0.4 it has ended, slowed to just above it goes on until it stops.
		for slow, end := range map[float64]float64{straight: 49.5, math.Nextafter(straight, 1): 79.5} {
			got := motionOf(spell{20, 0}, spell{30, way * 3}, spell{30, way * slow}, spell{20, 0}).turns()
			if len(got) != 1 || got[0].from != 19.5 || !near.Equal(got[0].to, end, 0.5) {
				t.Errorf("slowed to %v: %+v", slow, got)
			}
		}
	}
}

// Turns count from 45 degrees on: five samples at 10 deg/s are 45, at 9.9 deg/s 44.55.
func TestLeastTurn(t *testing.T) {
	for rate, want := range map[float64]int{10: 1, 9.9: 0, -10: 1, -9.9: 0, 11: 1} {
		got := motionOf(spell{20, 0}, spell{5, rate}, spell{20, 0}).turns()
		if len(got) != want || want == 1 && (got[0] != stretch{19.5, 24.5, rate * 4.5}) {
			t.Errorf("%v deg/s: %+v", rate, got)
		}
	}
}

// Turns the same way less than 12 s apart are one, or less than half the window where that is
// more; a moment the other way, less than a turn and with less than 24 s from turn to turn, does
// not part them.
func TestTurnsJoined(t *testing.T) {
	turn := spell{10, 10} // 95 degrees
	for name, tc := range map[string]struct {
		between []spell
		window  float64
		turns   int
	}{
		"11 s":                  {[]spell{{11, 0}}, 10, 1},
		"12 s":                  {[]spell{{12, 0}}, 10, 2},
		"19 s in a long window": {[]spell{{19, 0}}, 40, 1},
		"20 s in a long window": {[]spell{{20, 0}}, 40, 2},
		// Five samples at -9 are 40.5 degrees the other way, at -10 a turn of 45.
		"a moment, 23 s":   {[]spell{{9, 0}, {5, -9}, {9, 0}}, 10, 1},
		"a moment, 24 s":   {[]spell{{9, 0}, {5, -9}, {10, 0}}, 10, 2},
		"a turn back":      {[]spell{{9, 0}, {5, -10}, {9, 0}}, 10, 3},
		"a moment at once": {[]spell{{1, 0}, {5, -9}, {1, 0}}, 10, 1},
		// A change of less than 20 degrees, three samples at less than -8, is nothing at all: then
		// the 12 s count.
		"20 degrees in 19 s": {[]spell{{8, 0}, {3, -8}, {8, 0}}, 10, 1},
		"19 degrees in 19 s": {[]spell{{8, 0}, {3, -7.9}, {8, 0}}, 10, 2},
		"19 degrees in 11 s": {[]spell{{4, 0}, {3, -7.9}, {4, 0}}, 10, 1},
		// What follows a small change the same way is joined to it.
		"a small one and a turn": {[]spell{{20, 0}, {3, 10}, {5, 0}}, 10, 2},
		"two moments are a turn": {[]spell{{2, 0}, {5, -9}, {2, 0}, {5, -9}, {2, 0}}, 10, 3},
	} {
		for _, way := range []float64{1, -1} {
			spells := joinedSpells(way, []spell{{20, 0}, turn}, tc.between, []spell{turn, {20, 0}})
			m := motionOf(spells...)
			m.window = tc.window
			got := m.turns()
			if len(got) != tc.turns {
				t.Errorf("%s, %v: %+v", name, way, got)
				continue
			}
			last := got[len(got)-1]
			end := float64(len(m.t)) - 20.5
			if got[0].from != 19.5 || last.to != end {
				t.Errorf("%s, %v: %+v, from 19.5 to %v", name, way, got, end)
			}
			for _, s := range got {
				if s.angle != m.courseAt(s.to)-m.courseAt(s.from) {
					t.Errorf("%s, %v: %+v", name, way, s)
				}
			}
		}
	}
}

func joinedSpells(way float64, runs ...[]spell) (all []spell) {
	for _, r := range runs {
		for _, s := range r {
			all = append(all, spell{s.samples, way * s.rate})
		}
	}
	return all
}

// The corner of a turn is where the rate passes half of the most there is of it within the
// window of ten seconds; the rates at either end of a turn are written down from the outside in.
func TestCornerAtHalfTheRate(t *testing.T) {
	level := func(n int, rate float64) (rates []float64) {
		for range n {
			rates = append(rates, rate)
		}
		return rates
	}
	join := func(runs ...[]float64) (all []float64) {
		for _, r := range runs {
			all = append(all, r...)
		}
		return all
	}
	for name, tc := range map[string]struct {
		rates []float64
		edge  int
		want  float64 // in samples from the outside
	}{
		"abrupt":           {[]float64{0, 0, 3, 3, 3}, 2, 1.5},
		"rolled in":        {[]float64{0, 0, 1, 2, 3, 3}, 2, 2.5},
		"half at a sample": {[]float64{0, 1, 1.5, 2, 3}, 1, 2},
		// Of the most, 3, half is 1.5: a third of the way out from 2 to 0.5.
		"in proportion":             {[]float64{0, 0.5, 2, 3, 3}, 2, 2 - 1.0/3},
		"from a rate the other way": {[]float64{0, -3, 3, 3, 3}, 2, 1.75}, // from 3 to -3: 1.5 is a quarter on
		"from the first sample on":  {[]float64{0, 3, 3, 3, 3}, 1, 0.5},
		"at the first sample":       {[]float64{3, 3, 3, 3, 3}, 0, 0},
		"at the first, rolled in":   {[]float64{1, 3, 3, 3, 3}, 0, 0.25},
		// Half is kept for a while: the corner is where it falls below.
		"half for a while": {[]float64{0, 0, 1.5, 1.5, 3, 3}, 3, 2},
		"half, then less":  {[]float64{0, 1.5, 1.2, 3, 3}, 1, 1},
		// The turn ends inside at 0.4 deg/s; what comes after counts for nothing.
		"ends inside":  {[]float64{0, 0, 1, straight, 5}, 2, 1.5},
		"slows inside": {[]float64{0, 0, 1, 0.41, 5}, 2, 3 + (2.5-0.41)/(5-0.41)},
		// The most within ten seconds counts, ten included: half of 4, two thirds out from 4 to 1.
		"fast after 10 s": {join([]float64{0, 0}, level(10, 1), level(5, 4)), 2, 12 - 2.0/3},
		"fast after 11 s": {join([]float64{0, 0}, level(11, 1), level(5, 4)), 2, 1.5},
		// Outside of the edge it looks for ten seconds too.
		"slow before":  {join(level(21, 0.7), level(10, 0.8)), 21, 11},
		"slow for 9 s": {join(level(12, 0), level(9, 0.7), level(10, 0.8)), 21, 12 - 0.3/0.7},
	} {
		for _, way := range []float64{1, -1} {
			m := motionOf()
			for i, r := range tc.rates {
				m.t = append(m.t, float64(i))
				m.rate = append(m.rate, way*r)
			}
			if got := m.corner(tc.edge, -1, way); !near.Equal(got, tc.want, 1e-12) {
				t.Errorf("%s, %v: %v, want %v", name, way, got, tc.want)
			}
			// The same, backwards.
			n := len(m.rate)
			for i, r := range tc.rates {
				m.rate[n-1-i] = way * r
			}
			if got := m.corner(n-1-tc.edge, 1, way); !near.Equal(got, float64(n-1)-tc.want, 1e-12) {
				t.Errorf("%s, %v, at the end: %v, want %v", name, way, got, float64(n-1)-tc.want)
			}
		}
	}
}

// The course between samples is in proportion, and beyond them that at the end.
func TestCourseBetweenSamples(t *testing.T) {
	m := &motion{t: []float64{1, 5, 7}, course: []float64{10, 30, -8}}
	for at, want := range map[float64]float64{0: 10, 1: 10, 2: 15, 4: 25, 5: 30, 5.5: 20.5, 7: -8, 7.001: -8, 100: -8} {
		if got := m.courseAt(at); got != want {
			t.Errorf("at %v: %v, want %v", at, got, want)
		}
	}
}
