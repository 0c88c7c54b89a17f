package main

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/examples/internal/reply"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// request is what is asked: a clearance in words, or else a course and a turn, and how
// it is flown.
type request struct {
	clearance string
	course    abeam.Bearing
	turns     hold.Turn
	tas       abeam.Knots
	altitude  abeam.Feet
	wind      wind.Wind // in the north of the clearance or the course
}

// answer is the library at work: the lap that closes, by the rules of the FAA.
func (r request) answer() (reply.Answer, error) {
	rules := hold.FAA()
	pattern, ask, err := r.pattern(rules)
	if err != nil {
		return reply.Answer{}, err
	}
	turn, err := rules.Turns.At(r.tas)
	if err != nil {
		return reply.Answer{}, err
	}
	circuit, err := pattern.Circuit(hold.Flight{TAS: r.tas, Rate: turn.Rate, Wind: r.wind, Altitude: r.altitude})
	if err != nil {
		return reply.Answer{}, err
	}
	return reply.To(pattern, circuit, ask), nil
}

// pattern is the hold that is meant, with what to ask about its clearance.
func (r request) pattern(rules hold.Rules) (hold.Pattern, []hold.Finding, error) {
	if r.clearance == "" {
		leg, err := rules.LegTime(r.altitude)
		if err != nil {
			return hold.Pattern{}, nil, err
		}
		pattern, err := hold.NewPattern(hold.Fix{}, r.course, r.turns, rules.TimedLeg(leg.Time))
		return pattern, nil, err
	}
	c, err := hold.ParseClearance(r.clearance)
	if err != nil {
		return hold.Pattern{}, nil, err
	}
	setting := hold.Setting{Fix: hold.Fix{Ident: c.HoldingFix()}, Rules: rules, Altitude: r.altitude}
	pattern, err := c.Pattern(setting)
	if err != nil {
		return hold.Pattern{}, nil, err
	}
	ask, err := c.Findings(setting)
	return pattern, ask, err
}
