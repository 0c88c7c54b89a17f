package tolerance

import (
	"math"
	"slices"
	"testing"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
)

// drawn is a motion of a sample a second at places of a right-hand pattern's course frame,
// all on course 0 and at 120 kt: 1/30 NM in a second.
func drawn(t *testing.T, p hold.Pattern, points []hold.Point) *motion {
	t.Helper()
	log := placed(t, p, points)
	m := &motion{log: &log, t: make([]float64, len(points)), course: make([]float64, len(points)), window: 10}
	for i := range log.Samples {
		s := &log.Samples[i]
		s.Groundspeed, s.Has = 120, s.Has|Quantities(Groundspeed|Track)
		m.t[i] = s.Time.Seconds()
	}
	return m
}

func northbound(t *testing.T) hold.Pattern {
	t.Helper()
	p, err := hold.NewPattern(hold.Fix{Position: s2.LatLngFromDegrees(50, 8)}, 0, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func above(x float64) float64 { return math.Nextafter(x, math.Inf(1)) }
func below(x float64) float64 { return math.Nextafter(x, math.Inf(-1)) }

// A leg takes 10 s; its course is the median of all its samples, both ends among them.
func TestLegsBetweenTurns(t *testing.T) {
	m := drawn(t, northbound(t), make([]hold.Point, 101))
	for i := 45; i <= 50; i++ {
		m.course[i] = 10 // the later 6 of 11 samples
	}
	got := m.legs([]stretch{{10, 20, 90}, {below(30), 40, -60}, {50, 60, 180}})
	want := []leg{{0, 10, 0, 90, 0}, {40, 50, -60, 180, 10}, {60, 100, 180, 0, 0}}
	if !slices.Equal(got, want) {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// What a candidate is worse for adds up.
func TestScoreOfCandidates(t *testing.T) {
	for _, tc := range []struct {
		ends, proper int
		want         float64
	}{{2, 1, 3}, {2, 2, 3}, {3, 0, 8}, {1, 1, 6}, {1, 0, 11}} {
		c := candidate{ends: make([]int, tc.ends), proper: tc.proper, distance: 1, arrival: 2}
		if got := c.score(); got != tc.want {
			t.Errorf("%d ends, %d led into: %v, want %v", tc.ends, tc.proper, got, tc.want)
		}
	}
}

// Legs follow each other by a circle, above 320 and below 400 degrees; a turn of the pattern
// is one of 80.
func TestCandidatesAtTheThresholds(t *testing.T) {
	m := drawn(t, northbound(t), make([]hold.Point, 101))
	for _, sign := range []float64{1, -1} {
		legs := func(by, before, after float64) []leg {
			return []leg{{0, 20, 0, 180 * sign, 7}, {30, 40, 180 * sign, 180 * sign, 7 + 180*sign}, {50, 90, before * sign, after * sign, 7 + by*sign}}
		}
		for by, want := range map[float64]bool{320: false, 320.001: true, 360: true, 399.999: true, 400: false, 40: false} {
			if c := m.candidate(legs(by, 180, 0), 0, sign, nil); (c != nil) != want {
				t.Errorf("a circle of %v one way (%v): %+v", by, sign, c)
			} else if c != nil && (!slices.Equal(c.members, []int{0, 2}) || c.sign != sign) {
				t.Errorf("%+v", c)
			}
		}
		for _, tc := range []struct {
			before, after float64
			ends          []int
			proper        int
		}{
			{80, 80, []int{20, 90}, 1}, {below(80), 80, []int{20, 90}, 0}, {80, below(80), []int{20}, 0}, {-80, 180, []int{20, 90}, 0}, {180, -180, []int{20}, 0},
		} {
			c := m.candidate(legs(360, tc.before, tc.after), 0, sign, nil)
			if !slices.Equal(c.ends, tc.ends) || c.proper != tc.proper {
				t.Errorf("turns of %v and %v one way (%v): %+v", tc.before, tc.after, sign, c)
			}
		}
		none := legs(360, 180, below(80))
		none[0].after = sign * below(80)
		if c := m.candidate(none, 0, sign, nil); c != nil {
			t.Errorf("no turn of the pattern: %+v", c)
		}
	}
}

// The fix is the mean of the ends, across the date line too. Of 0.002 degrees of longitude at
// latitude 60 half is 55.8 m: 111.32 m at the equator times cos 60, and 1.0025 for the
// ellipsoid. At 120 kt, 61.73 m/s, that takes 0.904 s.
func TestFixAmongTheEnds(t *testing.T) {
	for _, tc := range []struct{ a, b, want float64 }{{8, 8.002, 8.001}, {179.9995, -179.9985, -179.9995}, {-179.9995, 179.9985, 179.9995}} {
		m := drawn(t, northbound(t), make([]hold.Point, 101))
		for i := range m.log.Samples {
			s := &m.log.Samples[i]
			if s.Lat, s.Lon = 60, tc.a; i > 40 {
				s.Lon = tc.b
			}
		}
		legs := []leg{{0, 20, 0, 180, 0}, {50, 90, 180, 180, 360}}
		c := m.candidate(legs, 0, 1, nil)
		if abs(c.fix.Lat.Degrees()-60) > 1e-9 || abs(c.fix.Lng.Degrees()-tc.want) > 1e-9 || abs(c.distance-0.904) > 0.001 || abs(c.arrival-0.904) > 0.001 {
			t.Errorf("%v and %v: %+v", tc.a, tc.b, c)
		}
		given := hold.Fix{Position: s2.LatLngFromDegrees(60, tc.a)}
		// One end is on it, the other 1.808 s off: the root of half its square is 1.278 s.
		if c = m.candidate(legs, 0, 1, &given); c.fix != given.Position || abs(c.distance-1.278) > 0.001 || c.arrival > 1e-9 {
			t.Errorf("at %v: %+v", given, c)
		}
	}
}

// The mean of all speeds between, both ends among them; at rest it is 1 kt, so that times
// of flight are finite.
func TestMeanSpeed(t *testing.T) {
	m := drawn(t, northbound(t), make([]hold.Point, 700))
	for i := range m.log.Samples {
		if i%2 == 1 {
			m.log.Samples[i].Groundspeed = 60
		}
	}
	for _, tc := range []struct {
		a, b int
		want float64
	}{{600, 603, 90}, {0, 2, 100}, {1, 1, 60}} {
		if got := m.speed(tc.a, tc.b) * 3600; abs(got-tc.want) > 1e-9 {
			t.Errorf("samples %d to %d: %v, want %v", tc.a, tc.b, got, tc.want)
		}
	}
	for i := range m.log.Samples {
		m.log.Samples[i].Groundspeed = 0
	}
	if got := m.speed(0, 99) * 3600; abs(got-1) > 1e-12 {
		t.Errorf("at rest %v", got)
	}
}

// Courses are brought within half a circle of a reference by their leg's, both ends of
// which are among them.
func TestCoursesReduced(t *testing.T) {
	m := &motion{course: []float64{1, 365, 370, 372, 2}}
	for _, tc := range []struct {
		course, reference float64
		want              []float64
	}{
		{370, 10, []float64{5, 10, 12}}, {370, 200, []float64{365, 370, 372}}, {370, 730, []float64{725, 730, 732}}, {370, -355, []float64{-355, -350, -348}},
	} {
		if got := m.reduced([]float64{7}, 1, 3, tc.course, tc.reference); !slices.Equal(got, append([]float64{7}, tc.want...)) {
			t.Errorf("leg of %v to %v: %v", tc.course, tc.reference, got)
		}
	}
}

// A leg counts that a turn of 80 degrees leads into, and of which 15 s are flown before the
// fix: 10 beside half the window of 10.
func TestInboundLegsCounted(t *testing.T) {
	p := northbound(t)
	for name, tc := range map[string]struct {
		sign, before float64
		fixAt        int
		want         int
		leg          time.Duration
	}{
		"all of it":              {1, 180, 90, 1, 30 * time.Second},
		"a turn of 80":           {1, 80, 90, 1, 30 * time.Second},
		"a turn below 80":        {1, below(80), 90, 0, time.Minute},
		"a turn the other way":   {1, -180, 90, 0, time.Minute},
		"left turns":             {-1, -80, 90, 1, 30 * time.Second},
		"15 s":                   {1, 180, 65, 1, 30 * time.Second},
		"14 s":                   {1, 180, 64, 0, time.Minute},
		"the fix at its end":     {1, 180, 99, 1, time.Minute},
		"the fix beyond its end": {1, 180, 120, 1, time.Minute},
	} {
		var points []hold.Point
		for i := range 100 {
			points = append(points, hold.Point{Along: abeam.NM(float64(i-tc.fixAt) / 30)})
		}
		m := drawn(t, p, points)
		m.course[99] = 60 // a stray one leaves the median alone
		legs := []leg{{0, 20, 0, 180 * tc.sign, 0}, {50, 99, tc.before, 0, 360 * tc.sign}}
		for i := 50; i < 99; i++ {
			m.course[i] = 360 * tc.sign
		}
		got, err := m.inferred(&candidate{sign: tc.sign, members: []int{0, 1}, ends: []int{20}, distance: 6}, legs, p.Fix())
		turn := hold.Right
		if tc.sign < 0 {
			turn = hold.Left
		}
		// 6 s at 120 kt are 0.2 NM.
		if err != nil || got.Legs != tc.want || got.Pattern.Leg().Inbound() != tc.leg || got.Pattern.Turn() != turn || got.Pattern.Inbound() != 0 || got.Turns != 1 || abs(got.Spread-0.2) > 1e-9 {
			t.Errorf("%s: %+v, %v", name, got, err)
		}
	}
}

// The sample nearest the fix, at either end of a stretch and within it.
func TestNearestSample(t *testing.T) {
	p := northbound(t)
	var points []hold.Point
	for i := range 21 {
		points = append(points, hold.Point{Along: abeam.NM(i - 10), Abreast: 0.5})
	}
	m := drawn(t, p, points)
	for _, tc := range [][3]int{{0, 20, 10}, {0, 10, 10}, {10, 20, 10}, {0, 7, 7}, {13, 20, 13}, {4, 4, 4}} {
		if got := m.nearest(localAt(p.Fix().Position), tc[0], tc[1]); got != tc[2] {
			t.Errorf("from %d to %d: %d, want %d", tc[0], tc[1], got, tc[2])
		}
	}
}
