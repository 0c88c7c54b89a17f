package main

import (
	"math"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/oracle"
)

// laid is a circuit to be sampled every second.
type laid struct {
	circuit hold.Circuit
	samples []hold.Sample
	hold    oracle.Hold
	answer  oracle.Answer
}

// place is a place to be located on a pattern.
type place struct {
	pattern hold.Pattern
	at      s2.LatLng
}

func ground() ([]path, error) {
	cases, err := holdings(hold.InboundTimed)
	if err != nil {
		return nil, err
	}
	tracks, places := make([]laid, 64), make([]place, len(cases))
	for i, c := range cases {
		fix := hold.Fix{Position: s2.LatLngFromDegrees(float64(i%120-60), float64(i%360-180))}
		p := &places[i]
		if p.pattern, err = hold.NewPattern(fix, c.pattern.Inbound(), c.pattern.Turn(), c.pattern.Leg()); err != nil {
			return nil, err
		}
		if p.at, err = p.pattern.Place(hold.Point{Along: abeam.NM(i%7) - 4, Abreast: abeam.NM(i % 3)}); err != nil {
			return nil, err
		}
		if i >= len(tracks) {
			continue
		}
		t := &tracks[i]
		if t.circuit, err = c.pattern.Circuit(c.flight); err != nil {
			return nil, err
		}
		if t.samples, err = t.circuit.AppendTrack(nil, time.Second); err != nil {
			return nil, err
		}
		t.hold = c.oracle
		t.answer = oracle.Answer{
			InboundHeading: float64(t.circuit.InboundHeading), Turn: float64(t.circuit.OutboundTurn.Angle), Straight: t.circuit.Straight.Seconds(),
		}
	}
	return []path{
		compared("hold: track, a sample", tracks, func(t *laid) float64 { return float64(len(t.samples)) },
			func(t *laid) float64 {
				t.samples, _ = t.circuit.AppendTrack(t.samples[:0], time.Second)
				return float64(t.samples[len(t.samples)/2].At.Along)
			},
			way[laid]{"1 sincos a sample of a turn, products", (*laid).least},
			way[laid]{"quadrature from the leg's start", (*laid).quadrature}, 2),
		compared("hold: place in the pattern", places, nil,
			func(p *place) float64 {
				at, _ := p.pattern.Locate(p.at)
				return float64(at.Along)
			},
			way[place]{"the same on a sphere", func(p *place) float64 {
				fix := p.pattern.Fix().Position
				s1, c1 := math.Sincos(float64(fix.Lat))
				s2, c2 := math.Sincos(float64(p.at.Lat))
				sl, cl := math.Sincos(float64(p.at.Lng - fix.Lng))
				x, y := c1*s2-s1*c2*cl, c2*sl
				d := math.Atan2(math.Sqrt(x*x+y*y), s1*s2+c1*c2*cl)
				_, cos := math.Sincos(math.Atan2(y, x) - float64(p.pattern.Inbound())*radian)
				return d * cos
			}},
			way[place]{"the place put on the globe to agree, Newton", func(p *place) float64 {
				return newton([]float64{0, 0}, func(x, y []float64) {
					at, err := p.pattern.Place(hold.Point{Along: abeam.NM(x[0]), Abreast: abeam.NM(x[1])})
					if err != nil {
						y[0], y[1] = math.NaN(), math.NaN()
						return
					}
					y[0], y[1] = at.Lat.Degrees()-p.at.Lat.Degrees(), math.Remainder(at.Lng.Degrees()-p.at.Lng.Degrees(), 360)
				})[0]
			}}, 16),
	}, nil
}

// least writes as many samples as the track has, by phase.
func (t *laid) least() float64 {
	c := &t.circuit
	ends := [4]time.Duration{c.OutboundTurn.Time, c.Straight, c.InboundTurn.Time, c.Inbound}
	phase, end := 0, ends[0]
	for i := range t.samples {
		at := time.Duration(i) * time.Second
		for at >= end && phase < 3 {
			phase++
			end += ends[phase]
		}
		s := &t.samples[i]
		x, y := 0.03*at.Seconds(), 0.01*at.Seconds()
		if phase%2 == 0 {
			sin, cos := math.Sincos(0.05 * at.Seconds())
			x, y = x+0.6*sin, y+0.6*cos
		}
		*s = hold.Sample{Time: at, At: hold.Point{Along: abeam.NM(x), Abreast: abeam.NM(y)}, Phase: hold.Phase(phase)}
	}
	return float64(t.samples[0].At.Along)
}

// quadrature lays every sample, and gives the distance along the course of the middle one.
func (t *laid) quadrature() float64 {
	pieces := t.hold.Pieces(t.answer)
	n := len(t.samples)
	middle := 0.0
	k, start := 0, 0.0
	for i := range n {
		at := math.Min(float64(i), t.circuit.Lap.Seconds())
		for k < 3 && at >= start+pieces[k].Duration {
			start += pieces[k].Duration
			k++
		}
		north, east := t.hold.At(pieces[k], at-start)
		if along := t.hold.Along(north, east); i == n/2 {
			middle = along
		}
	}
	return middle
}
