package angle_test

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/internal/near"
)

// pi to 70 decimals (from memory; TestOracle checks it by way of the series).
const pi = "3.1415926535897932384626433832795028841971693993751058209749445923078164"

const precision = 256

// exact gives sine and cosine of an angle in degrees by their power series in 256
// bits, without any reduction of the angle. Good to 1e-60 for |deg| up to 1100.
func exact(deg float64) (sin, cos *big.Float) {
	real := func(x float64) *big.Float { return new(big.Float).SetPrec(precision).SetFloat64(x) }
	x, _, err := big.ParseFloat(pi, 10, precision, big.ToNearestEven)
	if err != nil {
		panic(err)
	}
	x.Mul(x, real(deg)).Quo(x, real(180))
	sin, cos = real(0), real(0)
	term := real(1)
	for n := range 200 {
		switch n % 4 {
		case 0:
			cos.Add(cos, term)
		case 1:
			sin.Add(sin, term)
		case 2:
			cos.Sub(cos, term)
		case 3:
			sin.Sub(sin, term)
		}
		term.Mul(term, x).Quo(term, real(float64(n+1)))
	}
	return sin, cos
}

func off(got float64, want *big.Float) float64 {
	d := new(big.Float).SetPrec(precision).SetFloat64(got)
	f, _ := d.Sub(d, want).Float64()
	return math.Abs(f)
}

// The series is judged by angles whose sine and cosine are known.
func TestOracle(t *testing.T) {
	for _, deg := range []float64{0, 30, 150, -210, 750, 1050, -1050} {
		s, _ := exact(deg)
		want := map[float64]float64{0: 0, 30: 0.5, 150: 0.5, -210: 0.5, 750: 0.5, 1050: -0.5, -1050: 0.5}[deg]
		if d := off(want, s); d > 1e-50 {
			t.Errorf("the sine of %v is off by %g", deg, d)
		}
	}
	s, c := exact(123.456)
	one := new(big.Float).Add(s.Mul(s, s), c.Mul(c, c))
	if d := off(1, one); d > 1e-50 {
		t.Errorf("sin² + cos² is off by %g", d)
	}
}

func TestSincosAccuracy(t *testing.T) {
	angles := rapid.OneOf(
		draw.Uniform(-1080, 1080),
		draw.Uniform(-46, 46),
		rapid.Map(draw.Whole(-1080, 1080), func(i int) float64 { return float64(i) }),
		rapid.Map(draw.Uniform(-15, 3), func(e float64) float64 { return math.Pow(10, e) }),
	)
	rapid.Check(t, func(t *rapid.T) {
		deg := angles.Draw(t, "deg")
		s, c := angle.Sincos(deg)
		ws, wc := exact(deg)
		// The bound that Sincos documents.
		if ds, dc := off(s, ws), off(c, wc); ds > 3e-16 || dc > 3e-16 {
			t.Fatalf("Sincos(%v) = %v, %v, off by %g and %g", deg, s, c, ds, dc)
		}
	})
}

// A small angle must keep its digits, not just be near 0.
func TestSincosSmall(t *testing.T) {
	for _, deg := range []float64{1e-3, 1e-9, 1e-100, 1e-300} {
		want := deg / 180 * math.Pi * (1 - deg/180*math.Pi*deg/180*math.Pi/6)
		if s, c := angle.Sincos(deg); !near.Relative(s, want, 1e-15) || c > 1 || c < 1-1e-9 {
			t.Errorf("Sincos(%v) = %v, %v, want %v", deg, s, c, want)
		}
	}
}

func TestSincosQuarterTurns(t *testing.T) {
	sines := []float64{0, 1, 0, -1}
	for q := -12; q <= 12; q++ {
		s, c := angle.Sincos(float64(90 * q))
		ws, wc := sines[(q+12)%4], sines[(q+13)%4]
		if s != ws || c != wc || s == 0 && math.Signbit(s) || c == 0 && math.Signbit(c) {
			t.Errorf("Sincos(%d) = %v, %v, want %v, %v", 90*q, s, c, ws, wc)
		}
	}
	if s, c := angle.Sincos(math.Copysign(0, -1)); s != 0 || math.Signbit(s) || c != 1 {
		t.Errorf("Sincos(-0) = %v, %v", s, c)
	}
}

func TestSincosDiagonals(t *testing.T) {
	const half = math.Sqrt2 / 2
	for q := -12; q < 12; q++ {
		s, c := angle.Sincos(45 + 90*float64(q))
		ws := []float64{half, half, -half, -half}[(q+12)%4]
		wc := []float64{half, -half, -half, half}[(q+12)%4]
		if s != ws || c != wc {
			t.Errorf("Sincos(%d) = %v, %v, want %v, %v", 45+90*q, s, c, ws, wc)
		}
	}
}

func TestSincosSigns(t *testing.T) {
	for deg := -1079; deg < 1080; deg++ {
		if deg%90 == 0 {
			continue
		}
		s, c := angle.Sincos(float64(deg))
		in := ((deg % 360) + 360) % 360
		if (s > 0) != (in < 180) || (c > 0) != (in < 90 || in > 270) {
			t.Errorf("Sincos(%d) = %v, %v has the wrong sign", deg, s, c)
		}
	}
}

// Mirrored and turned angles give the same bits. Multiples of 2^-40 up to 720 add to
// and subtract from quarter turns without rounding.
func TestSincosSymmetry(t *testing.T) {
	beside := rapid.Custom(func(t *rapid.T) float64 { // next to the odd multiples of 45
		odd := 45 + 90*draw.Whole(-4, 3).Draw(t, "diagonal")
		return float64(odd) + math.Ldexp(float64(draw.Whole(-3, 3).Draw(t, "steps")), -40)
	})
	spread := rapid.Map(draw.Uniform(-360, 360), func(x float64) float64 { return math.Ldexp(math.Round(math.Ldexp(x, 40)), -40) })
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.OneOf(spread, beside, rapid.Map(draw.Whole(-1440, 1440), func(i int) float64 { return float64(i) / 4 })).Draw(t, "x")
		s, c := angle.Sincos(x)
		for _, m := range []struct {
			name     string
			deg      float64
			sin, cos float64
		}{
			{"-x", -x, -s, c}, {"180 - x", 180 - x, s, -c}, {"90 - x", 90 - x, c, s},
			{"x + 90", x + 90, c, -s}, {"x + 180", x + 180, -s, -c}, {"x - 360", x - 360, s, c}, {"x + 360", x + 360, s, c},
		} {
			if ms, mc := angle.Sincos(m.deg); ms != m.sin || mc != m.cos {
				t.Fatalf("%s: Sincos(%v) = %v, %v, but Sincos(%v) = %v, %v", m.name, m.deg, ms, mc, x, s, c)
			}
		}
	})
}

// The floating-point neighbours of the diagonals, on either side of which the
// reduction goes to different quarter turns.
func TestSincosBesideDiagonals(t *testing.T) {
	for _, d := range []float64{45, 135, 225, 315, 405, 495, 585, 675} {
		for _, x := range []float64{math.Nextafter(d, 0), math.Nextafter(d, 1e3)} {
			s, c := angle.Sincos(x)
			if ms, mc := angle.Sincos(-x); ms != -s || mc != c {
				t.Errorf("Sincos(%v) = %v, %v, but of its negative %v, %v", x, s, c, ms, mc)
			}
			ws, wc := exact(x)
			if off(s, ws) > 3e-16 || off(c, wc) > 3e-16 {
				t.Errorf("Sincos(%v) = %v, %v", x, s, c)
			}
		}
	}
}

func TestSincosHuge(t *testing.T) {
	// Modulo 360, 10^17 is 280 and 2^1023 is 8.
	for _, c := range []struct{ deg, small float64 }{{1e17, 280}, {-1e17, 80}, {math.Ldexp(1, 1023), 8}, {720.5, 0.5}, {-720.5, -0.5}} {
		s, co := angle.Sincos(c.deg)
		if ws, wc := angle.Sincos(c.small); s != ws || co != wc {
			t.Errorf("Sincos(%v) = %v, %v, want that of %v: %v, %v", c.deg, s, co, c.small, ws, wc)
		}
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if s, c := angle.Sincos(x); !math.IsNaN(s) || !math.IsNaN(c) {
			t.Errorf("Sincos(%v) = %v, %v, want NaN", x, s, c)
		}
	}
}

func TestAtan2(t *testing.T) {
	zero, inf := math.Copysign(0, -1), math.Inf(1)
	for _, c := range []struct{ y, x, want float64 }{
		{0, 1, 0}, {1, 0, 90}, {0, -1, 180}, {-1, 0, -90}, {zero, -1, 180}, {zero, 1, 0}, {1, zero, 90}, {-1, zero, -90},
		{0, 0, 0}, {zero, 0, 0}, {1e-300, 0, 90}, {0, -1e300, 180},
		{-1e-20, -1, 180}, {-math.SmallestNonzeroFloat64, -1, 180}, {1e-20, -1, 180}, // not -180
		{1, 1, 45}, {1, -1, 135}, {-1, -1, -135}, {-1, 1, -45}, {inf, 1, 90}, {1, inf, 0}, {-1, -inf, 180}, {inf, inf, 45}, {-inf, -inf, -135}, {3e-310, 3e-310, 45},
	} {
		if got := angle.Atan2(c.y, c.x); got != c.want || got == 0 && math.Signbit(got) {
			t.Errorf("Atan2(%v, %v) = %v, want %v", c.y, c.x, got, c.want)
		}
	}
	for _, c := range []struct{ y, x float64 }{{math.NaN(), 1}, {1, math.NaN()}} {
		if got := angle.Atan2(c.y, c.x); !math.IsNaN(got) {
			t.Errorf("Atan2(%v, %v) = %v, want NaN", c.y, c.x, got)
		}
	}
}

func TestAtan2Properties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		deg := float64(draw.Bearing().Draw(t, "deg"))
		scale := math.Pow(10, draw.Uniform(-100, 100).Draw(t, "scale"))
		s, c := angle.Sincos(deg)
		if got := angle.Atan2(scale*s, scale*c); !near.Angle(got, deg, 1e-13) || !(got > -180 && got <= 180) {
			t.Fatalf("the direction of Sincos(%v) is %v", deg, got)
		}
		y, x := draw.Finite().Draw(t, "y"), draw.Finite().Draw(t, "x")
		if got := angle.Atan2(y, x); !(got > -180 && got <= 180) {
			t.Fatalf("Atan2(%v, %v) = %v, outside (-180, 180]", y, x, got)
		}
	})
}

func TestAsinAcos(t *testing.T) {
	for _, c := range []struct{ x, asin, acos, tol float64 }{
		{0, 0, 90, 0}, {1, 90, 0, 0}, {-1, -90, 180, 0},
		{0.5, 30, 60, 2e-14}, {-0.5, -30, 120, 2e-14}, {math.Sqrt2 / 2, 45, 45, 2e-14}, {math.Sqrt(3) / 2, 60, 30, 3e-14},
	} {
		if got := angle.Asin(c.x); !near.Equal(got, c.asin, c.tol) {
			t.Errorf("Asin(%v) = %v, want %v", c.x, got, c.asin)
		}
		if got := angle.Acos(c.x); !near.Equal(got, c.acos, c.tol) {
			t.Errorf("Acos(%v) = %v, want %v", c.x, got, c.acos)
		}
	}
	for _, x := range []float64{math.Nextafter(1, 2), math.Nextafter(-1, -2), 7, math.Inf(1), math.Inf(-1), math.NaN()} {
		if a, b := angle.Asin(x), angle.Acos(x); !math.IsNaN(a) || !math.IsNaN(b) {
			t.Errorf("Asin(%v) = %v, Acos = %v, want NaN", x, a, b)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		x := draw.Uniform(-1, 1).Draw(t, "x")
		s, _ := angle.Sincos(angle.Asin(x))
		_, c := angle.Sincos(angle.Acos(x))
		if !near.Equal(s, x, 5e-16) || !near.Equal(c, x, 1e-15) || !near.Equal(angle.Asin(x)+angle.Acos(x), 90, 5e-14) {
			t.Fatalf("x = %v: sine of Asin %v, cosine of Acos %v, sum %v", x, s, c, angle.Asin(x)+angle.Acos(x))
		}
	})
}
