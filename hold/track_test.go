package hold

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/edges"
	"github.com/holdingfix/abeam/internal/geodesy"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

func windy(tb testing.TB, turn Turn) Circuit {
	tb.Helper()
	c, err := minutePattern(tb, 0, turn).Circuit(Flight{TAS: 140, Rate: 3, Wind: wind.Wind{From: 300, Speed: 25}})
	if err != nil {
		tb.Fatal(err)
	}
	return c
}

func TestTrackRestartsAndEndsOnce(t *testing.T) {
	c := windy(t, Right)
	for _, step := range []time.Duration{MinStep, time.Second, 7 * time.Second, c.Lap / 4, c.Lap - 1, c.Lap, c.Lap + 1, time.Hour} {
		track, err := c.Track(step)
		if err != nil {
			t.Fatal(err)
		}
		appended, err := c.AppendTrack(nil, step)
		if err != nil {
			t.Fatal(err)
		}
		edges.Track(t, track, appended, Sample{Heading: c.InboundHeading}, func(s Sample) time.Duration { return s.Time }, step, c.Lap)
	}
}

func TestTrackPhasesMeetAtCorners(t *testing.T) {
	for _, turn := range []Turn{Right, Left} {
		c := windy(t, turn)
		for _, corner := range []struct {
			at      time.Duration
			place   Point
			phase   Phase
			heading abeam.Bearing
		}{
			{0, Point{}, OutboundTurn, c.InboundHeading},
			{c.OutboundTurn.Time, c.RollOut, OutboundLeg, c.OutboundHeading},
			{c.OutboundTurn.Time + c.Straight, c.TurnIn, InboundTurn, c.OutboundHeading},
			{c.Lap - c.Inbound, c.Established, InboundLeg, c.InboundHeading},
			{c.Lap, Point{}, InboundLeg, c.InboundHeading},
		} {
			segments := c.segments()
			s := c.sample(&segments, corner.at)
			if s.Phase != corner.phase || !near.Equal(s.At.Along, corner.place.Along, 1e-9) ||
				!near.Equal(s.At.Abreast, corner.place.Abreast, 1e-9) || !near.Angle(s.Heading, corner.heading, 1e-6) {
				t.Errorf("%v turns: %+v, want %+v", turn, s, corner)
			}
		}
	}
}

func TestTrackErrors(t *testing.T) {
	c := windy(t, Right)
	for _, step := range []time.Duration{0, -1, MinStep - 1} {
		if _, err := c.Track(step); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("Track(%v): %v", step, err)
		}
		if dst, err := c.AppendTrack(make([]Sample, 2), step); !errors.Is(err, abeam.ErrInvalid) || len(dst) != 2 {
			t.Errorf("AppendTrack(%v): %d, %v", step, len(dst), err)
		}
		if _, err := c.Positions(Fix{}, step); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("Positions(%v): %v", step, err)
		}
	}
	if _, err := (Circuit{}).Track(time.Second); !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("zero circuit: %v", err)
	}
	for _, pole := range []float64{90, -90, math.NaN()} {
		if _, err := c.Positions(Fix{Position: s2.LatLngFromDegrees(pole, 0)}, time.Second); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("fix at %v: %v", pole, err)
		}
	}
}

// Positions wherever the fix lies: near the poles, on the antimeridian, on the equator.
// Distance from the fix and the side must be those of the course frame; the distance
// is measured by another route, as a chord through the ellipsoid.
func TestPositionsAroundTheGlobe(t *testing.T) {
	for _, at := range [][2]float64{{0, 0}, {0, 180}, {52, 179.99}, {-17.75, -179.99}, {89.9, 10}, {-89.95, -120}, {61.5, 25}} {
		for _, turn := range []Turn{Right, Left} {
			fix := Fix{Position: s2.LatLngFromDegrees(at[0], at[1]), Variation: 12}
			c := windy(t, turn)
			positions, err := c.Positions(fix, 5*time.Second)
			if err != nil {
				t.Fatal(err)
			}
			for s, p := range positions {
				if !p.IsValid() {
					t.Fatalf("%v: %v", at, p)
				}
				metres := chord(fix.Position, p)
				want := math.Hypot(s.At.Along.Metres(), s.At.Abreast.Metres())
				// A chord of 12 NM is shorter than its arc by d^3/(24 R^2): 12 mm.
				if !near.Equal(metres, want, 0.02) {
					t.Errorf("fix %v: %v is %.3f m from the fix, want %.3f", at, s.At, metres, want)
				}
			}
		}
	}
	// Course 000 magnetic with 12 degrees of east variation runs 012 true: from the
	// equator, where the pattern is small, east and north are longitude and latitude.
	c := windy(t, Right)
	positions, err := c.Positions(Fix{Variation: 12}, time.Second)
	if err != nil {
		t.Fatal(err)
	}
	s12, c12 := math.Sincos(12 * math.Pi / 180)
	for s, p := range positions {
		north := float64(s.At.Along)*c12 - float64(s.At.Abreast)*s12
		east := float64(s.At.Along)*s12 + float64(s.At.Abreast)*c12
		// A degree at the equator: 110.574 km of latitude, 111.320 km of longitude.
		if lat := north * 1.852 / 110.574; !near.Equal(p.Lat.Degrees(), lat, 2e-6) {
			t.Errorf("%v: latitude %v, want %v", s.At, p.Lat.Degrees(), lat)
		}
		if lon := east * 1.852 / 111.320; !near.Equal(p.Lng.Degrees(), lon, 2e-6) {
			t.Errorf("%v: longitude %v, want %v", s.At, p.Lng.Degrees(), lon)
		}
	}
}

// chord is the straight distance between two points of the ellipsoid in metres.
func chord(a, b s2.LatLng) float64 {
	xyz := func(p s2.LatLng) [3]float64 {
		e2 := geodesy.F * (2 - geodesy.F)
		sp, cp := math.Sincos(float64(p.Lat))
		sl, cl := math.Sincos(float64(p.Lng))
		n := geodesy.A / math.Sqrt(1-e2*sp*sp)
		return [3]float64{n * cp * cl, n * cp * sl, n * (1 - e2) * sp}
	}
	p, q := xyz(a), xyz(b)
	return math.Hypot(p[0]-q[0], math.Hypot(p[1]-q[1], p[2]-q[2]))
}
