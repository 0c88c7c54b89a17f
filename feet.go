package abeam

// Feet is a height in feet of 0.3048 m. Whether it is an altitude, a pressure
// altitude or a height above a station is for the context to say.
type Feet float64

// Metres is the height in metres.
func (f Feet) Metres() float64 { return float64(f) * 0.3048 }

// NM is the height in nautical miles, as it enters a slant range.
func (f Feet) NM() NM { return NM(float64(f) / FeetPerNM) }

// String gives f exactly, with its unit: "6000 ft".
func (f Feet) String() string { return formatNumber(float64(f), " ft") }

// AppendText appends the form of [Feet.String]; see [encoding.TextAppender].
// It fails with [ErrInvalid] on NaN and infinities.
func (f Feet) AppendText(dst []byte) ([]byte, error) {
	return appendFinite(dst, "abeam.Feet.AppendText", "height", float64(f), " ft")
}

// MarshalText is AppendText on an empty slice.
func (f Feet) MarshalText() ([]byte, error) { return f.AppendText(nil) }

// UnmarshalText reads a finite decimal number with or without "ft".
func (f *Feet) UnmarshalText(text []byte) error {
	return unmarshalNumber(f, "abeam.Feet.UnmarshalText", "height", text, "ft")
}
