package main

import (
	"fmt"
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/tolerance"
)

// Report is everything the program says, in one value for the terminal, the page and
// JSON. Directions are in the north of the hold, times in seconds since the start of the
// log.
type Report struct {
	Caution    string      `json:"caution"`
	Log        Log         `json:"log"`
	Hold       Hold        `json:"hold"`
	Verdict    string      `json:"verdict"`
	Items      []Item      `json:"items"`
	Excursions []Excursion `json:"excursions"`
	Entry      Entry       `json:"entry"`
	Wind       *Wind       `json:"wind"`
	NoWind     string      `json:"no_wind,omitempty"`
	Protected  *Protected  `json:"protected"`
	Laps       []Lap       `json:"laps"`
	Advice     []string    `json:"advice"`

	target time.Duration
	leg    tolerance.Limit[time.Duration]
}

// Log is what was read, and what was wrong with it.
type Log struct {
	Name     string   `json:"name"`
	Start    string   `json:"start,omitempty"`
	Samples  int      `json:"samples"`
	Seconds  float64  `json:"seconds"`
	Unused   int      `json:"unused"`
	Holds    string   `json:"holds"`
	Findings []string `json:"findings"`
}

// Hold is the pattern that the flight is held against.
type Hold struct {
	Fix       string      `json:"fix"`
	Latitude  float64     `json:"latitude_deg"`
	Longitude float64     `json:"longitude_deg"`
	Inbound   float64     `json:"inbound_deg"`
	North     abeam.North `json:"north"`
	Turns     hold.Turn   `json:"turns"`
	Leg       float64     `json:"inbound_leg_s"`
	Altitude  float64     `json:"altitude_ft"`
	IAS       float64     `json:"ias_kt"`
	Guidance  string      `json:"guidance"`
	Standard  string      `json:"standard"`
	// Inferred says on what the hold rests where it was read off the track.
	Inferred string `json:"inferred,omitempty"`
}

// Item is one line of the verdict.
type Item struct {
	Item       string  `json:"item"`
	Verdict    string  `json:"verdict"` // in the standard's words
	Under      float64 `json:"under"`
	Over       float64 `json:"over"`
	Unit       string  `json:"unit"`
	Lowest     float64 `json:"lowest"`
	Highest    float64 `json:"highest"`
	Share      float64 `json:"share_within_pct"`
	Judged     float64 `json:"judged_s"`
	Excursions int     `json:"excursions"`
	Why        string  `json:"why,omitempty"`
	Source     string  `json:"source,omitempty"`
}

// Excursion is one time beyond a limit.
type Excursion struct {
	Item    string  `json:"item"`
	From    float64 `json:"from_s"`
	For     float64 `json:"for_s"`
	Samples int     `json:"samples"`
	Worst   float64 `json:"worst"`
	At      float64 `json:"at_s"`
	Limit   float64 `json:"limit"`
	Unit    string  `json:"unit"`
	Lap     int     `json:"lap"`
	Leg     string  `json:"leg"`
}

// Entry is the entry flown, and the one called for.
type Entry struct {
	Flown   entry.Kind `json:"flown"`
	Heading float64    `json:"heading_at_fix_deg"`
	Calls   entry.Kind `json:"sectors_call_for"`
	Or      entry.Kind `json:"or"`
	Verdict string     `json:"verdict"`
}

// Wind is the estimate, with half widths that hold in 95 of 100 cases.
type Wind struct {
	From      float64 `json:"from_deg"`
	FromError float64 `json:"from_error_deg"`
	Speed     float64 `json:"kt"`
	Error     float64 `json:"kt_error"`
	TAS       float64 `json:"tas_kt"`
	TASError  float64 `json:"tas_error_kt"`
	RMS       float64 `json:"residual_kt"`
	Rate      float64 `json:"rate_of_turn_deg_s"`
}

// Lap is one lap.
type Lap struct {
	Lap        int     `json:"lap"`
	From       float64 `json:"from_s"`
	Seconds    float64 `json:"lap_s"`
	Orbit      bool    `json:"orbit"`
	Outbound   float64 `json:"outbound_s"`
	Inbound    float64 `json:"inbound_s"`
	OffTarget  float64 `json:"off_target_s"`
	OutHeading float64 `json:"outbound_heading_deg"`
	InHeading  float64 `json:"inbound_heading_deg"`
	// Corrections, and those of the exact circuit; absent without a wind or a leg.
	Correction *Correction `json:"correction"`
	Widest     float64     `json:"widest_nm"`
	Astray     float64     `json:"non_holding_side_nm"`
	AltLeast   float64     `json:"altitude_least_ft"`
	AltMost    float64     `json:"altitude_most_ft"`
	IASLeast   float64     `json:"ias_least_kt"`
	IASMost    float64     `json:"ias_most_kt"`
	Judged     float64     `json:"judged_s"` // of airspeed, altitude, heading and course together
	Share      float64     `json:"share_within_pct"`
	Legs       []Leg       `json:"legs"`
}

// Correction is the wind correction of a lap beside the exact one, positive to the right.
type Correction struct {
	Inbound    float64 `json:"inbound_deg"`
	ExactIn    float64 `json:"exact_inbound_deg"`
	Outbound   float64 `json:"outbound_deg"`
	ExactOut   float64 `json:"exact_outbound_deg"`
	ExactClock float64 `json:"exact_outbound_s"`
}

// Leg is one leg of a lap.
type Leg struct {
	Leg     string  `json:"leg"`
	From    float64 `json:"from_s"`
	Seconds float64 `json:"leg_s"`
	Judged  float64 `json:"judged_s"`
	Share   float64 `json:"share_within_pct"` // of what is judged on it
}

func newReport(name string, log tolerance.Log, t task, d tolerance.Debrief) *Report {
	r := &Report{Caution: program.Caution, NoWind: d.NoWind, target: t.clearance.Pattern.Leg().Inbound(), leg: t.standard.LegTime}
	r.log(name, log)
	r.hold(t)
	j := d.Judgement
	r.Verdict = t.standard.Words(j.Overall)
	for _, i := range j.Items {
		r.Items = append(r.Items, Item{
			Item: i.Item.String(), Verdict: t.standard.Words(i.Verdict), Under: i.Under, Over: i.Over, Unit: i.Item.Unit(),
			Lowest: round(i.Lowest), Highest: round(i.Highest), Share: share(i.Inside, i.Judged), Judged: i.Judged.Seconds(),
			Excursions: i.Excursions, Why: i.Why, Source: i.Source,
		})
	}
	r.Excursions = []Excursion{}
	for _, e := range j.Excursions {
		r.Excursions = append(r.Excursions, Excursion{
			Item: e.Item.String(), From: round(e.Span.From.Seconds()), For: round(e.Span.Length().Seconds()), Samples: e.Samples,
			Worst: round(e.Worst), At: round(e.At.Seconds()), Limit: e.Limit, Unit: e.Item.Unit(), Lap: e.Lap, Leg: legName(e),
		})
	}
	r.entry(d)
	if d.NoWind == "" {
		w := d.Wind.In(t.clearance.Pattern.Fix().Variation)
		r.Wind = &Wind{
			From: round(float64(w.From)), FromError: round(float64(d.Wind.DirectionError)), Speed: round(float64(w.Speed)), Error: round(float64(d.Wind.SpeedError)),
			TAS: round(float64(d.Wind.TAS)), TASError: round(float64(d.Wind.TASError)), RMS: round(float64(d.Wind.RMS)), Rate: round(float64(d.Exact.Flight.Rate)),
		}
	}
	r.protected(log, d.Flown, t)
	r.laps(d)
	r.Advice = []string{}
	for _, a := range d.Advice {
		r.Advice = append(r.Advice, fmt.Sprintf("%s: %s (%s)", a.Topic, a.Text, a.Source))
	}
	return r
}

func legName(e tolerance.Excursion) string {
	if e.Lap == 0 {
		return "entry"
	}
	return e.Phase.String()
}

// round keeps three decimals: what is measured has no more.
func round(x float64) float64 { return math.Round(x*1000)/1000 + 0 }

// share in percent, 0 where nothing was judged.
func share(inside, judged time.Duration) float64 {
	if judged <= 0 {
		return 0
	}
	return round(100 * float64(inside) / float64(judged))
}

func (r *Report) log(name string, log tolerance.Log) {
	first, last := log.Samples[0].Time, log.Samples[len(log.Samples)-1].Time
	r.Log = Log{Name: name, Samples: len(log.Samples), Seconds: round((last - first).Seconds()), Unused: log.Unused, Holds: log.Has().String(), Findings: []string{}}
	if !log.Start.IsZero() {
		r.Log.Start = log.Start.Format(time.RFC3339)
	}
	for _, f := range log.Findings {
		r.Log.Findings = append(r.Log.Findings, f.String())
	}
}

func (r *Report) hold(t task) {
	p := t.clearance.Pattern
	r.Hold = Hold{
		Fix: p.Fix().Ident, Latitude: p.Fix().Position.Lat.Degrees(), Longitude: p.Fix().Position.Lng.Degrees(),
		Inbound: round(float64(p.Inbound())), North: t.north, Turns: p.Turn(), Leg: p.Leg().Inbound().Seconds(),
		Altitude: float64(t.clearance.Altitude), IAS: float64(t.clearance.IAS), Guidance: t.clearance.Guidance.String(), Standard: t.standard.String(),
	}
	if r.Hold.Fix == "" {
		r.Hold.Fix = "an unnamed fix"
	}
	if in := t.inferred; in != nil {
		r.Hold.Inferred = fmt.Sprintf("read off the track: turns at the fix %d, within %.2f NM; inbound legs %d", in.Turns, float64(in.Spread), in.Legs)
	}
}

func (r *Report) entry(d tolerance.Debrief) {
	f := d.Flown
	r.Entry = Entry{Flown: f.Entry.Kind, Heading: round(float64(f.Entry.Heading)), Verdict: d.Judgement.Standard.Words(d.Judgement.Item(tolerance.EntryItem).Verdict)}
	if f.Entry.Kind == entry.None {
		return
	}
	if c, err := entry.FAA().Choose(f.Pattern, f.Entry.Heading); err == nil {
		r.Entry.Calls, r.Entry.Or = c.Entry, c.Alternative
	}
}

func (r *Report) laps(d tolerance.Debrief) {
	corrections := map[int]*Correction{}
	for _, x := range d.Corrections {
		corrections[x.Lap] = &Correction{
			Inbound: round(float64(x.Inbound)), ExactIn: round(float64(x.ExactIn)), Outbound: round(float64(x.Outbound)),
			ExactOut: round(float64(x.ExactOut)), ExactClock: round(x.ExactClock.Seconds()),
		}
	}
	r.Laps = []Lap{}
	for i, l := range d.Flown.Laps {
		s := d.Judgement.Laps[i]
		lap := Lap{
			Lap: i + 1, From: round(l.Span().From.Seconds()), Seconds: round(l.Span().Length().Seconds()), Orbit: l.Orbit,
			Outbound: round(l.Outbound.Seconds()), Inbound: round(l.Inbound.Seconds()), OffTarget: round(s.OffTarget.Seconds()),
			OutHeading: round(float64(l.OutboundCourse)), InHeading: round(float64(l.InboundCourse)),
			Correction: corrections[i+1], Widest: round(float64(l.Widest)), Astray: round(float64(l.Astray)),
		}
		var judged, inside time.Duration
		var alt, ias tolerance.Range
		for phase, leg := range s.Legs {
			judged, inside = judged+leg.Judged, inside+leg.Inside
			alt, ias = alt.With(leg.Altitude), ias.With(leg.IAS)
			span := l.Legs[phase]
			lap.Legs = append(lap.Legs, Leg{
				Leg: hold.Phase(phase).String(), From: round(span.From.Seconds()), Seconds: round(span.Length().Seconds()), Judged: round(leg.Judged.Seconds()), Share: share(leg.Inside, leg.Judged),
			})
		}
		lap.AltLeast, lap.AltMost, lap.IASLeast, lap.IASMost = round(alt.Least), round(alt.Most), round(ias.Least), round(ias.Most)
		lap.Judged, lap.Share = round(judged.Seconds()), share(inside, judged)
		r.Laps = append(r.Laps, lap)
	}
}
