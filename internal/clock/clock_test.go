package clock_test

import (
	"math"
	"math/big"
	"testing"
	"time"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam/internal/clock"
	"github.com/holdingfix/abeam/internal/draw"
)

// The trap: a product with 1e9 misplaces 17,516 of these by a nanosecond.
func TestMilliseconds(t *testing.T) {
	misplaced := 0
	for ms := range 1_000_001 {
		s := float64(ms) / 1000
		want := time.Duration(ms) * time.Millisecond
		for _, sign := range []time.Duration{1, -1} {
			if d, ok := clock.Duration(float64(sign) * s); !ok || d != sign*want {
				t.Fatalf("Duration(%v) = %v, %v, want %v", s, d, ok, sign*want)
			}
			if d, ok := clock.Ceil(float64(sign) * s); !ok || d != sign*want {
				t.Fatalf("Ceil(%v) = %v, %v, want %v", s, d, ok, sign*want)
			}
		}
		if time.Duration(s*1e9) != want {
			misplaced++
		}
	}
	if misplaced == 0 {
		t.Error("the plain product misplaces none: the test has lost its purpose")
	}
}

func TestDuration(t *testing.T) {
	for _, c := range []struct {
		s    float64
		want time.Duration
		ceil time.Duration
	}{
		{0, 0, 0}, {math.Copysign(0, -1), 0, 0}, {60, time.Minute, time.Minute}, {-90, -90 * time.Second, -90 * time.Second},
		{0.4e-9, 0, 1}, {0.6e-9, 1, 1}, {-0.4e-9, 0, 0}, {-0.6e-9, -1, 0}, {1e-300, 0, 1}, {-1e-300, 0, 0},
		{math.SmallestNonzeroFloat64, 0, 1},
		{59.9999999996, time.Minute, time.Minute}, {59.9999999994, time.Minute - 1, time.Minute},
		{1.0000000004, time.Second, time.Second + 1}, {1.0000000006, time.Second + 1, time.Second + 1},
		{86400, 24 * time.Hour, 24 * time.Hour}, {9_223_372_035, 9_223_372_035 * time.Second, 9_223_372_035 * time.Second},
		{-9_223_372_035, -9_223_372_035 * time.Second, -9_223_372_035 * time.Second},
		// Past 1e5 s the whole seconds and the rest are converted apart; binary fractions, so exact.
		{100_000.75, 100_000*time.Second + 750*time.Millisecond, 100_000*time.Second + 750*time.Millisecond},
		{-100_000.75, -100_000*time.Second - 750*time.Millisecond, -100_000*time.Second - 750*time.Millisecond},
		{3_000_000.5, 3_000_000*time.Second + 500*time.Millisecond, 3_000_000*time.Second + 500*time.Millisecond},
	} {
		if got, ok := clock.Duration(c.s); !ok || got != c.want {
			t.Errorf("Duration(%v) = %v, %v, want %v", c.s, got, ok, c.want)
		}
		if got, ok := clock.Ceil(c.s); !ok || got != c.ceil {
			t.Errorf("Ceil(%v) = %v, %v, want %v", c.s, got, ok, c.ceil)
		}
	}
}

func TestDurationRefuses(t *testing.T) {
	for _, s := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 9_223_372_036, -9_223_372_036, 1e19, -1e19, math.MaxFloat64} {
		if got, ok := clock.Duration(s); ok || got != 0 {
			t.Errorf("Duration(%v) = %v, %v, want refusal", s, got, ok)
		}
		if got, ok := clock.Ceil(s); ok || got != 0 {
			t.Errorf("Ceil(%v) = %v, %v, want refusal", s, got, ok)
		}
	}
	// The bound is a second of room below the largest Duration, itself included.
	bound := time.Duration(math.MaxInt64).Seconds() - 1
	for _, s := range []float64{bound, -bound} {
		if d, ok := clock.Duration(s); !ok || math.Abs(d.Seconds()-s) > 1e-6 {
			t.Errorf("Duration at the bound %v is %v, %v", s, d, ok)
		}
		if d, ok := clock.Duration(math.Nextafter(s, 2*s)); ok || d != 0 {
			t.Errorf("Duration beyond the bound %v is %v, %v", s, d, ok)
		}
	}
	if d, ok := clock.Ceil(9_223_372_035.8); !ok || d <= 0 {
		t.Errorf("Ceil near the bound is %v, %v", d, ok)
	}
	if d, ok := clock.Duration(-9_223_372_035.8); !ok || d >= 0 {
		t.Errorf("Duration near the bound is %v, %v", d, ok)
	}
}

// nanos is a time in nanoseconds as a rational number, in which nothing rounds.
func nanos(s float64) *big.Rat {
	r := new(big.Rat).SetFloat64(s)
	return r.Mul(r, big.NewRat(1_000_000_000, 1))
}

func TestNearestAndNeverBelow(t *testing.T) {
	seconds := rapid.OneOf(
		draw.Uniform(-3600, 3600), draw.Uniform(-1e-6, 1e-6), draw.Uniform(-1e6, 1e6),
		rapid.Map(draw.Uniform(-12, 6.5), func(e float64) float64 { return math.Pow(10, e) }),
	)
	rapid.Check(t, func(t *rapid.T) {
		s := seconds.Draw(t, "s")
		d, ok := clock.Duration(s)
		c, okCeil := clock.Ceil(s)
		if !ok || !okCeil {
			t.Fatalf("%v s was refused", s)
		}
		off, _ := new(big.Rat).Sub(new(big.Rat).SetInt64(int64(d)), nanos(s)).Float64()
		if math.Abs(off) > 0.5+0.008 { // a product of up to 1e14 rounds by up to 2^-7
			t.Fatalf("Duration(%v) = %d ns, off by %v ns", s, d, off)
		}
		// s stands for all that rounds to it, so half its step below is not below.
		step := math.Nextafter(math.Abs(s), math.Inf(1)) - math.Abs(s)
		over, _ := new(big.Rat).Sub(new(big.Rat).SetInt64(int64(c)), nanos(s)).Float64()
		if over < -step*1e9/2 {
			t.Fatalf("Ceil(%v) = %d ns, below by %v ns", s, c, -over)
		}
		if over >= 1 {
			t.Fatalf("Ceil(%v) = %d ns, not the first: over by %v ns", s, c, over)
		}
	})
}
