package abeam

import "time"

// Knots is a speed in nautical miles per hour. Whether it is indicated, true or
// over the ground is for the context to say. The zero value is at rest.
type Knots float64

// In is the distance covered at k in the time t.
func (k Knots) In(t time.Duration) NM { return NM(float64(k) * t.Hours()) }

// String gives k exactly, with its unit: "118.5 kt".
func (k Knots) String() string { return formatNumber(float64(k), " kt") }

// AppendText appends the form of [Knots.String]; see [encoding.TextAppender].
// It fails with [ErrInvalid] on NaN and infinities.
func (k Knots) AppendText(dst []byte) ([]byte, error) {
	return appendFinite(dst, "abeam.Knots.AppendText", "speed", float64(k), " kt")
}

// MarshalText is AppendText on an empty slice.
func (k Knots) MarshalText() ([]byte, error) { return k.AppendText(nil) }

// UnmarshalText reads a finite decimal number with or without "kt".
func (k *Knots) UnmarshalText(text []byte) error {
	return unmarshalNumber(k, "abeam.Knots.UnmarshalText", "speed", text, "kt")
}
