package timing

import (
	"errors"
	"testing"
	"time"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// The planner never crosses later than asked unless it says so, its sums are exact, and what
// it says cannot be met lies outside every window.
func TestDeparture(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, f := drawHold(t, 0.5)
		limits := WithinPattern(p)
		limits.Shortest = rapid.SampledFrom([]time.Duration{0, 20 * time.Second, 30 * time.Second}).Draw(t, "shortest")
		limits.Longest += time.Duration(rapid.IntRange(0, 90).Draw(t, "longer")) * time.Second
		asked := time.Duration(rapid.Int64Range(0, int64(time.Hour)).Draw(t, "asked"))
		d, err := PlanDeparture(p, f, limits, asked)
		if err != nil {
			t.Fatal(err)
		}
		windows, err := DepartureWindows(p, f, limits, 2*time.Hour)
		if err != nil {
			t.Fatal(err)
		}
		in := false
		for i, w := range windows {
			in = in || asked >= w.From && asked <= w.To
			if w.To < w.From || i > 0 && w.From <= windows[i-1].To {
				t.Fatalf("windows %v", windows)
			}
		}
		if in != d.Met {
			t.Fatalf("asked %v: met %v, windows %v", asked, d.Met, windows)
		}
		whole, err := p.Circuit(f)
		if err != nil || d.Lap != whole.Lap {
			t.Fatal(d.Lap, whole.Lap, err)
		}
		sum := func(c Crossing) {
			if c.Time != time.Duration(c.Whole)*whole.Lap+c.Last.Lap {
				t.Fatalf("%d laps of %v and %v are not %v", c.Whole, whole.Lap, c.Last.Lap, c.Time)
			}
			if l := c.Last; l.Lap != 0 && (l.Inbound > limits.Longest || l.Inbound < limits.Shortest ||
				l.Lap != l.OutboundTurn.Time+l.Straight+l.InboundTurn.Time+l.Inbound) {
				t.Fatalf("last lap %+v", l)
			}
		}
		if d.Met {
			sum(d.At)
			if d.At.Time > asked || d.At.Time < asked-Punctual || d.Before != (Crossing{}) || d.After != (Crossing{}) {
				t.Fatalf("asked %v, crosses at %v", asked, d.At.Time)
			}
			return
		}
		sum(d.Before)
		sum(d.After)
		if !(d.Before.Time < asked && asked < d.After.Time) || d.At != (Crossing{}) {
			t.Fatalf("asked %v, between %v and %v", asked, d.Before.Time, d.After.Time)
		}
		// They are the nearest: both end a window, with nothing between.
		for _, w := range windows {
			if w.From > d.Before.Time && w.From < d.After.Time || w.To > d.Before.Time && w.To < d.After.Time {
				t.Fatalf("%v lies between %v and %v", w, d.Before.Time, d.After.Time)
			}
		}
	})
}

func TestDepartureErrors(t *testing.T) {
	p := pattern(t, 90, hold.Right, time.Minute)
	f := hold.Flight{TAS: 120, Rate: 3}
	for name, tc := range map[string]struct {
		f      hold.Flight
		limits LegLimits
		asked  time.Duration
		kind   error
	}{
		"negative":       {f, WithinPattern(p), -1, abeam.ErrInvalid},
		"too long":       {f, WithinPattern(p), MaxWait + 1, abeam.ErrInvalid},
		"leg left out":   {f, LegLimits{Longest: 59 * time.Second}, 0, abeam.ErrInvalid},
		"shortest above": {f, LegLimits{Shortest: 61 * time.Second, Longest: time.Hour}, 0, abeam.ErrInvalid},
		"longest above":  {f, LegLimits{Longest: time.Hour + 1}, 0, abeam.ErrInvalid},
		"no airspeed":    {hold.Flight{Rate: 3}, WithinPattern(p), 0, abeam.ErrInvalid},
		"no leg left":    {hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 90, Speed: 50}}, WithinPattern(p), 0, abeam.ErrUnflyable},
	} {
		if d, err := PlanDeparture(p, tc.f, tc.limits, tc.asked); !errors.Is(err, tc.kind) || d != (Departure{}) {
			t.Errorf("%s: %v", name, err)
		}
		if w, err := DepartureWindows(p, tc.f, tc.limits, tc.asked); !errors.Is(err, tc.kind) || w != nil {
			t.Errorf("%s: windows %v", name, err)
		}
	}
	if _, err := PlanDeparture(hold.Pattern{}, f, LegLimits{}, 0); !errors.Is(err, abeam.ErrInvalid) {
		t.Error(err)
	}
	for _, bad := range [][2]time.Duration{{-1, 0}, {0, -1}, {MaxWait + 1, 0}, {0, MaxWait + 1}} {
		if _, err := LoseTime(bad[0], bad[1]); !errors.Is(err, abeam.ErrInvalid) {
			t.Error(bad, err)
		}
	}
	if _, err := LoseTime(time.Minute, 2*time.Minute); !errors.Is(err, abeam.ErrUnflyable) {
		t.Error(err)
	}
}
