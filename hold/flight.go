package hold

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/wind"
)

// Flight is the aeroplane and the air of one computation. TAS and Rate have no
// useful zero and must be given; the zero Wind is calm.
type Flight struct {
	TAS  abeam.Knots // true airspeed, above 0 and at most wind.MaxTAS
	Rate Rate        // of both turns, MinRate to MaxRate
	Wind wind.Wind   // in the north of the pattern
	// Altitude is where the hold is flown, MinAltitude to MaxAltitude. Only the slant
	// range of a [DMELimit] depends on it.
	Altitude abeam.Feet
}

// Validate reports a field out of range as [abeam.ErrInvalid], and a wind as strong
// as the airspeed or stronger as [abeam.ErrUnflyable]: no racetrack closes in it.
func (f Flight) Validate() error { return f.validate("hold.Flight.Validate") }

// ok is all of validate in a few comparisons: what the kernels run.
func (f *Flight) ok() bool {
	return f.TAS <= wind.MaxTAS && f.Rate >= MinRate && f.Rate <= MaxRate &&
		f.Wind.Speed >= 0 && f.Wind.Speed < f.TAS && f.Wind.Speed <= wind.MaxSpeed &&
		f.Wind.From-f.Wind.From == 0 && f.Altitude >= MinAltitude && f.Altitude <= MaxAltitude
}

func (f *Flight) validate(op string) error {
	if err := check.Above(op, "TAS", f.TAS, 0, wind.MaxTAS); err != nil {
		return err
	}
	if err := check.Within(op, "rate of turn", f.Rate, MinRate, MaxRate); err != nil {
		return err
	}
	if err := check.Within(op, "wind speed", f.Wind.Speed, 0, wind.MaxSpeed); err != nil {
		return err
	}
	if err := check.Finite(op, "wind from", f.Wind.From); err != nil {
		return err
	}
	if err := check.Within(op, "altitude", f.Altitude, MinAltitude, MaxAltitude); err != nil {
		return err
	}
	if !(f.Wind.Speed < f.TAS) {
		return check.Unflyable(op, "wind speed", f.Wind.Speed, "below the TAS of "+f.TAS.String())
	}
	return nil
}

// perSecond is the airspeed in NM/s, the unit of the frame.
func (f *Flight) perSecond() float64 { return float64(f.TAS) * (1.0 / 3600) }
