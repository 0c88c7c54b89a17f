package abeam

// NM is a distance in international nautical miles. The zero value is no
// distance.
type NM float64

// MetresPerNM is the international nautical mile.
//
// Source: ICAO Annex 5, 5th ed., table 3-3 (from memory); 1,852 m by definition.
const MetresPerNM = 1852

// FeetPerNM is the international nautical mile in feet of 0.3048 m:
// 1852/0.3048.
const FeetPerNM = MetresPerNM / 0.3048

// Metres is the distance in metres.
func (d NM) Metres() float64 { return float64(d) * MetresPerNM }

// String gives d exactly, with its unit: "4.5 NM".
func (d NM) String() string { return formatNumber(float64(d), " NM") }

// AppendText appends the form of [NM.String]; see [encoding.TextAppender].
// It fails with [ErrInvalid] on NaN and infinities.
func (d NM) AppendText(dst []byte) ([]byte, error) {
	return appendFinite(dst, "abeam.NM.AppendText", "distance", float64(d), " NM")
}

// MarshalText is AppendText on an empty slice.
func (d NM) MarshalText() ([]byte, error) { return d.AppendText(nil) }

// UnmarshalText reads a finite decimal number with or without "NM".
func (d *NM) UnmarshalText(text []byte) error {
	return unmarshalNumber(d, "abeam.NM.UnmarshalText", "distance", text, "NM")
}
