package main

import "github.com/holdingfix/abeam/timing"

// mine is a strategy of your own: copy this file and change it. Before each lap it is told
// what a pilot sees and answers with the next outbound heading and time.
var mine = timing.Strategy{Name: "mine", Next: func(s timing.Seen) timing.Plan {
	p := timing.Plan{Outbound: s.Target(), Correction: -2.5 * s.Correction}
	if s.Laps > 0 { // two thirds of the error, and never less than nothing
		p.Outbound = max(0, s.Last.Outbound-(s.Inbound-s.Target())*2/3)
	}
	return p
}}
