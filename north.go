package abeam

// North says which north a direction from outside is counted from. The zero
// North is not said, and is rejected wherever a north is needed.
type North uint8

// The two norths that reports, forecasts and charts use.
const (
	_ North = iota
	// True north: forecasts, METAR, RNAV path geometry.
	True
	// Magnetic north: charted courses, radials, spoken tower winds.
	Magnetic
)

// String gives "true", "magnetic" or "not said".
func (n North) String() string {
	switch n {
	case True:
		return "true"
	case Magnetic:
		return "magnetic"
	}
	return "not said"
}

// MarshalText gives the form of [North.String]; it fails with [ErrInvalid] on
// a north that is not said.
func (n North) MarshalText() ([]byte, error) {
	if n != True && n != Magnetic {
		return nil, invalid("abeam.North.MarshalText", "north", uint8(n), "true or magnetic")
	}
	return []byte(n.String()), nil
}

// UnmarshalText reads "true" or "magnetic".
func (n *North) UnmarshalText(text []byte) error {
	switch string(text) {
	case "true":
		*n = True
	case "magnetic":
		*n = Magnetic
	default:
		return invalid("abeam.North.UnmarshalText", "north", given(string(text)), "true or magnetic")
	}
	return nil
}
