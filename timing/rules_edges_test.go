package timing

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// Rules with a number of one's own carry it in their name, with all its digits.
func TestNamesOfRulesWithNumbers(t *testing.T) {
	for want, name := range map[string]string{
		"0.6667 of the discrepancy": ByGain(0.6667).Name, "1 of the discrepancy": ByGain(1).Name,
		"2.25 times the drift": Multiple(2.25).Name, "-1 times the drift": Multiple(-1).Name,
	} {
		if name != want {
			t.Errorf("%q, want %q", name, want)
		}
	}
}

// A rule put together of two tells both sources, or the one that both have.
func TestSourcesOfFirstThen(t *testing.T) {
	for want, rule := range map[string]TimingRule{
		"common practice": FirstThen(BySecondsPerKnot(), ByHalf()),
		"fitted here":     FirstThen(Tenths(), Lopsided()),
		"common practice; CNATRA P-871 p77, P-801 p135": FirstThen(BySecondsPerKnot(), ByFull()),
	} {
		if rule.Source != want {
			t.Errorf("%s: %q, want %q", rule.Name, rule.Source, want)
		}
	}
}

// What a rule cannot answer is reported when it is flown, with the rule's name and the lap: a
// share that is no number on the second lap, since the first is flown without it; a multiple
// at once.
func TestRulesWithoutAnAnswer(t *testing.T) {
	nan := math.NaN()
	for _, tc := range []struct {
		strategy Strategy
		lap      int
	}{
		{Compose("a", ByGain(nan), NoDrift()), 2}, {Compose("b", ByGain(math.Inf(1)), NoDrift()), 2}, {Compose("c", ByGain(1e300), NoDrift()), 2},
		{Compose("d", LegTime(), Multiple(nan)), 1}, {Compose("e", LegTime(), Multiple(math.Inf(-1))), 1},
	} {
		trial := Trial{
			Pattern: pattern(t, 90, hold.Right, time.Minute), Flight: hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 180, Speed: 20}},
			Start: AtAbeam, Strategy: tc.strategy,
		}
		laps, err := trial.AppendLaps(nil, 3)
		var failed *StrategyError
		if !errors.As(err, &failed) || failed.Lap != tc.lap || len(laps) != tc.lap-1 || failed.Strategy != tc.strategy.Name {
			t.Errorf("%s: %d laps, %v", tc.strategy.Name, len(laps), err)
		}
	}
	// A wind beyond what the laws of seconds a knot are for asks for no time at all.
	gale := seen(t, hold.Right, time.Minute)
	gale.Flight.Wind.Speed = 500
	for _, rule := range []TimingRule{BySecondsPerKnot(), BySecondsPerKnotPerMinute()} {
		if got := rule.Next(gale); got != (Plan{Outbound: -1}) || got.fault() == "" {
			t.Errorf("%s in a wind of 500 kt: %+v", rule.Name, got)
		}
		if got := AtLeast30(rule).Next(gale); got.fault() == "" {
			t.Errorf("%s, at least 30 s, in a wind of 500 kt: %+v", rule.Name, got)
		}
	}
}

// At 20 degrees a correction is at least 20 degrees, whichever way it goes.
func TestAtLeast20At20(t *testing.T) {
	for multiple, want := range map[float64]abeam.Degrees{2.5: -20, -2.5: 20, 2.4: -20, -2.4: -20} {
		if got := AtLeast20(Multiple(multiple), 8).Next(seen(t, hold.Right, time.Minute), Plan{}).Correction; got != want {
			t.Errorf("%v times: %v, want %v", multiple, got, want)
		}
	}
}

// The crab is half of what the bearing of the fix is off the course, the short way. Source:
// CNATRA P-871; the figures by hand.
func TestCrabByHand(t *testing.T) {
	for _, tc := range []struct {
		bearing, course abeam.Bearing
		want            abeam.Degrees
	}{{280, 270, 5}, {260, 270, -5}, {4, 356, 4}, {356, 4, -4}, {90, 90, 0}, {270, 90, 90}} {
		if got, err := CrabFromBearing(tc.bearing, tc.course); err != nil || got != tc.want {
			t.Errorf("bearing %v on course %v: %v, %v, want %v", tc.bearing, tc.course, got, err, tc.want)
		}
	}
}

// The first start after the published ones is none, and says so.
func TestStartsHaveNames(t *testing.T) {
	for s := Start(0); s <= AtWingsLevelOrAbeam+1; s++ {
		if (s.String() == "no start") != (s < AtAbeam || s > AtWingsLevelOrAbeam) {
			t.Errorf("%d: %v", s, s)
		}
	}
}
