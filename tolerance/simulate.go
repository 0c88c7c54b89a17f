package tolerance

import (
	"fmt"
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/internal/clock"
	"github.com/holdingfix/abeam/wind"
)

// Plan is an invented flight of a hold: what the pilot intends, and what goes wrong. Its
// log is for demonstrations and tests. The aeroplane arrives straight over the fix, flies
// the entry, then the laps, each by an outbound heading and a clock, turning inbound
// until the nose and the wind take it to the fix, and goes on straight in the end.
type Plan struct {
	Pattern  hold.Pattern
	Flight   hold.Flight // wind in the north of the pattern
	Altitude abeam.Feet  // from 0 to wind.MaxPressureAltitude, in the standard atmosphere

	Arrival abeam.Bearing // heading on arrival, in the north of the pattern
	Before  time.Duration // flown before the fix
	Entry   entry.Kind    // entry.Direct begins the first lap at once, as entry.None does
	// EntryHeading and EntryTime are the outbound part of a teardrop or parallel entry.
	EntryHeading abeam.Bearing
	EntryTime    time.Duration
	Laps         []PlannedLap
	After        time.Duration // flown straight on from the last passage of the fix

	Step  time.Duration // between samples, at least hold.MinStep
	Noise Noise
	Seed  uint64
	Slips []Slip
	// HeadingNorth is the north in which headings are logged. Magnetic takes the courses
	// of the pattern to be magnetic, True adds the variation of the fix.
	HeadingNorth abeam.North
}

// maxLaps is months of holding.
const maxLaps = 100_000

// PlannedLap is what the pilot sets for one lap.
type PlannedLap struct {
	Heading  abeam.Bearing // outbound
	Outbound time.Duration // from wings level or abeam, whichever is later
}

// Noise is the standard deviation of what is recorded, one independent draw a sample.
type Noise struct {
	Altitude    abeam.Feet
	IAS         abeam.Knots
	Heading     abeam.Degrees
	Groundspeed abeam.Knots
	Track       abeam.Degrees
}

// Slip adds an amount to one recorded quantity, altitude in feet, airspeed in knots or
// heading in degrees, from a time on, until it is over.
type Slip struct {
	Quantity Quantity
	From     time.Duration
	For      time.Duration
	By       float64
}

// Log flies the plan. Each time it gives the same.
//
// Errors: [abeam.ErrInvalid] for a plan out of range, or of more than [MaxSamples];
// [abeam.ErrUnflyable] for one in which the fix is not found again.
func (p Plan) Log() (Log, error) {
	const op = "tolerance.Plan.Log"
	f, err := p.fly(op)
	if err != nil {
		return Log{}, err
	}
	air, err := wind.StandardAir(p.Altitude, 0)
	if err != nil {
		return Log{}, err
	}
	ias, err := air.CASFromTAS(p.Flight.TAS)
	if err != nil {
		return Log{}, err
	}
	return p.record(op, f, ias)
}

func (p *Plan) validate(op string) error {
	if err := p.Flight.Validate(); err != nil {
		return err
	}
	if p.Step < hold.MinStep {
		return check.Invalid(op, "step", p.Step, "at least "+hold.MinStep.String())
	}
	if p.HeadingNorth != abeam.True && p.HeadingNorth != abeam.Magnetic {
		return check.Invalid(op, "heading north", p.HeadingNorth, "true or magnetic")
	}
	if err := check.Within(op, "altitude", p.Altitude, 0, wind.MaxPressureAltitude); err != nil {
		return err
	}
	for _, b := range []abeam.Bearing{p.Arrival, p.EntryHeading} {
		if err := check.Finite(op, "heading", b); err != nil {
			return err
		}
	}
	times := []time.Duration{p.Before, p.EntryTime, p.After}
	for _, l := range p.Laps {
		if err := check.Finite(op, "outbound heading", l.Heading); err != nil {
			return err
		}
		times = append(times, l.Outbound)
	}
	for _, d := range times {
		if d < 0 || d > hold.MaxLeg {
			return check.Invalid(op, "time", d, "from 0s to "+hold.MaxLeg.String())
		}
	}
	if len(p.Laps) > maxLaps {
		return check.Invalid(op, "laps", len(p.Laps), fmt.Sprintf("at most %d", maxLaps))
	}
	return p.finite(op)
}

func (p *Plan) finite(op string) error {
	for _, x := range []float64{float64(p.Noise.Altitude), float64(p.Noise.IAS), float64(p.Noise.Heading), float64(p.Noise.Groundspeed), float64(p.Noise.Track)} {
		if err := check.Within(op, "noise", x, 0, 1e4); err != nil {
			return err
		}
	}
	for _, s := range p.Slips {
		if s.Quantity != Altitude && s.Quantity != IAS && s.Quantity != Heading {
			return check.Invalid(op, "slip", s.Quantity, "of altitude, indicated airspeed or heading")
		}
		if err := check.Within(op, "slip", s.By, -1e4, 1e4); err != nil {
			return err
		}
	}
	return nil
}

// flown is a plan flown: pieces of constant rate of turn, and where each lap's corners
// are, in seconds from the start.
type flown struct {
	pieces   []piecewise
	state    state
	rate     float64
	v        float64 // NM/s
	wx, wy   float64
	side     float64
	now      float64
	passages []float64
	corners  [][3]float64 // wings level outbound, start of the inbound turn, wings level inbound
}

// fly lays the pieces of the plan end to end in the course frame.
func (p *Plan) fly(op string) (*flown, error) {
	if err := p.validate(op); err != nil {
		return nil, err
	}
	if p.Pattern.Leg() == (hold.Leg{}) {
		return nil, check.Invalid(op, "pattern", "zero", "one that hold.NewPattern gave")
	}
	f := &flown{v: float64(p.Flight.TAS) / 3600, rate: float64(p.Flight.Rate), side: sideOf(p.Pattern.Turn())}
	s, c := angle.Sincos(f.angle(p.Flight.Wind.From, p.Pattern))
	w := float64(p.Flight.Wind.Speed) / 3600
	f.wx, f.wy = -w*c, -w*s
	f.state.h = f.angle(p.Arrival, p.Pattern)
	gx, gy := f.ground(f.state.h)
	before := p.Before.Seconds()
	f.state.x, f.state.y = -gx*before, -gy*before
	f.straight(before)
	f.passages = append(f.passages, f.now)
	if err := p.enter(op, f); err != nil {
		return nil, err
	}
	for _, lap := range p.Laps {
		f.turn(f.angle(lap.Heading, p.Pattern), 1)
		level := f.now
		gx, _ := f.ground(f.state.h)
		wait := 0.0
		if f.state.x > 0 {
			if gx >= 0 {
				return nil, check.Unflyable(op, "outbound heading", lap.Heading, "one that brings the fix abeam")
			}
			wait = -f.state.x / gx
		}
		f.straight(wait + lap.Outbound.Seconds())
		turnIn := f.now
		established, err := f.home(op, 1)
		if err != nil {
			return nil, err
		}
		f.corners = append(f.corners, [3]float64{level, turnIn, established})
		f.passages = append(f.passages, f.now)
	}
	f.straight(p.After.Seconds())
	return f, nil
}

func (p *Plan) enter(op string, f *flown) error {
	back := 1.0
	switch p.Entry {
	case entry.None, entry.Direct:
		return nil
	case entry.Parallel:
		back = -1
	case entry.Teardrop:
	default:
		return check.Invalid(op, "entry", p.Entry, "direct, teardrop, parallel or none")
	}
	to := f.angle(p.EntryHeading, p.Pattern)
	way := 1.0
	if abeam.NewDegrees(to-f.state.h) < 0 {
		way = -1
	}
	f.turn(to, way)
	f.straight(p.EntryTime.Seconds())
	if _, err := f.home(op, back); err != nil {
		return err
	}
	f.passages = append(f.passages, f.now)
	return nil
}

func sideOf(t hold.Turn) float64 {
	if t == hold.Left {
		return -1
	}
	return 1
}

// angle is a direction in the course frame, mirrored for left turns.
func (f *flown) angle(b abeam.Bearing, p hold.Pattern) float64 {
	return f.side * float64(b.Sub(p.Inbound()))
}

func (f *flown) ground(h float64) (gx, gy float64) {
	s, c := angle.Sincos(h)
	return f.v*c + f.wx, f.v*s + f.wy
}

// home turns one way until the ground track points at the fix, and flies there. It
// gives the time at which the wings are level.
func (f *flown) home(op string, way float64) (level float64, err error) {
	// How far the ground track at the end of the turn points past the fix.
	aim := func(turned float64) (cross, dot float64) {
		end := f.piece(way*f.rate, turned/f.rate).End()
		gx, gy := f.ground(end.Heading)
		return gx*-end.Y - gy*-end.X, -gx*end.X - gy*end.Y
	}
	const step, most = 0.5, 720
	last, _ := aim(0)
	for a := step; a <= most; a += step {
		cross, dot := aim(a)
		if (cross > 0) == (last > 0) || dot <= 0 {
			last = cross
			continue
		}
		lo, hi := a-step, a
		for range 60 {
			mid := (lo + hi) / 2
			if x, _ := aim(mid); (x > 0) == (last > 0) {
				lo = mid
			} else {
				hi = mid
			}
		}
		f.add(way*f.rate, hi/f.rate)
		level = f.now
		gx, gy := f.ground(f.state.h)
		f.straight(math.Hypot(f.state.x, f.state.y) / math.Hypot(gx, gy))
		f.state.x, f.state.y = 0, 0
		return level, nil
	}
	return 0, check.Unflyable(op, "turn to the fix", way, "one that finds the fix within two circles")
}

// at gives a planned time as a Duration; plans are shorter than any bound of it.
func at(seconds float64) time.Duration {
	d, _ := clock.Duration(seconds)
	return d
}
