package timing

import (
	"math"
	"math/rand/v2"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/wind"
)

// Scatter is how precisely a hold is flown, as standard deviations of bell-shaped errors
// (the sum of four uniform ones, so that none exceeds 3.5 standard deviations). The zero
// Scatter is flown without error. The errors are drawn anew for each lap from a generator
// with the seed of the trial, always the same number of them, so that one seed gives the
// same errors to every strategy.
type Scatter struct {
	// Timing is of each of the two readings of the clock: when the inbound turn begins
	// and how long the inbound leg took. At most 1 minute.
	Timing time.Duration
	// Heading is of the outbound heading, which nothing checks; inbound the needle does.
	// At most 30 degrees.
	Heading abeam.Degrees
	// Airspeed is of the TAS of a lap. At most 50 kt.
	Airspeed abeam.Knots
	// Bank is of each turn. At most 15 degrees.
	Bank abeam.Degrees
	// WindChange is of each component of the change of the wind from lap to lap. At most
	// 50 kt.
	WindChange abeam.Knots
	// WindKnown is of each component of the difference between the wind as the pilot
	// knows it and the wind at the start. At most 50 kt.
	WindKnown abeam.Knots
}

func (s Scatter) validate(op string) error {
	if !(s.Timing >= 0 && s.Timing <= time.Minute) {
		return check.Invalid(op, "timing error", s.Timing, "from 0s to 1m0s")
	}
	for _, v := range [...]struct {
		field   string
		v, most float64
	}{
		{"heading error", float64(s.Heading), 30}, {"airspeed error", float64(s.Airspeed), 50}, {"bank error", float64(s.Bank), 15},
		{"wind change", float64(s.WindChange), 50}, {"wind error", float64(s.WindKnown), 50},
	} {
		if err := check.Within(op, v.field, v.v, 0, v.most); err != nil {
			return err
		}
	}
	return nil
}

// bell draws an error of mean 0 and standard deviation 1: the sum of four uniform ones of 16
// bits each, (sum - 2) sqrt 3 of numbers in [0, 1]. It is near enough to normal (kurtosis
// 2.7 for 3), ends by itself, needs one step of the generator and no function that differs
// between platforms.
func bell(r *rand.PCG) float64 {
	u := r.Uint64()
	sum := u&0xffff + u>>16&0xffff + u>>32&0xffff + u>>48
	return (float64(sum)/0xffff - 2) * sqrt3
}

const sqrt3 = 1.7320508075688772935274463415058723669

// shifted is a wind changed by a random vector.
func shifted(r *rand.PCG, w wind.Wind, deviation abeam.Knots) wind.Wind {
	dn, de := bell(r), bell(r)
	if deviation == 0 {
		return w
	}
	s, c := angle.Sincos(float64(w.From))
	n, e := float64(w.Speed)*c+dn*float64(deviation), float64(w.Speed)*s+de*float64(deviation)
	return wind.Wind{From: abeam.NewBearing(angle.Atan2(e, n)), Speed: min(wind.MaxSpeed, abeam.Knots(math.Hypot(n, e)))}
}

// banked is the rate of a turn at a bank that is off by an error in degrees. The pilot holds
// the bank that the airspeed should have; flown slower, the same bank turns faster. The bank
// stays within 1 degree and [hold.MaxBank], or what the turn should have if that is steeper.
func (fl *flyer) banked(tas abeam.Knots, err float64) hold.Rate {
	f := &fl.trial.Flight
	sin, cos := sincos(min(max(float64(hold.MaxBank), fl.bank), max(1, fl.bank+err)))
	rate := f.Rate * hold.Rate(sin/cos/fl.tangent*float64(f.TAS/tas))
	return min(hold.MaxRate, max(hold.MinRate, rate))
}
