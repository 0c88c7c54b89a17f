package abeam

import (
	"math"
	"strings"
)

// Variation is the angle from true north to magnetic north in degrees, east
// positive, from -180 to 180: true = magnetic + variation ("variation east,
// magnetic least", common practice). The zero value is no variation.
type Variation float64

// True turns a magnetic direction into a true one.
func (v Variation) True(magnetic Bearing) Bearing { return magnetic.Add(Degrees(v)) }

// Magnetic turns a true direction into a magnetic one.
func (v Variation) Magnetic(trueDir Bearing) Bearing { return trueDir.Add(-Degrees(v)) }

// Cross takes a direction counted from one north to the other, or leaves it
// when the two are the same.
//
// Errors: [ErrInvalid] for a north that is not said, a variation outside -180 to
// 180, or a direction that is not finite.
func (v Variation) Cross(b Bearing, from, to North) (Bearing, error) {
	const op = "abeam.Variation.Cross"
	for _, n := range []struct {
		field string
		north North
	}{{"from", from}, {"to", to}} {
		if n.north != True && n.north != Magnetic {
			return 0, invalid(op, n.field, n.north, "true or magnetic")
		}
	}
	if !(v >= -180 && v <= 180) {
		return 0, invalid(op, "variation", float64(v), "from -180 to 180")
	}
	b = NewBearing(float64(b))
	if math.IsNaN(float64(b)) {
		return 0, invalid(op, "bearing", float64(b), "finite")
	}
	switch {
	case from == to:
		return b, nil
	case from == Magnetic:
		return v.True(b), nil
	}
	return v.Magnetic(b), nil
}

// String gives the size and the side: "12.5°E", "4°W", "0°".
func (v Variation) String() string {
	switch {
	case v < 0:
		return formatNumber(-float64(v), "°W")
	case v > 0:
		return formatNumber(float64(v), "°E")
	}
	return formatNumber(math.Abs(float64(v)), "°")
}

// AppendText appends the form of [Variation.String]; see [encoding.TextAppender].
// It fails with [ErrInvalid] outside -180 to 180.
func (v Variation) AppendText(dst []byte) ([]byte, error) {
	if !(v >= -180 && v <= 180) {
		return nil, invalid("abeam.Variation.AppendText", "variation", float64(v), "from -180 to 180")
	}
	return append(dst, v.String()...), nil
}

// MarshalText is AppendText on an empty slice.
func (v Variation) MarshalText() ([]byte, error) { return v.AppendText(nil) }

// UnmarshalText reads a size from 0 to 180 with its side, "12.5°E" or "4W"; no
// variation may stand without a side, "0".
func (v *Variation) UnmarshalText(text []byte) error {
	const op = "abeam.Variation.UnmarshalText"
	const limit = "a size from 0 to 180 degrees followed by E or W"
	s := strings.TrimSpace(string(text))
	sign := 0.0
	switch {
	case strings.HasSuffix(s, "E"):
		s, sign = s[:len(s)-1], 1
	case strings.HasSuffix(s, "W"):
		s, sign = s[:len(s)-1], -1
	}
	x, err := parseNumber(op, "variation", s, limit, "°")
	if err != nil || !(x >= 0 && x <= 180) || sign == 0 && x != 0 {
		return invalid(op, "variation", given(string(text)), limit)
	}
	*v = Variation(x*sign + 0) // + 0: no variation has no sign
	return nil
}
