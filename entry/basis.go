package entry

import "github.com/holdingfix/abeam/internal/check"

// Basis says whether a direction is where the nose points or where the aeroplane goes
// over the ground. The zero Basis is not said and is rejected.
type Basis uint8

// The two.
const (
	_ Basis = iota
	Heading
	Track
)

// String gives "heading", "track" or "not said".
func (b Basis) String() string {
	switch b {
	case Heading:
		return "heading"
	case Track:
		return "track"
	}
	return "not said"
}

func (b Basis) validate(op, field string) error {
	if b == Heading || b == Track {
		return nil
	}
	return check.Invalid(op, field, uint8(b), "heading (1) or track (2)")
}
