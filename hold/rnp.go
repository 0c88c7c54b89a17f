package hold

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// RNPTurn is the turn of an RNP hold at an altitude: the lesser bank of 3 deg/s and 23
// degrees to FL245, 15 degrees above.
//
// Source: ICAO Doc 8168 Vol II table I-2-3-1 for the bank, I-2-3-2 for the rate.
//
// Errors: [abeam.ErrInvalid] for an altitude outside [MinAltitude] to [MaxAltitude].
func RNPTurn(altitude abeam.Feet) (TurnRule, error) {
	if err := check.Within("hold.RNPTurn", "altitude", altitude, MinAltitude, MaxAltitude); err != nil {
		return TurnRule{}, err
	}
	r := TurnRule{Rate: StandardRate, Bank: 23, Source: "ICAO Doc 8168 Vol II table I-2-3-1, RNP holding"}
	if altitude > 24500 {
		r.Bank = 15
	}
	return r, nil
}
