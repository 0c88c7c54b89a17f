package main

import (
	"math"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/tolerance"
	"github.com/holdingfix/abeam/wind"
)

// flight is a log to be judged.
type flight struct {
	log       tolerance.Log
	cut       tolerance.Flown
	standard  tolerance.Standard
	clearance tolerance.Clearance
}

func judging() ([]path, error) {
	fix := hold.Fix{Ident: "TARNO", Position: s2.LatLngFromDegrees(47.3, -121.9), Variation: 14}
	p, err := hold.NewPattern(fix, 75, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		return nil, err
	}
	plan := tolerance.Plan{
		Pattern: p, Flight: hold.Flight{TAS: 118, Rate: hold.StandardRate, Wind: wind.Wind{From: 200, Speed: 15}},
		Altitude: 7000, Before: time.Minute, After: time.Minute, Step: time.Second / 10, Seed: 1,
		HeadingNorth: abeam.Magnetic, Noise: tolerance.Noise{Altitude: 20, IAS: 2, Heading: 1, Groundspeed: 1, Track: 1},
	}
	exact, err := p.Circuit(plan.Flight)
	if err != nil {
		return nil, err
	}
	plan.Arrival = exact.InboundHeading
	for range 8 {
		plan.Laps = append(plan.Laps, tolerance.PlannedLap{Heading: exact.OutboundHeading, Outbound: exact.Clock})
	}
	var f flight
	if f.log, err = plan.Log(); err != nil {
		return nil, err
	}
	if f.cut, err = tolerance.Cut(f.log, p); err != nil {
		return nil, err
	}
	f.standard = tolerance.FAAInstrument()
	f.clearance = tolerance.Clearance{Pattern: p, Altitude: 7000, IAS: 105, Guidance: tolerance.GPSTerminal()}
	if _, err = tolerance.Judge(f.log, f.cut, f.standard, f.clearance); err != nil {
		return nil, err
	}
	return []path{compared("tolerance: judging, a sample", []flight{f}, func(f *flight) float64 { return float64(len(f.log.Samples)) },
		func(f *flight) float64 {
			j, _ := tolerance.Judge(f.log, f.cut, f.standard, f.clearance)
			return float64(len(j.Laps))
		},
		way[flight]{"extremes, sums and limits of 3 quantities", (*flight).floor}, way[flight]{}, 0)}, nil
}

// floor goes through the samples once: their place in the frame of the pattern, and of
// airspeed, altitude and distance across the course the extremes, the sums, and the time
// within limits.
func (f *flight) floor() float64 {
	type quantity struct {
		least, most, sum, squares float64
		inside                    time.Duration
	}
	var all [3]quantity
	for i := range f.log.Samples {
		s := &f.log.Samples[i]
		x, y := 60*(s.Lat-47.3), 40*(s.Lon+121.9)
		for k, d := range [3]float64{float64(s.IAS) - 105, float64(s.Altitude) - 7000, 0.9*y - 0.4*x} {
			q := &all[k]
			q.least, q.most = math.Min(q.least, d), math.Max(q.most, d)
			q.sum += d
			q.squares += d * d
			if math.Abs(d) <= 10 {
				q.inside += s.Time
			}
		}
	}
	return all[0].sum + all[1].squares + all[2].most + all[2].inside.Seconds()
}
