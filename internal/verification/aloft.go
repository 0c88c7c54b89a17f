package verification

import (
	"fmt"
	"strconv"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/reference"
	"github.com/holdingfix/abeam/wind"
)

var aloftFigures = map[string]Figure{
	"aloft group: direction":   ofGroup(func(l wind.AloftLevel) Value { return number(l.Wind.Wind.From) }),
	"aloft group: speed":       ofGroup(func(l wind.AloftLevel) Value { return number(l.Wind.Wind.Speed) }),
	"aloft group: temperature": ofGroup(func(l wind.AloftLevel) Value { return number(l.Temperature) }),
	"aloft group: kind":        ofGroup(groupKind),

	"aloft bulletin: group": bulletinGroup,
	"aloft bulletin: based on": ofBulletin(func(b wind.AloftBulletin) string {
		return b.BasedOn.String()
	}),
	"aloft bulletin: valid": ofBulletin(func(b wind.AloftBulletin) string {
		return b.Valid.String()
	}),
	"aloft bulletin: use": ofBulletin(func(b wind.AloftBulletin) string {
		return fmt.Sprintf("%v-%v", b.UseFrom, b.UseTo)
	}),
	"aloft bulletin: stations": ofBulletin(func(b wind.AloftBulletin) string {
		return strconv.Itoa(len(b.Stations))
	}),

	"profile: direction": func(in *Reader) (Value, error) {
		w, err := profile(in)
		return number(w.From), err
	},
	"profile: speed": func(in *Reader) (Value, error) {
		w, err := profile(in)
		return number(w.Speed), err
	},
	"METAR wind: speed": func(in *Reader) (Value, error) {
		w, err := wind.METARWind(in.Text("wind"))
		return number(w.Speed), err
	},
	"METAR wind: gust": func(in *Reader) (Value, error) {
		w, err := wind.METARWind(in.Text("wind"))
		return number(w.Gust), err
	},
	"omnidirectional wind": func(in *Reader) (Value, error) {
		w, err := wind.OmnidirectionalWind(in.altitude())
		return number(w), err
	},
	"omnidirectional wind in km/h": func(in *Reader) (Value, error) {
		w, err := wind.OmnidirectionalWindSI(in.altitude())
		return number(w * kmhPerKnot), err
	},
}

func ofGroup(what func(wind.AloftLevel) Value) Figure {
	return func(in *Reader) (Value, error) {
		l, err := wind.DecodeAloftGroup(in.Text("code"), abeam.Feet(in.Num("level")))
		return what(l), err
	}
}

func groupKind(l wind.AloftLevel) Value {
	switch {
	case l.LightAndVariable:
		return Value{Text: "light and variable"}
	case l.OrMore:
		return Value{Text: "199 kt or more"}
	}
	return Value{Text: "wind"}
}

func ofBulletin(what func(wind.AloftBulletin) string) Figure {
	return func(in *Reader) (Value, error) {
		b, err := bulletin(in)
		return Value{Text: what(b)}, err
	}
}

func bulletin(in *Reader) (wind.AloftBulletin, error) {
	text, err := reference.Bulletin(in.Text("bulletin"))
	if err != nil {
		return wind.AloftBulletin{}, err
	}
	return wind.DecodeAloftBulletin(text)
}

// bulletinGroup writes the forecast of a station at a level the way it is read out:
// "350/90 -45", "LV -18", "missing".
func bulletinGroup(in *Reader) (Value, error) {
	b, err := bulletin(in)
	if err != nil {
		return Value{}, err
	}
	name, level := in.Text("station"), abeam.Feet(in.Num("level"))
	for _, s := range b.Stations {
		if s.Name != name {
			continue
		}
		for _, l := range s.Levels {
			if l.Level == level {
				return Value{Text: plain(l)}, nil
			}
		}
		return Value{Text: "missing"}, nil
	}
	return Value{}, fmt.Errorf("no station %s", name)
}

func plain(l wind.AloftLevel) string {
	text := "LV"
	if !l.LightAndVariable {
		text = fmt.Sprintf("%s/%v", l.Wind.Wind.From.ThreeFigures(), float64(l.Wind.Wind.Speed))
	}
	switch {
	case !l.HasTemperature:
		return text
	case l.Temperature == 0:
		return text + " 0"
	}
	return fmt.Sprintf("%s %+.0f", text, float64(l.Temperature))
}

func profile(in *Reader) (wind.Wind, error) {
	p, err := wind.NewProfile(
		wind.Level{
			Altitude: abeam.Feet(in.Num("high")),
			Wind:     wind.Wind{From: in.bearing("highfrom"), Speed: in.knots("highwind")},
		},
		wind.Level{
			Altitude: abeam.Feet(in.Num("low")),
			Wind:     wind.Wind{From: in.bearing("lowfrom"), Speed: in.knots("lowwind")},
		},
	)
	if err != nil {
		return wind.Wind{}, err
	}
	return p.At(in.altitude())
}
