package verification

import (
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/wind"
)

var airFigures = map[string]Figure{
	"airspeed: TAS from CAS":  convert("cas", wind.Air.TASFromCAS),
	"airspeed: TAS from EAS":  convert("eas", wind.Air.TASFromEAS),
	"airspeed: TAS from Mach": convert("mach", wind.Air.TASFromMach),
	"airspeed: CAS from TAS":  convert("tas", wind.Air.CASFromTAS),
	"airspeed: CAS from EAS":  convert("eas", wind.Air.CASFromEAS),
	"airspeed: CAS from Mach": convert("mach", wind.Air.CASFromMach),
	"airspeed: EAS from CAS":  convert("cas", wind.Air.EASFromCAS),
	"airspeed: EAS from TAS":  convert("tas", wind.Air.EASFromTAS),
	"airspeed: EAS from Mach": convert("mach", wind.Air.EASFromMach),
	"airspeed: Mach from CAS": convert("cas", wind.Air.MachFromCAS),
	"airspeed: Mach from TAS": convert("tas", wind.Air.MachFromTAS),
	"airspeed: Mach from EAS": convert("eas", wind.Air.MachFromEAS),

	"airspeed: design factor": func(in *Reader) (Value, error) {
		k, err := wind.DesignFactor(in.altitude(), wind.Deviation(in.Num("deviation")))
		return number(k), err
	},
	"airspeed: design TAS": func(in *Reader) (Value, error) {
		tas, err := wind.DesignTAS(abeam.Knots(in.Num("ias")), in.altitude(), wind.Deviation(in.Num("deviation")))
		return number(tas), err
	},
	"airspeed: design TAS in km/h": func(in *Reader) (Value, error) {
		tas, err := wind.DesignTAS(abeam.Knots(in.Num("ias_kmh")/kmhPerKnot), in.altitude(), wind.Deviation(in.Num("deviation")))
		return number(tas * kmhPerKnot), err
	},
	"atmosphere: temperature":    ofAir(func(a wind.Air) float64 { return float64(a.Temperature()) }),
	"atmosphere: pressure":       ofAir(func(a wind.Air) float64 { return float64(a.Pressure()) }),
	"atmosphere: density":        ofAir(wind.Air.Density),
	"atmosphere: speed of sound": ofAir(func(a wind.Air) float64 { return float64(a.SpeedOfSound()) }),

	"atmosphere: temperature ratio":         ofAir(wind.Air.TemperatureRatio),
	"atmosphere: pressure ratio":            ofAir(wind.Air.PressureRatio),
	"atmosphere: density ratio":             ofAir(wind.Air.DensityRatio),
	"atmosphere: root of the density ratio": ofAir(func(a wind.Air) float64 { return math.Sqrt(a.DensityRatio()) }),
	"atmosphere: TAS over EAS": func(in *Reader) (Value, error) {
		air, err := in.air()
		if err != nil {
			return Value{}, err
		}
		tas, err := air.TASFromEAS(100)
		return number(tas / 100), err
	},
	"atmosphere: density altitude": func(in *Reader) (Value, error) {
		air, err := in.air()
		if err != nil {
			return Value{}, err
		}
		altitude, err := air.DensityAltitude()
		return number(altitude), err
	},
}

const kmhPerKnot = abeam.MetresPerNM / 1000.0

// altitude is given in feet, or in metres where the source has metres.
func (r *Reader) altitude() abeam.Feet {
	if r.Inputs.Has("altitude_m") {
		return abeam.Feet(r.Num("altitude_m") / 0.3048)
	}
	return abeam.Feet(r.Num("altitude"))
}

// air is standard unless the row gives an outside air temperature or a deviation.
func (r *Reader) air() (wind.Air, error) {
	if r.Inputs.Has("oat") {
		return wind.MeasuredAir(r.altitude(), wind.Celsius(r.Num("oat")))
	}
	return wind.StandardAir(r.altitude(), wind.Deviation(r.Or("deviation", 0)))
}

func ofAir(property func(wind.Air) float64) Figure {
	return func(in *Reader) (Value, error) {
		air, err := in.air()
		if err != nil {
			return Value{}, err
		}
		return number(property(air)), nil
	}
}

func convert[In, Out ~float64](key string, law func(wind.Air, In) (Out, error)) Figure {
	return func(in *Reader) (Value, error) {
		air, err := in.air()
		if err != nil {
			return Value{}, err
		}
		out, err := law(air, In(in.Num(key)))
		return number(out), err
	}
}
