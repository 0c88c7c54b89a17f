package main

import (
	"errors"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/timing"
)

// Lap is one way to fly a lap, and what it leaves to mend.
type Lap struct {
	Method  string  `json:"method"`
	Source  string  `json:"source"`
	Heading float64 `json:"outbound_heading_deg"`
	Clock   float64 `json:"outbound_clock_s"`
	Inbound float64 `json:"inbound_s"`
	Error   float64 `json:"inbound_error_s"`  // inbound less target
	Across  float64 `json:"across_course_nm"` // at roll-out, positive on the holding side
	Failed  string  `json:"failed,omitempty"`
}

// laps flies the first lap by the rules of thumb, then the next as they correct it.
// The error is against the inbound leg of the clearance, whatever can be had, or where
// the clearance gives another leg against its inbound time in still air.
func (b *Briefing) laps() error {
	p := b.task.pattern
	target, clock := b.target, b.still.Clock
	b.addLap("still-air heading and time", "no correction", p.Outward(), clock, nil)
	correction, err := timing.TripleDrift(b.exact.InboundCorrection)
	if err != nil && !errors.Is(err, abeam.ErrInvalid) {
		return err
	}
	heading := p.Outward().Add(correction)
	first, ok := b.addLap("triple drift, still-air time", "AIM 5-3-8 j.8(c)", heading, clock, err)
	b.thumb = first
	if ok && p.Leg().Kind() == hold.InboundTimed { // the other legs are not corrected by time
		for _, rule := range []struct {
			method, source string
			next           func(last, inbound, target time.Duration) (time.Duration, error)
		}{
			{"  next lap, half the discrepancy", "common practice", timing.HalfDiscrepancy},
			{"  next lap, all of it", "CNATRA P-871", timing.FullDiscrepancy},
		} {
			outbound, err := rule.next(clock, max(0, first.Inbound), target)
			b.addLap(rule.method, rule.source, heading, outbound, err)
		}
	}
	c := b.exact
	b.Laps = append(b.Laps, lapOf("exact", "closed form", c, c.Clock, target))
	return nil
}

func (b *Briefing) addLap(method, source string, heading abeam.Bearing, outbound time.Duration, err error) (hold.Circuit, bool) {
	var c hold.Circuit
	if err == nil {
		c, err = b.task.pattern.Fly(b.flight(), heading, outbound)
	}
	if err != nil {
		b.Laps = append(b.Laps, Lap{Method: method, Source: source, Heading: float64(heading), Clock: outbound.Seconds(), Failed: reason(err)})
		return hold.Circuit{}, false
	}
	b.Laps = append(b.Laps, lapOf(method, source, c, outbound, b.target))
	return c, true
}

func lapOf(method, source string, c hold.Circuit, outbound, target time.Duration) Lap {
	return Lap{
		Method: method, Source: source, Heading: float64(c.OutboundHeading), Clock: outbound.Seconds(),
		Inbound: c.Inbound.Seconds(), Error: (c.Inbound - target).Seconds(), Across: float64(c.Established.Abreast),
	}
}
