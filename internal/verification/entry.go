package verification

import (
	"time"

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
	"entry: teardrop heading": func(in *Reader) (Value, error) {
		p, err := entry.Published(in.pattern(), entry.Teardrop, in.bearing("heading"), time.Minute)
		return number(p.Heading), err
	},
	"entry: parallel turns": func(in *Reader) (Value, error) {
		p, err := entry.Published(in.pattern(), entry.Parallel, in.bearing("heading"), time.Minute)
		return Value{Text: p.First.String() + " then " + p.Return.String()}, err
	},
}

func (r *Reader) decision() (entry.Decision, error) {
	return entry.FAA().Choose(r.pattern(), r.bearing("heading"))
}
