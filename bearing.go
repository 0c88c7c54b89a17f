package abeam

import (
	"fmt"
	"math"
)

// Bearing is a direction in degrees clockwise from north, in [0, 360). Which
// north is for the context to say. The zero Bearing is north.
//
// A conversion such as Bearing(x) does not reduce; [NewBearing] and every method
// do. NaN and infinities give NaN, which every function of the module rejects.
type Bearing float64

// NewBearing reduces any finite angle in degrees to [0, 360). The reduction of
// an angle already in range is exact; 360 and -0 become 0. NaN and infinities
// give NaN.
func NewBearing(deg float64) Bearing {
	if deg > 0 && deg < 360 {
		return Bearing(deg)
	}
	return reduceBearing(deg)
}

func reduceBearing(deg float64) Bearing {
	if deg >= 360 && deg < 720 {
		return Bearing(deg - 360) // exact, and the common case: a sum of two directions
	}
	r := math.Mod(deg, 360) // exact, with the sign of deg
	if math.Signbit(r) {
		r += 360
	}
	if r == 360 { // from -0, or from a tiny negative that rounded up
		return 0
	}
	return Bearing(r)
}

// Add turns b clockwise by d (anticlockwise when d is negative).
func (b Bearing) Add(d Degrees) Bearing { return NewBearing(float64(b) + float64(d)) }

// Sub is the signed difference b - from in (-180, 180]: how far to turn,
// positive to the right, from the direction from to the direction b.
func (b Bearing) Sub(from Bearing) Degrees { return NewDegrees(float64(b) - float64(from)) }

// Reciprocal is the opposite direction.
func (b Bearing) Reciprocal() Bearing { return b.Add(180) }

// ThreeFigures gives the nearest whole degree as it is spoken and set: three
// figures, north as 360. It is for reading; [Bearing.String] loses nothing.
func (b Bearing) ThreeFigures() string {
	r := math.Round(float64(NewBearing(float64(b))))
	if r == 0 {
		r = 360
	}
	return fmt.Sprintf("%03.0f", r)
}

// ParseBearing reads a bearing from 0 to 360 in decimal degrees, with or without
// leading zeros and a degree sign: "070", "70.5°", "360".
//
// Errors: a [*FieldError] wrapping [ErrInvalid] for anything else.
func ParseBearing(s string) (Bearing, error) {
	const op, limit = "abeam.ParseBearing", "a number from 0 to 360, in degrees"
	x, err := parseNumber(op, "bearing", s, limit, "°")
	if err != nil {
		return 0, err
	}
	if x < 0 || x > 360 {
		return 0, invalid(op, "bearing", given(s), limit)
	}
	return NewBearing(x), nil
}

// String gives b exactly, with at least three figures before the point and a
// degree sign; north is "360°".
func (b Bearing) String() string {
	text, _ := b.AppendText(nil)
	if text == nil {
		return formatNumber(float64(b), "°")
	}
	return string(text)
}

// AppendText appends the form of [Bearing.String]; see [encoding.TextAppender].
// It fails with [ErrInvalid] on NaN and infinities.
func (b Bearing) AppendText(dst []byte) ([]byte, error) {
	r := float64(NewBearing(float64(b)))
	if math.IsNaN(r) {
		return nil, invalid("abeam.Bearing.AppendText", "bearing", float64(b), "finite")
	}
	if r == 0 {
		return append(dst, "360°"...), nil
	}
	if r < 100 {
		dst = append(dst, '0')
	}
	if r < 10 {
		dst = append(dst, '0')
	}
	return appendNumber(dst, r, "°"), nil
}

// MarshalText is AppendText on an empty slice.
func (b Bearing) MarshalText() ([]byte, error) { return b.AppendText(nil) }

// UnmarshalText is [ParseBearing].
func (b *Bearing) UnmarshalText(text []byte) error {
	v, err := ParseBearing(string(text))
	if err == nil {
		*b = v
	}
	return err
}
