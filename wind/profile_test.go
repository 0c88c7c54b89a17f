package wind_test

import (
	"errors"
	"testing"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

// The levels give themselves back, whatever their order, and between two levels the
// wind is no stronger than the stronger of them.
func TestProfileAtAndBetweenLevels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		heights := rapid.SliceOfNDistinct(draw.Whole(-5_000, 65_617), 1, 9, rapid.ID[int]).Draw(t, "altitudes")
		levels := make([]wind.Level, len(heights))
		for i, h := range heights {
			levels[i] = wind.Level{Altitude: abeam.Feet(h), Wind: draw.Wind(400, 1).Draw(t, "wind")}
		}
		p, err := wind.NewProfile(levels...)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range levels {
			if w, err := p.At(l.Altitude); err != nil || w != l.Wind {
				t.Errorf("at %v: %v, %v; want %v", l.Altitude, w, err, l.Wind)
			}
		}
		sorted := p.Levels()
		for i, above := range sorted[1:] {
			below := sorted[i]
			mid, err := p.At((below.Altitude + above.Altitude) / 2)
			if err != nil || mid.Speed > max(below.Wind.Speed, above.Wind.Speed)+1e-9 {
				t.Fatalf("between %+v and %+v: %v, %v", below, above, mid, err)
			}
			a, b, c := below.Wind.Components(0), above.Wind.Components(0), mid.Components(0)
			if !near.Equal(c.Head, (a.Head+b.Head)/2, 1e-9) || !near.Equal(c.Cross, (a.Cross+b.Cross)/2, 1e-9) {
				t.Errorf("between %+v and %+v: %v", below, above, mid)
			}
		}
		for _, out := range []abeam.Feet{sorted[0].Altitude - 1, sorted[len(sorted)-1].Altitude + 1, abeam.Feet(nan)} {
			if w, err := p.At(out); w != (wind.Wind{}) || !errors.Is(err, abeam.ErrInvalid) {
				t.Errorf("at %v: %v, %v", out, w, err)
			}
		}
	})
}

func TestProfileKeepsItsOwnLevels(t *testing.T) {
	levels := []wind.Level{{Altitude: 3_000, Wind: wind.Wind{Speed: 10}}}
	p, err := wind.NewProfile(levels...)
	if err != nil {
		t.Fatal(err)
	}
	levels[0].Altitude = 9_000
	p.Levels()[0].Altitude = 9_000
	if w, err := p.At(3_000); err != nil || w.Speed != 10 {
		t.Errorf("%v, %v", w, err)
	}
}

// Opposite winds pass through calm, which has no direction.
func TestProfileThroughCalm(t *testing.T) {
	p, err := wind.NewProfile(wind.Level{Altitude: 0, Wind: wind.Wind{From: 90, Speed: 20}},
		wind.Level{Altitude: 1_000, Wind: wind.Wind{From: 270, Speed: 20}})
	if err != nil {
		t.Fatal(err)
	}
	if w, err := p.At(500); err != nil || w != (wind.Wind{}) {
		t.Errorf("%v, %v", w, err)
	}
}

func TestProfileBadInput(t *testing.T) {
	ok := wind.Level{Altitude: 1_000}
	for name, levels := range map[string][]wind.Level{
		"none":             nil,
		"altitude NaN":     {{Altitude: abeam.Feet(nan)}},
		"altitude above":   {ok, {Altitude: 65_618}},
		"altitude twice":   {ok, {Altitude: 2_000}, ok},
		"wind speed":       {{Wind: wind.Wind{Speed: -1}}},
		"wind direction":   {{Wind: wind.Wind{From: abeam.Bearing(inf)}}},
		"altitude too low": {{Altitude: -5_001}},
	} {
		if p, err := wind.NewProfile(levels...); p.Levels() != nil || !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("%s: %v, %v", name, p, err)
		}
	}
	if w, err := (wind.Profile{}).At(0); w != (wind.Wind{}) || !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("zero Profile: %v, %v", w, err)
	}
	p, err := wind.NewProfile(ok, wind.Level{Altitude: 5_000})
	if err != nil {
		t.Fatal(err)
	}
	_, err = p.At(6_000)
	const want = "wind.Profile.At: altitude is 6000 ft, must be from the lowest level 1000 ft to the highest 5000 ft: invalid input"
	if err == nil || err.Error() != want {
		t.Errorf("got %v, want %v", err, want)
	}
}

func TestOmnidirectionalWind(t *testing.T) {
	// What the documentation says of the difference.
	for altitude, want := range map[abeam.Feet]abeam.Knots{0: 0.02, 20_000: 0.52} {
		us, err1 := wind.OmnidirectionalWind(altitude)
		si, err2 := wind.OmnidirectionalWindSI(altitude)
		if err1 != nil || err2 != nil || !near.Equal(us-si, want, 0.005) {
			t.Errorf("at %v: %v, %v and %v, %v", altitude, us, err1, si, err2)
		}
	}
	for _, bad := range []float64{nan, inf, -5_001, 65_618} {
		us, err1 := wind.OmnidirectionalWind(abeam.Feet(bad))
		si, err2 := wind.OmnidirectionalWindSI(abeam.Feet(bad))
		if us != 0 || si != 0 || !errors.Is(err1, abeam.ErrInvalid) || !errors.Is(err2, abeam.ErrInvalid) {
			t.Errorf("at %v: %v, %v and %v, %v", bad, us, err1, si, err2)
		}
	}
}
