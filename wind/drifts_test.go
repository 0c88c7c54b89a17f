package wind_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

// The drifts that a wind makes on two headings give the wind back.
func TestWindFromDriftsUndoesTheDrifts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tas := draw.TAS().Draw(t, "TAS")
		w := draw.Wind(tas, 0.8).Draw(t, "wind")
		var sights [2]wind.DriftSight
		var tracks [2]abeam.Bearing
		for i := range sights {
			tri, err := wind.SolveTrack(draw.Bearing().Draw(t, "heading"), tas, w)
			if err != nil {
				t.Fatal(err)
			}
			sights[i], tracks[i] = wind.DriftSight{Heading: tri.Heading, Drift: tri.Drift()}, tri.Track
		}
		square := math.Abs(math.Sin(float64(tracks[1]-tracks[0]) * math.Pi / 180))
		if square < 0.01 {
			t.Skip("tracks nearly parallel")
		}
		got, err := wind.WindFromDrifts(tas, sights[0], sights[1])
		if err != nil || !sameWind(got, w, 1e-9*tas) {
			t.Errorf("got %+v, %v; want %+v", got, err, w)
		}
	})
}

func TestWindFromDriftsBadInput(t *testing.T) {
	north, east := wind.DriftSight{}, wind.DriftSight{Heading: 90, Drift: 5}
	for _, c := range []struct {
		name, field string
		tas         abeam.Knots
		a, b        wind.DriftSight
		kind        error
	}{
		{"TAS 0", "TAS", 0, north, east, abeam.ErrInvalid},
		{"TAS NaN", "TAS", abeam.Knots(nan), north, east, abeam.ErrInvalid},
		{"heading NaN", "first heading", 120, wind.DriftSight{Heading: abeam.Bearing(nan)}, east, abeam.ErrInvalid},
		{"drift NaN", "second drift", 120, north, wind.DriftSight{Drift: abeam.Degrees(nan)}, abeam.ErrInvalid},
		{"drift -90", "first drift", 120, wind.DriftSight{Drift: -90}, east, abeam.ErrInvalid},
		{"drift 90", "second drift", 120, north, wind.DriftSight{Heading: 90, Drift: 90}, abeam.ErrInvalid},
		{"one track", "second track", 120, north, north, abeam.ErrInvalid},
		{"reciprocal tracks", "second track", 120, north, wind.DriftSight{Heading: 180}, abeam.ErrInvalid},
		{"wind too strong", "wind speed", 700, wind.DriftSight{Drift: 60}, wind.DriftSight{Heading: 90, Drift: 60}, abeam.ErrInvalid},
		{"blown backwards", "groundspeed on the first heading", 100, wind.DriftSight{}, wind.DriftSight{Heading: 45, Drift: 75}, abeam.ErrUnflyable},
		{"blown backwards second", "groundspeed on the second heading", 100, wind.DriftSight{Heading: 45, Drift: 75}, wind.DriftSight{}, abeam.ErrUnflyable},
		{"held by a headwind of the TAS", "groundspeed on the first heading", 100, wind.DriftSight{}, wind.DriftSight{Heading: 90, Drift: 45}, abeam.ErrUnflyable},
	} {
		w, err := wind.WindFromDrifts(c.tas, c.a, c.b)
		var field *abeam.FieldError
		if w != (wind.Wind{}) || !errors.Is(err, c.kind) || !errors.As(err, &field) || field.Field != c.field {
			t.Errorf("%s: %+v, %v", c.name, w, err)
		}
	}
}

// By hand: heading north without drift the wind is a headwind h, and at 100 kt on 045 the ground
// vector (70.71 - h, 70.71) points to 120, so that h is 111.54 kt and the groundspeed -11.54.
func TestWindFromDriftsTellsTheGroundspeed(t *testing.T) {
	still, drifted := wind.DriftSight{}, wind.DriftSight{Heading: 45, Drift: 75}
	for _, c := range [][2]wind.DriftSight{{still, drifted}, {drifted, still}} {
		_, err := wind.WindFromDrifts(100, c[0], c[1])
		field, ok := errors.AsType[*abeam.FieldError](err)
		if got, _ := field.Value.(abeam.Knots); !ok || !near.Equal(got, -11.54, 0.01) {
			t.Errorf("%+v: %v", c, err)
		}
	}
}
