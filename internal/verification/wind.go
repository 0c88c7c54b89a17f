package verification

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/wind"
)

var windFigures = map[string]Figure{
	"triangle: heading from course":     ofTriangle(solveHeading, heading),
	"triangle: groundspeed from course": ofTriangle(solveHeading, groundspeed),

	"triangle: track from heading":       ofTriangle(solveTrack, track),
	"triangle: groundspeed from heading": ofTriangle(solveTrack, groundspeed),

	"triangle: wind direction": ofTriangle(solveWind, func(t wind.Triangle) Value { return number(t.Wind.From) }),
	"triangle: wind speed":     ofTriangle(solveWind, func(t wind.Triangle) Value { return number(t.Wind.Speed) }),

	"triangle: heading from track and groundspeed": ofTriangle(solveTAS, heading),
	"triangle: TAS from track and groundspeed":     ofTriangle(solveTAS, tas),

	"triangle: track from heading and groundspeed": ofTriangle(solveTASOnHeading, track),
	"triangle: TAS from heading and groundspeed":   ofTriangle(solveTASOnHeading, tas),

	"triangle: TAS from heading and track":         ofTriangle(solveSpeeds, tas),
	"triangle: groundspeed from heading and track": ofTriangle(solveSpeeds, groundspeed),

	"wind from two drifts: direction": func(in *Reader) (Value, error) {
		w, err := windFromDrifts(in)
		return number(w.From), err
	},
	"wind from two drifts: speed": func(in *Reader) (Value, error) {
		w, err := windFromDrifts(in)
		return number(w.Speed), err
	},
	"wind from a lap: direction": func(in *Reader) (Value, error) {
		w, err := windFromLap(in)
		return number(w.From), err
	},
	"wind from a lap: speed": func(in *Reader) (Value, error) {
		w, err := windFromLap(in)
		return number(w.Speed), err
	},
}

func (r *Reader) wind() wind.Wind {
	return wind.Wind{From: r.bearing("from"), Speed: r.knots("wind")}
}

func (r *Reader) bearing(key string) abeam.Bearing { return abeam.NewBearing(r.Num(key)) }

func (r *Reader) knots(key string) abeam.Knots { return abeam.Knots(r.Num(key)) }

func (r *Reader) seconds(key string) time.Duration {
	return time.Duration(r.Num(key) * float64(time.Second))
}

func ofTriangle(solve func(*Reader) (wind.Triangle, error), what func(wind.Triangle) Value) Figure {
	return func(in *Reader) (Value, error) {
		t, err := solve(in)
		return what(t), err
	}
}

func heading(t wind.Triangle) Value     { return number(t.Heading) }
func track(t wind.Triangle) Value       { return number(t.Track) }
func tas(t wind.Triangle) Value         { return number(t.TAS) }
func groundspeed(t wind.Triangle) Value { return number(t.Groundspeed) }

func solveHeading(in *Reader) (wind.Triangle, error) {
	return wind.SolveHeading(in.bearing("track"), in.knots("tas"), in.wind())
}

func solveTrack(in *Reader) (wind.Triangle, error) {
	return wind.SolveTrack(in.bearing("heading"), in.knots("tas"), in.wind())
}

func solveWind(in *Reader) (wind.Triangle, error) {
	return wind.SolveWind(in.bearing("track"), in.knots("gs"), in.bearing("heading"), in.knots("tas"))
}

func solveTAS(in *Reader) (wind.Triangle, error) {
	return wind.SolveTAS(in.bearing("track"), in.knots("gs"), in.wind())
}

func solveTASOnHeading(in *Reader) (wind.Triangle, error) {
	return wind.SolveTASOnHeading(in.bearing("heading"), in.knots("gs"), in.wind())
}

func solveSpeeds(in *Reader) (wind.Triangle, error) {
	return wind.SolveSpeeds(in.bearing("heading"), in.bearing("track"), in.wind())
}

func windFromDrifts(in *Reader) (wind.Wind, error) {
	return wind.WindFromDrifts(in.knots("tas"),
		wind.DriftSight{Heading: in.bearing("heading1"), Drift: abeam.Degrees(in.Num("drift1"))},
		wind.DriftSight{Heading: in.bearing("heading2"), Drift: abeam.Degrees(in.Num("drift2"))})
}

func windFromLap(in *Reader) (wind.Wind, error) {
	return wind.WindFromLap(in.bearing("course"), wind.Lap{
		TAS: in.knots("tas"), Rate: abeam.Degrees(in.Num("rate")),
		Outbound: in.seconds("outbound"), Inbound: in.seconds("inbound"),
		Correction: abeam.Degrees(in.Num("correction")),
		Reversed:   in.Inputs.Has("reversed"),
	})
}
