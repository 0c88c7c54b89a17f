package wind_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/wind"
)

// For any text: what is decoded is in range and writes back to what was read, and a
// tower says the same as a METAR but for the north.
func FuzzMETARWind(f *testing.F) {
	for _, seed := range []string{
		"24015KT", "24015G27KT 210V270", "237105KT", "24008G13MPS", "VRB03KT", "00000KT", "36005KT 350V010", "",
		"24015", "24015kt", "00015KT", "24000KT", "VRB00KT", "24015G15KT", "24015KT 210V210", "240015KT", "24015KT 210V270 X",
		"240206MPS", "P24099KT", "/////KT", "24015G27KT\t\n210V270",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		w, err := wind.METARWind(text)
		tower, towerErr := wind.TowerWind(text)
		if (err == nil) != (towerErr == nil) {
			t.Fatalf("METAR %v, tower %v", err, towerErr)
		}
		if err != nil {
			var field *abeam.FieldError
			if w != (wind.SurfaceWind{}) || tower != (wind.SurfaceWind{}) || !errors.Is(err, abeam.ErrInvalid) || !errors.As(err, &field) {
				t.Fatalf("%+v, %v", w, err)
			}
			return
		}
		if tower.Mean.North = abeam.True; tower != w {
			t.Fatalf("METAR %+v, tower %+v", w, tower)
		}
		if err := w.Mean.Wind.Validate(); err != nil || w.Mean.North != abeam.True || !(w.Speed >= 0 && w.Speed <= wind.MaxSpeed) ||
			w.Gust != 0 && !(w.Gust > w.Speed && w.Gust <= wind.MaxSpeed) || w.Variable && w.Mean.Wind != (wind.Wind{}) ||
			!w.Variable && w.Mean.Wind.Speed != w.Speed {
			t.Fatalf("%+v, %v", w, err)
		}
		unit, metres := abeam.Knots(1), strings.Contains(text, "MPS")
		if metres {
			unit = 3600.0 / 1852
		}
		if got, want := encodeSurface(w, unit), strings.Join(strings.Fields(text), " "); got != want {
			t.Errorf("%q writes back to %q", want, got)
		}
	})
}

// encodeSurface writes the groups back in a unit.
func encodeSurface(w wind.SurfaceWind, unit abeam.Knots) string {
	figures := func(k abeam.Knots) string { return fmt.Sprintf("%02d", int(math.Round(float64(k/unit)))) }
	text := "VRB"
	switch {
	case w.Variable:
	case w.Speed == 0:
		text = "000"
	default:
		text = w.Mean.Wind.From.ThreeFigures()
	}
	text += figures(w.Speed)
	if w.Gust > 0 {
		text += "G" + figures(w.Gust)
	}
	if unit == 1 {
		text += "KT"
	} else {
		text += "MPS"
	}
	if w.Swings {
		text += " " + w.Left.ThreeFigures() + "V" + w.Right.ThreeFigures()
	}
	return text
}
