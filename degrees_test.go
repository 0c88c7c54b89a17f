package abeam_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/draw"
)

func TestNewDegrees(t *testing.T) {
	for _, c := range []struct {
		in   float64
		want abeam.Degrees
	}{
		{0, 0}, {minusZero, 0}, {360, 0}, {-360, 0}, {720, 0}, {-720, 0},
		{180, 180}, {-180, 180}, {540, 180}, {-540, 180},
		{90, 90}, {-90, -90}, {270, -90}, {-270, 90}, {190, -170}, {-190, 170}, {359.5, -0.5},
		{1e-20, 1e-20}, {-1e-20, -1e-20},
		{above(0), math.SmallestNonzeroFloat64}, {below(0), -math.SmallestNonzeroFloat64},
		// The step of float64 is 2^-45 next to 180 and 2^-44 next to 360.
		{below(180), abeam.Degrees(180 - math.Ldexp(1, -45))}, {above(180), abeam.Degrees(-180 + math.Ldexp(1, -45))},
		{above(-180), abeam.Degrees(-180 + math.Ldexp(1, -45))}, {below(-180), abeam.Degrees(180 - math.Ldexp(1, -45))},
		{below(360), abeam.Degrees(-math.Ldexp(1, -44))}, {above(360), abeam.Degrees(math.Ldexp(1, -44))},
		// As in TestNewBearing: 10^17 is 280 and 2^1023 is 8 modulo 360.
		{1e17, -80}, {-1e17, 80}, {math.Ldexp(1, 1023), 8}, {-math.Ldexp(1, 1023), -8},
	} {
		if got := abeam.NewDegrees(c.in); !same(got, c.want) {
			t.Errorf("NewDegrees(%v) = %v, want %v", c.in, float64(got), float64(c.want))
		}
	}
	for _, x := range []float64{nan, inf, -inf} {
		if got := float64(abeam.NewDegrees(x)); !math.IsNaN(got) {
			t.Errorf("NewDegrees(%v) = %v, want NaN", x, got)
		}
	}
}

func TestNewDegreesRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := draw.Angle().Draw(t, "x")
		d := float64(abeam.NewDegrees(x))
		if !(d > -180 && d <= 180) || d == 0 && math.Signbit(d) {
			t.Fatalf("NewDegrees(%v) = %v, outside (-180, 180]", x, d)
		}
		if x > -180 && x <= 180 && d != x {
			t.Fatalf("NewDegrees(%v) = %v, was in range already", x, d)
		}
		wholeTurns(t, x, d)
	})
}

func TestRounded(t *testing.T) {
	for _, c := range []struct{ in, want abeam.Degrees }{
		{0, 0}, {abeam.Degrees(minusZero), 0}, {1e-10, 0}, {-1e-10, 0}, {6e-10, 1e-9}, {-6e-10, -1e-9},
		{180, 180}, {-180, 180}, {abeam.Degrees(above(-180)), 180}, {-180 + 4e-10, 180}, {180 + 4e-10, 180},
		{-180 + 6e-10, -179.999999999}, {180 - 6e-10, 179.999999999},
		{70.00000000000003, 70}, {109.99999999999997, 110}, {-69.99999999999997, -70},
		{350, -10}, {-350, 10}, {-360, 0}, // reduced
		{abeam.Degrees(math.Ldexp(1, 1023)), 8}, // 2^1023 is 8 modulo 360
	} {
		if got := c.in.Rounded(); !same(got, c.want) {
			t.Errorf("Degrees(%v).Rounded() = %v, want %v", float64(c.in), float64(got), float64(c.want))
		}
	}
	for _, x := range []float64{nan, inf, -inf} {
		if got := float64(abeam.Degrees(x).Rounded()); !math.IsNaN(got) {
			t.Errorf("Degrees(%v).Rounded() = %v, want NaN", x, got)
		}
	}
}

func TestRoundedProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := draw.Degrees().Draw(t, "d")
		r := d.Rounded()
		if !(r > -180 && r <= 180) || r == 0 && math.Signbit(float64(r)) {
			t.Fatalf("%v.Rounded() = %v, outside (-180, 180]", d, r)
		}
		if again := r.Rounded(); !same(again, r) {
			t.Fatalf("%v.Rounded() = %v", r, again)
		}
		// Half a quantum, and the rounding of the two angles themselves.
		if off := math.Abs(math.Remainder(float64(r-d), 360)); off > float64(abeam.Quantum)/2+math.Ldexp(1, -45) {
			t.Fatalf("%v.Rounded() = %v, moved by %g", d, r, off)
		}
	})
}

// The edges of the entry sectors, the quarter turns and their sides. Every tenth of
// a degree as course, and beside every edge the neighbouring tenths. The
// expectation is counted in whole tenths and never rounds.
func TestTenthsLandOnEdges(t *testing.T) {
	wrap := func(tenths int) abeam.Degrees {
		tenths = ((tenths+1799)%3600+3600)%3600 - 1799 // (-1800, 1800]
		return abeam.Degrees(float64(tenths) / 10)
	}
	misplaced := 0
	for course := range 3600 {
		from := abeam.Bearing(float64(course) / 10)
		for _, edge := range []int{0, 450, 700, 900, 1100, 1350, 1800, 2250, 2500, 2700, 2900, 3150} {
			for _, side := range []int{-1, 0, 1} {
				to := abeam.Bearing(float64((course+edge+side+3600)%3600) / 10)
				want := wrap(edge + side)
				if got := to.Sub(from).Rounded(); !same(got, want) {
					t.Errorf("from %v to %v is %v, want %v", from, to, got, want)
				}
				if to.Sub(from) != want {
					misplaced++
				}
			}
		}
	}
	if misplaced == 0 {
		t.Error("no difference needed rounding: the test has lost its purpose")
	}
}

func TestHundredthsLandOnEdges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from := draw.Whole(0, 35_999).Draw(t, "from")
		turn := draw.Whole(-17_999, 18_000).Draw(t, "turn")
		to := (from + turn + 36_000) % 36_000
		got := abeam.Bearing(float64(to) / 100).Sub(abeam.Bearing(float64(from) / 100)).Rounded()
		if want := abeam.Degrees(float64(turn) / 100); !same(got, want) {
			t.Fatalf("got %v, want %v", got, want)
		}
	})
}

func TestDegreesAbs(t *testing.T) {
	for _, c := range []struct{ in, want abeam.Degrees }{
		{-30, 30}, {30, 30}, {abeam.Degrees(minusZero), 0}, {-210, 210}, {abeam.Degrees(-inf), abeam.Degrees(inf)},
	} {
		if got := c.in.Abs(); !same(got, c.want) {
			t.Errorf("Degrees(%v).Abs() = %v, want %v", float64(c.in), got, c.want)
		}
	}
}

func TestDegreesString(t *testing.T) {
	for _, c := range []struct {
		in   abeam.Degrees
		want string
	}{{0, "0°"}, {-12.5, "-12.5°"}, {180, "180°"}, {1e-9, "0.000000001°"}, {abeam.Degrees(nan), "NaN°"}} {
		if got := c.in.String(); got != c.want {
			t.Errorf("Degrees(%v).String() = %q, want %q", float64(c.in), got, c.want)
		}
	}
}
