package entry

import "github.com/holdingfix/abeam/internal/check"

// Kind is a way to enter a hold. The zero Kind is none: where an alternative is
// reported, there is not any.
type Kind uint8

// The three entries of AIM 5-3-8 j.3. ICAO calls the teardrop offset.
const (
	None Kind = iota
	Direct
	Teardrop
	Parallel
)

// String gives "direct", "teardrop", "parallel" or "none".
func (k Kind) String() string {
	switch k {
	case Direct:
		return "direct"
	case Teardrop:
		return "teardrop"
	case Parallel:
		return "parallel"
	}
	return "none"
}

// MarshalText gives the form of [Kind.String].
func (k Kind) MarshalText() ([]byte, error) { return []byte(k.String()), nil }

// UnmarshalText reads the form of [Kind.String].
func (k *Kind) UnmarshalText(text []byte) error {
	for v := None; v <= Parallel; v++ {
		if v.String() == string(text) {
			*k = v
			return nil
		}
	}
	return check.Invalid("entry.Kind.UnmarshalText", "entry", string(text), "direct, teardrop, parallel or none")
}
