// Package draw makes the inputs of property tests. rapid's own ranges, of floats and of
// integers, crowd towards their lower end: of the integers from 0 to a million, four in five
// are below a tenth of it. These are spread evenly and come back to the places where a formula
// may break.
package draw

import (
	"math"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/wind"
)

// Uniform spreads evenly over [lo, hi] in a million steps, both ends included and drawn more
// often than the rest.
func Uniform(lo, hi float64) *rapid.Generator[float64] {
	// Within one power of two rapid draws the digits of a float evenly; only the powers
	// are crowded.
	return rapid.Map(rapid.Float64Range(1, math.Nextafter(2, 1)), func(x float64) float64 {
		return lo + (hi-lo)*(math.Round((x-1)*1e6)/1e6)
	})
}

// Whole spreads evenly over the integers from lo to hi.
func Whole(lo, hi int) *rapid.Generator[int] {
	return rapid.Map(Uniform(float64(lo), float64(hi)), func(x float64) int { return int(math.Round(x)) })
}

// Bearing draws quarter turns, sector edges with their neighbours, whole degrees,
// tenths, and anything between.
func Bearing() *rapid.Generator[abeam.Bearing] {
	return rapid.OneOf(
		rapid.SampledFrom([]abeam.Bearing{0, 90, 180, 270, 45, 135, 225, 315, 70, 110, 250, 290, 1e-9, 360 - 1e-9}),
		rapid.Map(Whole(0, 359), func(i int) abeam.Bearing { return abeam.Bearing(i) }),
		rapid.Map(Whole(0, 3599), func(i int) abeam.Bearing { return abeam.Bearing(float64(i) / 10) }),
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
