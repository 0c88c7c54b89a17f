package timing

import (
	"math"
	"math/rand/v2"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/internal/clock"
	"github.com/holdingfix/abeam/wind"
)

// MaxLaps is the most laps that a trial flies.
const MaxLaps = 1000

// Trial is a strategy flown lap after lap in one hold. It begins over the fix, established
// on the inbound heading that makes the course good.
type Trial struct {
	Pattern   hold.Pattern // with a leg of kind timed inbound
	Flight    hold.Flight  // the aeroplane, and the wind as it is on the first lap
	Strategy  Strategy
	Start     Start     // of the outbound clock; must be given
	Intercept Intercept // zero: the inbound heading is held, on or off the course
	Scatter   Scatter   // zero: without error
	Seed      uint64    // of the errors
}

// Lap is a lap as a strategy flew it.
type Lap struct {
	Plan     Plan
	Wind     wind.Wind     // as it was on this lap
	Straight time.Duration // wings level outbound to the inbound turn
	Outbound time.Duration // by the clock, at the inbound turn
	ToAbeam  time.Duration // over the fix to abeam on the first outbound heading; 0 if not passed on it
	// Inbound is the time from wings level inbound to the fix. It is negative where the
	// turn rolled out beyond it: the time since the fix was abeam, at the groundspeed
	// inbound. The next lap then begins at wings level.
	Inbound time.Duration
	Error   time.Duration // inbound less target
	Lap     time.Duration // fix to fix; to wings level where that is beyond the fix
	// RollOut is wings level inbound; Abreast is the error across the course.
	RollOut hold.Point
	// Passed is the distance across the course at which the fix was passed.
	Passed abeam.NM
	// Cut is the angle by which the course was joined, positive to the holding side; 0
	// where the inbound heading was held.
	Cut abeam.Degrees

	tas abeam.Knots
}

// Astray is how far the lap reached to the non-holding side. Over the ground the
// aeroplane turns one way only until it rolls out inbound along the course, so that is
// where it is nearest to the non-holding side.
func (l Lap) Astray() abeam.NM { return max(0, -l.RollOut.Abreast) }

// AppendLaps flies n laps, 1 to [MaxLaps], and appends them to dst. It allocates nothing
// where dst has room.
//
// A strategy that fails, by a panic or by a plan that cannot be flown, ends the trial: the
// laps flown until then are appended all the same and stand beside the error.
//
// Accuracy: as [hold.Pattern.Fly], 1e-9 s for usual winds.
//
// Errors: [abeam.ErrInvalid] for input out of range, a leg that is not timed inbound among
// it; a [*StrategyError] for a plan that cannot be flown; [abeam.ErrUnflyable] where the
// wind, or the errors in it, reach the airspeed.
func (t Trial) AppendLaps(dst []Lap, n int) ([]Lap, error) {
	const op = "timing.Trial.AppendLaps"
	if err := t.validate(op, n); err != nil {
		return dst, err
	}
	fl := flyer{trial: t}
	if err := fl.begin(op); err != nil {
		return dst, err
	}
	for range n {
		lap, err := fl.lap(op)
		if err != nil {
			return dst, err
		}
		dst = append(dst, lap)
	}
	return dst, nil
}

func (t *Trial) validate(op string, n int) error {
	if !(n >= 1 && n <= MaxLaps) {
		return check.Invalid(op, "laps", n, "from 1 to 1000")
	}
	if t.Pattern.Leg().Inbound() <= 0 {
		return check.Invalid(op, "leg", t.Pattern.Leg(), "timed inbound")
	}
	if !(t.Start >= AtAbeam && t.Start <= AtWingsLevelOrAbeam) {
		return check.Invalid(op, "start", uint8(t.Start), startNames)
	}
	if t.Strategy.Next == nil {
		return check.Invalid(op, "strategy", t.Strategy.Name, "one with a Next")
	}
	if err := t.Intercept.validate(op); err != nil {
		return err
	}
	return t.Scatter.validate(op)
}

// flyer is a trial under way.
type flyer struct {
	trial   Trial
	random  rand.PCG
	perfect bool
	bank    float64 // that the turns should have, degrees
	tangent float64 // of it
	seen    Seen
	wind    wind.Wind
	air     air
	at      passage
	order   order
	flown   flown
}

func (fl *flyer) begin(op string) error {
	t := &fl.trial
	if err := fl.air.set(op, t.Pattern, t.Flight, t.Flight.Rate, t.Flight.Rate); err != nil {
		return err
	}
	fl.wind, fl.perfect = t.Flight.Wind, t.Scatter == (Scatter{})
	fl.at = fl.air.level(0, 0)
	fl.seen = Seen{Pattern: t.Pattern, Flight: t.Flight, Start: t.Start}
	if !fl.perfect {
		fl.random.Seed(t.Seed, 0)
		bank, err := hold.BankAtRate(t.Flight.TAS, t.Flight.Rate)
		if err != nil {
			return err
		}
		fl.bank = float64(bank)
		sin, cos := sincos(fl.bank)
		fl.tangent = sin / cos
		fl.seen.Flight.Wind = shifted(&fl.random, fl.wind, t.Scatter.WindKnown)
	}
	return nil
}

func (fl *flyer) lap(op string) (Lap, error) {
	t, seen := &fl.trial, &fl.seen
	seen.Correction = abeam.Degrees(fl.air.in)
	if t.Pattern.Turn() == hold.Left {
		seen.Correction = 0 - seen.Correction
	}
	plan, err := t.Strategy.ask(seen)
	if err != nil {
		return Lap{}, err
	}
	o := &fl.order
	*o = order{
		out: steer(t.Pattern.Turn(), plan.Correction), then: steer(t.Pattern.Turn(), plan.Then), time: plan.Outbound.Seconds(),
		change: plan.Change.Seconds(), abeams: plan.Abeams, start: t.Start, cut: float64(t.Intercept.Cut),
	}
	if plan.Start != 0 {
		o.start = plan.Start
	}
	misread := 0.0
	if !fl.perfect {
		if misread, err = fl.disturb(op); err != nil {
			return Lap{}, err
		}
	}
	f := &fl.flown
	fl.air.fly(fl.at, o, f)
	lap := Lap{
		Plan: plan, Wind: fl.wind,
		RollOut: hold.Point{Along: abeam.NM(f.rollX), Abreast: abeam.NM(f.rollY)}, Passed: abeam.NM(f.next.y), Cut: abeam.Degrees(f.cut), tas: t.Flight.TAS,
	}
	good := true
	for _, d := range [...]struct {
		to *time.Duration
		s  float64
	}{{&lap.Straight, f.straight}, {&lap.Outbound, f.outbound}, {&lap.ToAbeam, f.toAbeam}, {&lap.Inbound, f.inbound}, {&lap.Lap, f.lap}, {&seen.Inbound, f.inbound + misread}} {
		var ok bool
		*d.to, ok = clock.Duration(d.s)
		good = good && ok
	}
	if !good || math.IsNaN(f.rollY) || math.IsInf(f.rollY, 0) {
		return Lap{}, check.Unflyable(op, "wind speed", fl.wind.Speed, "far enough below the TAS of "+t.Flight.TAS.String()+" for the lap to end")
	}
	lap.Error = lap.Inbound - seen.Target()
	seen.Laps++
	seen.Last, seen.ToAbeam, seen.RollOut = plan, lap.ToAbeam, lap.RollOut
	fl.at = f.next
	return lap, nil
}

// disturb draws the errors of a lap, and gives that of reading the inbound time.
func (fl *flyer) disturb(op string) (float64, error) {
	t, r := &fl.trial, &fl.random
	s := &t.Scatter
	fl.order.late = s.Timing.Seconds() * bell(r)
	misread := s.Timing.Seconds() * bell(r)
	heading := float64(s.Heading) * bell(r)
	fl.order.out += heading
	fl.order.then += heading
	f := t.Flight
	f.TAS = min(wind.MaxTAS, f.TAS+s.Airspeed*abeam.Knots(bell(r)))
	bank1, bank2 := float64(s.Bank)*bell(r), float64(s.Bank)*bell(r)
	next := shifted(r, fl.wind, s.WindChange)
	if fl.seen.Laps > 0 {
		fl.wind = next
	}
	f.Wind = fl.wind
	if !(f.TAS > f.Wind.Speed) {
		return 0, check.Unflyable(op, "wind speed", f.Wind.Speed, "below the TAS as flown, "+f.TAS.String())
	}
	return misread, fl.air.set(op, t.Pattern, f, fl.banked(f.TAS, bank1), fl.banked(f.TAS, bank2))
}
