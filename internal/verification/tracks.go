package verification

import (
	"bytes"
	"fmt"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/reference"
	"github.com/holdingfix/abeam/tolerance"
)

var trackFigures = map[string]Figure{
	"track: a hold": func(in *Reader) (Value, error) {
		log, err := in.track()
		if err != nil {
			return Value{}, err
		}
		if _, err := tolerance.Infer(log); err != nil {
			return Value{Text: "no"}, nil
		}
		return Value{Text: "yes"}, nil
	},
	"track: turns":          ofTrack(func(_ *Reader, f tolerance.Flown) Value { return Value{Text: f.Pattern.Turn().String()} }),
	"track: inbound course": ofTrack(func(_ *Reader, f tolerance.Flown) Value { return number(f.Pattern.Inbound()) }),
	"track: laps":           ofTrack(func(_ *Reader, f tolerance.Flown) Value { return number(float64(len(f.Laps))) }),
	"track: lap": ofTrack(func(in *Reader, f tolerance.Flown) Value {
		return number(nth(in, "lap", f.Laps).Span().Length().Seconds())
	}),
	"track: passage of the fix": ofTrack(func(in *Reader, f tolerance.Flown) Value {
		return number(nth(in, "passage", f.Passages).Time.Seconds())
	}),
}

// ofTrack infers the hold from the track, at the fix where the row has one, and cuts
// the flight by it.
func ofTrack(what func(*Reader, tolerance.Flown) Value) Figure {
	return func(in *Reader) (Value, error) {
		log, err := in.track()
		if err != nil {
			return Value{}, err
		}
		infer := tolerance.Infer
		if in.Inputs.Has("lat") {
			fix := hold.Fix{Position: s2.LatLngFromDegrees(in.Num("lat"), in.Num("lon"))}
			infer = func(l tolerance.Log) (tolerance.Inferred, error) { return tolerance.InferAt(l, fix) }
		}
		inferred, err := infer(log)
		if err != nil {
			return Value{}, err
		}
		flown, err := tolerance.Cut(log, inferred.Pattern)
		if err != nil {
			return Value{}, err
		}
		return what(in, flown), nil
	}
}

func (r *Reader) track() (tolerance.Log, error) {
	text, err := reference.Track(r.Text("track"))
	if err != nil {
		return tolerance.Log{}, err
	}
	return tolerance.ReadCSV(bytes.NewReader(text), nil)
}

// nth is the element that the row counts from 1.
func nth[T any](in *Reader, key string, all []T) (one T) {
	n := int(in.Num(key))
	if n < 1 || n > len(all) {
		if in.err == nil {
			in.err = fmt.Errorf("input %s=%d of %d", key, n, len(all))
		}
		return one
	}
	return all[n-1]
}
