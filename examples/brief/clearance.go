package main

import (
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
)

// Clearance is the clearance as it was heard, for the briefing.
type Clearance struct {
	Text     string   `json:"text"`
	Readback string   `json:"readback"`
	Ask      []string `json:"ask"`  // findings that call for a question
	Note     []string `json:"note"` // findings that do not
}

// setting is what the clearance leaves to the scenario.
func (s *Scenario) setting(fix hold.Fix, rules hold.Rules, now time.Time) hold.Setting {
	return hold.Setting{
		Fix: fix, AtStation: s.Fix.AtStation, Station: s.station(), Rules: rules, Altitude: abeam.Feet(*s.Air.Altitude), Now: now,
	}
}

// cleared takes the pattern, the speed limit and the time of further clearance from the
// words of the clearance.
func (s *Scenario) cleared(t *task, fix hold.Fix) error {
	c, err := hold.ParseClearance(s.Clearance)
	if err != nil {
		return err
	}
	if name := c.HoldingFix(); name != "" {
		fix.Ident = name
	}
	setting := s.setting(fix, t.rules, t.overFix)
	if err := t.cleared(c.MaxIAS); err != nil {
		return err
	}
	if t.pattern, err = c.Pattern(setting); err != nil {
		return err
	}
	if c.EFC.Given() {
		t.efc = c.EFC.Near(t.overFix)
	}
	findings, err := c.Findings(setting)
	if err != nil {
		return err
	}
	t.clearance = &Clearance{Text: c.String(), Readback: c.Readback(), Ask: []string{}, Note: []string{}}
	for _, f := range findings {
		if f.Information() {
			t.clearance.Note = append(t.clearance.Note, f.String())
		} else {
			t.clearance.Ask = append(t.clearance.Ask, f.String())
		}
	}
	return nil
}

// cleared takes a maximum holding airspeed that was said, unless it is above the limit of
// the altitude: that is to be asked about, and until then the limit governs.
func (t *task) cleared(most abeam.Knots) error {
	band, err := t.rules.SpeedLimit(t.altitude)
	if err != nil || most == 0 || band.Limit.IAS > 0 && most > band.Limit.IAS {
		return err
	}
	limit := hold.SpeedLimit{IAS: most, Mach: band.Limit.Mach}
	t.rules.Speeds = []hold.SpeedBand{{UpTo: hold.MaxAltitude, Limit: limit, Source: "as cleared"}}
	return nil
}

// spell puts the clearance into the fields of the hold, so that one of them can be
// changed.
func (s *Scenario) spell() error {
	if s.Clearance == "" {
		return nil
	}
	t, err := s.task()
	if err != nil {
		return err
	}
	inbound := float64(t.pattern.Inbound())
	s.Hold.Inbound, s.Hold.Turns = &inbound, t.pattern.Turn()
	leg := t.pattern.Leg()
	switch s.Hold.Leg = (leg.Inbound() + leg.Outbound()).Seconds(); leg.Kind() { // one of them is zero
	case hold.OutboundLength:
		s.Hold.Miles = float64(leg.Length())
	case hold.OutboundDME:
		station, limit := leg.DME()
		s.Hold.Miles = math.Abs(float64(limit - station.Fix))
		s.Fix.ToStation = station.Course == hold.Toward
	}
	s.Fix.Ident = t.pattern.Fix().Ident
	if !t.efc.IsZero() {
		s.Arrival.EFC = t.efc.Format(clockLayout)
	}
	s.Clearance = ""
	return nil
}
