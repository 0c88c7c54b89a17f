package timing

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// MaxCorrection is the largest inbound wind correction for which a drift rule gives an
// answer: beyond it three times the correction is a turn, not a correction.
const MaxCorrection abeam.Degrees = 45

// TripleDrift gives the outbound wind correction as three times the inbound one, on
// the opposite side of the nose:
//
//	outbound = -3 inbound
//
// Corrections are heading less the still-air heading, positive to the right. An inbound
// correction of 8 degrees left (-8) asks for 24 right (+24) outbound. It makes up on one
// leg for the drift of both turns and its own.
//
// Source: AIM 5-3-8 j.8(c). The inbound correction is from -[MaxCorrection] to
// [MaxCorrection].
//
// Errors: [abeam.ErrInvalid] for a correction out of range.
func TripleDrift(inbound abeam.Degrees) (abeam.Degrees, error) {
	if err := check.Within("timing.TripleDrift", "inbound correction", inbound, -MaxCorrection, MaxCorrection); err != nil {
		return 0, err
	}
	return 0 - 3*inbound, nil
}
