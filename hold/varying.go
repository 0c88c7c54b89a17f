package hold

import (
	"fmt"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/wind"
)

// Ascent is the altitude along a hold: from one altitude to another at a constant rate,
// up or down, and level from there on. Where both are the same the hold is level and the
// rate has no meaning.
type Ascent struct {
	From, To  abeam.Feet // MinAltitude to MaxAltitude
	PerMinute abeam.Feet // rate of climb or descent, above 0 and at most MaxClimb
}

// The limits of what varies along a circuit.
const (
	// MaxClimb is the fastest climb or descent accepted, in feet per minute.
	MaxClimb abeam.Feet = 20000
	// MinRollRate and MaxRollRate are in degrees of bank per second.
	MinRollRate abeam.Degrees = 0.5
	MaxRollRate abeam.Degrees = 180
	// MaxDelay is the longest delay before a turn.
	MaxDelay = 30 * time.Second
)

// Varying is a flight that changes along the circuit: climbing or descending through a
// wind that changes with height, at a constant true or calibrated airspeed, rolling into
// and out of its turns at a finite rate, beginning them late, with different turns at the
// two ends.
type Varying struct {
	// TAS is held constant, or CAS is: exactly one of the two is given.
	TAS abeam.Knots // above 0 and at most wind.MaxTAS
	CAS abeam.Knots // calibrated: indicated and corrected for the errors of the system
	// Deviation of the temperature from the standard; it matters with CAS only.
	Deviation wind.Deviation

	Ascent Ascent
	// Winds at the altitudes of the ascent, in the north of the pattern. A level flight
	// needs the one level it is flown at.
	Winds wind.Profile

	OutboundTurn TurnRule
	InboundTurn  TurnRule
	// RollRate is how fast the bank changes, in degrees per second, MinRollRate to
	// MaxRollRate; 0 rolls at once.
	RollRate abeam.Degrees
	// Delay is how long before each turn the aeroplane flies straight on after passing the
	// fix, and after the end of the outbound leg: 0 to MaxDelay.
	Delay time.Duration
}

// Validate reports a field out of range as [abeam.ErrInvalid]: a missing or second
// airspeed, a rule that fits no turn, a profile that is empty or does not reach from one
// end of the ascent to the other.
func (v Varying) Validate() error { return v.validate("hold.Varying.Validate") }

func (v *Varying) validate(op string) error {
	switch {
	case v.TAS != 0 && v.CAS != 0:
		return check.Invalid(op, "CAS", v.CAS, "0 where the TAS is given")
	case v.CAS == 0:
		if err := check.Above(op, "TAS", v.TAS, 0, wind.MaxTAS); err != nil {
			return err
		}
	default:
		if err := check.Above(op, "CAS", v.CAS, 0, wind.MaxTAS); err != nil {
			return err
		}
	}
	if err := v.Ascent.validate(op); err != nil {
		return err
	}
	if !(v.Delay >= 0 && v.Delay <= MaxDelay) {
		return check.Invalid(op, "delay", v.Delay, "from 0s to "+MaxDelay.String())
	}
	if v.RollRate != 0 {
		if err := check.Within(op, "roll rate", v.RollRate, MinRollRate, MaxRollRate); err != nil {
			return err
		}
	}
	for _, end := range [2]struct {
		name     string
		altitude abeam.Feet
	}{{"ascent from", v.Ascent.From}, {"ascent to", v.Ascent.To}} {
		if err := v.validateAt(op, end.name, end.altitude); err != nil {
			return err
		}
	}
	return nil
}

// validateAt checks what depends on altitude, at one end of the ascent.
func (v *Varying) validateAt(op, name string, altitude abeam.Feet) error {
	if err := v.reaches(op, name, altitude); err != nil {
		return err
	}
	tas, err := v.tas(altitude)
	if err != nil {
		return err
	}
	if err := check.Above(op, "TAS", tas, 0, wind.MaxTAS); err != nil {
		return err
	}
	for _, rule := range [2]TurnRule{v.OutboundTurn, v.InboundTurn} {
		if _, err := rule.At(tas); err != nil {
			return err
		}
	}
	return nil
}

// reaches rejects a profile that does not know the wind at an altitude.
func (v *Varying) reaches(op, name string, altitude abeam.Feet) error {
	if _, err := v.Winds.At(altitude); err == nil {
		return nil
	}
	levels := v.Winds.Levels()
	if len(levels) == 0 {
		return check.Invalid(op, "winds", "an empty profile", "a level or more")
	}
	return check.Invalid(op, name, altitude, fmt.Sprintf("within the wind profile, from %v to %v",
		levels[0].Altitude, levels[len(levels)-1].Altitude))
}

// tas is the true airspeed at an altitude.
func (v *Varying) tas(altitude abeam.Feet) (abeam.Knots, error) {
	if v.CAS == 0 {
		return v.TAS, nil
	}
	air, err := wind.StandardAir(altitude, v.Deviation)
	if err != nil {
		return 0, err
	}
	return air.TASFromCAS(v.CAS)
}

func (a Ascent) validate(op string) error {
	if err := check.Within(op, "ascent from", a.From, MinAltitude, MaxAltitude); err != nil {
		return err
	}
	if err := check.Within(op, "ascent to", a.To, MinAltitude, MaxAltitude); err != nil {
		return err
	}
	if a.From == a.To {
		return nil
	}
	return check.Above(op, "rate of ascent", a.PerMinute, 0, MaxClimb)
}
