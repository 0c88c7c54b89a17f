package draw

import (
	"math"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
)

// Finite draws any finite float64 there is, by its bits: subnormal and huge values
// are as likely as those between.
func Finite() *rapid.Generator[float64] {
	return rapid.Map(rapid.Uint64Range(0, math.MaxUint64), func(bits uint64) float64 {
		x := math.Float64frombits(bits)
		if math.IsNaN(x) || math.IsInf(x, 0) {
			x = math.Float64frombits(bits &^ (1 << 62)) // the exponent is no longer all ones
		}
		return x
	})
}

// Angle draws finite angles in degrees that need not be reduced: the half turns and
// zero with their neighbours on both sides, tenths over three turns, and any finite
// value.
func Angle() *rapid.Generator[float64] {
	return rapid.OneOf(
		rapid.Custom(func(t *rapid.T) float64 {
			x := 180 * float64(Whole(-4, 4).Draw(t, "half turns"))
			towards := rapid.SampledFrom([]float64{x, math.Inf(1), math.Inf(-1)}).Draw(t, "towards")
			return math.Nextafter(x, towards)
		}),
		rapid.SampledFrom([]float64{math.Copysign(0, -1), 1e-20, -1e-20, math.MaxFloat64, -math.MaxFloat64}),
		rapid.Map(Whole(-10_800, 10_800), func(i int) float64 { return float64(i) / 10 }),
		Uniform(-1080, 1080),
		Finite(),
	)
}

// Degrees draws signed differences in (-180, 180].
func Degrees() *rapid.Generator[abeam.Degrees] {
	return rapid.Map(Angle(), abeam.NewDegrees)
}

// Variation draws variations from -180 to 180, mostly of the size that occurs.
func Variation() *rapid.Generator[abeam.Variation] {
	return rapid.Map(rapid.OneOf(
		rapid.SampledFrom([]float64{0, 1e-300, -1e-300, 0.5, -0.5}),
		Uniform(-30, 30),
		Uniform(-180, 180),
	), func(x float64) abeam.Variation { return abeam.Variation(x) })
}
