package wind

import (
	"fmt"
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// Limits of the air that is accepted.
const (
	// MinPressureAltitude is below every aerodrome, on the day of the highest
	// pressure too.
	MinPressureAltitude abeam.Feet = -5_000
	// MaxPressureAltitude is the top of the isothermal layer, 20 km of
	// geopotential altitude. It lies 6 cm below this whole foot.
	MaxPressureAltitude abeam.Feet = 65_617
	// MaxDeviation is the largest departure from the standard temperature, warm
	// or cold: wider than any climate, so that beyond it a unit is wrong.
	MaxDeviation Deviation = 80
)

// Air is the state of the air at a pressure altitude: the standard atmosphere's
// pressure, at the standard or another temperature. It converts between airspeeds.
//
// Make one with [StandardAir] or [MeasuredAir]. The zero Air is no air; its
// conversions fail with [abeam.ErrInvalid].
type Air struct {
	altitude  abeam.Feet
	deviation Deviation
	// Temperature, pressure and density as shares of the standard sea-level
	// values, and the roots that every conversion needs.
	theta, delta, sigma  float64
	rootTheta, rootDelta float64
}

// StandardAir gives the standard atmosphere at a pressure altitude, from
// [MinPressureAltitude] to [MaxPressureAltitude], with the temperature shifted by a
// deviation of at most [MaxDeviation] either way. Pressure altitude fixes the
// pressure; the deviation changes temperature, density and speed of sound only.
//
// Source: ISO 2533:1975: 15 °C and 1013.25 hPa at sea level, 6.5 °C less per
// kilometre up to 11 km (36,089.24 ft), -56.5 °C from there to 20 km. Altitudes are
// geopotential. Exact to rounding.
//
// Errors: [abeam.ErrInvalid] for input out of range.
func StandardAir(altitude abeam.Feet, deviation Deviation) (Air, error) {
	const op = "wind.StandardAir"
	if err := check.Within(op, "pressure altitude", altitude, MinPressureAltitude, MaxPressureAltitude); err != nil {
		return Air{}, err
	}
	if err := check.Within(op, "deviation", deviation, -MaxDeviation, MaxDeviation); err != nil {
		return Air{}, err
	}
	theta, delta := standard(altitude.Metres())
	return newAir(altitude, deviation, theta, delta), nil
}

// MeasuredAir is [StandardAir] for an outside air temperature: the static
// temperature, without the rise of a fast thermometer. It must be within
// [MaxDeviation] of the standard temperature.
//
// Errors: [abeam.ErrInvalid] for input out of range.
func MeasuredAir(altitude abeam.Feet, oat Celsius) (Air, error) {
	const op = "wind.MeasuredAir"
	if err := check.Within(op, "pressure altitude", altitude, MinPressureAltitude, MaxPressureAltitude); err != nil {
		return Air{}, err
	}
	theta, delta := standard(altitude.Metres())
	isa := Celsius(theta*seaLevelTemperature + absoluteZero)
	deviation := Deviation(oat - isa)
	if !(deviation >= -MaxDeviation && deviation <= MaxDeviation) {
		return Air{}, check.Invalid(op, "outside air temperature", oat,
			fmt.Sprintf("within %v degrees of the standard %.1f °C", float64(MaxDeviation), float64(isa)))
	}
	return newAir(altitude, deviation, theta, delta), nil
}

func newAir(altitude abeam.Feet, deviation Deviation, standardTheta, delta float64) Air {
	theta := standardTheta + float64(deviation)/seaLevelTemperature
	return Air{
		altitude: altitude, deviation: deviation,
		theta: theta, delta: delta, sigma: delta / theta,
		rootTheta: math.Sqrt(theta), rootDelta: math.Sqrt(delta),
	}
}

// PressureAltitude is the altitude in the standard atmosphere at which the pressure
// is the same.
func (a Air) PressureAltitude() abeam.Feet { return a.altitude }

// Deviation is the departure from the standard temperature.
func (a Air) Deviation() Deviation { return a.deviation }

// Temperature is the static air temperature.
func (a Air) Temperature() Celsius { return Celsius(a.theta*seaLevelTemperature + absoluteZero) }

// Pressure is the static pressure.
func (a Air) Pressure() Hectopascals { return Hectopascals(a.delta * seaLevelPressure) }

// Density is the density in kg/m³, of dry air.
func (a Air) Density() float64 { return a.sigma * seaLevelDensity }

// TemperatureRatio is theta, the absolute temperature as a share of the standard
// 288.15 K at sea level.
func (a Air) TemperatureRatio() float64 { return a.theta }

// PressureRatio is delta, the pressure as a share of 1013.25 hPa.
func (a Air) PressureRatio() float64 { return a.delta }

// DensityRatio is sigma = delta/theta, the density as a share of 1.225 kg/m³.
func (a Air) DensityRatio() float64 { return a.sigma }

// SpeedOfSound is 661.479 kt times the root of theta.
func (a Air) SpeedOfSound() abeam.Knots { return soundAtSeaLevel * abeam.Knots(a.rootTheta) }

func (a Air) validate(op string) error {
	if a.theta > 0 {
		return nil
	}
	return check.Invalid(op, "air", "the zero Air", "made by StandardAir or MeasuredAir")
}
