package hold

import (
	"fmt"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// Pattern is a racetrack as cleared: fix, inbound course, direction of turns and
// leg. The zero Pattern has no leg and is rejected everywhere. Patterns compare
// with ==.
type Pattern struct {
	fix     Fix
	inbound abeam.Bearing
	turn    Turn
	leg     Leg
}

// NewPattern puts a pattern together. The inbound course is magnetic, and the fix's
// variation takes it to true, or it is true with a variation of zero. North (0 or 360)
// is a course like any other, which is why it is an argument and not a field that may be
// forgotten.
//
// Errors: [abeam.ErrInvalid] for a fix at a pole or off the globe, a course that is
// not finite, a turn that is neither right nor left, a leg out of range.
func NewPattern(fix Fix, inbound abeam.Bearing, turn Turn, leg Leg) (Pattern, error) {
	p := Pattern{fix: fix, inbound: abeam.NewBearing(float64(inbound)), turn: turn, leg: leg}
	const op = "hold.NewPattern"
	if err := fix.validate(op); err != nil {
		return Pattern{}, err
	}
	if err := check.Finite(op, "inbound course", inbound); err != nil {
		return Pattern{}, err
	}
	if err := turn.validate(op); err != nil {
		return Pattern{}, err
	}
	if err := leg.validate(op); err != nil {
		return Pattern{}, err
	}
	return p, nil
}

// Fix is the point held over.
func (p Pattern) Fix() Fix { return p.fix }

// Inbound is the course of the inbound leg, towards the fix.
func (p Pattern) Inbound() abeam.Bearing { return p.inbound }

// Outward is the reciprocal of the inbound course: the still-air outbound heading,
// and the direction in which the pattern lies from the fix.
func (p Pattern) Outward() abeam.Bearing { return p.inbound.Reciprocal() }

// Turn is the direction of the turns.
func (p Pattern) Turn() Turn { return p.turn }

// String describes the pattern: "TARNO, inbound 075°, left turns, 1m0s inbound", without
// the name where the fix has none.
func (p Pattern) String() string {
	text := fmt.Sprintf("inbound %v, %v turns, %v", p.inbound, p.turn, p.leg)
	if p.fix.Ident != "" {
		text = p.fix.Ident + ", " + text
	}
	return text
}

// Leg is what ends the outbound leg.
func (p Pattern) Leg() Leg { return p.leg }

// WithLeg is the same pattern with another leg.
//
// Errors: [abeam.ErrInvalid] for a leg out of range.
func (p Pattern) WithLeg(leg Leg) (Pattern, error) {
	if err := leg.validate("hold.Pattern.WithLeg"); err != nil {
		return Pattern{}, err
	}
	p.leg = leg
	return p, nil
}

// compass turns an angle of the course frame into a direction.
func (p Pattern) compass(theta float64) abeam.Bearing {
	if p.turn == Left {
		theta = -theta
	}
	return abeam.NewBearing(float64(p.inbound) + theta)
}
