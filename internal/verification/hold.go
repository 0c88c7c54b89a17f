package verification

import (
	"fmt"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
)

var holdFigures = map[string]Figure{
	"turn: rate at bank": func(in *Reader) (Value, error) {
		r, err := hold.RateAtBank(in.tas(), in.bank())
		return number(r), err
	},
	"turn: time of a circle at bank": func(in *Reader) (Value, error) {
		r, err := hold.RateAtBank(in.tas(), in.bank())
		return number(360 / r), err
	},
	"turn: radius at bank": func(in *Reader) (Value, error) {
		t, err := hold.TurnRule{Bank: in.bank()}.At(in.tas())
		return number(t.Radius), err
	},
	"turn: bank at rate": func(in *Reader) (Value, error) {
		b, err := hold.BankAtRate(in.tas(), hold.Rate(in.Num("rate")))
		return number(b), err
	},
	"turn rule: rate": func(in *Reader) (Value, error) {
		t, err := in.turnRule().At(in.tas())
		return number(t.Rate), err
	},
	"turn rule: radius": func(in *Reader) (Value, error) {
		t, err := in.turnRule().At(in.tas())
		return number(t.Radius), err
	},
	"turn rule: bank": func(in *Reader) (Value, error) {
		t, err := in.turnRule().At(in.tas())
		return number(t.Bank), err
	},
	"rules: speed limit": func(in *Reader) (Value, error) {
		band, err := in.rules().SpeedLimit(abeam.Feet(in.Num("altitude")))
		return Value{Text: band.Limit.String()}, err
	},
	"rules: least speed": func(in *Reader) (Value, error) {
		return Value{Text: in.rules().Minimum.String()}, nil
	},
	"rules: leg time": func(in *Reader) (Value, error) {
		band, err := in.rules().LegTime(abeam.Feet(in.Num("altitude")))
		return Value{Text: band.Time.String()}, err
	},
	"rules: what the leg time is of": func(in *Reader) (Value, error) {
		return Value{Text: in.rules().LegTimeIs.String()}, nil
	},
	"circuit: lap": func(in *Reader) (Value, error) {
		c, err := in.pattern().Circuit(in.flight())
		return number(c.Lap.Seconds()), err
	},
	"circuit: outbound time": func(in *Reader) (Value, error) {
		_, t, err := in.pattern().Outbound(in.flight())
		return number(t.Seconds()), err
	},
	"circuit: shortest inbound": func(in *Reader) (Value, error) {
		t, err := in.pattern().ShortestInbound(in.flight())
		return number(t.Seconds()), err
	},
}

func (r *Reader) tas() abeam.Knots    { return r.knots("tas") }
func (r *Reader) bank() abeam.Degrees { return abeam.Degrees(r.Num("bank")) }

func (r *Reader) turnRule() hold.TurnRule {
	return choose(r, "rule", map[string]hold.TurnRule{
		"faa": hold.FAATurn(), "faa-fd": hold.FAAFlightDirectorTurn(), "icao": hold.ICAOTurn(),
	})
}

func (r *Reader) rules() hold.Rules {
	return choose(r, "rules", map[string]hold.Rules{
		"faa": hold.FAA(), "faa-210": hold.FAA210(), "faa-charted-175": hold.FAA().Charted(175),
		"faa-air-force": hold.FAAAirForce(), "faa-navy": hold.FAANavy(), "faa-climb": hold.FAAClimb(),
		"icao": hold.ICAO(), "icao-ab": hold.ICAOCategoryAB(), "icao-turbulence": hold.ICAOTurbulence(),
		"icao-turbulence-ab": hold.ICAOTurbulenceAB(), "icao-earlier": hold.ICAOEarlier(),
		"canada": hold.Canada(), "canada-shuttle": hold.CanadaShuttle(),
		"australia": hold.Australia(), "australia-ab": hold.AustraliaCategoryAB(),
		"icao-helicopter": hold.ICAOHelicopter(), "faa-copter": hold.FAACopter(),
	})
}

func (r *Reader) turn() hold.Turn {
	return choose(r, "turn", map[string]hold.Turn{"right": hold.Right, "left": hold.Left})
}

func (r *Reader) pattern() hold.Pattern {
	leg := time.Duration(r.Or("leg", 60) * float64(time.Second))
	p, err := hold.NewPattern(hold.Fix{}, r.bearing("inbound"), r.turn(), hold.TimedInbound(leg))
	if err != nil && r.err == nil {
		r.err = err
	}
	return p
}

func (r *Reader) flight() hold.Flight {
	return hold.Flight{TAS: r.tas(), Rate: hold.Rate(r.Num("rate")), Wind: r.wind()}
}

func choose[T any](r *Reader, key string, from map[string]T) T {
	v, ok := from[r.Text(key)]
	if !ok && r.err == nil {
		r.err = fmt.Errorf("input %s=%q is not known", key, r.Inputs[key])
	}
	return v
}
