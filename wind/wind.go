package wind

import (
	"math"

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
	if err := w.validate("wind.New"); err != nil {
		return Wind{}, err
	}
	return w, nil
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

// found judges a wind that was computed. One at the limit may come out a rounding
// above it.
func found(op string, w Wind) (Wind, error) {
	w.Speed = settle(w.Speed, MaxSpeed)
	if err := w.validate(op); err != nil {
		return Wind{}, err
	}
	return w, nil
}

// settle brings a speed that exceeds its limit by rounding back to it.
func settle(v, limit abeam.Knots) abeam.Knots {
	if v > limit && v <= limit*(1+1e-12) {
		return limit
	}
	return v
}

// fromComponents is the inverse of [Wind.Components]. Calm has no direction and
// comes back as the zero Wind.
func fromComponents(course abeam.Bearing, c Components) Wind {
	speed := math.Sqrt(float64(c.Head*c.Head + c.Cross*c.Cross))
	if speed == 0 {
		return Wind{}
	}
	from := course.Add(abeam.Degrees(angle.Atan2(float64(c.Cross), float64(c.Head))))
	return Wind{From: from, Speed: abeam.Knots(speed)}
}
