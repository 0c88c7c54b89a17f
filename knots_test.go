package abeam_test

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/internal/near"
)

func TestKnotsIn(t *testing.T) {
	for _, c := range []struct {
		k    abeam.Knots
		t    time.Duration
		want abeam.NM
	}{
		{120, time.Minute, 2}, {180, 30 * time.Second, 1.5}, {90, 40 * time.Second, 1}, {0, time.Hour, 0},
		{250, 0, 0}, {100, -time.Hour, -100}, {-100, time.Hour, -100}, {3600, time.Second, 1},
		{3600, time.Nanosecond, 1e-9}, {1, 12 * time.Hour, 12},
	} {
		if got := c.k.In(c.t); !near.Relative(got, c.want, 4e-16) {
			t.Errorf("%v in %v is %v, want %v", c.k, c.t, got, c.want)
		}
	}
	for _, c := range []struct{ k, want float64 }{{nan, nan}, {inf, inf}, {-inf, -inf}} {
		if got := float64(abeam.Knots(c.k).In(time.Minute)); !near.Equal(got, c.want, 0) {
			t.Errorf("%v in a minute is %v, want %v", c.k, got, c.want)
		}
	}
	if got := float64(abeam.Knots(1e300).In(math.MaxInt64)); math.IsInf(got, 0) || math.IsNaN(got) {
		t.Errorf("the longest Duration gave %v", got)
	}
}

func TestKnotsInIsAdditive(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := draw.TAS().Draw(t, "k")
		a := time.Duration(draw.Uniform(0, float64(10*time.Hour)).Draw(t, "a"))
		b := time.Duration(draw.Uniform(0, float64(10*time.Hour)).Draw(t, "b"))
		if got, want := k.In(a)+k.In(b), k.In(a+b); !near.Relative(got, want, 1e-15) {
			t.Fatalf("%v then %v is %v, at once %v", a, b, got, want)
		}
	})
}

func TestKnotsString(t *testing.T) {
	for _, c := range []struct {
		in   abeam.Knots
		want string
	}{{118.5, "118.5 kt"}, {0, "0 kt"}, {-20, "-20 kt"}, {1e6, "1000000 kt"}, {abeam.Knots(inf), "+Inf kt"}} {
		if got := c.in.String(); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}
