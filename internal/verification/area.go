package verification

import (
	"fmt"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold/area"
)

var areaFigures = map[string]Figure{
	"area: line of the template": func(in *Reader) (Value, error) {
		l, err := in.areaDesign().Lines()
		return choose(in, "line", map[string]Value{
			"K": {Number: l.K}, "V": number(l.TAS), "v": {Number: l.V}, "R": number(l.Rate), "r": number(l.Radius),
			"h": {Number: l.H}, "w": number(l.Wind), "w'": {Number: l.W}, "E": {Number: l.E}, "L": number(l.L),
			"Wb": number(l.Wb), "Wc": number(l.Wc), "Wd": number(l.Wd), "We": number(l.We), "Wf": number(l.Wf),
			"Wg": number(l.Wg), "Wh": number(l.Wh), "Wo": number(l.Wo), "Wp": number(l.Wp), "Wi1": number(l.Wi1),
			"Wi2": number(l.Wi2), "Wj": number(l.Wj), "Wk": number(l.Wk), "Wm": number(l.Wm), "Wn3": number(l.Wn3),
			"Wn4": number(l.Wn4), "remembered-Wi2": number(l.RememberedWi2), "XE": number(l.XE), "YE": number(l.YE),
		}), err
	},
	"area: line of the book": func(in *Reader) (Value, error) {
		units := choose(in, "units", map[string]area.Units{"non-si": area.NonSI, "si": area.SI})
		lines, err := in.areaDesign().Book(units)
		if err != nil {
			return Value{}, err
		}
		name := in.Text("line")
		for _, l := range lines {
			if l.Name == name {
				return Value{Number: l.Value}, nil
			}
		}
		return Value{}, fmt.Errorf("the book has no line %q", name)
	},
	"area: left to the book": func(in *Reader) (Value, error) {
		d, err := in.areaDesign().Filled()
		a := d.Allowances
		return choose(in, "what", map[string]Value{
			"warmer": number(d.Warmer), "bank": number(d.Bank), "wind": number(d.Wind),
			"outbound": {Number: d.Outbound.Seconds()}, "bank-time": {Number: a.Bank.Seconds()},
			"reaction": {Number: a.Reaction.Seconds()}, "timing": {Number: a.Timing.Seconds()}, "heading": number(a.Heading),
		}), err
	},
	"area: DME limit charted": func(in *Reader) (Value, error) {
		l, err := in.areaDesign().DMELimit(in.station())
		return number(l.Charted), err
	},
	"area: DME limit exact": func(in *Reader) (Value, error) {
		l, err := in.areaDesign().DMELimit(in.station())
		return number(l.Exact), err
	},
	"area: overhead": func(in *Reader) (Value, error) {
		o := in.overhead()
		return choose(in, "angle", map[string]Value{
			"cone": number(o.Cone), "entry": number(o.Entry), "tracking": number(o.Tracking),
		}), nil
	},
	"area: radius of the cone": func(in *Reader) (Value, error) {
		z, err := in.overhead().Radius(abeam.Feet(in.Num("height")))
		return number(z), err
	},
	"area: DME tolerance": func(in *Reader) (Value, error) {
		d, err := area.DMETolerance(abeam.NM(in.Num("reading")))
		return number(d), err
	},
	"area: obstacle clearance": func(in *Reader) (Value, error) {
		mountainous := choose(in, "terrain", map[string]bool{"flat": false, "mountainous": true})
		moc, err := area.ObstacleClearance(abeam.NM(in.Num("beyond")), mountainous)
		return Value{Number: moc.Metres}, err
	},
	"area: width of the buffer": func(*Reader) (Value, error) { return number(area.BufferWidth), nil },
}

// areaDesign reads a design in knots and feet or in km/h and metres; what a row does not
// give is left to the book.
func (r *Reader) areaDesign() area.Design {
	d := area.Design{
		Outbound: time.Duration(r.Or("minutes", 0) * float64(time.Minute)),
		Length:   abeam.NM(r.Or("length", 0)),
	}
	if r.Inputs.Has("ias_kmh") {
		d.IAS = abeam.Knots(r.Num("ias_kmh") * 1000 / abeam.MetresPerNM)
		d.Altitude = abeam.Feet(r.Num("altitude_m") / 0.3048)
		return d
	}
	d.IAS, d.Altitude = abeam.Knots(r.Num("ias")), abeam.Feet(r.Num("altitude"))
	return d
}

func (r *Reader) overhead() area.Overhead {
	return choose(r, "facility", map[string]area.Overhead{"vor": area.OverheadVOR(), "ndb": area.OverheadNDB()})
}
