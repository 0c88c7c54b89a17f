package verification

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
)

var clearanceFigures = map[string]Figure{
	"clearance: written": func(in *Reader) (Value, error) {
		return Value{Text: in.clearance().String()}, nil
	},
	"clearance: readback": func(in *Reader) (Value, error) {
		return Value{Text: in.clearance().Readback()}, nil
	},
	"clearance: inbound course": func(in *Reader) (Value, error) {
		b, err := in.clearance().InboundCourse(hold.Setting{AtStation: in.Inputs.Has("station")})
		return number(b), err
	},
	"clearance: DME at the end of the outbound leg": func(in *Reader) (Value, error) {
		c := in.clearance()
		inbound, err := c.InboundCourse(hold.Setting{})
		if err != nil {
			return Value{}, err
		}
		fix, err := strconv.ParseFloat(strings.TrimSuffix(c.HoldingFix(), " DME FIX"), 64)
		miles, _ := c.DistanceLeg()
		if inbound == c.Line.Bearing { // away from the station: the pattern lies towards it
			miles = -miles
		}
		return number(abeam.NM(fix) + miles), err
	},
	"clearance: standard pattern": func(in *Reader) (Value, error) {
		if c := in.clearance(); c.Direction != 0 || c.Line.Kind != 0 || c.AsPublished {
			return Value{}, fmt.Errorf("%v has instructions", c)
		}
		s := hold.Setting{Rules: hold.FAA(), Altitude: abeam.Feet(in.Num("altitude"))}
		p, err := hold.StandardPattern(s, abeam.NewBearing(in.Num("arrival")))
		return Value{Text: fmt.Sprintf("inbound %v, %v turns, %v", p.Inbound(), p.Turn(), p.Leg().Inbound())}, err
	},
}

// clearance reads the input text, in which _ stands for a blank.
func (r *Reader) clearance() hold.Clearance {
	c, err := hold.ParseClearance(strings.ReplaceAll(r.Text("text"), "_", " "))
	if err != nil && r.err == nil {
		r.err = err
	}
	return c
}
