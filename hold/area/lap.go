package area

import (
	"math"

	"github.com/holdingfix/abeam/internal/kinematics"
)

// lap is one lap in the course frame, turns to the right.
type lap struct {
	in, out     float64 // headings, from the inbound course
	speed, rate float64 // NM/s, deg/s
	wx, wy      float64 // where the wind goes, NM/s
	wait, leg   float64 // seconds before the first turn, and from there to the second
}

// every is how far apart the points of a turn are at which its distance is taken, degrees.
const every = 10

// farthest is the greatest distance of the lap from the area, as far as it is above a
// threshold: where the lap stays farther inside than that it may be told less. The straight
// legs have theirs at their ends, since the area is convex.
func (l *lap) farthest(a Area, threshold float64) float64 {
	at := kinematics.State{Heading: l.in}
	far := a.region.Distance(0, 0)
	at = l.segment(at, 0, l.wait).End()
	first := math.Mod(l.out-l.in, 360)
	if first < 0 {
		first += 360
	}
	far = math.Max(far, l.turned(a, &at, first, threshold))
	at = l.segment(at, 0, l.leg).End()
	return math.Max(far, l.turned(a, &at, 360-first, threshold))
}

func (l *lap) segment(at kinematics.State, rate, seconds float64) kinematics.Segment {
	return kinematics.Segment{
		X: at.X, Y: at.Y, Heading: at.Heading, Rate: rate, Speed: l.speed, WX: l.wx, WY: l.wy, Duration: seconds,
	}
}

// turned flies a turn and gives its greatest distance above the threshold. Nothing moves
// faster than airspeed and wind together, so that from a point far inside it can go on to
// where the threshold could first be reached. Where the distance is within two hundredths of a
// mile of the edge it is sought between the points too.
func (l *lap) turned(a Area, at *kinematics.State, degrees, threshold float64) float64 {
	s := l.segment(*at, l.rate, degrees/l.rate)
	distance := func(t float64) float64 {
		p := s.At(t)
		return a.region.Distance(p.X, p.Y)
	}
	step := every / l.rate
	fastest := l.speed + math.Hypot(l.wx, l.wy)
	far, where := math.Inf(-1), 0.0
	for t := 0.0; ; {
		d := distance(t)
		if d > far {
			far, where = d, t
		}
		if !(t < s.Duration) {
			break
		}
		t = math.Min(s.Duration, t+math.Max(step, (threshold-d)/fastest))
	}
	if math.Abs(far) < 0.02 {
		far = math.Max(far, peak(distance, math.Max(0, where-step), math.Min(s.Duration, where+step)))
	}
	*at = s.End()
	return far
}

// peak is the greatest value of f between lo and hi, where it has one top: by golden
// sections, 30 of which leave a millionth.
func peak(f func(float64) float64, lo, hi float64) float64 {
	const golden = 0.6180339887498949
	a, b := hi-golden*(hi-lo), lo+golden*(hi-lo)
	fa, fb := f(a), f(b)
	for range 30 {
		if fa > fb {
			hi, b, fb = b, a, fa
			a = hi - golden*(hi-lo)
			fa = f(a)
		} else {
			lo, a, fa = a, b, fb
			b = lo + golden*(hi-lo)
			fb = f(b)
		}
	}
	return math.Max(fa, fb)
}
