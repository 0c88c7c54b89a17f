package timing

import (
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/internal/clock"
)

// MaxWait is the longest time ahead that a departure is planned for.
const MaxWait = 24 * time.Hour

// LegLimits are how short and how long the inbound leg of the last lap may be made, so as to
// cross the fix on time. The leg of the pattern must lie between them.
type LegLimits struct {
	Shortest time.Duration // 0: as short as the wind allows
	Longest  time.Duration // at most hold.MaxLeg
}

// WithinPattern are the limits that keep the last lap inside the pattern as cleared: any
// shorter leg, none longer. To leave at an assigned time the path is adjusted inside the
// pattern.
//
// Source: AIM 5-3-8 k.
func WithinPattern(p hold.Pattern) LegLimits { return LegLimits{Longest: p.Leg().Inbound()} }

// LimitsOf are the limits of an authority at an altitude: any shorter leg, none longer than
// its leg time, which is taken as an inbound time.
//
// Errors: as for [hold.Rules.LegTime].
func LimitsOf(r hold.Rules, altitude abeam.Feet) (LegLimits, error) {
	band, err := r.LegTime(altitude)
	if err != nil {
		return LegLimits{}, err
	}
	return LegLimits{Longest: band.Time}, nil
}

// Crossing is a way to cross the fix again: so many laps as they are, then the last one.
type Crossing struct {
	Whole int           // laps of the pattern as it is
	Last  hold.Circuit  // zero, with Whole 0, is to leave now
	Time  time.Duration // from now, over the fix: exactly Whole laps and the last
}

// Window is a range of times, from now, at which the fix can be crossed after so many whole
// laps and the last; both ends are in it.
type Window struct {
	Whole    int // laps of the pattern as it is, before the last
	From, To time.Duration
}

// Departure is the plan to cross the fix at an assigned time.
type Departure struct {
	Asked time.Duration
	Lap   time.Duration // of the pattern as it is
	Met   bool
	// At crosses at the time asked, or up to [Punctual] before it, never later. It is
	// zero unless Met.
	At Crossing
	// Before and After are the nearest crossings on both sides of a time that no lap
	// fits; After is later than asked. They are zero if Met.
	Before, After Crossing
}

// Punctual is how much before the time asked a crossing that meets it may be: the legs are
// rounded to the nanosecond each, and in a wind near the airspeed a lap grows many times as
// fast as its inbound leg.
const Punctual = time.Microsecond

// planner holds what all crossings share.
type planner struct {
	op                         string
	pattern                    hold.Pattern
	flight                     hold.Flight
	air                        air
	whole                      hold.Circuit
	shortest, longest          hold.Circuit
	shortestLap, lap, mostLast time.Duration
}

func newPlanner(op string, p hold.Pattern, f hold.Flight, limits LegLimits) (planner, error) {
	pl := planner{op: op, pattern: p, flight: f}
	leg := p.Leg().Inbound()
	if leg <= 0 {
		return planner{}, check.Invalid(op, "leg", p.Leg(), "timed inbound")
	}
	if !(limits.Shortest >= 0 && limits.Shortest <= leg) {
		return planner{}, check.Invalid(op, "shortest leg", limits.Shortest, "from 0s to the pattern's "+leg.String())
	}
	if !(limits.Longest >= leg && limits.Longest <= hold.MaxLeg) {
		return planner{}, check.Invalid(op, "longest leg", limits.Longest, "from the pattern's "+leg.String()+" to "+hold.MaxLeg.String())
	}
	var err error
	if pl.whole, err = p.Circuit(f); err != nil {
		return planner{}, err
	}
	if err = pl.air.set(op, p, f, f.Rate, f.Rate); err != nil {
		return planner{}, err
	}
	least, err := p.ShortestInbound(f)
	if err != nil {
		return planner{}, err
	}
	if pl.shortest, err = pl.circuit(max(1, least, limits.Shortest)); err != nil {
		return planner{}, err
	}
	if pl.longest, err = pl.circuit(limits.Longest); err != nil {
		return planner{}, err
	}
	pl.shortestLap, pl.lap, pl.mostLast = pl.shortest.Lap, pl.whole.Lap, pl.longest.Lap
	return pl, nil
}

func (pl *planner) circuit(inbound time.Duration) (hold.Circuit, error) {
	p, err := pl.pattern.WithLeg(hold.TimedInbound(inbound))
	if err != nil {
		return hold.Circuit{}, err
	}
	return p.Circuit(pl.flight)
}

// inbound is the inbound time of the circuit that takes the given time in all. With
// S = t_in + t_out the time on the two legs, L = S + T the lap, and u the inbound heading,
// the closing equation of package hold
//
//	V t_out u_out = -(g t_in + w (T + t_out)) = -(V u t_in + w L)
//
// has the modulus V (S - t_in) = |V u t_in + w L|, in which the squares of t_in cancel:
//
//	t_in = (V² S² - w² L²) / (2 V (V S + (u.w) L))
func (pl *planner) inbound(lap time.Duration) time.Duration {
	a := &pl.air
	l := lap.Seconds()
	s := l - 360/a.rate1
	uw := a.cosIn*a.wx + a.sinIn*a.wy
	w2 := a.wx*a.wx + a.wy*a.wy
	t, _ := clock.Duration((a.v*a.v*s*s - w2*l*l) / (2 * a.v * (a.v*s + uw*l)))
	return t
}

// last is the circuit that takes the given time, or less by at most Punctual. The time lies
// between the shortest and the longest lap.
func (pl *planner) last(lap time.Duration) (hold.Circuit, error) {
	switch lap {
	case pl.shortestLap:
		return pl.shortest, nil
	case pl.lap:
		return pl.whole, nil
	case pl.mostLast:
		return pl.longest, nil
	}
	shortest, longest := pl.shortest.Inbound, pl.longest.Inbound
	// What a second inbound adds to the lap, in the mean; straight down the course it is the
	// same for every leg. Near the airspeed it is hundreds of seconds.
	slope := float64(pl.mostLast-pl.shortestLap) / float64(longest-shortest)
	t := pl.inbound(lap)
	for range 8 {
		t = min(longest, max(shortest, t))
		c, err := pl.circuit(t)
		if err != nil {
			return hold.Circuit{}, err
		}
		late := c.Lap - lap
		if late <= 0 && late >= -Punctual {
			return c, nil
		}
		t -= time.Duration(math.Ceil(float64(late) / slope))
	}
	return hold.Circuit{}, check.NoConvergence(pl.op, "last lap", lap, "one that the wind lets settle to "+Punctual.String())
}

// crossing puts whole laps and a last one together.
func (pl *planner) crossing(whole int, last hold.Circuit) Crossing {
	return Crossing{Whole: whole, Last: last, Time: time.Duration(whole)*pl.lap + last.Lap}
}

// PlanDeparture plans to cross the fix at an assigned time, counted from now, over the fix
// and established inbound: whole laps of the pattern, and the last one stretched or
// shortened. Of several plans that fit, the one whose last lap is nearest to the pattern's is
// given, of two as near the one of fewer laps.
//
// The lap of a given time is a closed form of the exact circuit. The time asked is 0 to
// [MaxWait].
//
// Errors: [abeam.ErrInvalid] for input out of range, limits that leave out the pattern's leg
// among it; [abeam.ErrUnflyable] as for [hold.Pattern.Circuit]; [abeam.ErrNoConvergence] where
// the wind comes so near the airspeed that rounding hides the answer.
func PlanDeparture(p hold.Pattern, f hold.Flight, limits LegLimits, asked time.Duration) (Departure, error) {
	const op = "timing.PlanDeparture"
	if !(asked >= 0 && asked <= MaxWait) {
		return Departure{}, check.Invalid(op, "time asked", asked, "from 0s to "+MaxWait.String())
	}
	pl, err := newPlanner(op, p, f, limits)
	if err != nil {
		return Departure{}, err
	}
	d := Departure{Asked: asked, Lap: pl.lap}
	if asked == 0 {
		d.Met = true
		return d, nil
	}
	// The last lap is asked - n laps; nearest to a lap for n + 1 = asked/lap, rounded.
	near := int((asked+pl.lap/2)/pl.lap) - 1
	best, off := -1, time.Duration(0)
	for n := max(0, near-1); n <= near+1; n++ {
		last := asked - time.Duration(n)*pl.lap
		if last < pl.shortestLap || last > pl.mostLast {
			continue
		}
		if o := (last - pl.lap).Abs(); best < 0 || o < off {
			best, off = n, o
		}
	}
	if best >= 0 {
		last, err := pl.last(asked - time.Duration(best)*pl.lap)
		if err != nil {
			return Departure{}, err
		}
		d.Met, d.At = true, pl.crossing(best, last)
		return d, nil
	}
	// Between two windows, or before the first.
	after := 0
	if asked > pl.mostLast {
		after = int((asked-pl.mostLast)/pl.lap) + 1
		d.Before = pl.crossing(after-1, pl.longest)
	}
	d.After = pl.crossing(after, pl.shortest)
	return d, nil
}

// DepartureWindows gives the set of times, from now, at which the fix can be crossed, up to the
// one given: now, and for each number of whole laps the range that the last one spans. Where
// the ranges meet they are joined into one, with the least number of laps.
//
// Ranges and errors as for [PlanDeparture].
func DepartureWindows(p hold.Pattern, f hold.Flight, limits LegLimits, until time.Duration) ([]Window, error) {
	const op = "timing.DepartureWindows"
	if !(until >= 0 && until <= MaxWait) {
		return nil, check.Invalid(op, "until", until, "from 0s to "+MaxWait.String())
	}
	pl, err := newPlanner(op, p, f, limits)
	if err != nil {
		return nil, err
	}
	windows := []Window{{}}
	for n := 0; ; n++ {
		start := time.Duration(n) * pl.lap
		w := Window{Whole: n, From: start + pl.shortestLap, To: min(until, start+pl.mostLast)}
		if w.From > until {
			return windows, nil
		}
		if last := &windows[len(windows)-1]; w.From <= last.To { // never the first, which is now: a lap takes time
			last.To = w.To
			continue
		}
		windows = append(windows, w)
	}
}

// LoseTime gives the outbound time that loses a given time in still air, from over the fix
// back to it: half of what the two turns leave.
//
//	outbound = (lose - turns)/2
//
// With 3 minutes to lose and turns that take 2, fly 30 s outbound.
//
// Source: AIM 5-4-10, the timed approach. Both times are 0 to [MaxWait].
//
// Errors: [abeam.ErrInvalid] for a time out of range; [abeam.ErrUnflyable] where the turns
// alone take longer.
func LoseTime(lose, turns time.Duration) (time.Duration, error) {
	const op = "timing.LoseTime"
	if !(turns >= 0 && turns <= MaxWait) {
		return 0, check.Invalid(op, "turns", turns, "from 0s to "+MaxWait.String())
	}
	if !(lose >= 0 && lose <= MaxWait) {
		return 0, check.Invalid(op, "time to lose", lose, "from 0s to "+MaxWait.String())
	}
	if lose < turns {
		return 0, check.Unflyable(op, "time to lose", lose, "at least the "+turns.String()+" of the turns")
	}
	return (lose - turns) / 2, nil
}
