package wind_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

// tropopause is 11 km in feet.
const tropopause abeam.Feet = 11_000 / 0.3048

func standardAir(t testing.TB, altitude abeam.Feet, deviation wind.Deviation) wind.Air {
	t.Helper()
	air, err := wind.StandardAir(altitude, deviation)
	if err != nil {
		t.Fatal(err)
	}
	return air
}

func drawAir(t *rapid.T) wind.Air {
	altitude := rapid.OneOf(
		rapid.SampledFrom([]float64{-5_000, 0, float64(tropopause), 65_617}),
		draw.Uniform(-5_000, 65_617),
	).Draw(t, "altitude")
	deviation := rapid.OneOf(rapid.Just(0.0), draw.Uniform(-40, 40)).Draw(t, "deviation")
	air, err := wind.StandardAir(abeam.Feet(altitude), wind.Deviation(deviation))
	if err != nil {
		t.Fatal(err)
	}
	return air
}

// The gas law and the definition of the ratios hold in every air.
func TestAirIsAGas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawAir(t)
		if p := a.Density() * 287.05287 * a.Temperature().Kelvin() / 100; !near.Relative(p, float64(a.Pressure()), 1e-6) {
			t.Errorf("pressure %v, from density and temperature %v", a.Pressure(), p)
		}
		if !near.Relative(a.DensityRatio()*a.TemperatureRatio(), a.PressureRatio(), 1e-12) {
			t.Errorf("ratios %v %v %v", a.TemperatureRatio(), a.PressureRatio(), a.DensityRatio())
		}
	})
}

func TestMeasuredAirIsStandardAirAtItsDeviation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := drawAir(t)
		got, err := wind.MeasuredAir(want.PressureAltitude(), want.Temperature())
		if err != nil {
			t.Fatal(err)
		}
		if !near.Equal(got.Deviation(), want.Deviation(), 1e-9) || !near.Relative(got.DensityRatio(), want.DensityRatio(), 1e-12) {
			t.Errorf("got %v %v, want %v %v", got.Deviation(), got.DensityRatio(), want.Deviation(), want.DensityRatio())
		}
	})
}

// On a standard day density altitude is pressure altitude; on any day the standard
// air at the density altitude has the density.
func TestDensityAltitudeHasTheDensity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawAir(t)
		h, err := a.DensityAltitude()
		if errors.Is(err, abeam.ErrInvalid) && a.Deviation() > 0 && a.PressureAltitude() > 50_000 {
			t.Skip("thinner than the top of the standard atmosphere")
		}
		if err != nil {
			t.Fatal(err)
		}
		if a.Deviation() == 0 && !near.Equal(h, a.PressureAltitude(), 1e-6) {
			t.Errorf("density altitude %v on a standard day at %v", h, a.PressureAltitude())
		}
		if h < wind.MinPressureAltitude {
			t.Skip("denser than the lowest standard air")
		}
		b, err := wind.StandardAir(h, 0)
		if err != nil || !near.Relative(b.DensityRatio(), a.DensityRatio(), 1e-9) {
			t.Errorf("density ratio %v at %v, %v; want %v", b.DensityRatio(), h, err, a.DensityRatio())
		}
	})
}

// The two layers meet at the tropopause without a step.
func TestTropopauseHasNoStep(t *testing.T) {
	below := standardAir(t, tropopause-1e-6, 0)
	above := standardAir(t, tropopause+1e-6, 0)
	if !near.Equal(below.Temperature(), above.Temperature(), 1e-8) || !near.Equal(below.Pressure(), above.Pressure(), 1e-7) {
		t.Errorf("below %v %v, above %v %v", below.Temperature(), below.Pressure(), above.Temperature(), above.Pressure())
	}
	for _, dev := range []wind.Deviation{0, 1e-9, -1e-9} {
		h, err := standardAir(t, tropopause, dev).DensityAltitude()
		if err != nil || !near.Equal(h, tropopause, 1e-3) {
			t.Errorf("density altitude of the tropopause at %v: %v, %v", dev, h, err)
		}
	}
}

func TestAirLimits(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, ok := range []abeam.Feet{-5_000, 0, tropopause, 65_617} {
		if _, err := wind.StandardAir(ok, 0); err != nil {
			t.Errorf("%v: %v", ok, err)
		}
	}
	for _, bad := range []float64{nan, inf, -inf, -5_000.1, 65_617.1} {
		if a, err := wind.StandardAir(abeam.Feet(bad), 0); a != (wind.Air{}) || !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("altitude %v: %v, %v", bad, a, err)
		}
		if a, err := wind.MeasuredAir(abeam.Feet(bad), 0); a != (wind.Air{}) || !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("measured at altitude %v: %v, %v", bad, a, err)
		}
	}
	for _, bad := range []float64{nan, inf, -inf, -80.1, 80.1} {
		if a, err := wind.StandardAir(0, wind.Deviation(bad)); a != (wind.Air{}) || !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("deviation %v: %v, %v", bad, a, err)
		}
		if a, err := wind.MeasuredAir(0, wind.Celsius(15+bad)); a != (wind.Air{}) || !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("temperature %v: %v, %v", 15+bad, a, err)
		}
	}
	if h, err := (wind.Air{}).DensityAltitude(); h != 0 || !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("zero Air: density altitude %v, %v", h, err)
	}
	if h, err := standardAir(t, 65_000, 40).DensityAltitude(); h != 0 || !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("hot at 65,000 ft: density altitude %v, %v", h, err)
	}
	if h, err := standardAir(t, 65_617, 0).DensityAltitude(); err != nil || !near.Equal(h, 65_617, 1e-6) {
		t.Errorf("top: density altitude %v, %v", h, err)
	}
}
