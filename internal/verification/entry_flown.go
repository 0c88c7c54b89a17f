package verification

import (
	"fmt"
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/hold"
)

var entryFlownFigures = map[string]Figure{
	"entry flown: heading": func(in *Reader) (Value, error) {
		fl, err := in.flown()
		return number(fl.EntryHeading), err
	},
	"entry flown: track": func(in *Reader) (Value, error) {
		fl, err := in.flown()
		return number(fl.EntryTrack), err
	},
	"entry flown: turn at the fix": func(in *Reader) (Value, error) {
		fl, err := in.flown()
		return Value{Text: fmt.Sprintf("%v %.0f", fl.FixTurn, fl.Through)}, err
	},
	"entry flown: turn back": func(in *Reader) (Value, error) {
		fl, err := in.flown()
		return Value{Text: fl.Return.String()}, err
	},
	"entry flown: time on the entry leg": func(in *Reader) (Value, error) {
		fl, err := in.flown()
		return number(fl.EntryTime.Seconds()), err
	},
	"entry flown: inbound time": func(in *Reader) (Value, error) {
		fl, err := in.flown()
		return number(fl.Inbound.Seconds()), err
	},
	"entry flown: time to the fix again": func(in *Reader) (Value, error) {
		fl, err := in.flown()
		return number(fl.Total.Seconds()), err
	},
	"entry flown: established along": func(in *Reader) (Value, error) {
		fl, err := in.flown()
		return number(fl.Established.Along), err
	},
	"entry flown: astray": func(in *Reader) (Value, error) {
		fl, err := in.flown()
		return number(fl.Extent.Astray), err
	},
	"entry flown: DME at the turn back": func(in *Reader) (Value, error) {
		fl, err := in.flown()
		station := in.Num("station") // along the course, over the ground
		for leg := range fl.Legs() {
			if leg.Phase == entry.ReturnTurn {
				h := float64(abeam.Feet(in.Or("height", 0)).NM())
				ground := math.Hypot(float64(leg.From.Along)-station, float64(leg.From.Abreast))
				return Value{Number: math.Hypot(ground, h)}, err
			}
		}
		return Value{}, err
	},
	"entry by route: kind": func(in *Reader) (Value, error) {
		a, err := in.arrival()
		return Value{Text: a.Entry.String()}, err
	},
	"entry by route: leg": func(in *Reader) (Value, error) {
		a, err := in.arrival()
		return number(a.Leg), err
	},
	"entry by route: not authorised": func(in *Reader) (Value, error) {
		a, err := in.arrival()
		text := "none"
		if a.Notes.Has(entry.OnlyDirect) && !a.Permits(entry.Parallel) && !a.Permits(entry.Teardrop) {
			text = "parallel and offset"
		}
		return Value{Text: text}, err
	},
	"entry: earliest slowing": func(in *Reader) (Value, error) {
		s, err := in.slowing()
		return number(s.Earliest.Distance), err
	},
	"entry: slowing with notice before the fix": func(in *Reader) (Value, error) {
		s, err := in.slowing()
		return number((s.Latest.Arrival - s.Latest.In - s.Takes).Seconds()), err
	},
}

func (r *Reader) flown() (entry.Flown, error) {
	kind := choose(r, "entry", map[string]entry.Kind{"direct": entry.Direct, "teardrop": entry.Teardrop, "parallel": entry.Parallel})
	plan := r.entryRules().Plan(kind, time.Duration(r.Or("leg", 60)*float64(time.Second)))
	plan.DME = entry.DME{Fix: abeam.NM(r.Or("fix", 0)), Limit: abeam.NM(r.Or("limit", 0)), Height: abeam.Feet(r.Or("height", 0))}
	manner := entry.AsPublished
	if r.Inputs.Has("manner") {
		manner = choose(r, "manner", map[string]entry.Manner{"as-published": entry.AsPublished, "for-wind": entry.ForWind})
	}
	return plan.Fly(r.pattern(), r.flight(), r.heading(), manner)
}

func (r *Reader) arrival() (entry.Arrival, error) {
	route := choose(r, "route", map[string]entry.Route{
		"inbound-radial": entry.InboundRadial, "reciprocal": entry.ReciprocalRadial, "outbound-end": entry.OutboundEnd,
		"arc-holding-side": entry.ArcFromHoldingSide, "arc-other-side": entry.ArcFromOtherSide,
	})
	return entry.VORDME(r.pattern(), route, entry.DME{Fix: 30, Limit: 35, Height: 14000}, time.Minute)
}

func (r *Reader) slowing() (entry.Slowing, error) {
	return entry.Approaching{
		Present: abeam.Knots(r.Num("present")), Limit: abeam.Knots(r.Num("speed_limit")), Deceleration: abeam.Knots(r.Num("deceleration")),
		ToFix: 2 * hold.SlowWithin, Notice: r.Inputs.Has("notice"),
	}.Slow()
}
