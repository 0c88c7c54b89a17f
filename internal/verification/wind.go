package verification

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/wind"
)

var windFigures = map[string]Figure{
	"triangle: heading from course": func(in *Reader) (Value, error) {
		t, err := solveHeading(in)
		return number(t.Heading), err
	},
	"triangle: groundspeed from course": func(in *Reader) (Value, error) {
		t, err := solveHeading(in)
		return number(t.Groundspeed), err
	},
}

func (r *Reader) wind() wind.Wind {
	return wind.Wind{From: abeam.NewBearing(r.Num("from")), Speed: abeam.Knots(r.Num("wind"))}
}

func solveHeading(in *Reader) (wind.Triangle, error) {
	return wind.SolveHeading(abeam.NewBearing(in.Num("track")), abeam.Knots(in.Num("tas")), in.wind())
}
