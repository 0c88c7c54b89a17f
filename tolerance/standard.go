package tolerance

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// Limit is how far a quantity may lie under and over its target, both as positive
// amounts, the amount itself included. The zero Limit sets none.
type Limit[T ~int64 | ~float64] struct {
	Under, Over T
	Source      string
}

// Set reports whether the standard gives a figure.
func (l Limit[T]) Set() bool { return l.Under > 0 || l.Over > 0 }

// either is the same amount both ways.
func either[T ~int64 | ~float64](amount T, source string) Limit[T] {
	return Limit[T]{Under: amount, Over: amount, Source: source}
}

// CourseLimit is how far off the inbound course is allowed: a share of the full scale
// of the guidance, or an angle for guidance by radial or bearing, or both, and then
// the smaller governs. The zero CourseLimit sets none.
type CourseLimit struct {
	Scale   float64       // of full scale: 0.75 or 0.5
	Degrees abeam.Degrees // 0: the scale alone
	Source  string
}

// Set reports whether the standard gives a figure.
func (l CourseLimit) Set() bool { return l.Scale > 0 || l.Degrees > 0 }

// Standard is what one authority tolerates in one edition. It is a plain value: take
// one from its constructor, change what differs, or write your own. The zero Standard
// tolerates everything and is rejected; there is no default authority.
//
// Civil standards seen give no seconds for the inbound leg or the time to leave and no
// miles for a leg: both are judged as close as possible. LegTime, LegLength, Arrival
// and HoldingSide are for a standard of your own.
type Standard struct {
	Authority string
	Edition   string

	Airspeed  Limit[abeam.Knots]   // indicated, against the one assigned or chosen
	Altitude  Limit[abeam.Feet]    // against the one assigned
	Heading   Limit[abeam.Degrees] // against the mean of each outbound leg
	Course    CourseLimit          // on the inbound leg, wings level to the fix
	LegTime   Limit[time.Duration] // of the inbound leg, against the clearance
	LegLength Limit[abeam.NM]      // of the inbound leg, against the clearance
	Arrival   Limit[time.Duration] // of leaving the fix, against the time cleared
	// HoldingSide is how far on the non-holding side of the course is tolerated, Over
	// only; no published standard seen gives it.
	HoldingSide Limit[abeam.NM]

	// Met and NotMet are the words of the verdict.
	Met, NotMet string
}

// String names authority and edition.
func (s Standard) String() string {
	if s.Authority == "" {
		return "no standard"
	}
	return s.Authority + " (" + s.Edition + ")"
}

// Validate reports a standard without a name or a limit, and limits that are negative
// or not finite, as [abeam.ErrInvalid].
func (s Standard) Validate() error { return s.validate("tolerance.Standard.Validate") }

func (s Standard) validate(op string) error {
	if s.Authority == "" || s.Met == "" || s.NotMet == "" {
		return check.Invalid(op, "standard", s.String(), "one with a name and the words of its verdict")
	}
	const most = 1e6
	for _, l := range []struct {
		field       string
		under, over float64
	}{
		{"airspeed limit", float64(s.Airspeed.Under), float64(s.Airspeed.Over)},
		{"altitude limit", float64(s.Altitude.Under), float64(s.Altitude.Over)},
		{"heading limit", float64(s.Heading.Under), float64(s.Heading.Over)},
		{"course limit", s.Course.Scale, float64(s.Course.Degrees)},
		{"leg time limit", s.LegTime.Under.Seconds(), s.LegTime.Over.Seconds()},
		{"leg length limit", float64(s.LegLength.Under), float64(s.LegLength.Over)},
		{"arrival limit", s.Arrival.Under.Seconds(), s.Arrival.Over.Seconds()},
		{"holding side limit", float64(s.HoldingSide.Under), float64(s.HoldingSide.Over)},
	} {
		for _, x := range []float64{l.under, l.over} {
			if err := check.Within(op, l.field, x, 0, most); err != nil {
				return err
			}
		}
	}
	set := s.Airspeed.Set() || s.Altitude.Set() || s.Heading.Set() || s.Course.Set() || s.LegTime.Set() ||
		s.LegLength.Set() || s.Arrival.Set() || s.HoldingSide.Set()
	if !set {
		return check.Invalid(op, "standard", s.String(), "one with a limit")
	}
	return nil
}
