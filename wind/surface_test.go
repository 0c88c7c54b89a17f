package wind_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

func surface(from abeam.Bearing, speed abeam.Knots) wind.SurfaceWind {
	return wind.SurfaceWind{Mean: wind.Reported{Wind: wind.Wind{From: from, Speed: speed}, North: abeam.True}, Speed: speed}
}

func TestMETARWind(t *testing.T) {
	gusting := surface(240, 15)
	gusting.Gust = 27
	swinging := surface(240, 15)
	swinging.Swings, swinging.Left, swinging.Right = true, 210, 270
	across := swinging
	across.Left, across.Right = 350, 10
	both := swinging
	both.Gust = 127
	variable := wind.SurfaceWind{Mean: wind.Reported{North: abeam.True}, Speed: 3, Variable: true}
	variableGusts := variable
	variableGusts.Gust = 15
	calm := wind.SurfaceWind{Mean: wind.Reported{North: abeam.True}}
	metres := surface(240, 8*3600/1852.0)
	metres.Gust = 13 * 3600 / 1852.0
	for text, want := range map[string]wind.SurfaceWind{
		"24015KT": surface(240, 15), "00115KT": surface(1, 15), "36005KT": surface(0, 5), "237105KT": surface(237, 105),
		"24099KT": surface(240, 99), "240100KT": surface(240, 100), "240400KT": surface(240, wind.MaxSpeed),
		"24015G27KT": gusting, "24015KT 210V270": swinging, " 24015KT  350V010\n": across, "24015G127KT 210V270": both,
		"VRB03KT": variable, "VRB03G15KT": variableGusts, "00000KT": calm, "00000MPS": calm, "24008G13MPS": metres,
	} {
		got, err := wind.METARWind(text)
		if d := cmp.Diff(want, got, near.Comparer[abeam.Knots](1e-12)); d != "" || err != nil {
			t.Errorf("%q: %v (-want +got):\n%s", text, err, d)
		}
		want.Mean.North = abeam.Magnetic
		got, err = wind.TowerWind(text)
		if d := cmp.Diff(want, got, near.Comparer[abeam.Knots](1e-12)); d != "" || err != nil {
			t.Errorf("tower %q: %v (-want +got):\n%s", text, err, d)
		}
	}
}

func TestMETARWindBadInput(t *testing.T) {
	for _, c := range []struct{ text, field string }{
		{"", "wind"}, {"24015KT 210V270 X", "wind"},
		{"KT", "wind group"}, {"24015", "wind group"}, {"24015kt", "wind group"}, {"24015KMH", "wind group"},
		{"2415KT", "wind group"}, {"24005 KT", "wind group"}, {"2401KT", "wind group"}, {"240KT", "wind group"},
		{"240015KT", "wind group"}, {"2401500KT", "wind group"}, {"24015GKT", "wind group"}, {"24015G15KT", "wind group"},
		{"24015G12KT", "wind group"}, {"24015G027KT", "wind group"}, {"24015G27G30KT", "wind group"},
		{"36115KT", "wind group"}, {"00015KT", "wind group"}, {"24000KT", "wind group"}, {"VRB00KT", "wind group"},
		{"00000G15KT", "wind group"}, {"vrb03KT", "wind group"}, {"240401KT", "wind group"}, {"240206MPS", "wind group"},
		{"24015G401KT", "wind group"}, {"///15KT", "wind group"}, {"240//KT", "wind group"}, {"P24015KT", "wind group"},
		{"-2415KT", "wind group"}, {"24+15KT", "wind group"}, {"２４０15KT", "wind group"}, {"240\x0015KT", "wind group"},
		{"24015KT 210V", "group of extremes"}, {"24015KT V270", "group of extremes"}, {"24015KT 210270", "group of extremes"},
		{"24015KT 000V270", "group of extremes"}, {"24015KT 210V361", "group of extremes"}, {"24015KT 210V27", "group of extremes"},
		{"24015KT 210V210", "group of extremes"}, {"VRB03KT 210V270", "group of extremes"}, {"00000KT 210V270", "group of extremes"},
		{strings.Repeat("2", 1_000_000) + "KT", "wind group"},
	} {
		for _, decode := range []func(string) (wind.SurfaceWind, error){wind.METARWind, wind.TowerWind} {
			got, err := decode(c.text)
			var field *abeam.FieldError
			if got != (wind.SurfaceWind{}) || !errors.Is(err, abeam.ErrInvalid) || !errors.As(err, &field) || field.Field != c.field || len(err.Error()) > 400 {
				t.Errorf("%.40q: %+v, %v", c.text, got, err)
			}
		}
	}
}
