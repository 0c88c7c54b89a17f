package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/examples/internal/layout"
	"github.com/holdingfix/abeam/hold"
)

// writeText lays the briefing out to be read at a glance: one subject a paragraph, its
// name in the margin, the figures first.
func (b *Briefing) writeText(w io.Writer) {
	para := func(name, format string, args ...any) {
		writePara(w, name, fmt.Sprintf(format, args...))
	}
	h, s, x := b.Hold, b.Speed, b.Exact
	para("", "%s", b.Caution)
	fmt.Fprintln(w)

	if c := b.Clearance; c != nil {
		para("Clearance", "%s.", c.Text)
		para("Read back", "%s.", c.Readback)
		for i, f := range c.Ask {
			para(either(i == 0, "Ask", ""), "%s.", f)
		}
		for i, f := range c.Note {
			para(either(i == 0, "Note", ""), "%s.", f)
		}
	}
	para("Hold", "%s of %s, inbound %s %v, %v turns, %s, at %.0f ft. The pattern lies on the %s side of the course. %s; leg: %s.",
		h.Direction, h.Fix, deg(h.Inbound), h.North, h.Turns, h.Leg, h.Altitude, h.HoldingSide, h.Rules, h.LegSource)

	verdict := "within the limit"
	if !s.Within {
		verdict = "ABOVE THE LIMIT"
	}
	para("Speed", "limit %s (%s). Holding at %.0f KIAS, %.0f kt true: %s.", s.Limit, s.LimitSource, s.Holding, s.TAS, verdict)
	slow := fmt.Sprintf("at %s, 3 minutes and %.1f NM before the fix", s.SlowFrom, s.SlowAt)
	switch {
	case s.MustSlow:
		para("Slow down", "%.0f KIAS is above the limit: start %s.", s.Arriving, slow)
	case s.Arriving > s.Holding:
		para("Slow down", "start %s, from %.0f KIAS.", slow, s.Arriving)
	default:
		para("Slow down", "no need: arriving at %.0f KIAS.", s.Arriving)
	}

	para("Wind", "%s %v at %.0f kt, on the inbound course %.0f kt of %s and %.0f kt from the %s.",
		deg(b.Wind.From), h.North, b.Wind.Speed, math.Abs(b.Wind.Head), either(b.Wind.Head < 0, "tailwind", "headwind"), math.Abs(b.Wind.Cross), either(b.Wind.Cross < 0, "left", "right"))
	para("Turns", "%.1f deg/s at %.0f degrees of bank, radius %.2f NM (%s).", b.Turn.Rate, b.Turn.Bank, b.Turn.Radius, b.Turn.Source)
	fmt.Fprintln(w)

	b.writeEntry(w)
	fmt.Fprintln(w)

	// Only a leg by its inbound time has an inbound time to come out at.
	timed := b.task.pattern.Leg().Kind() == hold.InboundTimed
	against := func(words string) string { return either(timed, words, "") }
	fmt.Fprintf(w, "  %-34s %8s %9s %8s %8s %9s\n", "First lap", "outbound", "by the", "inbound", against("against"), "across")
	fmt.Fprintf(w, "  %-34s %8s %9s %8s %8s %9s\n", "", "heading", "clock", "time", against(minutes(h.Target)), "course")
	for _, lap := range b.Laps {
		if lap.Failed != "" {
			fmt.Fprintf(w, "  %-34s cannot be flown: %s\n", lap.Method, lap.Failed)
			continue
		}
		across := "0.00 NM"
		if a := math.Abs(lap.Across); a >= 0.005 {
			across = fmt.Sprintf("%.2f NM %s", a, either(lap.Across > 0, "H", "N"))
		}
		fmt.Fprintf(w, "  %-34s %8s %9s %8s %8s  %s\n", lap.Method, deg(lap.Heading), minutes(lap.Clock), minutes(lap.Inbound), against(fmt.Sprintf("%+.0f s", lap.Error+0)), across)
	}
	fmt.Fprintln(w, "  Clock from wings level or abeam, whichever is later. At roll-out H is on the holding")
	fmt.Fprintln(w, "  side, N on the non-holding side.")
	fmt.Fprintln(w)

	para("Exact", "inbound %s (%s), groundspeed %.0f kt. Outbound %s (%s) for %s by the clock; wings level to abeam %+.0f s. Lap %s, %.1f NM long, %.1f NM wide.",
		deg(x.InboundHeading), side(x.InboundCorrection), x.InboundSpeed, deg(x.OutboundHeading), side(x.OutboundCorrection),
		minutes(x.Clock), x.ToAbeam, minutes(x.Lap), x.Length, x.Width)
	b.writeProtected(w)
	l := b.Leaving
	switch {
	case l.EFC == "":
		para("Leaving", "no time to expect further clearance was given.")
	case l.Spare < 0:
		para("Leaving", "over the fix at %s, expect further clearance at %s: %s before the entry of %s is flown.",
			l.OverFix, l.EFC, minutes(-l.Spare), minutes(b.Entry.Corrected.Total))
	default:
		para("Leaving", "over the fix at %s, expect further clearance at %s: the entry of %s, %d %s and %s over.",
			l.OverFix, l.EFC, minutes(b.Entry.Corrected.Total), l.Laps, either(l.Laps == 1, "lap", "laps"), minutes(l.Spare))
	}
	for i, r := range b.Reports {
		para(either(i == 0, "Report", ""), "%s.", r)
	}
	for i, c := range b.Cautions {
		para(either(i == 0, "Caution", ""), "%s.", c)
	}
}

// writeEntry sets the entry as numbered steps, what it comes to, and the five actions.
func (b *Briefing) writeEntry(w io.Writer) {
	e := b.Entry
	also := ""
	if len(e.Permitted) > 1 {
		also = ", and within 5, so that either may be flown"
	}
	writePara(w, "Entry", fmt.Sprintf("%s, from heading %s: %.0f degrees from the edge to %v%s (%s).",
		strings.ToUpper(e.Kind.String()), deg(e.Heading), e.Margin, e.Beyond, also, e.Source))
	for i, s := range e.Steps {
		step := fmt.Sprintf("%d. %s: %s on %s, making %s good", i+1, s.Phase, minutes(s.Time), deg(s.Heading), deg(s.Track))
		if s.Turn != "" {
			step = fmt.Sprintf("%d. %s: %s through %.0f degrees to %s", i+1, s.Phase, s.Turn, s.Through, deg(s.Heading))
		}
		writePara(w, "", step)
	}
	for _, one := range e.Permitted {
		writePara(w, "", one.words("corrected for the wind"))
	}
	writePara(w, "", e.Published.words("as published"))
	for i, a := range e.Actions {
		writePara(w, either(i == 0, "At the fix", ""), fmt.Sprintf("%s: %s", a.Name, a.Do))
	}
}

func (f FlownEntry) words(manner string) string {
	if f.Failed != "" {
		return fmt.Sprintf("%v %s: cannot be flown, %s.", f.Kind, manner, f.Failed)
	}
	inbound := "inbound " + minutes(f.Inbound)
	if f.Inbound < 0 {
		inbound = minutes(-f.Inbound) + " past the fix"
	}
	return fmt.Sprintf("%v %s: heading %s for %s; established after %s, %s; %.2f NM on the non-holding side, %.2f NM beyond the fix.",
		f.Kind, manner, deg(f.Heading), minutes(f.Clock), minutes(f.ToEstablish), inbound, f.Astray, f.Beyond)
}

// writePara sets a paragraph with a hanging margin.
func writePara(w io.Writer, name, text string) { layout.Paragraph(w, 2, 13, name, text) }

func deg(x float64) string { return abeam.NewBearing(x).ThreeFigures() }

// side says a correction as a pilot does.
func side(correction float64) string {
	if math.Abs(correction) < 0.5 {
		return "no correction"
	}
	return fmt.Sprintf("%.0f %s", math.Abs(correction), either(correction > 0, "right", "left"))
}

func either(first bool, a, b string) string {
	if first {
		return a
	}
	return b
}
