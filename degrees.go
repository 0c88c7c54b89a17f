package abeam

import "math"

// Degrees is a signed angle, a difference of two directions: positive clockwise
// (to the right), in (-180, 180]. The zero value is no difference.
//
// Where a quantity can exceed half a turn (the angle of a 210 degree turn) its
// documentation says so; such a value is not reduced.
type Degrees float64

// NewDegrees reduces any finite angle to (-180, 180]. An angle already in range
// is returned exactly; -180 becomes 180 and -0 becomes 0. NaN and infinities give
// NaN.
func NewDegrees(deg float64) Degrees {
	if deg > -180 && deg <= 180 {
		return Degrees(deg + 0) // + 0: no difference has no sign
	}
	return reduceDegrees(deg)
}

func reduceDegrees(deg float64) Degrees {
	r := deg - math.Copysign(360, deg) // exact, and the common case: a difference of two directions
	if !(math.Abs(deg) < 540) {
		r = math.Remainder(deg, 360) // exact, in [-180, 180]
	}
	if r == -180 {
		r = 180
	}
	return Degrees(r + 0)
}

// Quantum is the step, in degrees, to which an angle is rounded before a
// decision is taken at an edge. It is far below anything flown and far above the
// rounding of a difference of two bearings (6e-14).
const Quantum Degrees = 1e-9

// Rounded reduces d as [NewDegrees] does and gives it to the nearest [Quantum], 180
// for -180 and 0 for -0. Tenths and hundredths of a degree that are exact in decimal
// land exactly on an edge.
func (d Degrees) Rounded() Degrees {
	return NewDegrees(math.Round(float64(NewDegrees(float64(d)))*1e9) / 1e9)
}

// Abs is the size of the angle without its side.
func (d Degrees) Abs() Degrees { return Degrees(math.Abs(float64(d))) }

// String gives d exactly, with a degree sign.
func (d Degrees) String() string { return formatNumber(float64(d), "°") }

// AppendText appends the form of [Degrees.String]; see [encoding.TextAppender].
// It fails with [ErrInvalid] on NaN and infinities.
func (d Degrees) AppendText(dst []byte) ([]byte, error) {
	return appendFinite(dst, "abeam.Degrees.AppendText", "angle", float64(d), "°")
}

// MarshalText is AppendText on an empty slice.
func (d Degrees) MarshalText() ([]byte, error) { return d.AppendText(nil) }

// UnmarshalText reads a finite decimal number with or without a degree sign. It
// does not reduce: what was written is what is read.
func (d *Degrees) UnmarshalText(text []byte) error {
	return unmarshalNumber(d, "abeam.Degrees.UnmarshalText", "angle", text, "°")
}
