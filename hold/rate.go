package hold

import (
	"math"
	"strconv"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/wind"
)

// Rate is a rate of turn in degrees per second, without a side.
type Rate float64

// StandardRate is the rate-one turn: 180 degrees in a minute.
const StandardRate Rate = 3

// The rates of turn accepted. Below the first a full circle takes an hour, above
// the second nothing holds.
const (
	MinRate Rate = 0.1
	MaxRate Rate = 30
)

// MaxBank is the steepest bank accepted.
const MaxBank abeam.Degrees = 60

// String gives the rate with its unit.
func (r Rate) String() string { return strconv.FormatFloat(float64(r), 'f', -1, 64) + " deg/s" }

// gravity in m/s² and a knot in m/s.
//
// Source: standard acceleration of free fall and knot, ICAO Annex 5, 5th ed.,
// table 3-3 (from memory); both exact by definition.
const (
	gravity = 9.80665
	knot    = 1852.0 / 3600
)

// RateAtBank is the rate of a level coordinated turn:
//
//	rate = g tan(bank) / V
//
// Source: ICAO Doc 8168 Vol II I-2-3-2, which rounds the constant to
// R = 3431 tan(bank) / (pi V), 0.01 % below the exact value used here.
//
// TAS is above 0 and at most [wind.MaxTAS], bank above 0 and at most [MaxBank].
//
// Errors: [abeam.ErrInvalid] for input out of range.
func RateAtBank(tas abeam.Knots, bank abeam.Degrees) (Rate, error) {
	const op = "hold.RateAtBank"
	if err := check.Above(op, "TAS", tas, 0, wind.MaxTAS); err != nil {
		return 0, err
	}
	if err := check.Above(op, "bank", bank, 0, MaxBank); err != nil {
		return 0, err
	}
	return rateAtBank(tas, bank), nil
}

func rateAtBank(tas abeam.Knots, bank abeam.Degrees) Rate {
	s, c := angle.Sincos(float64(bank))
	return Rate(gravity * s / c / (float64(tas) * knot) * 180 / math.Pi)
}

// BankAtRate is the bank of a level coordinated turn: the inverse of [RateAtBank].
//
// Errors: [abeam.ErrInvalid] for a TAS out of range or a rate outside [MinRate] to
// [MaxRate].
func BankAtRate(tas abeam.Knots, rate Rate) (abeam.Degrees, error) {
	const op = "hold.BankAtRate"
	if err := check.Above(op, "TAS", tas, 0, wind.MaxTAS); err != nil {
		return 0, err
	}
	if err := check.Within(op, "rate", rate, MinRate, MaxRate); err != nil {
		return 0, err
	}
	omega := float64(rate) * math.Pi / 180
	return abeam.Degrees(angle.Atan2(omega*float64(tas)*knot, gravity)), nil
}

// Radius is the radius of a turn through the air:
//
//	r = V / rate (in radians), which is V / (20 pi R) NM for V in kt, R in deg/s
//
// Source: ICAO Doc 8168 Vol II I-2-3-2.
//
// Errors: [abeam.ErrInvalid] for a TAS out of range or a rate outside [MinRate] to
// [MaxRate].
func Radius(tas abeam.Knots, rate Rate) (abeam.NM, error) {
	const op = "hold.Radius"
	if err := check.Above(op, "TAS", tas, 0, wind.MaxTAS); err != nil {
		return 0, err
	}
	if err := check.Within(op, "rate", rate, MinRate, MaxRate); err != nil {
		return 0, err
	}
	return abeam.NM(float64(tas) / (20 * math.Pi * float64(rate))), nil
}
