package entry

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

func TestBadPlans(t *testing.T) {
	nan := math.NaN()
	p := pattern(t, 90, hold.Right)
	good := hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 10, Speed: 20}}
	with := func(change func(*Plan)) Plan {
		pl := FAA().Plan(Teardrop, time.Minute)
		change(&pl)
		return pl
	}
	plain := with(func(*Plan) {})
	flight := func(change func(*hold.Flight)) hold.Flight {
		f := good
		change(&f)
		return f
	}
	for _, c := range []struct {
		field   string
		plan    Plan
		p       hold.Pattern
		f       hold.Flight
		heading float64
		m       Manner
		kind    error
	}{
		{"entry", Plan{}, p, good, 0, AsPublished, abeam.ErrInvalid},
		{"entry", with(func(pl *Plan) { pl.Entry = 4 }), p, good, 0, AsPublished, abeam.ErrInvalid},
		{"leg time", with(func(pl *Plan) { pl.Leg = 0 }), p, good, 0, AsPublished, abeam.ErrInvalid},
		{"leg time", with(func(pl *Plan) { pl.Leg = hold.MaxLeg + 1 }), p, good, 0, AsPublished, abeam.ErrInvalid},
		{"inbound time", with(func(pl *Plan) { pl.Inbound = -1 }), p, good, 0, ForWind, abeam.ErrInvalid},
		{"teardrop angle", with(func(pl *Plan) { pl.Teardrop = 9.999 }), p, good, 0, AsPublished, abeam.ErrInvalid},
		{"teardrop angle", with(func(pl *Plan) { pl.Teardrop = 45.001 }), p, good, 0, AsPublished, abeam.ErrInvalid},
		{"teardrop angle", with(func(pl *Plan) { pl.Teardrop = abeam.Degrees(nan) }), p, good, 0, AsPublished, abeam.ErrInvalid},
		{"teardrop basis", with(func(pl *Plan) { pl.TeardropBy = 0 }), p, good, 0, AsPublished, abeam.ErrInvalid},
		{"offset limit", with(func(pl *Plan) { pl.OffsetLimit = -1 }), p, good, 0, AsPublished, abeam.ErrInvalid},
		{"intercept angle", with(func(pl *Plan) { pl.Intercept = 91 }), p, good, 0, AsPublished, abeam.ErrInvalid},
		{"intercept angle", with(func(pl *Plan) { pl.Intercept = abeam.Degrees(nan) }), p, good, 0, AsPublished, abeam.ErrInvalid},
		{"fix DME", with(func(pl *Plan) { pl.DME = DME{Fix: -1, Limit: 5} }), p, good, 0, AsPublished, abeam.ErrInvalid},
		{"DME limit", with(func(pl *Plan) { pl.DME = DME{Fix: 5} }), p, good, 0, AsPublished, abeam.ErrInvalid},
		{"DME limit", with(func(pl *Plan) { pl.DME = DME{Fix: 5, Limit: 5} }), p, good, 0, AsPublished, abeam.ErrInvalid},
		{"DME limit", with(func(pl *Plan) { pl.DME = DME{Fix: 5, Limit: abeam.NM(nan)} }), p, good, 0, AsPublished, abeam.ErrInvalid},
		{"height above the station", with(func(pl *Plan) { pl.DME = DME{Fix: 5, Limit: 9, Height: -1} }), p, good, 0, AsPublished, abeam.ErrInvalid},
		{"DME reading", with(func(pl *Plan) { pl.DME = DME{Fix: 5, Limit: 9, Height: 40000} }), p, good, 0, AsPublished, abeam.ErrUnflyable},
		{"pattern", plain, hold.Pattern{}, good, 0, AsPublished, abeam.ErrInvalid},
		{"TAS", plain, p, hold.Flight{}, 0, AsPublished, abeam.ErrInvalid},
		{"wind from", plain, p, flight(func(f *hold.Flight) { f.Wind.From = abeam.Bearing(nan) }), 0, AsPublished, abeam.ErrInvalid},
		{"wind speed", plain, p, flight(func(f *hold.Flight) { f.Wind.Speed = 121 }), 0, ForWind, abeam.ErrUnflyable},
		{"wind speed", plain, p, flight(func(f *hold.Flight) { f.Wind.Speed = 120 }), 0, AsPublished, abeam.ErrUnflyable},
		{"heading", plain, p, good, nan, AsPublished, abeam.ErrInvalid},
		{"heading", plain, p, good, math.Inf(1), ForWind, abeam.ErrInvalid},
		{"manner", plain, p, good, 0, 0, abeam.ErrInvalid},
		{"manner", plain, p, good, 0, 3, abeam.ErrInvalid},
		// A crosswind from ahead of the intercept heading at nine tenths of the airspeed.
		{"intercept angle", FAA().Plan(Direct, time.Minute), p, flight(func(f *hold.Flight) { f.Wind = wind.Wind{From: 180, Speed: 108} }), 90, AsPublished, abeam.ErrUnflyable},
	} {
		fl, err := c.plan.Fly(c.p, c.f, abeam.Bearing(c.heading), c.m)
		var field *abeam.FieldError
		if !errors.As(err, &field) || !errors.Is(err, c.kind) || field.Field != c.field || field.Limit == "" {
			t.Errorf("want %v about %s, got %v", c.kind, c.field, err)
		}
		if fl != (Flown{}) {
			t.Errorf("%s: an entry comes with the error", c.field)
		}
	}
	for name, err := range map[string]error{
		"rules":   second(Rules{}.ChooseInWind(p, good, 0)),
		"track":   second(FAARNAV().ChooseInWind(p, good, abeam.Bearing(nan))),
		"heading": second(ICAO().ChooseInWind(p, good, abeam.Bearing(nan))),
		"pattern": second(AirForce().ChooseInWind(hold.Pattern{}, good, 0)),
		"TAS":     second(FAA().ChooseInWind(p, hold.Flight{}, 0)),
	} {
		var field *abeam.FieldError
		if !errors.As(err, &field) || !errors.Is(err, abeam.ErrInvalid) || field.Field != name {
			t.Errorf("choosing: %v, want one about %s", err, name)
		}
	}
	if err := plain.Validate(); err != nil {
		t.Error(err)
	}
}

func second[T any](_ T, err error) error { return err }
