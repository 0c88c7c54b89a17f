package hold

import (
	"iter"
	"strconv"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/wind"
)

// maxShuttleLaps bounds a climb that hardly climbs.
const maxShuttleLaps = 1000

// Shuttle is a climb or a descent in the hold, lap by lap.
type Shuttle struct {
	// Laps in the order flown, each closing on the fix; on the last the altitude is
	// reached and held to the fix. A lap on which the limit of the rules is exceeded has
	// the note [AboveSpeedLimit].
	Laps    []VaryingCircuit
	Reached time.Duration // when the altitude is reached, since first over the fix
	Time    time.Duration // all laps
}

// Shuttle flies the ascent of v in the hold: laps that each close as
// [Pattern.VaryingCircuit] has it, the next beginning at the altitude at which the last
// ended. The rules judge the airspeed; for a climb in the hold under the FAA they are
// [FAAClimb] where a published procedure asks for the climb.
//
// On a DME leg each lap takes the fix to be where it is read at the altitude at which the
// lap begins.
//
// Errors: as [Pattern.VaryingCircuit]; [abeam.ErrInvalid] for an ascent that goes nowhere
// or rules that know no limit at one of its altitudes; [abeam.ErrUnflyable] where it takes
// more than 1,000 laps.
func (p Pattern) Shuttle(v Varying, rules Rules) (Shuttle, error) {
	const op = "hold.Pattern.Shuttle"
	if err := p.leg.validate(op); err != nil {
		return Shuttle{}, err
	}
	if err := v.validate(op); err != nil {
		return Shuttle{}, err
	}
	a := v.Ascent
	if a.From == a.To {
		return Shuttle{}, check.Invalid(op, "ascent to", a.To, "another altitude than it begins at")
	}
	for _, altitude := range [2]abeam.Feet{a.From, a.To} {
		if _, err := rules.SpeedLimit(altitude); err != nil {
			return Shuttle{}, err
		}
	}
	var s Shuttle
	for range maxShuttleLaps {
		var c VaryingCircuit
		if err := c.solve(op, &p, &v, 1); err != nil {
			return Shuttle{}, err
		}
		fast, err := v.exceeds(rules, min(v.Ascent.From, c.End.Altitude), max(v.Ascent.From, c.End.Altitude))
		if err != nil {
			return Shuttle{}, err
		}
		if fast {
			c.Notes |= Notes(AboveSpeedLimit)
		}
		s.Laps = append(s.Laps, c)
		s.Time += c.Lap
		if c.End.Altitude == a.To {
			minutes := float64((a.To - a.From) / a.PerMinute)
			s.Reached = time.Duration(max(minutes, -minutes) * float64(time.Minute))
			return s, nil
		}
		v.Ascent.From = c.End.Altitude
	}
	return Shuttle{}, check.Unflyable(op, "rate of ascent", a.PerMinute,
		"fast enough to get there in "+strconv.Itoa(maxShuttleLaps)+" laps")
}

// Track gives the laps' tracks as one: the index of the lap and the moment, its time
// counted from first over the fix. Each lap is sampled from its own beginning; its end is
// the beginning of the next and given once.
//
// Errors: as [VaryingCircuit.Track].
func (s Shuttle) Track(step time.Duration) (iter.Seq2[int, Moment], error) {
	const op = "hold.Shuttle.Track"
	if step < MinStep {
		return nil, check.Invalid(op, "step", step, "at least "+MinStep.String())
	}
	if len(s.Laps) == 0 {
		return nil, check.Invalid(op, "shuttle", "zero", "one that Pattern.Shuttle gave")
	}
	return func(yield func(int, Moment) bool) {
		var since time.Duration
		for i, c := range s.Laps {
			track, err := c.Track(step)
			if err != nil {
				return
			}
			for _, m := range track {
				if last := m.Time == c.Lap; last && i < len(s.Laps)-1 {
					break
				}
				m.Time += since
				if !yield(i, m) {
					return
				}
			}
			since += c.Lap
		}
	}, nil
}

// exceeds reports whether the airspeed is above the limit of the rules anywhere from one
// altitude up to another. Within a band the limit is one: at a constant airspeed,
// calibrated or true, the calibrated is highest at the bottom and the Mach number at the
// top.
func (v *Varying) exceeds(rules Rules, lo, hi abeam.Feet) (bool, error) {
	// Rounding of a conversion there and back is no excess.
	const slack = 1 + 1e-9
	below := MinAltitude
	for _, b := range rules.Speeds {
		bottom, top := max(lo, below), min(hi, b.UpTo)
		outside := lo > b.UpTo || hi <= below
		below = b.UpTo
		if outside {
			continue
		}
		cas, err := v.cas(bottom)
		if err != nil {
			return false, err
		}
		mach, err := v.mach(top)
		if err != nil {
			return false, err
		}
		if l := b.Limit; l.IAS != 0 && cas > l.IAS*slack || l.Mach != 0 && float64(mach) > l.Mach*slack {
			return true, nil
		}
	}
	return false, nil
}

func (v *Varying) cas(altitude abeam.Feet) (abeam.Knots, error) {
	if v.CAS != 0 {
		return v.CAS, nil
	}
	air, err := wind.StandardAir(altitude, v.Deviation)
	if err != nil {
		return 0, err
	}
	return air.CASFromTAS(v.TAS)
}

func (v *Varying) mach(altitude abeam.Feet) (wind.Mach, error) {
	air, err := wind.StandardAir(altitude, v.Deviation)
	if err != nil {
		return 0, err
	}
	if v.CAS != 0 {
		return air.MachFromCAS(v.CAS)
	}
	return air.MachFromTAS(v.TAS)
}
