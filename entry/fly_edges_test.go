package entry

import (
	"errors"
	"math"
	"strings"
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

// Every direction, wind and heading near the edges of what flies gives an entry that is
// finite or an error, never both and never a panic.
func TestFiniteOrError(t *testing.T) {
	speeds := []float64{0, math.Copysign(0, -1), 1e-300, 1, 59.999999, 84.8528137423857, 119.999999, math.Nextafter(120, 0), 120, math.NaN(), math.Inf(1)}
	dirs := []float64{0, 45, 90, 135, 180, 270, 359.9999999, 1e17, math.NaN()}
	headings := []float64{0, 70, 90, 110, 150, 180, 180.0000001, 270, 290, math.Nextafter(360, 0)}
	flown := 0
	for _, speed := range speeds {
		for _, from := range dirs {
			for _, heading := range headings {
				for _, kind := range []Kind{Direct, Teardrop, Parallel} {
					for _, m := range []Manner{AsPublished, ForWind} {
						for _, dme := range []DME{{}, {Fix: 10, Limit: 15}, {Fix: 28, Limit: 20}} {
							f := hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: abeam.Bearing(from), Speed: abeam.Knots(speed)}}
							plan := ICAO().Plan(kind, time.Minute)
							plan.DME = dme
							fl, err := plan.Fly(pattern(t, 0, hold.Left), f, abeam.Bearing(heading), m)
							if err != nil {
								if fl != (Flown{}) {
									t.Errorf("%+v: an entry comes with %v", f, err)
								}
								continue
							}
							flown++
							e := fl.Extent
							for _, x := range []float64{
								float64(fl.EntryHeading), float64(fl.EntryTrack), float64(fl.Through), float64(fl.Established.Along),
								float64(e.Beyond), float64(e.Outbound), float64(e.Widest), float64(e.Astray),
							} {
								if math.IsNaN(x) || math.IsInf(x, 0) {
									t.Fatalf("%+v %+v heading %v %v: %+v", f, plan, heading, m, fl)
								}
							}
							if fl.EntryTime < 0 || fl.Clock < 0 || fl.Clock > fl.EntryTime || fl.ToEstablish < 0 || fl.Total < fl.ToEstablish || fl.Through < 0 {
								t.Fatalf("%+v %+v heading %v %v: times of %+v", f, plan, heading, m, fl)
							}
						}
					}
				}
			}
		}
	}
	t.Logf("%d flown", flown)
}

func TestNotes(t *testing.T) {
	seen := map[string]bool{}
	var all Notes
	for n := Note(1); n < lastNote; n <<= 1 {
		text := n.String()
		if text == "not a note" || seen[text] {
			t.Errorf("note %d: %q", n, text)
		}
		seen[text] = true
		all |= Notes(n)
	}
	if got := strings.Count(all.String(), ";") + 1; got != len(seen) || Notes(0).String() != "" || lastNote.String() != "not a note" {
		t.Errorf("%d notes in %q", got, all)
	}
}

func TestNoAllocations(t *testing.T) {
	p := pattern(t, 80, hold.Left)
	f := hold.Flight{TAS: 140, Rate: 3, Wind: wind.Wind{From: 300, Speed: 25}}
	fl, err := FAA().Plan(Parallel, time.Minute).Fly(p, f, 190, ForWind)
	if err != nil {
		t.Fatal(err)
	}
	buf := make([]Sample, 0, 1000)
	for name, run := range map[string]func(){
		"Choose":       func() { _, _ = FAA().Choose(p, 190) },
		"ChooseInWind": func() { _, _ = FAARNAV().ChooseInWind(p, f, 190) },
		"Published":    func() { _, _ = Published(p, Parallel, 190, time.Minute) },
		"direct":       func() { _, _ = FAA().Plan(Direct, time.Minute).Fly(p, f, 100, ForWind) },
		"teardrop":     func() { _, _ = FAA().Plan(Teardrop, time.Minute).Fly(p, f, 275, ForWind) },
		"parallel":     func() { _, _ = FAA().Plan(Parallel, time.Minute).Fly(p, f, 190, AsPublished) },
		"AppendTrack":  func() { buf, _ = fl.AppendTrack(buf[:0], time.Second) },
	} {
		if n := testing.AllocsPerRun(100, run); n != 0 {
			t.Errorf("%s allocates %v times", name, n)
		}
	}
}
