package main

import (
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/oracle"
)

// arrival is an entry to be decided and flown.
type arrival struct {
	holding
	heading abeam.Bearing
	plan    entry.Plan
	legs    [2][]entry.Leg // in either manner, until it is established
}

// fed is a heading that depends on the result before, so that decisions and additions
// form a chain from call to call and do not overlap.
func fed(h abeam.Bearing) abeam.Bearing { return h + abeam.Bearing(0*sink) }

// additions is the floor of a decision: 8 float64 additions, each fed by the one before.
//
//go:noinline
func additions(x float64) float64 {
	const d = 0.1
	x += d
	x += d
	x += d
	x += d
	x += d
	x += d
	x += d
	x += d
	return x
}

func entries() ([]path, error) {
	holds, err := holdings(hold.InboundTimed)
	if err != nil {
		return nil, err
	}
	faa, rnav := entry.FAA(), entry.FAARNAV()
	cases := make([]arrival, len(holds))
	for i, h := range holds {
		c := &cases[i]
		c.holding, c.heading = h, abeam.NewBearing(float64(i)*222.49)
		d, err := faa.Choose(h.pattern, c.heading)
		if err != nil {
			return nil, err
		}
		c.plan = faa.Plan(d.Entry, time.Minute)
		for k, manner := range []entry.Manner{entry.AsPublished, entry.ForWind} {
			f, err := c.plan.Fly(h.pattern, h.flight, c.heading, manner)
			if err != nil {
				return nil, err
			}
			for leg := range f.Legs() {
				if leg.Start < f.ToEstablish {
					c.legs[k] = append(c.legs[k], leg)
				}
			}
		}
	}
	const few = 16
	all := []path{
		compared("entry: decision by heading", cases, nil,
			func(c *arrival) float64 {
				d, _ := faa.Choose(c.pattern, fed(c.heading))
				return float64(d.Margin)
			},
			way[arrival]{"8 additions in a chain", func(c *arrival) float64 { return additions(float64(fed(c.heading))) }},
			way[arrival]{}, 0),
		compared("entry: decision by track", cases, nil,
			func(c *arrival) float64 {
				d, _ := rnav.ChooseInWind(c.pattern, c.flight, fed(c.heading))
				return float64(d.Margin)
			},
			way[arrival]{"1 sincos, 1 atan2, 8 additions in a chain", func(c *arrival) float64 {
				sin, cos := math.Sincos(float64(fed(c.heading)-c.flight.Wind.From) * radian)
				return additions(math.Atan2(0.3*sin, 1-0.3*cos))
			}},
			way[arrival]{"Newton for the track, then the decision", func(c *arrival) float64 {
				t := triangle{from: c.flight.Wind.From, w: float64(c.flight.Wind.Speed)}
				v, h := float64(c.flight.TAS), float64(c.heading)*radian
				x := newton([]float64{h, v}, func(x, y []float64) { t.miss(v, h, x[1], x[0], y) })
				d, err := rnav.Choose(c.pattern, abeam.NewBearing(x[0]/radian))
				if err != nil {
					return math.NaN()
				}
				return float64(d.Margin)
			}}, few),
	}
	for k, manner := range []entry.Manner{entry.AsPublished, entry.ForWind} {
		all = append(all, compared([2]string{"entry: flown as published", "entry: flown for the wind"}[k], cases, nil,
			func(c *arrival) float64 {
				f, _ := c.plan.Fly(c.pattern, c.flight, c.heading, manner)
				return float64(f.Established.Along)
			},
			way[arrival]{"a circuit of package hold", func(c *arrival) float64 {
				lap, _ := c.pattern.Circuit(c.flight)
				return float64(lap.OutboundHeading)
			}},
			way[arrival]{"quadrature of its legs, their times known", func(c *arrival) float64 { return c.laid(c.legs[k]) }}, few))
	}
	return all, nil
}

// laid lays the legs end to end by quadrature, and gives how far along the course the last
// one ends.
func (c *arrival) laid(legs []entry.Leg) float64 {
	var p oracle.Piece
	for _, leg := range legs {
		p.Duration, p.Rate, p.Heading = leg.Time.Seconds(), 0, float64(leg.Heading)
		if leg.Through > 0 {
			p.Rate = float64(c.flight.Rate)
			if leg.Turn == hold.Left {
				p.Rate = -p.Rate
			}
			p.Heading -= p.Rate * p.Duration
		}
		p.North, p.East = c.oracle.At(p, p.Duration)
	}
	return c.oracle.Along(p.North, p.East)
}
