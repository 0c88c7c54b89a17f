package verification

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

var legFigures = map[string]Figure{
	"slant range": func(in *Reader) (Value, error) {
		d, err := hold.SlantRange(abeam.NM(in.Num("ground")), abeam.Feet(in.Num("height")))
		return number(d), err
	},
	"dme: limit of a leg length": func(in *Reader) (Value, error) {
		d, err := in.station().Limit(abeam.NM(in.Num("length")))
		return number(d), err
	},
	"design: DME limit charted": func(in *Reader) (Value, error) {
		l, err := in.designLimit()
		return number(l.Charted), err
	},
	"design: DME limit exact": func(in *Reader) (Value, error) {
		l, err := in.designLimit()
		return number(l.Exact), err
	},
	"legs: inbound time": func(in *Reader) (Value, error) {
		length := abeam.NM(in.Or("length", 0))
		leg := choose(in, "leg", map[string]hold.Leg{
			"outbound-timed":  hold.TimedOutbound(legTime(in)),
			"outbound-length": hold.LengthOutbound(length),
			"inbound-length":  hold.LengthInbound(length),
		})
		p, err := hold.NewPattern(hold.Fix{}, abeam.NewBearing(in.Num("inbound")), in.turn(), leg)
		if err != nil {
			return Value{}, err
		}
		c, err := p.Circuit(in.flight())
		return number(c.Inbound.Seconds()), err
	},
	"rnp turn: bank": func(in *Reader) (Value, error) {
		rule, err := hold.RNPTurn(abeam.Feet(in.Num("altitude")))
		if err != nil {
			return Value{}, err
		}
		t, err := rule.At(in.tas())
		return number(t.Bank), err
	},
}

func legTime(in *Reader) time.Duration {
	return time.Duration(in.Or("seconds", 0) * float64(time.Second))
}

func (r *Reader) station() hold.Station {
	course := choose(r, "course", map[string]hold.StationCourse{"toward": hold.Toward, "away": hold.Away})
	return hold.Station{Course: course, Fix: abeam.NM(r.Num("fix"))}
}

func (r *Reader) designLimit() (hold.DesignLimit, error) {
	altitude := abeam.Feet(r.Num("altitude"))
	tas, err := wind.DesignTAS(abeam.Knots(r.Num("ias")), altitude, wind.Deviation(r.Num("deviation")))
	if err != nil {
		return hold.DesignLimit{}, err
	}
	t, err := hold.ICAOTurn().At(tas)
	if err != nil {
		return hold.DesignLimit{}, err
	}
	return hold.DesignDMELimit(abeam.NM(r.Num("fix")), tas, t.Rate, altitude, legTime(r))
}
