package tolerance

import (
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/near"
)

// box is a lap flown from place to place: out abreast for 10 s, outbound to 1.5 NM before the
// fix, back to the course and in, a sample a second from 100 s to 220 s.
func box() (spots []spot) {
	for i := range 121 {
		s := spot{t: 100 + float64(i)}
		switch {
		case i <= 20: // a slant that passes the line abeam at 110 s
			s.x, s.y, s.course = 0.5-0.05*math.Abs(float64(i-10)), float64(i)/20, 90
			if i > 10 {
				s.x = 0.5 - 0.05*float64(i-10)
			}
		case i <= 60:
			s.x, s.y, s.course = -1.5*float64(i-20)/40, 1, 180
		case i <= 80:
			s.x, s.y, s.course = -1.5, 1-float64(i-60)/20, 270
		default:
			s.x, s.course = -1.5+1.5*float64(i-80)/40, 360
		}
		spots = append(spots, s)
	}
	return spots
}

// legs are the edges of the legs of a lap in seconds.
func legs(l FlownLap) (edges [5]float64) {
	for i, s := range l.Legs {
		edges[i], edges[i+1] = s.From.Seconds(), s.To.Seconds()
	}
	return edges
}

// The legs are parted by the turns the way of the pattern whose middle lies in the lap, at the
// longest pause between them.
func TestLapPartedByItsTurns(t *testing.T) {
	right := func(from, to float64) stretch { return stretch{from, to, 180} }
	left := func(from, to float64) stretch { return stretch{from, to, -180} }
	for name, tc := range map[string]struct {
		turns []stretch
		edges [5]float64
		orbit bool
	}{
		"two":                      {[]stretch{right(100, 120), right(160, 180)}, [5]float64{100, 120, 160, 180, 220}, false},
		"begun before":             {[]stretch{right(95, 120), right(160, 180)}, [5]float64{100, 120, 160, 180, 220}, false},
		"ended after":              {[]stretch{right(100, 120), right(160, 230)}, [5]float64{100, 120, 160, 220, 220}, false},
		"middle at the fix":        {[]stretch{right(90, 110), right(160, 180)}, [5]float64{100, 110, 160, 180, 220}, false},
		"middle before the fix":    {[]stretch{right(89, 110), right(105, 120), right(160, 180)}, [5]float64{100, 120, 160, 180, 220}, false},
		"middle at the next":       {[]stretch{right(100, 120), right(160, 180), right(210, 230)}, [5]float64{100, 120, 160, 180, 220}, false},
		"middle short of the next": {[]stretch{right(100, 120), right(160, 180), right(209, 230)}, [5]float64{100, 120, 160, 220, 220}, false},
		// The pause before the last turn is 30 s, the one before it 40.
		"three":          {[]stretch{right(100, 120), right(160, 170), right(200, 210)}, [5]float64{100, 120, 160, 210, 220}, false},
		"last the long":  {[]stretch{right(100, 110), right(120, 130), right(170, 180)}, [5]float64{100, 130, 170, 180, 220}, false},
		"alike":          {[]stretch{right(100, 110), right(140, 150), right(180, 190)}, [5]float64{100, 110, 140, 190, 220}, false},
		"a while longer": {[]stretch{right(100, 110), right(140, 150), right(181, 190)}, [5]float64{100, 150, 181, 190, 220}, false},
		"the other way":  {[]stretch{right(100, 120), left(130, 140), right(160, 180), left(190, 200)}, [5]float64{100, 120, 160, 180, 220}, false},
		// One turn, or none, is no racetrack: an orbit, which has no outbound leg. Its two turns
		// part where the course is first more than 150 degrees from inbound, one second after 120 s.
		"one":            {[]stretch{right(100, 200)}, [5]float64{100, 121, 121, 200, 220}, true},
		"one, to beyond": {[]stretch{right(110, 300)}, [5]float64{100, 121, 121, 220, 220}, true},
		"one, quick":     {[]stretch{right(100, 110)}, [5]float64{100, 105, 105, 110, 220}, true},
		"none":           {nil, [5]float64{100, 220, 220, 220, 220}, true},
		"only left":      {[]stretch{left(100, 120), left(160, 180)}, [5]float64{100, 220, 220, 220, 220}, true},
	} {
		c := cutterOf(t, box())
		c.list = tc.turns
		if name == "middle at the next" || name == "middle at the fix" {
			// The turn is in one lap, not in two or none.
			before, after := c.lap(50, 100), c.lap(220, 300)
			if before.Legs[hold.InboundLeg].Length() != 0 || legs(after)[3] == 300 != (name == "middle at the fix") {
				t.Errorf("%s: before %v, after %v", name, legs(before), legs(after))
			}
		}
		lap := c.lap(100, 220)
		if got := legs(lap); got != tc.edges || lap.Orbit != tc.orbit || lap.Inbound.Seconds() != tc.edges[4]-tc.edges[3] {
			t.Errorf("%s: %v, orbit %v, inbound %v", name, got, lap.Orbit, lap.Inbound)
		}
	}
}

// An orbit points away from the inbound course beyond 150 degrees either way, by the course frame.
func TestOppositeOfAnOrbit(t *testing.T) {
	for course, away := range map[float64]bool{150: false, math.Nextafter(150, 151): true, 180: true, 210: false, math.Nextafter(210, 209): true, 540: true, -180: true, 90: false} {
		spots := idle(0, 41)
		for i := range spots {
			spots[i].course = 0
			if i >= 25 {
				spots[i].course = course
			}
		}
		c := cutterOf(t, spots)
		if got, want := c.opposite(10, 40), map[bool]float64{true: 25, false: 25}[away]; got != want {
			t.Errorf("%v: %v, want %v", course, got, want)
		}
		// Within the orbit alone: up to its end, but not with it.
		if got, want := c.opposite(10, 30), map[bool]float64{true: 25, false: 20}[away]; got != want {
			t.Errorf("%v: %v, want %v", course, got, want)
		}
		if got := c.opposite(10, 25); got != 17.5 {
			t.Errorf("%v: %v, want the middle", course, got)
		}
		if got, want := c.opposite(25, 31), map[bool]float64{true: 25, false: 28}[away]; got != want {
			t.Errorf("%v: %v, want %v", course, got, want)
		}
		// The course counts from the inbound one.
		c.inbound = course
		if got := c.opposite(10, 30); (got == 10) != away {
			t.Errorf("%v: %v", course, got)
		}
		if got := c.opposite(26, 32); got != 29 {
			t.Errorf("inbound on %v: %v, want the middle", course, got)
		}
	}
}

// The outbound leg is timed from wings level or abeam, whichever is later.
func TestOutboundClock(t *testing.T) {
	// A lap from 0 to 120 s whose wings are level at 20, turn in at 60 and are level at 80.
	for name, tc := range map[string]struct {
		x    map[int]float64 // along at these seconds, before it and after it what the last says
		want time.Duration
	}{
		"abeam before level":   {map[int]float64{0: 1, 15: -1}, 40 * time.Second},
		"abeam at level":       {map[int]float64{0: 1, 20: 0, 21: -1}, 40 * time.Second},
		"abeam after level":    {map[int]float64{0: 1, 31: 0, 32: -1}, 29 * time.Second},
		"between samples":      {map[int]float64{0: 0.25, 33: -0.75}, 27*time.Second + 750*time.Millisecond},
		"twice":                {map[int]float64{0: 1, 31: -1, 35: 1, 40: 0, 41: -1}, 20 * time.Second},
		"never abeam":          {map[int]float64{0: 1}, 40 * time.Second},
		"inbound":              {map[int]float64{0: -1, 30: 1}, 40 * time.Second},
		"onto the line":        {map[int]float64{0: 1, 30: 0, 31: 1}, 40 * time.Second},
		"in the inbound turn":  {map[int]float64{0: 1, 79: -1}, 0},
		"when wings are level": {map[int]float64{0: 1, 80: -1}, 40 * time.Second},
	} {
		spots := idle(0, 121)
		x := tc.x[0]
		for i := range spots {
			if next, ok := tc.x[i]; ok {
				x = next
			}
			spots[i].x = x
		}
		c := cutterOf(t, spots)
		c.list = []stretch{{0, 20, 180}, {60, 80, 180}}
		if got := c.lap(0, 120).Outbound; got != tc.want {
			t.Errorf("%s: %v, want %v", name, got, tc.want)
		}
		c.list = c.list[:1]
		if got := c.lap(0, 120); got.Outbound != 0 || got.OutboundCourse != 0 {
			t.Errorf("%s: an orbit has %v outbound, course %v", name, got.Outbound, got.OutboundCourse)
		}
	}
}

// Abeam lies between samples in proportion: from 0.5 NM before the line to 1.5 beyond it, a quarter
// of the way and of the four seconds from 30 s to 34.
func TestOutboundClockBetweenSamples(t *testing.T) {
	spots := idle(0, 121)
	for i := range spots {
		spots[i].x = 0.5
		if i > 30 {
			spots[i].x = -1.5
		}
	}
	c := cutterOf(t, append(spots[:31:31], spots[34:]...))
	c.list = []stretch{{0, 20, 180}, {60, 80, 180}}
	if got := c.lap(0, 120).Outbound; got != 29*time.Second {
		t.Errorf("%v, want 29 s", got)
	}
}

// Extent is that of the samples between the passages, either side and outbound.
func TestExtentOfALap(t *testing.T) {
	spots := idle(0, 121)
	for i := range spots {
		spots[i].x, spots[i].y = -1, 0
	}
	spots[1].y, spots[60].y, spots[119].y = 1.25, -0.75, 1
	spots[119].x, spots[50].x = -2.5, -2
	// The passages themselves are not of the lap between, nor is what lies beyond.
	spots[0].y, spots[120].y, spots[120].x = 3, -3, -4
	c := cutterOf(t, spots)
	if lap := c.lap(0, 120); lap.Widest != 1.25 || lap.Astray != 0.75 || lap.Longest != 2.5 {
		t.Errorf("%+v", lap)
	}
	// From 1 to 119 neither of the two ends counts.
	if lap := c.lap(1, 119); lap.Widest != 0 || lap.Astray != 0.75 || lap.Longest != 2 {
		t.Errorf("%+v", lap)
	}
	// A lap all on one side is not astray, and one all beyond the fix not long.
	for i := range spots {
		c.x[i], c.y[i] = 1, 1
	}
	if lap := c.lap(0, 120); lap.Widest != 1 || lap.Astray != 0 || lap.Longest != 0 {
		t.Errorf("%+v", lap)
	}
}

// Where the wings are level inbound is the sample there, or the last of the log; a lap without
// an inbound leg has neither place nor course.
func TestEstablishedInbound(t *testing.T) {
	spots := idle(0, 121)
	for i := range spots {
		spots[i].x, spots[i].y, spots[i].course = -float64(i), float64(i)/100, 7
	}
	c := cutterOf(t, spots)
	for _, tc := range []struct {
		established, to float64
		sample          int
	}{{80, 120, 80}, {80.5, 120, 81}, {119.5, 120, 120}, {120, 120, -1}, {120.5, 121, 120}} {
		c.list = []stretch{{0, 20, 180}, {60, tc.established, 180}}
		lap := c.lap(0, tc.to)
		want, course := hold.Point{}, abeam.Bearing(0)
		if tc.sample >= 0 {
			want, course = hold.Point{Along: abeam.NM(spots[tc.sample].x), Abreast: abeam.NM(spots[tc.sample].y)}, 7
		}
		if lap.Established != want || lap.InboundCourse != course || lap.Inbound.Seconds() != tc.to-tc.established {
			t.Errorf("%+v: %+v", tc, lap)
		}
	}
}

// The course of a leg is the mean of its samples without half the window of ten seconds at
// either end, or without a quarter of the leg where that is less. On courses that grow as the
// square of the time no other samples have that mean.
func TestCourseOfALeg(t *testing.T) {
	spots := idle(0, 121)
	for i := range spots {
		spots[i].course = float64(i*i) / 64
	}
	c := cutterOf(t, spots)
	for _, tc := range []struct {
		from, to    float64
		first, last int
	}{
		{20, 60, 25, 54},         // five seconds are less than a quarter of 40
		{20, 40, 25, 34},         // and just a quarter of 20
		{20, 32, 23, 28},         // three are a quarter of 12
		{20.5, 32.5, 24, 29},     // samples from 23.5 to 29.5
		{20, 20, 20, 20},         // a leg of no time has the sample at it
		{20.2, 20.8, 21, 21},     // and one between samples that after it,
		{120.5, 121.5, 120, 120}, // or the last there is
		{119.8, 120.2, 120, 120}, // from 119.9 on
		{119, 121, 120, 120},     // from 119.5 to 120.5
		{118, 119, 119, 119},     // from 118.25 to 118.75
		{117.9, 119.9, 119, 119}, // from 118.4 to 119.4
		{116, 120, 117, 118},     // from 117 to 119
		{100, 120, 105, 114}, {0, 4, 1, 2}, {0, 0, 0, 0},
	} {
		sum := 0.0
		for i := tc.first; i <= tc.last; i++ {
			sum += spots[i].course
		}
		want := abeam.NewBearing(sum / float64(tc.last-tc.first+1))
		if got := c.legCourse(tc.from, tc.to); got.Sub(want).Abs() > 1e-9 {
			t.Errorf("%v to %v: %v, want %v", tc.from, tc.to, got, want)
		}
	}
}

// The rate is a circle over the time of both turns, of the laps that have two: here 20 s and 20 s
// for 360 degrees, and none of orbits.
func TestRateOfLaps(t *testing.T) {
	spots := joined([]spot{{99, -0.25, 0, 0}}, box(), []spot{{221, 0.25, 0, 0}})
	for i := range spots {
		if spots[i].t > 219 {
			spots[i].course = 0
		}
	}
	for name, tc := range map[string]struct {
		turns []stretch
		want  hold.Rate
		laps  int
	}{
		"racetrack": {[]stretch{{100, 120, 180}, {160, 180, 180}}, 9, 1}, "orbit": {[]stretch{{100, 180, 360}}, 0, 1}, "straight": {nil, 0, 1},
	} {
		c := cutterOf(t, spots)
		c.list = tc.turns
		got, err := c.flown("test")
		if err != nil || len(got.Laps) != tc.laps || !near.Equal(got.Rate, tc.want, 1e-9) || got.Entry.Span != (Span{100 * time.Second, 220 * time.Second}) {
			t.Errorf("%s: %+v, %v", name, got, err)
		}
	}
}
