package timing

import (
	"errors"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
)

func TestDiscrepancyErrors(t *testing.T) {
	for _, bad := range [][3]time.Duration{
		{-1, time.Minute, time.Minute}, {time.Minute, -1, time.Minute}, {time.Minute, time.Minute, 0},
		{hold.MaxLeg + 1, time.Minute, time.Minute}, {time.Minute, math.MaxInt64, time.Minute}, {time.Minute, time.Minute, math.MinInt64},
	} {
		for name, rule := range map[string]func(a, b, c time.Duration) (time.Duration, error){"full": FullDiscrepancy, "half": HalfDiscrepancy} {
			if got, err := rule(bad[0], bad[1], bad[2]); !errors.Is(err, abeam.ErrInvalid) || got != 0 {
				t.Errorf("%s%v: %v, %v", name, bad, got, err)
			}
		}
	}
}

// What a rule leaves alone: a lap on target changes nothing, a lap far too long asks
// for no outbound leg, never for a negative one.
func TestDiscrepancyProperties(t *testing.T) {
	second := func(lo int) *rapid.Generator[time.Duration] {
		return rapid.Map(rapid.IntRange(lo, 600), func(i int) time.Duration { return time.Duration(i) * time.Second })
	}
	rapid.Check(t, func(t *rapid.T) {
		last, inbound, target := second(0).Draw(t, "last"), second(0).Draw(t, "inbound"), second(1).Draw(t, "target")
		full, err := FullDiscrepancy(last, inbound, target)
		if err != nil {
			t.Fatal(err)
		}
		half, err := HalfDiscrepancy(last, inbound, target)
		if err != nil {
			t.Fatal(err)
		}
		if full < 0 || half < 0 {
			t.Fatalf("full %v, half %v", full, half)
		}
		if inbound == target && (full != last || half != last) {
			t.Fatalf("on target: full %v, half %v, last %v", full, half, last)
		}
		if full > 0 && (full-last)+(inbound-target) != 0 || half > 0 && full > 0 && 2*(half-last) != full-last {
			t.Fatalf("full %v, half %v of %v %v %v", full, half, last, inbound, target)
		}
	})
}

func TestDriftErrors(t *testing.T) {
	for _, c := range []float64{45.1, -45.1, math.NaN(), math.Inf(1)} {
		if got, err := TripleDrift(abeam.Degrees(c)); !errors.Is(err, abeam.ErrInvalid) || got != 0 {
			t.Errorf("TripleDrift(%v): %v, %v", c, got, err)
		}
	}
	if got, err := TripleDrift(0); err != nil || math.Signbit(float64(got)) {
		t.Errorf("no drift: %v, %v", got, err)
	}
}

func TestStartAndSlowErrors(t *testing.T) {
	for _, s := range []Start{0, 4} {
		if _, err := s.After(hold.Circuit{}); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("After of %d: %v", s, err)
		}
		if _, err := s.Outbound(hold.Circuit{}); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("Outbound of %d: %v", s, err)
		}
	}
	for _, gs := range []float64{0, -1, 1201, math.NaN()} {
		if _, err := SlowAt(abeam.Knots(gs)); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("SlowAt(%v): %v", gs, err)
		}
	}
}
