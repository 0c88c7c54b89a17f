package wind_test

import (
	"errors"
	"math"
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/wind"
)

// anyFloat draws what callers should not pass, and what they should.
func anyFloat() *rapid.Generator[float64] {
	return rapid.OneOf(
		rapid.SampledFrom([]float64{0, math.Copysign(0, -1), nan, inf, -inf, 1, -1, 90, 180, 360, -360, 400, 800, 1200, 1e300, -1e300,
			math.MaxFloat64, math.SmallestNonzeroFloat64, 65_617, -5_000, 1e-9, 661.4788}),
		rapid.Float64(),
		draw.Uniform(-1_000, 1_000),
	)
}

// For any input nothing panics; with an error, which is a FieldError of a known kind,
// the result is zero, and without one every number in it is finite.
func TestAnyInput(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string) float64 { return anyFloat().Draw(t, name) }
		kt := func(name string) abeam.Knots { return abeam.Knots(f(name)) }
		deg := func(name string) abeam.Degrees { return abeam.Degrees(f(name)) }
		brg := func(name string) abeam.Bearing { return abeam.Bearing(f(name)) }
		w := wind.Wind{From: brg("from"), Speed: kt("wind")}
		a, b, v, g := brg("a"), brg("b"), kt("TAS"), kt("groundspeed")
		h := abeam.Feet(f("altitude"))
		sound(t)(wind.New(w.From, w.Speed))
		sound(t)(wind.SolveHeading(a, v, w))
		sound(t)(wind.SolveTrack(a, v, w))
		sound(t)(wind.SolveWind(a, g, b, v))
		sound(t)(wind.SolveTAS(a, g, w))
		sound(t)(wind.SolveTASOnHeading(a, g, w))
		sound(t)(wind.SolveSpeeds(a, b, w))
		sound(t)(wind.WindFromDrifts(v, wind.DriftSight{Heading: a, Drift: deg("drift1")}, wind.DriftSight{Heading: b, Drift: deg("drift2")}))
		sound(t)(wind.WindFromLap(a, wind.Lap{
			TAS: v, Rate: deg("rate"), Correction: deg("correction"), Reversed: rapid.Bool().Draw(t, "reversed"),
			Outbound: time.Duration(rapid.Int64().Draw(t, "outbound")), Inbound: time.Duration(rapid.Int64Range(-1, 1e12).Draw(t, "inbound")),
		}))
		courses, err := wind.CoursesMadeGood(v, w)
		sound(t)(courses, err)
		_ = courses.Check(a)
		sound(t)(wind.MaxDrift(v, w.Speed))
		sound(t)(wind.MaxDriftRule(v, w.Speed))
		sound(t)(wind.OneInSixty(abeam.NM(f("off")), abeam.NM(f("along"))))
		sound(t)(wind.ClockCode(abeam.Degrees(a)))
		sound(t)(wind.Sixths(abeam.Degrees(a)))
		sound(t)(wind.AnglePlus20(abeam.Degrees(a)))
		sound(t)(wind.OmnidirectionalWind(h))
		sound(t)(wind.OmnidirectionalWindSI(h))
		sound(t)(wind.DesignFactor(h, wind.Deviation(f("deviation"))))
		sound(t)(wind.DesignTAS(v, h, wind.Deviation(f("deviation"))))
		sound(t)(wind.Reported{Wind: w, North: abeam.True}.In(abeam.Magnetic, abeam.Variation(f("variation"))))
		profile, err := wind.NewProfile(wind.Level{Altitude: h, Wind: w}, wind.Level{Altitude: 10_000, Wind: wind.Wind{Speed: 20}})
		sound(t)(profile, err)
		sound(t)(profile.At(abeam.Feet(f("at"))))
		sound(t)(wind.DecodeAloftGroup("2435", h))
		measured, err := wind.MeasuredAir(h, wind.Celsius(f("temperature")))
		sound(t)(measured, err)
		air, err := wind.StandardAir(h, wind.Deviation(f("deviation")))
		sound(t)(air, err)
		for _, air := range []wind.Air{air, measured} {
			m := wind.Mach(f("Mach"))
			sound(t)(air.DensityAltitude())
			sound(t)(air.TASFromCAS(v))
			sound(t)(air.TASFromEAS(v))
			sound(t)(air.TASFromMach(m))
			sound(t)(air.CASFromTAS(v))
			sound(t)(air.CASFromEAS(v))
			sound(t)(air.CASFromMach(m))
			sound(t)(air.EASFromCAS(v))
			sound(t)(air.EASFromTAS(v))
			sound(t)(air.EASFromMach(m))
			sound(t)(air.MachFromCAS(v))
			sound(t)(air.MachFromTAS(v))
			sound(t)(air.MachFromEAS(v))
		}
	})
}

func sound(t *rapid.T) func(result any, err error) {
	t.Helper()
	return func(result any, err error) {
		t.Helper()
		v := reflect.ValueOf(result)
		if err == nil {
			if !finite(v) {
				t.Errorf("%+v", result)
			}
			return
		}
		var field *abeam.FieldError
		if !errors.As(err, &field) || !errors.Is(err, abeam.ErrInvalid) && !errors.Is(err, abeam.ErrUnflyable) {
			t.Errorf("error %v", err)
		}
		if !v.IsZero() {
			t.Errorf("%+v beside %v", result, err)
		}
	}
}

// finite looks at every number in a value.
func finite(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Float64:
		return !math.IsNaN(v.Float()) && !math.IsInf(v.Float(), 0)
	case reflect.Struct:
		for i := range v.NumField() {
			if !finite(v.Field(i)) {
				return false
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			if !finite(v.Index(i)) {
				return false
			}
		}
	}
	return true
}
