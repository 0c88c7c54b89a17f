package verification

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
)

var entryFigures = map[string]Figure{
	"entry: kind": func(in *Reader) (Value, error) {
		d, err := in.decision()
		return Value{Text: d.Entry.String()}, err
	},
	"entry: acceptable": func(in *Reader) (Value, error) {
		d, err := in.decision()
		a, b := d.Entry.String(), d.Alternative.String()
		switch {
		case d.Alternative == entry.None:
			return Value{Text: a}, err
		case a > b:
			a, b = b, a
		}
		return Value{Text: a + " or " + b}, err
	},
	"entry: kind by track": func(in *Reader) (Value, error) {
		d, err := entry.FAARNAV().ChooseInWind(in.pattern(), in.flight(), in.heading())
		return Value{Text: d.Entry.String()}, err
	},
	"entry: low edge": func(in *Reader) (Value, error) {
		d, err := in.decision()
		return number(d.Low.At), err
	},
	"entry: high edge": func(in *Reader) (Value, error) {
		d, err := in.decision()
		return number(d.High.At), err
	},
	"entry: margin to the low edge": func(in *Reader) (Value, error) {
		d, err := in.decision()
		return number(d.Low.Margin), err
	},
	"entry: margin to the high edge": func(in *Reader) (Value, error) {
		d, err := in.decision()
		return number(d.High.Margin), err
	},
	"entry: teardrop heading": func(in *Reader) (Value, error) {
		p, err := entry.Published(in.pattern(), entry.Teardrop, in.heading(), time.Minute)
		return number(p.Heading), err
	},
	"entry: parallel turns": func(in *Reader) (Value, error) {
		p, err := entry.Published(in.pattern(), entry.Parallel, in.heading(), time.Minute)
		return Value{Text: p.First.String() + " then " + p.Return.String()}, err
	},
}

func (r *Reader) heading() abeam.Bearing { return abeam.NewBearing(r.Num("heading")) }

// entryRules are the FAA's where a row does not name them.
func (r *Reader) entryRules() entry.Rules {
	if !r.Inputs.Has("rules") {
		return entry.FAA()
	}
	return choose(r, "rules", map[string]entry.Rules{
		"faa": entry.FAA(), "faa-rnav": entry.FAARNAV(), "icao": entry.ICAO(), "usaf": entry.AirForce(),
	})
}

func (r *Reader) decision() (entry.Decision, error) {
	return r.entryRules().Choose(r.pattern(), r.heading())
}
