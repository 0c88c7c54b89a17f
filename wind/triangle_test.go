package wind_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

var nan, inf = math.NaN(), math.Inf(1)

// drawTriangle solves forward from a course, away from winds near the airspeed.
func drawTriangle(t *rapid.T) wind.Triangle {
	tas := draw.TAS().Draw(t, "TAS")
	w := draw.Wind(tas, 0.8).Draw(t, "wind")
	tri, err := wind.SolveHeading(draw.Bearing().Draw(t, "course"), tas, w)
	if err != nil {
		t.Fatal(err)
	}
	return tri
}

// sameTriangle allows angles to 1e-9 of a radian and speeds to 1e-9 of the TAS. The
// direction of a wind is compared by its components.
func sameTriangle(t *rapid.T, what string, want wind.Triangle, slack float64) func(wind.Triangle, error) {
	t.Helper()
	return func(got wind.Triangle, err error) {
		t.Helper()
		if err != nil {
			t.Fatalf("%s: %v", what, err)
		}
		const deg = 180 / math.Pi
		speed := abeam.Knots(slack) * want.TAS
		if !near.Angle(got.Track, want.Track, slack*deg) || !near.Angle(got.Heading, want.Heading, slack*deg) ||
			!near.Angle(got.Correction, want.Correction, slack*deg) ||
			!near.Equal(got.TAS, want.TAS, speed) || !near.Equal(got.Groundspeed, want.Groundspeed, speed) ||
			!sameWind(got.Wind, want.Wind, speed) {
			t.Errorf("%s:\n got %+v\nwant %+v", what, got, want)
		}
		if miss := got.Misclosure(); !(miss <= 1e-12*want.TAS+speed) {
			t.Errorf("%s: misses closing by %v", what, miss)
		}
	}
}

func sameWind(a, b wind.Wind, tol abeam.Knots) bool {
	return cmp.Equal(a.Components(0), b.Components(0), near.Comparer(tol))
}

// Every way through the triangle leads back to it.
func TestTriangleRoundTrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const slack = 1e-9
		tri := drawTriangle(t)
		if !(tri.Groundspeed > 0.1*tri.TAS) {
			t.Skip("hardly moving over the ground")
		}
		sameTriangle(t, "SolveTrack", tri, slack)(wind.SolveTrack(tri.Heading, tri.TAS, tri.Wind))
		sameTriangle(t, "SolveWind", tri, slack)(wind.SolveWind(tri.Track, tri.Groundspeed, tri.Heading, tri.TAS))
		sameTriangle(t, "SolveTAS", tri, slack)(wind.SolveTAS(tri.Track, tri.Groundspeed, tri.Wind))
		if math.Abs(float64(tri.Drift())) < 80 {
			sameTriangle(t, "SolveTASOnHeading", tri, slack)(wind.SolveTASOnHeading(tri.Heading, tri.Groundspeed, tri.Wind))
		}
		if math.Abs(float64(tri.Correction)) > 0.5 {
			sameTriangle(t, "SolveSpeeds", tri, slack)(wind.SolveSpeeds(tri.Heading, tri.Track, tri.Wind))
		}
	})
}

// A wind as strong as the airspeed, or stronger, still leaves a track, which may lie
// behind; the wind is found from it again.
func TestTriangleInWindsAboveTheAirspeed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tas := draw.TAS().Draw(t, "TAS") / 2
		w := draw.Wind(tas, 1.5).Draw(t, "wind")
		tri, err := wind.SolveTrack(draw.Bearing().Draw(t, "heading"), tas, w)
		if errors.Is(err, abeam.ErrUnflyable) {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		if tri.Groundspeed < 0.1*tas {
			t.Skip("hardly moving over the ground")
		}
		sameTriangle(t, "SolveWind", tri, 1e-9)(wind.SolveWind(tri.Track, tri.Groundspeed, tri.Heading, tri.TAS))
		sameTriangle(t, "SolveTAS", tri, 1e-9)(wind.SolveTAS(tri.Track, tri.Groundspeed, tri.Wind))
	})
}

// Turning everything turns the answer; mirroring everything mirrors it.
func TestTriangleTurnsAndMirrors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tri := drawTriangle(t)
		by := abeam.Degrees(draw.Uniform(-180, 180).Draw(t, "by"))
		turned, err := wind.SolveTrack(tri.Heading.Add(by), tri.TAS, wind.Wind{From: tri.Wind.From.Add(by), Speed: tri.Wind.Speed})
		if errors.Is(err, abeam.ErrUnflyable) {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		mirrored, err := wind.SolveTrack(-tri.Heading, tri.TAS, wind.Wind{From: -tri.Wind.From, Speed: tri.Wind.Speed})
		if err != nil {
			t.Fatal(err)
		}
		if tri.Groundspeed < 0.1*tri.TAS {
			t.Skip("hardly moving over the ground")
		}
		if !near.Angle(turned.Correction, tri.Correction, 1e-7) || !near.Angle(mirrored.Correction, -tri.Correction, 1e-7) ||
			!near.Relative(turned.Groundspeed, tri.Groundspeed, 1e-9) || !near.Relative(mirrored.Groundspeed, tri.Groundspeed, 1e-9) {
			t.Errorf("%+v\nturned %+v\nmirrored %+v", tri, turned, mirrored)
		}
	})
}

type solution struct {
	wind.Triangle
	err error
}

func solved(t wind.Triangle, err error) solution { return solution{t, err} }

func TestTriangleBadInput(t *testing.T) {
	w := wind.Wind{From: 30, Speed: 20}
	for _, c := range []struct {
		name, field string
		got         solution
		kind        error
	}{
		{"course NaN", "course", solved(wind.SolveHeading(abeam.Bearing(nan), 120, w)), abeam.ErrInvalid},
		{"heading infinite", "heading", solved(wind.SolveTrack(abeam.Bearing(inf), 120, w)), abeam.ErrInvalid},
		{"TAS 0", "TAS", solved(wind.SolveTrack(0, 0, w)), abeam.ErrInvalid},
		{"TAS negative", "TAS", solved(wind.SolveHeading(0, -1, w)), abeam.ErrInvalid},
		{"TAS NaN", "TAS", solved(wind.SolveTrack(0, abeam.Knots(nan), w)), abeam.ErrInvalid},
		{"TAS 801", "TAS", solved(wind.SolveTrack(0, 801, w)), abeam.ErrInvalid},
		{"wind negative", "wind speed", solved(wind.SolveTrack(0, 120, wind.Wind{Speed: -1})), abeam.ErrInvalid},
		{"wind NaN", "wind speed", solved(wind.SolveTAS(0, 120, wind.Wind{Speed: abeam.Knots(nan)})), abeam.ErrInvalid},
		{"wind from NaN", "wind from", solved(wind.SolveTASOnHeading(0, 120, wind.Wind{From: abeam.Bearing(nan)})), abeam.ErrInvalid},
		{"wind 401", "wind speed", solved(wind.SolveSpeeds(0, 1, wind.Wind{Speed: 401})), abeam.ErrInvalid},
		{"headwind of the TAS", "headwind", solved(wind.SolveTrack(30, 20, w)), abeam.ErrUnflyable},

		{"track NaN", "track", solved(wind.SolveWind(abeam.Bearing(nan), 100, 0, 100)), abeam.ErrInvalid},
		{"groundspeed 0", "groundspeed", solved(wind.SolveWind(0, 0, 0, 100)), abeam.ErrInvalid},
		{"groundspeed 1201", "groundspeed", solved(wind.SolveWind(0, 1201, 0, 100)), abeam.ErrInvalid},
		{"wind heading NaN", "heading", solved(wind.SolveWind(0, 100, abeam.Bearing(nan), 100)), abeam.ErrInvalid},
		{"wind TAS inf", "TAS", solved(wind.SolveWind(0, 100, 0, abeam.Knots(inf))), abeam.ErrInvalid},
		{"wind found too strong", "wind speed", solved(wind.SolveWind(0, 600, 0, 100)), abeam.ErrInvalid},

		{"SolveTAS track inf", "track", solved(wind.SolveTAS(abeam.Bearing(inf), 100, w)), abeam.ErrInvalid},
		{"SolveTAS groundspeed NaN", "groundspeed", solved(wind.SolveTAS(0, abeam.Knots(nan), w)), abeam.ErrInvalid},
		{"carried by the wind", "TAS", solved(wind.SolveTAS(210, 20, w)), abeam.ErrUnflyable},
		{"TAS found too high", "TAS", solved(wind.SolveTAS(30, 790, w)), abeam.ErrInvalid},

		{"groundspeed below the crosswind", "groundspeed", solved(wind.SolveTASOnHeading(120, 19, w)), abeam.ErrUnflyable},
		{"groundspeed below the tailwind", "TAS", solved(wind.SolveTASOnHeading(210, 19, w)), abeam.ErrUnflyable},
		{"on heading, TAS too high", "TAS", solved(wind.SolveTASOnHeading(30, 790, w)), abeam.ErrInvalid},
		{"on heading, groundspeed 0", "groundspeed", solved(wind.SolveTASOnHeading(30, 0, w)), abeam.ErrInvalid},

		{"no correction", "correction", solved(wind.SolveSpeeds(90, 90, w)), abeam.ErrInvalid},
		{"no correction across north", "correction", solved(wind.SolveSpeeds(360, 0, w)), abeam.ErrInvalid},
		{"backwards", "correction", solved(wind.SolveSpeeds(270, 90, w)), abeam.ErrInvalid},
		{"drifted into the wind", "TAS", solved(wind.SolveSpeeds(90, 80, w)), abeam.ErrUnflyable},
		{"ground made backwards", "groundspeed", solved(wind.SolveSpeeds(20, 80, w)), abeam.ErrUnflyable},
		{"calm cannot drift", "TAS", solved(wind.SolveSpeeds(80, 90, wind.Wind{})), abeam.ErrUnflyable},
		{"a hair of correction", "TAS", solved(wind.SolveSpeeds(90-1e-9, 90, w)), abeam.ErrInvalid},
		{"head into the wind and hanging", "groundspeed", solved(wind.SolveSpeeds(30, 80, w)), abeam.ErrUnflyable},
		{"speeds heading NaN", "heading", solved(wind.SolveSpeeds(abeam.Bearing(nan), 0, w)), abeam.ErrInvalid},
		{"speeds track NaN", "track", solved(wind.SolveSpeeds(0, abeam.Bearing(nan), w)), abeam.ErrInvalid},
	} {
		var field *abeam.FieldError
		switch {
		case c.got.Triangle != (wind.Triangle{}):
			t.Errorf("%s: a result beside the error %v: %+v", c.name, c.got.err, c.got.Triangle)
		case !errors.Is(c.got.err, c.kind) || !errors.As(c.got.err, &field):
			t.Errorf("%s: error %v", c.name, c.got.err)
		case field.Field != c.field || !strings.HasPrefix(field.Op, "wind.Solve"):
			t.Errorf("%s: error names %s %s", c.name, field.Op, field.Field)
		}
	}
}

// 360 is north, and so is 0.
func TestTriangleAtNorth(t *testing.T) {
	w := wind.Wind{From: 360, Speed: 20}
	for _, solve := range []func(b abeam.Bearing) (wind.Triangle, error){
		func(b abeam.Bearing) (wind.Triangle, error) { return wind.SolveHeading(b, 120, w) },
		func(b abeam.Bearing) (wind.Triangle, error) { return wind.SolveTrack(b, 120, w) },
		func(b abeam.Bearing) (wind.Triangle, error) { return wind.SolveTAS(b, 100, w) },
		func(b abeam.Bearing) (wind.Triangle, error) { return wind.SolveTASOnHeading(b, 100, w) },
		func(b abeam.Bearing) (wind.Triangle, error) { return wind.SolveWind(b, 100, b, 120) },
	} {
		at0, err0 := solve(0)
		at360, err360 := solve(360)
		at360.Wind.From = abeam.NewBearing(float64(at360.Wind.From))
		at0.Wind.From = abeam.NewBearing(float64(at0.Wind.From))
		want := wind.Triangle{TAS: 120, Groundspeed: 100, Wind: wind.Wind{Speed: 20}}
		if err0 != nil || err360 != nil || at0 != want || at360 != want {
			t.Errorf("at 0 %+v, %v\nat 360 %+v, %v", at0, err0, at360, err360)
		}
	}
}

// A crosswind equal to the airspeed leaves nothing along the course but what blows along it: from
// 60 degrees behind the beam twice the airspeed has the airspeed across and sqrt(3) times it behind.
// The correction is an arc sine at its end, which half a digit of the crosswind moves by 1e-6.
func TestCrosswindOfTheAirspeed(t *testing.T) {
	tri, err := wind.SolveHeading(0, 100, wind.Wind{From: 150, Speed: 200})
	if err != nil || !near.Equal(tri.Correction, 90, 1e-6) || !near.Equal(tri.Groundspeed, abeam.Knots(100*math.Sqrt(3)), 1e-5) {
		t.Errorf("%+v, %v", tri, err)
	}
}

// A wind or an airspeed at its limit is found again, rounding or not.
func TestTriangleAtTheLimits(t *testing.T) {
	for heading := abeam.Bearing(0); heading < 360; heading++ {
		w := wind.Wind{From: 23, Speed: wind.MaxSpeed}
		tri, err := wind.SolveTrack(heading, wind.MaxTAS, w)
		if err != nil {
			t.Fatal(err)
		}
		if back, err := wind.SolveWind(tri.Track, tri.Groundspeed, heading, wind.MaxTAS); err != nil || !sameWind(back.Wind, w, 1e-9) {
			t.Errorf("heading %v: %+v, %v", heading, back, err)
		}
		if back, err := wind.SolveTAS(tri.Track, tri.Groundspeed, w); err != nil || !near.Relative(back.TAS, wind.MaxTAS, 1e-9) {
			t.Errorf("heading %v: %+v, %v", heading, back, err)
		}
	}
}

func TestWindBadInput(t *testing.T) {
	for name, bad := range map[string]wind.Wind{
		"NaN": {From: abeam.Bearing(nan)}, "negative": {Speed: -1}, "strong": {Speed: 401}, "speed NaN": {Speed: abeam.Knots(nan)},
	} {
		if w, err := wind.New(bad.From, bad.Speed); w != (wind.Wind{}) || !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("%s: %v, %v", name, w, err)
		}
		if w, err := (wind.Reported{Wind: bad, North: abeam.True}).In(abeam.True, 0); w != (wind.Wind{}) || !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("%s reported: %v, %v", name, w, err)
		}
	}
	if w, err := (wind.Reported{}).In(abeam.True, 0); w != (wind.Wind{}) || !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("no north: %v, %v", w, err)
	}
}

func TestTriangleAllocatesNothing(t *testing.T) {
	w := wind.Wind{From: 30, Speed: 20}
	n := testing.AllocsPerRun(100, func() {
		a, _ := wind.SolveHeading(77, 120, w)
		b, _ := wind.SolveTrack(a.Heading, 120, w)
		c, _ := wind.SolveWind(b.Track, b.Groundspeed, b.Heading, 120)
		d, _ := wind.SolveTAS(c.Track, c.Groundspeed, c.Wind)
		e, _ := wind.SolveTASOnHeading(d.Heading, d.Groundspeed, d.Wind)
		f, _ := wind.SolveSpeeds(e.Heading, e.Track, e.Wind)
		_ = f.Misclosure()
		_, _ = wind.WindFromDrifts(120, wind.DriftSight{Heading: 0, Drift: 7}, wind.DriftSight{Heading: 90, Drift: -4})
		_, _ = wind.CoursesMadeGood(120, w)
	})
	if n != 0 {
		t.Errorf("%v allocations", n)
	}
}

// At a groundspeed of the crosswind itself all of it is across: the track lies square to the
// heading, and the airspeed just holds the headwind.
func TestGroundspeedOfTheCrosswind(t *testing.T) {
	w := wind.Wind{From: 60, Speed: 40}
	c := w.Components(0)
	tri, err := wind.SolveTASOnHeading(0, c.Cross, w)
	if err != nil || tri.TAS != c.Head || !near.Angle(tri.Track, 270, 1e-12) || !near.Equal(tri.Correction, 90, 1e-12) {
		t.Errorf("%+v, %v", tri, err)
	}
}
