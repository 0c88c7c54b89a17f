package tolerance

import (
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/near"
)

// directions is a log of recorded directions a second apart; a NaN is none.
func directions(headings, tracks []float64) *Log {
	log := &Log{HeadingNorth: abeam.True, TrackNorth: abeam.True}
	for i := range tracks {
		s := Sample{Time: time.Duration(i) * time.Second, Has: Quantities(Time | Latitude | Longitude)}
		if i < len(headings) && !math.IsNaN(headings[i]) {
			s.set(Heading, headings[i])
		}
		if !math.IsNaN(tracks[i]) {
			s.set(Track, tracks[i])
		}
		log.Samples = append(log.Samples, s)
	}
	return log
}

// A heading that is missing is the one before; before the first there is only the track. Where
// fewer than half of the samples have headings, tracks are the course.
func TestCourseOfHeadings(t *testing.T) {
	nan := math.NaN()
	for name, tc := range map[string]struct {
		headings, tracks, want []float64
		byHeading              bool
	}{
		"missing":      {[]float64{100, 110, nan, 130, 140}, []float64{0, 0, 180, 0, 0}, []float64{100, 110, 110, 130, 140}, true},
		"none first":   {[]float64{nan, 100, nan, 110}, []float64{90, 0, 180, 0}, []float64{90, 100, 100, 110}, true},
		"just half":    {[]float64{100, nan, nan, 100}, []float64{0, 0, 0, 0}, []float64{100, 100, 100, 100}, true},
		"under half":   {[]float64{100, nan, nan}, []float64{10, 20, 30}, []float64{10, 20, 30}, false},
		"across north": {nil, []float64{350, 355, 2, 10, 20}, []float64{350, 355, 362, 370, 380}, false},
		"back":         {nil, []float64{10, 2, 355, 350}, []float64{10, 2, -5, -10}, false},
		// A single wrong course is passed over, in the middle of three samples too; a lasting one is not,
		// and at the ends there is nothing to tell it by.
		"one wrong":    {nil, []float64{10, 90, 10}, []float64{10, 10, 10}, false},
		"wrong again":  {nil, []float64{10, 90, 10, 80, 10}, []float64{10, 10, 80, 10, 10}, false},
		"turned":       {nil, []float64{10, 10, 90, 90}, []float64{10, 10, 90, 90}, false},
		"wrong at end": {nil, []float64{10, 10, 10, 90}, []float64{10, 10, 10, 90}, false},
		"two":          {nil, []float64{10, 90}, []float64{10, 90}, false},
		"one":          {nil, []float64{10}, []float64{10}, false},
		"none":         {nil, nil, nil, false},
	} {
		m := newMotion(directions(tc.headings, tc.tracks), 0)
		if m.heading != tc.byHeading || len(m.course) != len(tc.want) {
			t.Errorf("%s: %v, by heading %v", name, m.course, m.heading)
			continue
		}
		for i, want := range tc.want {
			if !near.Equal(m.course[i], want, 1e-9) {
				t.Errorf("%s: %v, want %v", name, m.course, tc.want)
				break
			}
		}
	}
}

// The rate is over ten seconds around a sample, the fifth to either side with it: on a course that
// grows as the square of the time it is twice the time. At the ends it is over what there is, and
// where there is nothing beside it, none.
func TestRateOverTheWindow(t *testing.T) {
	m := &motion{window: 10, rate: make([]float64, 23)}
	for i := range 22 {
		m.t, m.course = append(m.t, float64(i)), append(m.course, float64(i*i))
	}
	m.t, m.course = append(m.t, 1000), append(m.course, 7)
	m.rates()
	for i, got := range m.rate {
		want := 2 * float64(i)
		switch {
		case i < 5:
			want = float64(i + 5) // from 0 to i+5
		case i == 22:
			want = 0
		case i > 16:
			want = float64(21 + i - 5) // from i-5 to 21
		}
		if !near.Equal(got, want, 1e-12) {
			t.Errorf("at %v s: %v, want %v", m.t[i], got, want)
		}
	}
}

// The window is ten seconds, or eight samples where those are longer.
func TestWindow(t *testing.T) {
	for interval, want := range map[time.Duration]float64{0: 10, time.Second: 10, 1250 * time.Millisecond: 10, 1500 * time.Millisecond: 12, 10 * time.Second: 80} {
		if got := windowOf(interval); got != want {
			t.Errorf("%v: %v s, want %v", interval, got, want)
		}
	}
}

// northward is a log of samples on a meridian, each a ten-thousandth of a degree on.
func northward(n int, step time.Duration) *Log {
	log := &Log{}
	for i := range n {
		log.Samples = append(log.Samples, Sample{Time: time.Duration(i) * step, Lat: float64(i) * 1e-4, Has: Quantities(Time | Latitude | Longitude)})
	}
	return log
}

// The way around a sample is between samples a second or more to both sides, as far as there are
// any within a hundred.
func TestWayAroundASample(t *testing.T) {
	for _, tc := range []struct {
		step        time.Duration
		at          int
		first, last int
	}{
		{time.Second, 150, 149, 151}, {time.Second, 0, 0, 1}, {time.Second, 300, 299, 300}, {2 * time.Second, 150, 149, 151},
		{500 * time.Millisecond, 150, 148, 152}, {600 * time.Millisecond, 150, 148, 152}, {250 * time.Millisecond, 2, 0, 6}, {250 * time.Millisecond, 150, 146, 154},
		{10 * time.Millisecond, 150, 50, 250}, {time.Millisecond, 150, 50, 250}, {time.Millisecond, 120, 20, 220}, {time.Millisecond, 30, 0, 130}, {time.Millisecond, 290, 190, 300},
	} {
		log := northward(301, tc.step)
		m := &motion{log: log}
		east, north, seconds := m.moved(tc.at)
		// A degree of latitude at the equator is 59.705 NM, by the ellipsoid.
		want := float64(tc.last-tc.first) * 1e-4 * 59.705
		if east != 0 || !near.Relative(north, want, 1e-5) || !near.Equal(seconds, float64(tc.last-tc.first)*tc.step.Seconds(), 1e-9) {
			t.Errorf("every %v, sample %d: %v east, %v north in %v s; want %v", tc.step, tc.at, east, north, seconds, want)
		}
	}
}

// A speed over the ground is the recorded one, along the track; otherwise that of the positions,
// and of one position there is none.
func TestVelocity(t *testing.T) {
	log := northward(11, time.Second)
	m := &motion{log: log}
	if east, north, ok := m.velocity(5); !ok || east != 0 || !near.Equal(north, 1e-4*59.705*3600, 1e-3) {
		t.Errorf("%v, %v, %v", east, north, ok)
	}
	log.TrackNorth = abeam.True
	log.Samples[5].set(Groundspeed, 100)
	log.Samples[5].set(Track, 90)
	if east, north, ok := m.velocity(5); !ok || !near.Equal(east, 100, 1e-9) || !near.Equal(north, 0, 1e-9) {
		t.Errorf("%v, %v, %v", east, north, ok)
	}
	log.Samples = log.Samples[:1]
	if east, north, ok := m.velocity(0); ok || east != 0 || north != 0 {
		t.Errorf("%v, %v, %v", east, north, ok)
	}
}

// The index of a time is that of the first sample at or after it.
func TestIndexOfATime(t *testing.T) {
	m := &motion{t: []float64{1, 2, 4, 8}}
	for at, want := range map[float64]int{0: 0, 1: 0, 1.5: 1, 2: 1, 2.1: 2, 4: 2, 7: 3, 8: 3, 9: 4} {
		if got := m.index(at); got != want {
			t.Errorf("%v: %d, want %d", at, got, want)
		}
	}
}
