package tolerance

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
)

// motion is a log as the analysis needs it: seconds, and the way the aeroplane points,
// or moves where headings are not recorded, as a continuous angle in degrees true.
type motion struct {
	log     *Log
	t       []float64
	course  []float64
	rate    []float64 // of course, deg/s, over the window
	window  float64   // s
	magVar  abeam.Variation
	has     Quantities
	heading bool // course is heading, not track
}

// window is ten seconds: shorter and the wander of a needle looks like a turn, longer
// and a corner blurs. Coarse samples need eight of them.
func windowOf(interval time.Duration) float64 {
	return max(10, 8*interval.Seconds())
}

func newMotion(l *Log, variation abeam.Variation) *motion {
	n := len(l.Samples)
	m := &motion{log: l, magVar: variation, has: l.Has(), window: windowOf(l.interval())}
	m.t, m.course, m.rate = make([]float64, n), make([]float64, n), make([]float64, n)
	m.heading = m.has.Has(Heading)
	var last abeam.Bearing
	for i := range l.Samples {
		s := &l.Samples[i]
		m.t[i] = s.Time.Seconds()
		var b abeam.Bearing
		switch {
		case m.heading && s.Has.Has(Heading):
			b = m.true(s.Heading, l.HeadingNorth)
		case m.heading && i > 0:
			b = last
		default:
			b = m.track(i)
		}
		if i == 0 {
			m.course[i] = float64(b)
		} else {
			m.course[i] = m.course[i-1] + float64(b.Sub(last))
		}
		last = b
	}
	m.pick()
	m.rates()
	return m
}

// pick takes the median of every three courses: a single wrong one, as trackers make at
// a corner, is passed over, while a steady turn stays what it is.
func (m *motion) pick() {
	c := m.course
	if len(c) < 3 {
		return
	}
	before := c[0]
	for i := 1; i < len(c)-1; i++ {
		a, b, d := before, c[i], c[i+1]
		before = b
		c[i] = max(min(a, b), min(max(a, b), d))
	}
}

func (m *motion) true(b abeam.Bearing, north abeam.North) abeam.Bearing {
	if north == abeam.Magnetic {
		return m.magVar.True(b)
	}
	return b
}

// track is the direction over the ground, recorded or from the positions beside.
func (m *motion) track(i int) abeam.Bearing {
	if s := &m.log.Samples[i]; s.Has.Has(Track) {
		return m.true(s.Track, m.log.TrackNorth)
	}
	e, n, _ := m.moved(i)
	return abeam.NewBearing(angle.Atan2(e, n))
}

// moved is how far the aeroplane goes around a sample, in NM, in how many seconds: from
// samples a second or more to both sides, where there are any within a hundred.
func (m *motion) moved(i int) (east, north, seconds float64) {
	s := m.log.Samples
	a, b := i, i
	for a > 0 && i-a < 100 && s[i].Time-s[a].Time < time.Second {
		a--
	}
	for b < len(s)-1 && b-i < 100 && s[b].Time-s[i].Time < time.Second {
		b++
	}
	e, n := local{s[a].Lat, s[a].Lon}.to(s[b].Lat, s[b].Lon)
	return e, n, (s[b].Time - s[a].Time).Seconds()
}

// velocity is east and north over the ground in knots.
func (m *motion) velocity(i int) (east, north float64, ok bool) {
	s := &m.log.Samples[i]
	if s.Has.Has(Groundspeed) {
		sin, cos := angle.Sincos(float64(m.track(i)))
		return float64(s.Groundspeed) * sin, float64(s.Groundspeed) * cos, true
	}
	e, n, dt := m.moved(i)
	if dt <= 0 {
		return 0, 0, false
	}
	return e / dt * 3600, n / dt * 3600, true
}

// rates takes the change of the course over a window centred on each sample: a corner
// then lies where the rate is half that of the turn, whatever the window.
func (m *motion) rates() {
	a, b := 0, 0
	half := m.window / 2
	n := len(m.t)
	for i := range m.t {
		for m.t[i]-m.t[a] > half {
			a++
		}
		for b < n-1 && m.t[b+1]-m.t[i] <= half {
			b++
		}
		if dt := m.t[b] - m.t[a]; dt > 0 {
			// Beside the ends the window is cut; the rate is over what there is.
			m.rate[i] = (m.course[b] - m.course[a]) / dt
		}
	}
}

// mean is the circular mean of the course from a sample up to another.
func (m *motion) mean(from, to int) abeam.Bearing {
	sum := 0.0
	for i := from; i < to; i++ {
		sum += m.course[i]
	}
	return abeam.NewBearing(sum / float64(to-from))
}

// index is the first sample at or after a time.
func (m *motion) index(seconds float64) int {
	lo, hi := 0, len(m.t)
	for lo < hi {
		mid := (lo + hi) / 2
		if m.t[mid] < seconds {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return lo
}
