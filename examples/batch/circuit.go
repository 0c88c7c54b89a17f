package main

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/examples/internal/form"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// circuit is the library at work on one row: the lap that closes, in standard air, by
// the rules for speeds, turns and leg times that are given.
func circuit(rules hold.Rules, row *form.Form) (hold.Flight, hold.Circuit, error) {
	course, turns := form.Read[abeam.Bearing](row, "inbound_deg"), form.Read[hold.Turn](row, "turns")
	altitude, ias := form.Read[abeam.Feet](row, "altitude_ft"), form.Read[abeam.Knots](row, "kias")
	from, speed := form.Read[abeam.Bearing](row, "wind_from_deg"), form.Read[abeam.Knots](row, "wind_kt")
	if err := row.Err(); err != nil {
		return hold.Flight{}, hold.Circuit{}, err
	}
	leg, err := rules.LegTime(altitude)
	if err != nil {
		return hold.Flight{}, hold.Circuit{}, err
	}
	pattern, err := hold.NewPattern(hold.Fix{}, course, turns, rules.TimedLeg(leg.Time))
	if err != nil {
		return hold.Flight{}, hold.Circuit{}, err
	}
	air, err := wind.StandardAir(altitude, 0)
	if err != nil {
		return hold.Flight{}, hold.Circuit{}, err
	}
	flight, err := hold.NewFlight(ias, air, rules.Turns, wind.Wind{From: from, Speed: speed})
	if err != nil {
		return hold.Flight{}, hold.Circuit{}, err
	}
	c, err := pattern.Circuit(flight)
	return flight, c, err
}
