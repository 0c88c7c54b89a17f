package main

import (
	"cmp"
	"errors"
	"slices"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/hold"
)

// Entry is the entry that the arrival calls for, how to fly it in this wind, and what
// the others that are permitted would come to.
type Entry struct {
	Heading   float64      `json:"heading_at_fix_deg"`
	Kind      entry.Kind   `json:"entry"`
	Rules     string       `json:"rules"`
	Source    string       `json:"source"`
	Margin    float64      `json:"margin_deg"`
	Beyond    entry.Kind   `json:"beyond_the_edge"`
	Steps     []Step       `json:"steps"`
	Corrected FlownEntry   `json:"corrected_for_wind"`
	Published FlownEntry   `json:"as_published"`
	Permitted []FlownEntry `json:"permitted"` // corrected, the one that strays least first
	Actions   []Action     `json:"at_the_fix"`
}

// Step is one leg or turn of the entry.
type Step struct {
	Phase   string  `json:"phase"`
	Turn    string  `json:"turn,omitempty"` // right or left; empty on a straight leg
	Through float64 `json:"through_deg,omitempty"`
	Heading float64 `json:"heading_deg"`
	Track   float64 `json:"track_deg,omitempty"` // of a straight leg
	Time    float64 `json:"time_s"`
}

// FlownEntry sums up an entry as flown.
type FlownEntry struct {
	Kind        entry.Kind `json:"entry"`
	Heading     float64    `json:"entry_heading_deg"`
	Clock       float64    `json:"entry_clock_s"`
	Astray      float64    `json:"non_holding_side_nm"`
	Beyond      float64    `json:"beyond_fix_nm"`
	Widest      float64    `json:"holding_side_nm"`
	ToEstablish float64    `json:"to_establish_s"`
	Inbound     float64    `json:"inbound_s"`
	Total       float64    `json:"total_s"`
	Notes       []string   `json:"notes,omitempty"`
	Failed      string     `json:"failed,omitempty"`
}

// Action is one of the five things to do over the fix.
type Action struct {
	Name string `json:"name"`
	Do   string `json:"do"`
}

func (b *Briefing) entry() error {
	t, f := b.task, b.flight()
	d, err := t.entries.ChooseInWind(t.pattern, f, t.heading)
	if err != nil {
		return err
	}
	edge := d.Low
	if d.High.Margin < d.Low.Margin {
		edge = d.High
	}
	b.Entry = Entry{
		Heading: float64(t.heading), Kind: d.Entry, Rules: t.entries.String(), Source: t.entries.Source(),
		Margin: float64(d.Margin), Beyond: edge.Beyond,
	}
	plan := b.entryPlan(d.Entry)
	b.entryFlown, err = plan.Fly(t.pattern, f, t.heading, entry.ForWind)
	if b.Entry.Corrected, err = summary(d.Entry, b.entryFlown, err); err != nil {
		return err
	}
	published, err := plan.Fly(t.pattern, f, t.heading, entry.AsPublished)
	if b.Entry.Published, err = summary(d.Entry, published, err); err != nil {
		return err
	}
	for kind := range d.Permitted() {
		fl, err := b.entryPlan(kind).Fly(t.pattern, f, t.heading, entry.ForWind)
		s, err := summary(kind, fl, err)
		if err != nil {
			return err
		}
		b.Entry.Permitted = append(b.Entry.Permitted, s)
	}
	slices.SortStableFunc(b.Entry.Permitted, func(x, y FlownEntry) int {
		return cmp.Or(cmp.Compare(x.Failed, y.Failed), cmp.Compare(x.Astray, y.Astray))
	})
	if b.Entry.Corrected.Failed != "" {
		return nil
	}
	for l := range b.entryFlown.Legs() {
		s := Step{Phase: l.Phase.String(), Heading: float64(l.Heading), Time: l.Time.Seconds()}
		if l.Through != 0 {
			s.Turn, s.Through = l.Turn.String(), float64(l.Through)
		} else {
			s.Track = float64(l.Track)
		}
		b.Entry.Steps = append(b.Entry.Steps, s)
	}
	actions, err := b.entryFlown.Actions(t.pattern, entry.Crossing{Limit: b.limit, Altitude: t.altitude, Over: t.overFix})
	if err != nil {
		return err
	}
	for _, a := range actions {
		b.Entry.Actions = append(b.Entry.Actions, Action{a.Name, a.Do})
	}
	return nil
}

// entryPlan is how an entry of a kind is flown to the leg of the clearance. A direct entry
// flies that leg, so as to have the inbound leg of the exact lap; the others fly the time of
// the altitude, or a distance in place of it (AIM 5-3-8 j.5).
func (b *Briefing) entryPlan(kind entry.Kind) entry.Plan {
	t := b.task
	plan := t.entries.Plan(kind, t.legTime.Time)
	leg := t.pattern.Leg()
	timed := leg.Inbound() + leg.Outbound() // one of them is zero
	switch {
	case timed == 0:
		plan.Leg = b.still.Clock
	case kind == entry.Direct:
		plan.Leg = timed
	}
	if kind == entry.Direct || leg.Kind() != hold.InboundTimed {
		plan.Inbound = b.exact.Inbound
	}
	if leg.Kind() == hold.OutboundDME && kind != entry.Direct { // its leg would be a track
		station, limit := leg.DME()
		plan.DME = entry.DME{Fix: station.Fix, Limit: limit, Height: max(0, t.altitude-station.Elevation)}
	}
	return plan
}

// summary keeps an entry that this wind forbids as a finding; any other failure is one.
func summary(kind entry.Kind, fl entry.Flown, err error) (FlownEntry, error) {
	if err != nil {
		if !errors.Is(err, abeam.ErrUnflyable) {
			return FlownEntry{}, err
		}
		return FlownEntry{Kind: kind, Failed: reason(err)}, nil
	}
	s := FlownEntry{
		Kind: kind, Heading: float64(fl.EntryHeading), Clock: fl.Clock.Seconds(), Astray: float64(fl.Extent.Astray), Beyond: float64(fl.Extent.Beyond), Widest: float64(fl.Extent.Widest),
		ToEstablish: fl.ToEstablish.Seconds(), Inbound: fl.Inbound.Seconds(), Total: fl.Total.Seconds(),
	}
	for n := range fl.Notes.All() {
		s.Notes = append(s.Notes, n.String())
	}
	return s, nil
}

// reason says in short why something cannot be flown.
func reason(err error) string {
	var field *abeam.FieldError
	if errors.As(err, &field) {
		return "needs the " + field.Field + " to be " + field.Limit
	}
	return err.Error()
}

// entryPoints gives the track of the entry in the course frame.
func (b *Briefing) entryPoints() ([]hold.Point, error) {
	if b.Entry.Corrected.Failed != "" {
		return nil, nil
	}
	samples, err := b.entryFlown.AppendTrack(nil, plotStep)
	if err != nil {
		return nil, err
	}
	points := make([]hold.Point, len(samples))
	for i, s := range samples {
		points[i] = s.At
	}
	return points, nil
}
