package hold

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/golang/geo/s2"
	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/internal/near"
)

// drawFix draws fixes all over the globe: the antimeridian and the last mile before a
// pole among them.
func drawFix() *rapid.Generator[Fix] {
	return rapid.Custom(func(t *rapid.T) Fix {
		lat := rapid.OneOf(draw.Uniform(-89.99, 89.99), draw.Uniform(89, 89.999), draw.Uniform(-89.999, -89),
			rapid.SampledFrom([]float64{0, 52.25, -89.9999, 89.9999})).Draw(t, "lat")
		lon := rapid.OneOf(draw.Uniform(-180, 180), draw.Uniform(179.9, 180),
			rapid.SampledFrom([]float64{0, 180, -180})).Draw(t, "lon")
		return Fix{Position: s2.LatLngFromDegrees(lat, lon), Variation: draw.Variation().Draw(t, "variation")}
	})
}

func TestLocateUndoesPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		turn := rapid.SampledFrom([]Turn{Right, Left}).Draw(t, "turn")
		p, err := NewPattern(drawFix().Draw(t, "fix"), draw.Bearing().Draw(t, "inbound"), turn, TimedInbound(time.Minute))
		if err != nil {
			t.Fatal(err)
		}
		reach := rapid.SampledFrom([]float64{0, 0.01, 10, 350}).Draw(t, "reach")
		want := Point{abeam.NM(draw.Uniform(-reach, reach).Draw(t, "along")), abeam.NM(draw.Uniform(-reach, reach).Draw(t, "abreast"))}
		at, err := p.Place(want)
		if err != nil {
			t.Fatal(err)
		}
		got, err := p.Locate(at)
		if err != nil {
			t.Fatal(err)
		}
		// Half the 0.1 m asked of a position is 2.7e-5 NM; 1e-7 NM is 0.2 mm.
		if !near.Equal(got.Along, want.Along, 1e-7) || !near.Equal(got.Abreast, want.Abreast, 1e-7) {
			t.Fatalf("%v, placed at %v, is located at %v", want, at, got)
		}
	})
}

// By hand: a minute of latitude at the equator is 1,842.9 m, of longitude 1,855.3 m.
func TestLocateByHand(t *testing.T) {
	for _, tc := range []struct {
		turn           Turn
		inbound        abeam.Bearing
		variation      abeam.Variation
		lat, lon       float64 // minutes
		along, abreast abeam.NM
	}{
		{Right, 0, 0, 1, 0, 0.99509, 0},
		{Right, 0, 0, 0, 1, 0, 1.00180},
		{Left, 0, 0, 0, 1, 0, -1.00180},
		{Right, 80, 10, 0, 1, 1.00180, 0},
		{Left, 80, 10, 1, 0, 0, 0.99509},
		{Left, 100, -10, -1, 0, 0, -0.99509},
	} {
		p, err := NewPattern(Fix{Variation: tc.variation}, tc.inbound, tc.turn, TimedInbound(time.Minute))
		if err != nil {
			t.Fatal(err)
		}
		got, err := p.Locate(s2.LatLngFromDegrees(tc.lat/60, tc.lon/60))
		if err != nil || !near.Equal(got.Along, tc.along, 6e-6) || !near.Equal(got.Abreast, tc.abreast, 6e-6) {
			t.Errorf("%+v: %v, %v", tc, got, err)
		}
	}
}

func TestLocateErrors(t *testing.T) {
	p := minutePattern(t, 0, Right)
	nan := math.NaN()
	for name, at := range map[string]s2.LatLng{
		"beyond range": s2.LatLngFromDegrees(9, 0), "other side": s2.LatLngFromDegrees(0, 180),
		"NaN": s2.LatLngFromDegrees(nan, 0), "off the globe": s2.LatLngFromDegrees(0, 181),
	} {
		got, err := p.Locate(at)
		var field *abeam.FieldError
		if !errors.Is(err, abeam.ErrInvalid) || !errors.As(err, &field) || field.Field != "position" || got != (Point{}) {
			t.Errorf("%s: %v, %v", name, got, err)
		}
	}
	for _, at := range []Point{{501, 0}, {0, -501}, {400, 400}, {abeam.NM(nan), 0}, {0, abeam.NM(math.Inf(1))}} {
		got, err := p.Place(at)
		if !errors.Is(err, abeam.ErrInvalid) || got != (s2.LatLng{}) {
			t.Errorf("%v: %v, %v", at, got, err)
		}
	}
	for _, err := range []error{second((Pattern{}).Locate(s2.LatLng{})), second((Pattern{}).Place(Point{}))} {
		if !errors.Is(err, abeam.ErrInvalid) || !strings.Contains(err.Error(), "hold.Pattern.") {
			t.Errorf("zero pattern: %v", err)
		}
	}
}
