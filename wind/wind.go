package wind

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
)

// MaxSpeed is the strongest wind accepted. No wind measured in the atmosphere
// below 65,617 ft comes near it; beyond it a unit is wrong.
const MaxSpeed abeam.Knots = 400

// Wind is a horizontal wind. The zero Wind is calm.
type Wind struct {
	From  abeam.Bearing // where it blows from; any finite value is reduced
	Speed abeam.Knots   // 0 to MaxSpeed
}

// New gives the wind that blows from a direction at a speed.
//
// Errors: [abeam.ErrInvalid] as for [Wind.Validate].
func New(from abeam.Bearing, speed abeam.Knots) (Wind, error) {
	w := Wind{From: abeam.NewBearing(float64(from)), Speed: speed}
	return w, w.validate("wind.New")
}

// Validate reports a direction that is not finite or a speed outside 0 to
// [MaxSpeed] as [abeam.ErrInvalid].
func (w Wind) Validate() error { return w.validate("wind.Wind.Validate") }

func (w Wind) validate(op string) error {
	if err := check.Finite(op, "wind from", w.From); err != nil {
		return err
	}
	return check.Within(op, "wind speed", w.Speed, 0, MaxSpeed)
}

// Components is a wind resolved along and across a course or heading.
type Components struct {
	Head  abeam.Knots // against the course; negative is a tailwind
	Cross abeam.Knots // from the right; negative is from the left
}

// Components resolves the wind along and across a course:
//
//	head = w cos(from - course), cross = w sin(from - course)
//
// A wind straight down or straight across the course has exactly no other
// component. A wind or course that is not valid gives NaN; [Wind.Validate] first.
func (w Wind) Components(course abeam.Bearing) Components {
	s, c := angle.Sincos(float64(w.From - course))
	return Components{Head: w.Speed * abeam.Knots(c), Cross: w.Speed * abeam.Knots(s)}
}
