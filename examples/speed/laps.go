package main

import (
	"math"

	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/oracle"
	"github.com/holdingfix/abeam/timing"
)

// trial is a hold flown by a rule of thumb for some laps.
type trial struct {
	holding
	timing.Trial
	laps  []timing.Lap
	first timing.Lap
}

const lapsFlown = 16

func laps() ([]path, error) {
	var all []path
	for _, with := range []struct {
		name      string
		intercept timing.Intercept
		general   way[trial]
	}{
		{"timing: lap by a rule", timing.Intercept{}, way[trial]{"quadrature of its legs, their times known", (*trial).laid}},
		{"timing: lap with an intercept", timing.StandardIntercept(), way[trial]{}},
	} {
		holds, err := holdings(hold.InboundTimed)
		if err != nil {
			return nil, err
		}
		cases := make([]trial, 64)
		for i := range cases {
			c := &cases[i]
			c.holding = holds[i]
			c.Trial = timing.Trial{
				Pattern: c.pattern, Flight: c.flight, Start: timing.AtWingsLevelOrAbeam, Intercept: with.intercept,
				Strategy: timing.Compose("", timing.ByHalf(), timing.ThreeTimes()),
			}
			if c.laps, err = c.AppendLaps(make([]timing.Lap, 0, lapsFlown), lapsFlown); err != nil {
				return nil, err
			}
			c.first = c.laps[0]
		}
		all = append(all, compared(with.name, cases, func(*trial) float64 { return lapsFlown },
			func(c *trial) float64 {
				c.laps, _ = c.AppendLaps(c.laps[:0], lapsFlown)
				return float64(c.laps[0].RollOut.Along)
			},
			way[trial]{"a circuit of package hold", func(c *trial) float64 {
				sum := 0.0
				for range lapsFlown {
					lap, _ := c.pattern.Circuit(c.flight)
					sum += float64(lap.OutboundHeading)
				}
				return sum
			}},
			with.general, 8))
	}
	return all, nil
}

// laid lays as many laps by quadrature as were flown, each like the first, and gives how
// far along the course that rolls out.
func (c *trial) laid() float64 {
	var out float64
	for range lapsFlown {
		circuit, err := c.pattern.Circuit(c.flight)
		if err != nil {
			return math.NaN()
		}
		outbound := c.pattern.Outward().Add(c.first.Plan.Correction)
		turn := float64(outbound - circuit.InboundHeading)
		if c.pattern.Turn() == hold.Left {
			turn = -turn
		}
		p := c.oracle.Pieces(oracle.Answer{
			InboundHeading: float64(circuit.InboundHeading), Turn: math.Mod(turn+720, 360), Straight: c.first.Straight.Seconds(),
		})[3]
		out = c.oracle.Along(p.North, p.East)
	}
	return out
}
