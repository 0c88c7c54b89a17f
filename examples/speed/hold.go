package main

import (
	"errors"
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/oracle"
	"github.com/holdingfix/abeam/wind"
)

// holding is a pattern and a flight, and the same for the quadrature.
type holding struct {
	pattern hold.Pattern
	flight  hold.Flight
	oracle  oracle.Hold
	ending  oracle.Ending
}

// holdings gives 1,024 of them that no branch predictor learns, all solvable, with a kind
// of leg.
func holdings(kind hold.LegKind) ([]holding, error) {
	cases := make([]holding, 1024)
	for i := range cases {
		c, x := &cases[i], float64(i)
		tas := 70 + math.Mod(x*61.803, 230)
		c.flight = hold.Flight{
			TAS: abeam.Knots(tas), Rate: hold.StandardRate, Altitude: abeam.Feet(math.Mod(x*797, 12000)),
			Wind: wind.Wind{From: abeam.NewBearing(x * 97.31), Speed: abeam.Knots(tas * math.Mod(x*0.0731, 0.3))},
		}
		leg, err := c.leg(kind, i)
		if err != nil {
			return nil, err
		}
		if c.pattern, err = hold.NewPattern(hold.Fix{}, abeam.NewBearing(x*137.508), hold.Turn(i&1), leg); err != nil {
			return nil, err
		}
		for { // a refusal would be cheap
			_, err := c.pattern.Circuit(c.flight)
			if err == nil {
				break
			}
			if !errors.Is(err, abeam.ErrUnflyable) {
				return nil, err
			}
			c.flight.Wind.Speed /= 2
		}
		c.oracle = oracle.Hold{
			Course: float64(c.pattern.Inbound()), TAS: tas, Rate: float64(c.flight.Rate),
			WindFrom: float64(c.flight.Wind.From), WindSpeed: float64(c.flight.Wind.Speed),
			Inbound: 60, Left: c.pattern.Turn() == hold.Left,
		}
	}
	return cases, nil
}

// leg gives a leg of a minute or so, and what the quadrature ends it by.
func (c *holding) leg(kind hold.LegKind, i int) (hold.Leg, error) {
	minute := float64(c.flight.TAS) / 60
	switch kind {
	case hold.InboundTimed:
		return hold.TimedInbound(time.Minute), nil
	case hold.InboundLength:
		c.ending = func(h oracle.Hold, a oracle.Answer) float64 {
			p := h.Pieces(a)[3]
			return -h.Along(p.North, p.East) - minute
		}
		return hold.LengthInbound(abeam.NM(minute)), nil
	case hold.OutboundTimed:
		c.ending = func(h oracle.Hold, a oracle.Answer) float64 {
			return a.Straight - math.Max(0, h.AbeamAfter(a)) - 90
		}
		return hold.TimedOutbound(90 * time.Second), nil
	case hold.OutboundLength:
		c.ending = func(h oracle.Hold, a oracle.Answer) float64 {
			p := h.Pieces(a)[2]
			return -h.Along(p.North, p.East) - 2*minute
		}
		return hold.LengthOutbound(abeam.NM(2 * minute)), nil
	}
	station := hold.Station{Course: hold.Toward, Fix: 10}
	side := 1.0
	if i%2 == 1 {
		station = hold.Station{Course: hold.Away, Fix: abeam.NM(10 + 2*minute)}
		side = -1
	}
	limit, err := station.Limit(abeam.NM(2 * minute))
	if err != nil {
		return hold.Leg{}, err
	}
	height := float64(c.flight.Altitude.NM())
	ground, err := hold.GroundDistance(station.Fix, c.flight.Altitude)
	c.ending = func(h oracle.Hold, a oracle.Answer) float64 {
		return math.Hypot(h.Range(a, side*float64(ground)), height) - float64(limit)
	}
	return hold.DMELimit(station, limit), err
}

// calls of a circuit that no solution can do without, each fed by the one before, as in
// the problem: the wind's components, the cosine of the correction, the root of the
// closing equation, the outbound heading, its components, the groundspeed on it.
func calls(c *holding) float64 {
	const w = 0.3
	sin, cos := math.Sincos(float64(c.flight.Wind.From-c.pattern.Inbound()) * radian)
	root := math.Sqrt(math.Sqrt(1-w*sin*sin) + cos*cos)
	sin, cos = math.Sincos(math.Atan2(w*sin, -root))
	return math.Sqrt(2 + sin + cos)
}

func circuits() ([]path, error) {
	timed, err := holdings(hold.InboundTimed)
	if err != nil {
		return nil, err
	}
	circuit := func(c *holding) float64 {
		lap, _ := c.pattern.Circuit(c.flight)
		return lap.Straight.Seconds()
	}
	floor := way[holding]{"2 sincos, 1 atan2, 3 roots in a chain", calls}
	solved := way[holding]{"quadrature of the legs, Newton for the lap to close", func(c *holding) float64 {
		a, err := c.oracle.Solve()
		if err != nil {
			return math.NaN()
		}
		return a.Straight
	}}
	until := way[holding]{"quadrature of the legs, Newton for the lap to close and the leg to end", func(c *holding) float64 {
		_, a, err := c.oracle.SolveUntil(c.ending)
		if err != nil {
			return math.NaN()
		}
		return a.Straight
	}}
	const few = 4
	all := []path{
		compared("hold: outbound heading and time", timed, nil, func(c *holding) float64 {
			_, straight, _ := c.pattern.Outbound(c.flight)
			return straight.Seconds()
		}, floor, solved, few),
		compared("hold: circuit, inbound timed", timed, nil, circuit, floor, solved, few),
	}
	for _, leg := range []struct {
		kind hold.LegKind
		name string
	}{
		{hold.InboundLength, "inbound length"}, {hold.OutboundTimed, "outbound timed"},
		{hold.OutboundLength, "outbound length"}, {hold.OutboundDME, "DME limit"},
	} {
		cases, err := holdings(leg.kind)
		if err != nil {
			return nil, err
		}
		all = append(all, compared("hold: circuit, "+leg.name, cases, nil, circuit, floor, until, few))
	}
	return all, nil
}
