package main

import (
	"fmt"
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/examples/internal/reply"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/timing"
	"github.com/holdingfix/abeam/wind"
)

// Briefing is everything the program says, in one value for the terminal and for JSON.
// Directions are in the north of the hold.
type Briefing struct {
	Caution   string     `json:"caution"`
	Clearance *Clearance `json:"clearance,omitempty"`
	Hold      Hold       `json:"hold"`
	Speed     Speed      `json:"speed"`
	Wind      Wind       `json:"wind"`
	Turn      Turn       `json:"turn"`
	Entry     Entry      `json:"entry"`
	Exact     Exact      `json:"exact"`
	Laps      []Lap      `json:"laps"`
	Protected Protected  `json:"protected"`
	Leaving   Leaving    `json:"leaving"`
	Reports   []string   `json:"reports"`
	Cautions  []string   `json:"cautions"`

	task  task
	exact hold.Circuit
	still hold.Circuit
	thumb hold.Circuit // triple drift for the leg's time; zero if it cannot be flown
	limit hold.SpeedLimit

	target time.Duration // of the inbound leg

	entryFlown entry.Flown // corrected for the wind; zero if it cannot be flown
}

// Hold is what the clearance means.
type Hold struct {
	Fix         string      `json:"fix"`
	Inbound     float64     `json:"inbound_deg"`
	North       abeam.North `json:"north"`
	Direction   string      `json:"direction_from_fix"`
	Turns       hold.Turn   `json:"turns"`
	HoldingSide string      `json:"holding_side_of_course"`
	Leg         string      `json:"leg"`
	Target      float64     `json:"inbound_target_s"` // the inbound leg, or what it is in still air
	LegSource   string      `json:"leg_source"`
	Rules       string      `json:"rules"`
	Altitude    float64     `json:"altitude_ft"`
}

// Speed is the limit, and what is flown.
type Speed struct {
	Limit       string  `json:"limit"`
	LimitSource string  `json:"limit_source"`
	Holding     float64 `json:"holding_kias"`
	TAS         float64 `json:"tas_kt"`
	Mach        float64 `json:"mach"`
	Within      bool    `json:"within_limit"`
	Arriving    float64 `json:"arriving_kias"`
	MustSlow    bool    `json:"must_slow"`
	SlowFrom    string  `json:"slow_from"`
	SlowAt      float64 `json:"slow_at_nm"`
}

// Wind is the wind on the inbound course.
type Wind struct {
	From  float64 `json:"from_deg"`
	Speed float64 `json:"kt"`
	Head  float64 `json:"inbound_headwind_kt"`
	Cross float64 `json:"crosswind_from_right_kt"`
}

// Turn is how the turns are flown.
type Turn struct {
	Rate   float64 `json:"rate_deg_s"`
	Bank   float64 `json:"bank_deg"`
	Radius float64 `json:"radius_nm"`
	ByBank bool    `json:"limited_by_bank"`
	Source string  `json:"source"`
}

// Exact is the circuit that closes.
type Exact struct {
	// LegPossible is false where the wind leaves no outbound leg for the inbound time;
	// the circuit is then that of the shortest inbound leg.
	LegPossible     bool    `json:"leg_possible"`
	ShortestInbound float64 `json:"shortest_inbound_s"`
	reply.Circuit
}

// Leaving is the time until further clearance in laps.
type Leaving struct {
	OverFix string  `json:"over_fix"`
	EFC     string  `json:"expect_further_clearance"`
	Laps    int     `json:"whole_laps"`
	Spare   float64 `json:"spare_s"`
}

func newBriefing(t task) (*Briefing, error) {
	b := &Briefing{Caution: program.Caution, Clearance: t.clearance, task: t}
	steps := []func() error{b.hold, b.speed, b.windAndTurn, b.circuit, b.entry, b.laps, b.protected, b.leaving, b.words}
	for _, step := range steps {
		if err := step(); err != nil {
			return nil, err
		}
	}
	return b, nil
}

func (b *Briefing) hold() error {
	p := b.task.pattern
	side := p.Inbound().Add(p.Turn().Apply(90))
	b.Hold = Hold{
		Fix: p.Fix().Ident, Inbound: float64(p.Inbound()), North: b.task.north, Direction: hold.OctantOf(p.Outward()).String(), Turns: p.Turn(),
		HoldingSide: hold.OctantOf(side).String(), Leg: legWords(p.Leg()), LegSource: b.task.legTime.Source, Rules: b.task.rules.String(),
		Altitude: float64(b.task.altitude),
	}
	if p.Leg() != b.task.rules.TimedLeg(b.task.legTime.Time) {
		b.Hold.LegSource = "as given; " + minutes(b.task.legTime.Time.Seconds()) + " by " + b.task.legTime.Source
	}
	return nil
}

func (b *Briefing) speed() error {
	t := b.task
	band, err := t.rules.SpeedLimit(t.altitude)
	if err != nil {
		return err
	}
	tas, err := t.air.TASFromCAS(t.holding)
	if err != nil {
		return err
	}
	mach, err := t.air.MachFromTAS(tas)
	if err != nil {
		return err
	}
	arriving, err := t.air.TASFromCAS(t.arriving)
	if err != nil {
		return err
	}
	arrivingMach, err := t.air.MachFromTAS(arriving)
	if err != nil {
		return err
	}
	coming, err := wind.SolveTrack(t.heading, arriving, t.wind)
	if err != nil {
		return err
	}
	slow, err := timing.SlowAt(coming.Groundspeed)
	if err != nil {
		return err
	}
	within := func(ias abeam.Knots, m wind.Mach) bool {
		return (band.Limit.IAS == 0 || ias <= band.Limit.IAS) && (band.Limit.Mach == 0 || float64(m) <= band.Limit.Mach)
	}
	b.limit = band.Limit
	b.Speed = Speed{
		Limit: band.Limit.String(), LimitSource: band.Source, Holding: float64(t.holding), TAS: float64(tas), Mach: float64(mach),
		Within: within(t.holding, mach), Arriving: float64(t.arriving), MustSlow: !within(t.arriving, arrivingMach),
		SlowFrom: t.overFix.Add(-timing.SlowWithin).Format(clockLayout), SlowAt: float64(slow),
	}
	return nil
}

func (b *Briefing) flight() hold.Flight {
	return hold.Flight{TAS: abeam.Knots(b.Speed.TAS), Rate: hold.Rate(b.Turn.Rate), Wind: b.task.wind, Altitude: b.task.altitude}
}

func (b *Briefing) windAndTurn() error {
	t := b.task
	c := t.wind.Components(t.pattern.Inbound())
	b.Wind = Wind{From: float64(t.wind.From), Speed: float64(t.wind.Speed), Head: float64(c.Head), Cross: float64(c.Cross)}
	turn, err := t.rules.Turns.At(abeam.Knots(b.Speed.TAS))
	if err != nil {
		return err
	}
	b.Turn = Turn{
		Rate: float64(turn.Rate), Bank: float64(turn.Bank), Radius: float64(turn.Radius), ByBank: turn.ByBank,
		Source: t.rules.Turns.Source,
	}
	return nil
}

// circuit solves the hold, and where the inbound time of its leg cannot be had, the hold
// of the shortest inbound leg.
func (b *Briefing) circuit() error {
	p, f := b.task.pattern, b.flight()
	calm := f
	calm.Wind = wind.Wind{}
	var err error
	if b.still, err = p.Circuit(calm); err != nil {
		return err
	}
	b.target = b.still.Inbound
	b.Hold.Target = b.target.Seconds()
	shortest, err := p.ShortestInbound(f)
	if err != nil {
		return err
	}
	possible := p.Leg().Kind() != hold.InboundTimed || shortest <= b.target
	if !possible {
		if p, err = p.WithLeg(hold.TimedInbound(shortest)); err != nil {
			return err
		}
	}
	if b.exact, err = p.Circuit(f); err != nil {
		return err
	}
	b.Exact = Exact{LegPossible: possible, ShortestInbound: shortest.Seconds(), Circuit: reply.Of(b.exact)}
	return nil
}

// leaving counts the laps from the end of the entry to the time of further clearance.
func (b *Briefing) leaving() error {
	t := b.task
	b.Leaving.OverFix = t.overFix.Format(clockLayout)
	if t.efc.IsZero() {
		return nil
	}
	b.Leaving.EFC = t.efc.Format(clockLayout)
	left := t.efc.Sub(t.overFix) - b.entryFlown.Total
	b.Leaving.Laps = int(max(0, left) / b.exact.Lap)
	b.Leaving.Spare = (left - time.Duration(b.Leaving.Laps)*b.exact.Lap).Seconds()
	return nil
}

func (b *Briefing) words() error {
	fix := b.Hold.Fix
	b.Reports = []string{
		fmt.Sprintf("over %s: time and altitude, %.0f ft", fix, b.Hold.Altitude),
		"leaving " + fix,
	}
	if !b.Speed.Within {
		b.Reports = append(b.Reports, "unable to hold at or below "+b.Speed.Limit)
		b.Cautions = append(b.Cautions, fmt.Sprintf("%.0f KIAS exceeds the limit of %s: protected airspace is sized for the limit", b.Speed.Holding, b.Speed.Limit))
	}
	if b.Leaving.EFC == "" && b.Clearance == nil {
		b.Reports = append(b.Reports, "no time to expect further clearance was given: ask for one")
	}
	if !b.Exact.LegPossible {
		b.Cautions = append(b.Cautions, fmt.Sprintf("in this headwind no outbound leg gives an inbound leg of %s; the shortest that can be had is %s, flown below as exact",
			minutes(b.Hold.Target), minutes(b.Exact.ShortestInbound)))
	}
	for n := range b.exact.Notes.All() {
		b.Cautions = append(b.Cautions, n.String())
	}
	if b.Entry.Corrected.Failed != "" {
		b.Cautions = append(b.Cautions, fmt.Sprintf("the %v entry cannot be flown on time in this wind: it %s", b.Entry.Kind, b.Entry.Corrected.Failed))
	}
	for _, n := range b.Entry.Corrected.Notes {
		b.Cautions = append(b.Cautions, "the entry: "+n)
	}
	if b.Leaving.EFC != "" {
		b.Cautions = append(b.Cautions, "the time to expect further clearance is no clearance: leave when cleared, or by the rules for lost communications")
	}
	if leg := b.task.pattern.Leg(); leg.Inbound()+leg.Outbound() == 0 {
		b.Cautions = append(b.Cautions, "the leg ends by distance ("+b.Hold.Leg+"), not by the clock: the times are what it takes in this wind")
	}
	b.Cautions = append(b.Cautions,
		"the outbound leg is a heading, not a course; the exact answer holds for this wind and steady flight only",
		"check turn, speed, time and distance against the chart: a fix may have more than one pattern")
	return nil
}

// legWords says a leg as it is briefed.
func legWords(l hold.Leg) string {
	switch l.Kind() {
	case hold.InboundTimed:
		return minutes(l.Inbound().Seconds()) + " inbound"
	case hold.OutboundTimed:
		return minutes(l.Outbound().Seconds()) + " outbound by the clock"
	case hold.OutboundDME:
		_, limit := l.DME()
		return fmt.Sprintf("outbound to %g DME", float64(limit))
	}
	return fmt.Sprintf("%g NM outbound along the track", float64(l.Length()))
}

// minutes gives seconds as they are read off a clock.
func minutes(seconds float64) string {
	d := time.Duration(math.Round(seconds)) * time.Second
	sign := ""
	if d < 0 {
		d, sign = -d, "-"
	}
	return fmt.Sprintf("%s%d:%02d", sign, int(d.Minutes()), int(d.Seconds())%60)
}
