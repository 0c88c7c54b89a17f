package hold

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/wind"
)

// NewFlight gives the flight at an indicated airspeed in the air of an altitude, with the
// turns of a rule: the true airspeed by [wind.Air.TASFromCAS], the rate of turn by
// [TurnRule.At]. The indicated airspeed is taken as calibrated, which differs from it by
// the errors of instrument and position.
//
// Errors: [abeam.ErrInvalid] for the zero Air, a speed or a rule out of range;
// [abeam.ErrUnflyable] for a wind as strong as the true airspeed.
func NewFlight(ias abeam.Knots, air wind.Air, rule TurnRule, w wind.Wind) (Flight, error) {
	tas, err := air.TASFromCAS(ias)
	if err != nil {
		return Flight{}, err
	}
	t, err := rule.At(tas)
	if err != nil {
		return Flight{}, err
	}
	f := Flight{TAS: tas, Rate: t.Rate, Wind: w, Altitude: air.PressureAltitude()}
	if err := f.validate("hold.NewFlight"); err != nil {
		return Flight{}, err
	}
	return f, nil
}
