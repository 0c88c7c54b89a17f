package main

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/tolerance"
	"github.com/holdingfix/abeam/wind"
)

// demoPlan is the invented flight whose log is demo.csv: a teardrop entry, a first lap
// without any correction, a second by rules of thumb, a third nearly and a fourth
// exactly right, with an altitude lost in a turn, an airspeed gained on a leg and a
// heading let go.
func demoPlan(p hold.Pattern) (tolerance.Plan, error) {
	f := hold.Flight{TAS: 122, Rate: hold.StandardRate, Wind: wind.Wind{From: 262, Speed: 24}}
	exact, err := p.Circuit(f)
	if err != nil {
		return tolerance.Plan{}, err
	}
	plan := tolerance.Plan{
		Pattern: p, Flight: f, Altitude: 6000, Arrival: p.Outward().Add(-15), Before: 150 * time.Second,
		Entry: entry.Teardrop, EntryHeading: p.Outward().Add(-18), EntryTime: time.Minute,
		Laps: []tolerance.PlannedLap{
			{Heading: p.Outward(), Outbound: time.Minute},
			{Heading: p.Outward().Add(-3 * exact.InboundCorrection), Outbound: 70 * time.Second},
			{Heading: exact.OutboundHeading.Add(3), Outbound: exact.Clock + 5*time.Second},
			{Heading: exact.OutboundHeading, Outbound: exact.Clock},
		},
		After: 40 * time.Second, Step: time.Second, Seed: 2026, HeadingNorth: abeam.Magnetic,
		Noise: tolerance.Noise{Altitude: 7, IAS: 0.8, Heading: 0.7, Groundspeed: 0.6, Track: 0.6},
	}
	slips := func(q tolerance.Quantity, from time.Duration, each time.Duration, amounts ...float64) {
		for i, by := range amounts {
			plan.Slips = append(plan.Slips, tolerance.Slip{Quantity: q, From: from + time.Duration(i)*each, For: each, By: by})
		}
	}
	slips(tolerance.Altitude, 495*time.Second, 4*time.Second, -30, -60, -90, -120, -145, -150, -135, -110, -80, -50, -25)
	slips(tolerance.IAS, 735*time.Second, 3*time.Second, 3, 6, 9, 12, 14, 13, 11, 8, 5, 2)
	slips(tolerance.Heading, 1018*time.Second, 3*time.Second, 5, 14, 17, 15, 6)
	return plan, nil
}
