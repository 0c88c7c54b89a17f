package tolerance

import (
	"fmt"
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/timing"
	"github.com/holdingfix/abeam/wind"
)

// Advice is one thing to do on the next lap, in one line.
type Advice struct {
	Topic  string
	Text   string
	Source string
}

// LapCorrection is how a lap was corrected for the wind, beside the exact circuit in the
// estimated wind. Corrections are from the still-air headings, positive to the right.
type LapCorrection struct {
	Lap                int // from 1
	Inbound, Outbound  abeam.Degrees
	ExactIn, ExactOut  abeam.Degrees
	Clock, ExactClock  time.Duration // of the outbound leg
	InboundTime, Wants time.Duration // flown, and the target
}

// Exact is the circuit that closes in the estimated wind.
type Exact struct {
	Flight  hold.Flight
	Circuit hold.Circuit
	// Possible: the leg of the clearance can be had; otherwise the circuit is that of the
	// shortest inbound leg.
	Possible bool
}

// ExactLap gives the circuit for a flight and the wind estimated of it, at the mean rate
// of turn flown (that of [hold.FAATurn] where no lap shows it).
//
// Errors: those of [hold.Pattern.Circuit], but never for want of an outbound leg.
func ExactLap(f Flown, w WindEstimate) (Exact, error) {
	e := Exact{Flight: hold.Flight{TAS: w.TAS, Rate: f.Rate, Wind: w.In(f.Pattern.Fix().Variation)}}
	if !(f.Rate >= hold.MinRate && f.Rate <= hold.MaxRate) {
		turning, err := hold.FAATurn().At(w.TAS)
		if err != nil {
			return Exact{}, err
		}
		e.Flight.Rate = turning.Rate
	}
	shortest, err := f.Pattern.ShortestInbound(e.Flight)
	if err != nil {
		return Exact{}, err
	}
	p := f.Pattern
	target := p.Leg().Inbound() // 0 for a leg that is no time
	if e.Possible = target == 0 || target >= shortest; !e.Possible {
		if p, err = p.WithLeg(hold.TimedInbound(shortest)); err != nil {
			return Exact{}, err
		}
	}
	if e.Circuit, err = p.Circuit(e.Flight); err != nil {
		return Exact{}, err
	}
	return e, nil
}

// Corrections compares every lap with an outbound leg with the exact circuit. Where headings
// were not recorded they are those that the estimated wind makes of the tracks.
//
// Errors: those of [wind.SolveHeading].
func Corrections(f Flown, e Exact) ([]LapCorrection, error) {
	var all []LapCorrection
	for i, lap := range f.Laps {
		if lap.Orbit || lap.Inbound <= 0 {
			continue
		}
		in, out := lap.InboundCourse, lap.OutboundCourse
		if !f.ByHeading {
			for _, b := range []*abeam.Bearing{&in, &out} {
				t, err := wind.SolveHeading(*b, e.Flight.TAS, e.Flight.Wind)
				if err != nil {
					return nil, err
				}
				*b = t.Heading
			}
		}
		all = append(all, LapCorrection{
			Lap: i + 1, Inbound: in.Sub(f.Pattern.Inbound()), Outbound: out.Sub(f.Pattern.Outward()),
			ExactIn: e.Circuit.InboundCorrection, ExactOut: e.Circuit.OutboundCorrection,
			Clock: lap.Outbound, ExactClock: e.Circuit.Clock, InboundTime: lap.Inbound, Wants: f.Pattern.Leg().Inbound(),
		})
	}
	return all, nil
}

// Advise gives the next lap from the last one with an outbound leg: the time by half and
// by all of the discrepancy and the heading by triple drift, of package timing, beside
// the exact answer.
//
// Errors: [abeam.ErrInvalid] where no lap has an outbound and an inbound leg.
func Advise(f Flown, e Exact, corrections []LapCorrection) ([]Advice, error) {
	const op = "tolerance.Advise"
	if len(corrections) == 0 {
		return nil, check.Invalid(op, "laps with both legs", 0, "at least 1")
	}
	last := corrections[len(corrections)-1]
	c := e.Circuit
	var all []Advice
	if !e.Possible {
		all = append(all, Advice{"inbound time", fmt.Sprintf("in the estimated wind no outbound leg gives %s inbound; the shortest to be had is %s",
			Clock(last.Wants), Clock(c.Inbound)), "closed form"})
	}
	half, errHalf := timing.HalfDiscrepancy(last.Clock, last.InboundTime, last.Wants)
	full, errFull := timing.FullDiscrepancy(last.Clock, last.InboundTime, last.Wants)
	if errHalf == nil && errFull == nil {
		all = append(all,
			Advice{"outbound time", fmt.Sprintf("exact in the estimated wind: %s by the clock from abeam or wings level (last lap %s)", Clock(c.Clock), Clock(last.Clock)), "closed form"},
			Advice{"outbound time", fmt.Sprintf("by rule, inbound was %s against %s: outbound %s by half the discrepancy, %s by all of it",
				Clock(last.InboundTime), Clock(last.Wants), Clock(half), Clock(full)), "common practice; CNATRA P-871"})
	}
	all = append(all, Advice{"outbound heading", fmt.Sprintf("exact in the estimated wind: %s (last lap %s)", c.OutboundHeading.ThreeFigures(),
		f.Pattern.Outward().Add(last.Outbound).ThreeFigures()), "closed form"})
	if triple, err := timing.TripleDrift(last.Inbound); err == nil {
		all = append(all, Advice{"outbound heading", fmt.Sprintf("by rule, three times the inbound correction of %s: %s",
			side(last.Inbound), f.Pattern.Outward().Add(triple).ThreeFigures()), "AIM 5-3-8 j.8(c)"})
	}
	return append(all, Advice{"inbound heading", fmt.Sprintf("exact in the estimated wind: %s (last lap %s)", c.InboundHeading.ThreeFigures(),
		f.Pattern.Inbound().Add(last.Inbound).ThreeFigures()), "closed form"}), nil
}

// side puts an angle in words: "8 right".
func side(d abeam.Degrees) string {
	switch r := math.Round(float64(d)); {
	case r > 0:
		return fmt.Sprintf("%.0f right", r)
	case r < 0:
		return fmt.Sprintf("%.0f left", -r)
	}
	return "nothing"
}

// Clock gives a time as it is read off a stopwatch, to the second: "1:04", "-0:07".
func Clock(d time.Duration) string {
	s := int64(d.Round(time.Second) / time.Second)
	sign := ""
	if s < 0 {
		s, sign = -s, "-"
	}
	return fmt.Sprintf("%s%d:%02d", sign, s/60, s%60)
}
