package timing

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
)

// DriftMultiple gives the multiple of the inbound correction that the outbound leg needs
// in a light crosswind:
//
//	multiple = (turns + outbound)/outbound
//
// with turns the time of both turns together. The inbound leg corrects its own drift; that
// of the turns and of the outbound leg is left for the outbound leg to make up. It is the
// limit of the exact circuit as the wind goes to nothing: 3, 2.33 and 2 for legs of 1, 1.5
// and 2 minutes at 3 deg/s.
//
// Source: common practice. The turns are 0 to 1 h, the outbound time above 0 and at most
// [hold.MaxLeg].
//
// Errors: [abeam.ErrInvalid] for a time out of range.
func DriftMultiple(turns, outbound time.Duration) (float64, error) {
	const op = "timing.DriftMultiple"
	if !(turns >= 0 && turns <= hold.MaxLeg) {
		return 0, check.Invalid(op, "turns", turns, "from 0s to "+hold.MaxLeg.String())
	}
	if !(outbound > 0 && outbound <= hold.MaxLeg) {
		return 0, check.Invalid(op, "outbound time", outbound, "above 0s and at most "+hold.MaxLeg.String())
	}
	return (turns.Seconds() + outbound.Seconds()) / outbound.Seconds(), nil
}

// CrabFromBearing gives the crab from the bearing of a station at the fix as the wings
// come level inbound after the turn: half the difference between bearing and course, in
// (-90, 90], positive where the station lies to the right of the course.
//
// Source: CNATRA P-871.
//
// Errors: [abeam.ErrInvalid] for a direction that is not finite.
func CrabFromBearing(bearing, course abeam.Bearing) (abeam.Degrees, error) {
	const op = "timing.CrabFromBearing"
	if err := check.Finite(op, "bearing", bearing); err != nil {
		return 0, err
	}
	if err := check.Finite(op, "course", course); err != nil {
		return 0, err
	}
	return bearing.Sub(course) / 2, nil
}
