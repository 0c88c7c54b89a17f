package hold

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// Turn is the direction of the turns of a pattern. The zero Turn is Right, the
// standard pattern (AIM 5-3-8 j.1, from memory); left turns make the nonstandard one.
type Turn uint8

// The two directions.
const (
	Right Turn = iota
	Left
)

// Validate reports anything but Right and Left as [abeam.ErrInvalid].
func (t Turn) Validate() error { return t.validate("hold.Turn.Validate") }

func (t Turn) validate(op string) error {
	if t == Right || t == Left {
		return nil
	}
	return check.Invalid(op, "turn", uint8(t), "right (0) or left (1)")
}

// Opposite is the other direction.
func (t Turn) Opposite() Turn {
	if t == Left {
		return Right
	}
	return Left
}

// Apply gives d for right turns and its mirror image for left turns.
func (t Turn) Apply(d abeam.Degrees) abeam.Degrees {
	if t == Left {
		return abeam.NewDegrees(-float64(d))
	}
	return d
}

// String gives "right" or "left".
func (t Turn) String() string {
	switch t {
	case Right:
		return "right"
	case Left:
		return "left"
	}
	return "not a turn"
}

// MarshalText gives the form of [Turn.String]; it fails on what is not a turn.
func (t Turn) MarshalText() ([]byte, error) {
	if err := t.validate("hold.Turn.MarshalText"); err != nil {
		return nil, err
	}
	return []byte(t.String()), nil
}

// UnmarshalText reads "right" or "left".
func (t *Turn) UnmarshalText(text []byte) error {
	switch string(text) {
	case "right":
		*t = Right
	case "left":
		*t = Left
	default:
		return check.Invalid("hold.Turn.UnmarshalText", "turn", string(text), "right or left")
	}
	return nil
}
