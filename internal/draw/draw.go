// Package draw makes the inputs of property tests. rapid's own float ranges crowd
// towards their lower end and never hit 90 or 180; these are spread evenly and
// come back to the places where a formula may break.
package draw

import (
	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/wind"
)

// Uniform spreads evenly over [lo, hi] in a million steps, both ends included.
func Uniform(lo, hi float64) *rapid.Generator[float64] {
	return rapid.Map(rapid.IntRange(0, 1_000_000), func(i int) float64 {
		return lo + (hi-lo)*(float64(i)/1e6)
	})
}

// Bearing draws quarter turns, sector edges with their neighbours, whole degrees,
// tenths, and anything between.
func Bearing() *rapid.Generator[abeam.Bearing] {
	return rapid.OneOf(
		rapid.SampledFrom([]abeam.Bearing{0, 90, 180, 270, 45, 135, 225, 315, 70, 110, 250, 290, 1e-9, 360 - 1e-9}),
		rapid.Map(rapid.IntRange(0, 359), func(i int) abeam.Bearing { return abeam.Bearing(i) }),
		rapid.Map(rapid.IntRange(0, 3599), func(i int) abeam.Bearing { return abeam.Bearing(float64(i) / 10) }),
		rapid.Map(Uniform(0, 360), abeam.NewBearing),
	)
}

// TAS draws true airspeeds from 60 to 500 kt.
func TAS() *rapid.Generator[abeam.Knots] {
	return rapid.Map(Uniform(60, 500), func(x float64) abeam.Knots { return abeam.Knots(x) })
}

// Wind draws winds of up to the given share of an airspeed, calm among them.
func Wind(tas abeam.Knots, share float64) *rapid.Generator[wind.Wind] {
	return rapid.Custom(func(t *rapid.T) wind.Wind {
		part := rapid.OneOf(rapid.SampledFrom([]float64{0, 1}), Uniform(0, 1)).Draw(t, "share")
		return wind.Wind{
			From:  Bearing().Draw(t, "from"),
			Speed: tas * abeam.Knots(share*part),
		}
	})
}
