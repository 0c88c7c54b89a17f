package verification

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/timing"
)

var timingFigures = map[string]Figure{
	"timing: full discrepancy": func(in *Reader) (Value, error) {
		t, err := timing.FullDiscrepancy(in.seconds("last"), in.seconds("inbound"), in.seconds("target"))
		return number(t.Seconds()), err
	},
	"timing: half discrepancy": func(in *Reader) (Value, error) {
		t, err := timing.HalfDiscrepancy(in.seconds("last"), in.seconds("inbound"), in.seconds("target"))
		return number(t.Seconds()), err
	},
	"timing: triple drift": func(in *Reader) (Value, error) {
		d, err := timing.TripleDrift(abeam.Degrees(in.Num("correction")))
		return number(d), err
	},
	"timing: triple drift outbound heading": func(in *Reader) (Value, error) {
		d, err := timing.TripleDrift(abeam.Degrees(in.Num("correction")))
		return number(in.pattern().Outward().Add(d)), err
	},
	"timing: slow at": func(in *Reader) (Value, error) {
		d, err := timing.SlowAt(in.knots("groundspeed"))
		return number(d), err
	},
	"timing: clock start": func(in *Reader) (Value, error) {
		return Value{Text: in.start().String()}, nil
	},
	"timing: clock reading": func(in *Reader) (Value, error) {
		c, err := in.pattern().Circuit(in.flight())
		if err != nil {
			return Value{}, err
		}
		t, err := in.start().Outbound(c)
		return number(t.Seconds()), err
	},
}

func (r *Reader) start() timing.Start {
	return choose(r, "start", map[string]timing.Start{
		"abeam": timing.AtAbeam, "turn-complete": timing.AtTurnComplete, "wings-level-or-abeam": timing.AtWingsLevelOrAbeam,
	})
}
