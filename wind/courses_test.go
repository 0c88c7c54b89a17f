package wind_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/wind"
)

// A course is in the range exactly when a heading can be solved for it, but for the
// last millionth of a degree at an edge.
func TestCoursesAreThoseThatSolve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tas := draw.TAS().Draw(t, "TAS") / 2
		share := rapid.SampledFrom([]float64{0, 0.5, 1 - 1e-9, 1, 1 + 1e-9, 1.2, 1.5}).Draw(t, "share")
		w := wind.Wind{From: draw.Bearing().Draw(t, "from"), Speed: tas * abeam.Knots(share)}
		course := draw.Bearing().Draw(t, "course")
		c, err := wind.CoursesMadeGood(tas, w)
		if err != nil {
			t.Fatal(err)
		}
		left, right := c.Edges()
		if math.Abs(float64(course.Sub(left))) < 1e-6 || math.Abs(float64(course.Sub(right))) < 1e-6 {
			return
		}
		_, err = wind.SolveHeading(course, tas, w)
		if got := c.Contains(course); got != (err == nil) {
			t.Errorf("%+v contains %v: %v; SolveHeading: %v", c, course, got, err)
		}
		if check := c.Check(course); (check == nil) != c.Contains(course) || check != nil && !errors.Is(check, abeam.ErrUnflyable) {
			t.Errorf("Check: %v", check)
		}
	})
}

func TestCoursesAtTheEdges(t *testing.T) {
	south := wind.Wind{From: 180, Speed: 120} // downwind is north
	for _, c := range []struct {
		tas    abeam.Knots
		course abeam.Bearing
		in     bool
	}{
		{60, 30, true}, {60, 330, true}, // asin(60/120)
		{60, 30 + 2e-9, false}, {60, 330 - 2e-9, false},
		{60, 0, true}, {60, 360, true}, {60, 180, false},
		{120, 90, false}, {120, 270, false}, {120, 90 - 2e-9, true}, {120, 270 + 2e-9, true}, {120, 0, true},
		{120.1, 90, true}, {120.1, 180, true},
		{60, abeam.Bearing(nan), false},
	} {
		r, err := wind.CoursesMadeGood(c.tas, south)
		if err != nil || r.Contains(c.course) != c.in {
			t.Errorf("TAS %v course %.10f: %+v, %v; want in range: %v", c.tas, float64(c.course), r, err, c.in)
		}
	}
	if (wind.Courses{}).Contains(0) {
		t.Error("the zero Courses contains north")
	}
	if err := (wind.Courses{HalfWidth: 180}).Check(abeam.Bearing(nan)); !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("course NaN: %v", err)
	}
	for _, tas := range []abeam.Knots{0, -1, abeam.Knots(nan), abeam.Knots(inf)} {
		if r, err := wind.CoursesMadeGood(tas, south); r != (wind.Courses{}) || !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("TAS %v: %+v, %v", tas, r, err)
		}
	}
	if r, err := wind.CoursesMadeGood(100, wind.Wind{Speed: -1}); r != (wind.Courses{}) || !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("wind of -1: %+v, %v", r, err)
	}
}
