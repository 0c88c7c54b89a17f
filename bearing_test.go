package abeam_test

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/internal/near"
)

var (
	minusZero = math.Copysign(0, -1)
	inf       = math.Inf(1)
	nan       = math.NaN()
)

// same tells 0 from -0, which == does not.
func same[T ~float64](a, b T) bool {
	return math.Float64bits(float64(a)) == math.Float64bits(float64(b))
}

func below(x float64) float64 { return math.Nextafter(x, -inf) }
func above(x float64) float64 { return math.Nextafter(x, inf) }

func TestNewBearing(t *testing.T) {
	for _, c := range []struct {
		in   float64
		want abeam.Bearing
	}{
		{0, 0}, {minusZero, 0}, {360, 0}, {-360, 0}, {720, 0}, {-720, 0},
		{70, 70}, {359.5, 359.5}, {360.5, 0.5}, {-0.5, 359.5}, {-90, 270}, {450, 90}, {-180, 180},
		{1e-20, 1e-20}, {-1e-20, 0}, // 360 - 1e-20 is 360 in floating point
		{above(0), math.SmallestNonzeroFloat64}, {below(0), 0},
		// The step of float64 between 256 and 512 is 2^-44.
		{below(360), abeam.Bearing(360 - math.Ldexp(1, -44))}, {above(360), abeam.Bearing(math.Ldexp(1, -44))},
		{above(-360), abeam.Bearing(math.Ldexp(1, -44))}, {below(-360), abeam.Bearing(360 - math.Ldexp(1, -44))},
		{below(180), abeam.Bearing(180 - math.Ldexp(1, -45))}, {above(180), abeam.Bearing(180 + math.Ldexp(1, -45))},
		// Powers of ten from 1000 on are 280 modulo 360, and 10^22 is exact.
		{1e17, 280}, {-1e17, 80}, {1e22, 280},
		// 2^1023 is 0 modulo 8 and, as 2^12 is 1 modulo 45, 8 modulo 45.
		{math.Ldexp(1, 1023), 8}, {-math.Ldexp(1, 1023), 352},
	} {
		if got := abeam.NewBearing(c.in); !same(got, c.want) {
			t.Errorf("NewBearing(%v) = %v, want %v", c.in, float64(got), float64(c.want))
		}
	}
	for _, x := range []float64{nan, inf, -inf} {
		if got := float64(abeam.NewBearing(x)); !math.IsNaN(got) {
			t.Errorf("NewBearing(%v) = %v, want NaN", x, got)
		}
	}
}

// wholeTurns fails unless x and reduced differ by a whole number of turns, to the
// rounding of one sum near 360. It works in rational numbers, which do not round.
func wholeTurns(t *rapid.T, x, reduced float64) {
	turns := new(big.Rat).SetFloat64(x)
	turns.Sub(turns, new(big.Rat).SetFloat64(reduced))
	turns.Quo(turns, big.NewRat(360, 1))
	// The nearest whole number is floor(turns + 1/2); big.Int.Div floors.
	twice := new(big.Int).Add(new(big.Int).Lsh(turns.Num(), 1), turns.Denom())
	whole := new(big.Int).Div(twice, new(big.Int).Lsh(turns.Denom(), 1))
	rest, _ := turns.Sub(turns, new(big.Rat).SetInt(whole)).Float64()
	if math.Abs(rest)*360 > math.Ldexp(1, -45) {
		t.Fatalf("%v became %v, off by %g degrees", x, reduced, rest*360)
	}
}

func TestNewBearingRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := draw.Angle().Draw(t, "x")
		b := float64(abeam.NewBearing(x))
		if !(b >= 0 && b < 360) || math.Signbit(b) {
			t.Fatalf("NewBearing(%v) = %v, outside [0, 360)", x, b)
		}
		if x >= 0 && x < 360 && b != x {
			t.Fatalf("NewBearing(%v) = %v, was in range already", x, b)
		}
		wholeTurns(t, x, b)
	})
}

func TestBearingSub(t *testing.T) {
	for _, c := range []struct {
		b, from abeam.Bearing
		want    abeam.Degrees
	}{
		{10, 350, 20}, {350, 10, -20}, {90, 90, 0}, {0, 0, 0}, {360, 0, 0}, {0, 360, 0},
		{180, 0, 180}, {0, 180, 180}, {270, 90, 180}, {90, 270, 180},
		{0.25, 180, -179.75}, {180.25, 0, -179.75}, {179.75, 0, 179.75},
		{-10, 10, -20}, {400, 10, 30}, // a conversion that was never reduced
	} {
		if got := c.b.Sub(c.from); !same(got, c.want) {
			t.Errorf("%v.Sub(%v) = %v, want %v", float64(c.b), float64(c.from), got, c.want)
		}
	}
	for _, bad := range []float64{nan, inf, -inf} {
		b := abeam.Bearing(bad)
		for _, got := range []float64{float64(b.Sub(0)), float64(abeam.Bearing(0).Sub(b)), float64(b.Add(10)),
			float64(abeam.Bearing(10).Add(abeam.Degrees(bad))), float64(b.Reciprocal())} {
			if !math.IsNaN(got) {
				t.Errorf("arithmetic on %v gave %v, want NaN", bad, got)
			}
		}
	}
}

func TestBearingAdd(t *testing.T) {
	for _, c := range []struct {
		b    abeam.Bearing
		d    abeam.Degrees
		want abeam.Bearing
	}{
		{350, 20, 10}, {10, -20, 350}, {0, -0.5, 359.5}, {180, 180, 0}, {270, 90, 0}, {90, 0, 90},
		{90, -90, 0}, {0, -1e-20, 0}, {10, 720, 10}, {10, -1080, 10},
	} {
		if got := c.b.Add(c.d); !same(got, c.want) {
			t.Errorf("%v.Add(%v) = %v, want %v", c.b, c.d, got, c.want)
		}
	}
}

func TestBearingArithmetic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := draw.Bearing().Draw(t, "a"), draw.Bearing().Draw(t, "b")
		d := b.Sub(a)
		if !(d > -180 && d <= 180) {
			t.Fatalf("%v.Sub(%v) = %v, outside (-180, 180]", b, a, d)
		}
		if back := a.Sub(b); d != 180 && back != -d || d == 180 && back != 180 {
			t.Fatalf("there is %v, back is %v", d, back)
		}
		// Two roundings near 360, of 2^-45 each.
		if got := a.Add(d); !near.Angle(got, b, math.Ldexp(1, -44)) {
			t.Fatalf("%v turned by %v is %v, want %v", a, d, got, b)
		}
		if got := a.Add(d).Sub(a); !near.Angle(got, d, math.Ldexp(1, -43)) {
			t.Fatalf("turned by %v, counted %v", d, got)
		}
		if got := a.Reciprocal().Reciprocal(); !near.Angle(got, a, math.Ldexp(1, -44)) {
			t.Fatalf("the reciprocal of the reciprocal of %v is %v", a, got)
		}
		if got := a.Reciprocal().Sub(a).Rounded(); got != 180 {
			t.Fatalf("%v and its reciprocal differ by %v", a, got)
		}
	})
}

// Quarters of a degree are binary fractions: nothing may be lost on them.
func TestBearingArithmeticIsExactOnQuarters(t *testing.T) {
	for i := range 4 * 360 {
		a := abeam.Bearing(float64(i) / 4)
		if got := a.Reciprocal().Reciprocal(); got != a {
			t.Errorf("the reciprocal of the reciprocal of %v is %v", a, got)
		}
		if got := a.Reciprocal().Sub(a); got != 180 {
			t.Errorf("%v and its reciprocal differ by %v", a, got)
		}
		for j := 0; j < 4*360; j += 7 {
			b := abeam.Bearing(float64(j) / 4)
			if got := a.Add(b.Sub(a)); got != b {
				t.Errorf("%v turned by %v is %v, want %v", a, b.Sub(a), got, b)
			}
		}
	}
}

func TestThreeFigures(t *testing.T) {
	for _, c := range []struct {
		in   abeam.Bearing
		want string
	}{
		{0, "360"}, {360, "360"}, {0.4, "360"}, {359.5, "360"}, {359.4, "359"}, {abeam.Bearing(below(360)), "360"},
		{1, "001"}, {7.2, "007"}, {70, "070"}, {99.6, "100"}, {270, "270"}, {-10, "350"}, {730, "010"},
		{abeam.Bearing(nan), "NaN"}, {abeam.Bearing(inf), "NaN"},
	} {
		if got := c.in.ThreeFigures(); got != c.want {
			t.Errorf("Bearing(%v).ThreeFigures() = %q, want %q", float64(c.in), got, c.want)
		}
	}
}

func TestParseBearing(t *testing.T) {
	for _, c := range []struct {
		in   string
		want abeam.Bearing
	}{
		{"070", 70}, {"070°", 70}, {"70.5°", 70.5}, {"7", 7}, {" 090 ", 90}, {"090 °", 90}, {"0090", 90},
		{"360", 0}, {"360°", 0}, {"000", 0}, {"0", 0}, {"-0", 0}, {"360.0", 0},
		{"359.99999999999994", abeam.Bearing(below(360))},
	} {
		got, err := abeam.ParseBearing(c.in)
		if err != nil || !same(got, c.want) {
			t.Errorf("ParseBearing(%q) = %v, %v, want %v", c.in, got, err, c.want)
		}
	}
}

func TestBearingString(t *testing.T) {
	for _, c := range []struct {
		in   abeam.Bearing
		want string
	}{
		{0, "360°"}, {360, "360°"}, {abeam.Bearing(minusZero), "360°"}, {7, "007°"}, {0.5, "000.5°"}, {9.75, "009.75°"}, {10, "010°"}, {70, "070°"},
		{70.5, "070.5°"}, {99.5, "099.5°"}, {100, "100°"}, {270.25, "270.25°"}, {-10, "350°"},
		{abeam.Bearing(nan), "NaN°"}, {abeam.Bearing(inf), "+Inf°"},
	} {
		if got := c.in.String(); got != c.want {
			t.Errorf("Bearing(%v).String() = %q, want %q", float64(c.in), got, c.want)
		}
	}
}
