package hold

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/wind"
)

// TurnRule is how an authority has the turns flown: at a rate, or at a bank, or at
// whichever of the two takes less bank. A zero Rate or Bank does not limit; the
// zero TurnRule says nothing and is rejected.
type TurnRule struct {
	Rate   Rate          // never faster than this
	Bank   abeam.Degrees // never steeper than this
	Source string
}

// FAATurn is the least bank of 3 deg/s and 30 degrees.
//
// Source: AIM 5-3-8 j.8(b).
func FAATurn() TurnRule {
	return TurnRule{Rate: StandardRate, Bank: 30, Source: "AIM 5-3-8 j.8(b)"}
}

// FAAFlightDirectorTurn is the least bank of 3 deg/s and 25 degrees, for those who
// fly by a flight director.
//
// Source: AIM 5-3-8 j.8(b).
func FAAFlightDirectorTurn() TurnRule {
	return TurnRule{Rate: StandardRate, Bank: 25, Source: "AIM 5-3-8 j.8(b), flight director"}
}

// ICAOTurn is the lesser bank of 25 degrees and 3 deg/s.
//
// Source: ICAO Doc 8168 Vol II I-4-3-7.
func ICAOTurn() TurnRule {
	return TurnRule{Rate: StandardRate, Bank: 25, Source: "ICAO Doc 8168 Vol II I-4-3-7"}
}

// Turning is a turn as a rule has it flown at one airspeed.
type Turning struct {
	Rate   Rate
	Bank   abeam.Degrees
	Radius abeam.NM // through the air
	ByBank bool     // the bank limit governs, and the rate is below the rule's
}

// At applies the rule at a true airspeed. At the airspeed where both limits agree
// the rate governs.
//
// Errors: [abeam.ErrInvalid] for a TAS out of range, a rule without limits or with
// limits out of range, or a rate outside [MinRate] to [MaxRate].
func (r TurnRule) At(tas abeam.Knots) (Turning, error) {
	const op = "hold.TurnRule.At"
	if err := check.Above(op, "TAS", tas, 0, wind.MaxTAS); err != nil {
		return Turning{}, err
	}
	if r.Rate == 0 && r.Bank == 0 {
		return Turning{}, check.Invalid(op, "turn rule", "empty", "a rate, a bank or both")
	}
	t := Turning{Rate: r.Rate}
	if r.Bank != 0 {
		if err := check.Above(op, "bank limit", r.Bank, 0, MaxBank); err != nil {
			return Turning{}, err
		}
		if limit := rateAtBank(tas, r.Bank); r.Rate == 0 || limit < r.Rate {
			t.Rate, t.ByBank = limit, true
		}
	}
	var err error
	if t.Radius, err = Radius(tas, t.Rate); err != nil {
		return Turning{}, err
	}
	if t.Bank, err = BankAtRate(tas, t.Rate); err != nil {
		return Turning{}, err
	}
	return t, nil
}
