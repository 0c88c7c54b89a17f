package wind_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

// Each conversion undoes its opposite, from walking pace to the edge of Mach 1.
func TestAirspeedsRoundTrip(t *testing.T) {
	const tol = 1e-9
	rapid.Check(t, func(t *rapid.T) {
		air := drawAir(t)
		// Just below Mach 1 rounding may carry a speed over the limit, and below
		// sea level CAS ends before Mach does.
		m := wind.Mach(draw.Uniform(1e-3, 0.95).Draw(t, "Mach"))
		tas, err1 := air.TASFromMach(m)
		eas, err2 := air.EASFromMach(m)
		cas, err3 := air.CASFromMach(m)
		if air.PressureRatio() > 1 && errors.Is(err3, abeam.ErrInvalid) {
			t.Skip("CAS beyond sound at sea level")
		}
		if err := errors.Join(err1, err2, err3); err != nil {
			t.Fatal(err)
		}
		same(t, "TAS from CAS", tas, tol)(air.TASFromCAS(cas))
		same(t, "TAS from EAS", tas, tol)(air.TASFromEAS(eas))
		same(t, "EAS from CAS", eas, tol)(air.EASFromCAS(cas))
		same(t, "EAS from TAS", eas, tol)(air.EASFromTAS(tas))
		same(t, "CAS from EAS", cas, tol)(air.CASFromEAS(eas))
		same(t, "CAS from TAS", cas, tol)(air.CASFromTAS(tas))
		same(t, "Mach from CAS", m, tol)(air.MachFromCAS(cas))
		same(t, "Mach from EAS", m, tol)(air.MachFromEAS(eas))
		same(t, "Mach from TAS", m, tol)(air.MachFromTAS(tas))
	})
}

func same[T ~float64](t *rapid.T, what string, want T, tol float64) func(T, error) {
	t.Helper()
	return func(got T, err error) {
		t.Helper()
		if err != nil || !near.Relative(got, want, tol) {
			t.Errorf("%s: got %v, %v; want %v", what, float64(got), err, float64(want))
		}
	}
}

// At sea level on a standard day calibrated, equivalent and true airspeed are one.
func TestAirspeedsAgreeAtSeaLevel(t *testing.T) {
	air := standardAir(t, 0, 0)
	for cas := abeam.Knots(0); cas < 661; cas += 10 {
		tas, err1 := air.TASFromCAS(cas)
		eas, err2 := air.EASFromCAS(cas)
		if err1 != nil || err2 != nil || !near.Relative(tas, cas, 1e-13) || !near.Relative(eas, cas, 1e-13) {
			t.Errorf("CAS %v: TAS %v, %v, EAS %v, %v", cas, tas, err1, eas, err2)
		}
	}
}

func TestAirspeedsAtTheEdges(t *testing.T) {
	air := standardAir(t, 35_000, 0)
	below, deep := math.Nextafter(1, 0), standardAir(t, -5_000, 0)
	for _, c := range []struct {
		name string
		got  answer
		want float64
		ok   bool
	}{
		{"CAS 0", raw(air.TASFromCAS(0)), 0, true},
		{"CAS -0", raw(air.TASFromCAS(abeam.Knots(math.Copysign(0, -1)))), 0, true},
		{"CAS a hair", raw(air.EASFromCAS(1e-9)), 1e-9, true},
		{"CAS negative", raw(air.TASFromCAS(-1)), 0, false},
		{"CAS NaN", raw(air.MachFromCAS(abeam.Knots(math.NaN()))), 0, false},
		{"CAS infinite", raw(air.EASFromCAS(abeam.Knots(math.Inf(1)))), 0, false},
		{"CAS of sound at sea level", raw(air.TASFromCAS(661.479)), 0, false},
		{"CAS beyond Mach 1 up here", raw(air.TASFromCAS(351)), 0, false},
		{"EAS beyond Mach 1", raw(air.TASFromEAS(400)), 0, false},
		{"TAS of sound", raw(air.CASFromTAS(air.SpeedOfSound())), 0, false},
		{"TAS NaN", raw(air.EASFromTAS(abeam.Knots(math.NaN()))), 0, false},
		{"EAS NaN", raw(air.CASFromEAS(abeam.Knots(math.NaN()))), 0, false},
		{"Mach 1", raw(air.TASFromMach(1)), 0, false},
		{"Mach NaN", raw(air.EASFromMach(wind.Mach(math.NaN()))), 0, false},
		{"Mach just below 1", raw(air.TASFromMach(wind.Mach(below))), float64(air.SpeedOfSound()), true},
		{"Mach just below 1 below sea level", raw(deep.CASFromMach(wind.Mach(below))), 0, false},
		{"zero Air", raw(wind.Air{}.TASFromCAS(100)), 0, false},
		{"zero Air, Mach", raw(wind.Air{}.CASFromMach(0)), 0, false},
	} {
		got, err := c.got.value, c.got.err
		if (err == nil) != c.ok || !near.Relative(got, c.want, 1e-12) {
			t.Errorf("%s: got %v, %v; want %v", c.name, got, err, c.want)
		}
		var field *abeam.FieldError
		if !c.ok && (!errors.As(err, &field) || !errors.Is(err, abeam.ErrInvalid) || !strings.HasPrefix(field.Op, "wind.Air.")) {
			t.Errorf("%s: error %v", c.name, err)
		}
	}
}

// answer is a result of any type with its error.
type answer struct {
	value float64
	err   error
}

func raw[T ~float64](v T, err error) answer { return answer{float64(v), err} }

func TestAirspeedsAllocateNothing(t *testing.T) {
	air := standardAir(t, 20_000, 5)
	n := testing.AllocsPerRun(100, func() {
		tas, _ := air.TASFromCAS(250)
		eas, _ := air.EASFromTAS(tas)
		m, _ := air.MachFromEAS(eas)
		_, _ = air.CASFromMach(m)
		_, _ = air.DensityAltitude()
		_, _ = wind.StandardAir(31_000, -3)
		_, _ = wind.MeasuredAir(31_000, -50)
		_, _ = wind.DesignTAS(200, 6_000, 15)
	})
	if n != 0 {
		t.Errorf("%v allocations", n)
	}
}

// The inverse of the design factor is the root of the density ratio, but for its
// rounded constants.
func TestDesignFactorIsTheRootOfTheDensityRatio(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		altitude := abeam.Feet(draw.Uniform(0, 36_000).Draw(t, "altitude"))
		deviation := wind.Deviation(draw.Uniform(-20, 30).Draw(t, "deviation"))
		air, err := wind.StandardAir(altitude, deviation)
		if err != nil {
			t.Fatal(err)
		}
		k, err := wind.DesignFactor(altitude, deviation)
		if err != nil || !near.Relative(k, 1/math.Sqrt(air.DensityRatio()), 1e-3) {
			t.Errorf("got %v, %v; want %v", k, err, 1/math.Sqrt(air.DensityRatio()))
		}
	})
	for _, bad := range []abeam.Feet{abeam.Feet(math.NaN()), -5_001, 65_618} {
		if k, err := wind.DesignFactor(bad, 0); k != 0 || !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("altitude %v: %v, %v", bad, k, err)
		}
	}
	if v, err := wind.DesignTAS(0, 0, 0); v != 0 || !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("IAS 0: %v, %v", v, err)
	}
	if v, err := wind.DesignTAS(200, 0, 81); v != 0 || !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("deviation 81: %v, %v", v, err)
	}
}
