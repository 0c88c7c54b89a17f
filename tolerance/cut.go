package tolerance

import (
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
)

// Cut reads a flight against a pattern: when the fix was passed, the entry, and each lap
// in its four legs.
//
// The hold begins where the aeroplane first comes within 0.7 NM of the fix, at its
// nearest; every later passage is where it crosses the line abeam the fix in the inbound
// direction, within 2 NM and 90 degrees of course, at least 45 s after the one before.
// Turns are changes of course of 45 degrees and more, begun at 0.8 deg/s and ended at
// 0.4, over a window of 10 s (of eight samples where those take longer); their corners
// are where the rate is half that of the turn, good to a second or a sample.
//
// Errors: [abeam.ErrInvalid] for a zero pattern, a log of fewer than three samples, or
// one in which the fix is not passed twice.
func Cut(l Log, p hold.Pattern) (Flown, error) {
	const op = "tolerance.Cut"
	if p.Leg() == (hold.Leg{}) {
		return Flown{}, check.Invalid(op, "pattern", "zero", "one that hold.NewPattern gave")
	}
	if len(l.Samples) < 3 {
		return Flown{}, check.Invalid(op, "samples", len(l.Samples), "at least 3")
	}
	if err := l.validate(op); err != nil {
		return Flown{}, err
	}
	c := newCutter(&l, p)
	return c.flown(op)
}

// cutter is a motion in the course frame of a pattern.
type cutter struct {
	*motion
	pattern hold.Pattern
	inbound float64 // degrees true
	x, y    []float64
	list    []stretch
}

func newCutter(l *Log, p hold.Pattern) *cutter {
	fix := p.Fix()
	c := &cutter{motion: newMotion(l, fix.Variation), pattern: p, inbound: float64(fix.Variation.True(p.Inbound()))}
	frame := localAt(fix.Position).along(c.inbound, sideOf(p.Turn()))
	c.x, c.y = make([]float64, len(l.Samples)), make([]float64, len(l.Samples))
	for i := range l.Samples {
		c.x[i], c.y[i] = frame.point(l.Samples[i].Lat, l.Samples[i].Lon)
	}
	c.list = c.turns()
	return c
}

func (c *cutter) flown(op string) (Flown, error) {
	f := Flown{Pattern: c.pattern, ByHeading: c.heading}
	times := c.passages(&f)
	if len(f.Passages) < 2 {
		return Flown{}, check.Invalid(op, "passages of the fix", len(f.Passages), "at least 2")
	}
	var turns float64
	var circles int
	for i := 1; i < len(times); i++ {
		if i == 1 {
			if c.enter(&f, times[0], times[1]); f.Entry.Kind == entry.Teardrop || f.Entry.Kind == entry.Parallel {
				continue
			}
		}
		lap := c.lap(times[i-1], times[i])
		if !lap.Orbit {
			turns += (lap.Legs[hold.OutboundTurn].Length() + lap.Legs[hold.InboundTurn].Length()).Seconds()
			circles++
		}
		f.Laps = append(f.Laps, lap)
	}
	if turns > 0 { // of some lap that has two
		f.Rate = hold.Rate(360 * float64(circles) / turns)
	}
	return f, nil
}

const (
	overFix   = 0.7  // NM: the first passage
	abeamFix  = 2.0  // NM: every other
	shortest  = 45.0 // s: a lap
	wrongSide = 90.0 // degrees: from the inbound course
)

// passages finds them and gives their times in seconds.
func (c *cutter) passages(f *Flown) []float64 {
	var times []float64
	add := func(t, off float64) {
		times = append(times, t)
		f.Passages = append(f.Passages, Passage{Time: at(t), Abreast: abeam.NM(off)})
	}
	from := 1
	if t, d, i, ok := c.firstNear(); ok {
		add(t, d)
		from = i
	}
	gap := c.log.gapAfter().Seconds()
	for i := from; i < len(c.t); i++ {
		if !(c.x[i-1] < 0 && c.x[i] >= 0) || c.t[i]-c.t[i-1] > gap {
			continue
		}
		share := c.x[i-1] / (c.x[i-1] - c.x[i])
		t := c.t[i-1] + share*(c.t[i]-c.t[i-1])
		off := c.y[i-1] + share*(c.y[i]-c.y[i-1])
		way := math.Abs(math.Remainder(float64(c.track(i))-c.inbound, 360))
		if math.Abs(off) > abeamFix || way > wrongSide || len(times) > 0 && t-times[len(times)-1] < shortest {
			continue
		}
		add(t, off)
	}
	return times
}

// firstNear is where the aeroplane first passes the fix closely: its nearest point
// while it is within reach.
func (c *cutter) firstNear() (t, distance float64, index int, ok bool) {
	distance = overFix
	for i := 1; i < len(c.t); i++ {
		x0, y0, x1, y1 := c.x[i-1], c.y[i-1], c.x[i], c.y[i]
		dx, dy := x1-x0, y1-y0
		share := 0.0
		if l := dx*dx + dy*dy; l > 0 {
			share = min(1, max(0, -(x0*dx+y0*dy)/l))
		}
		d := math.Hypot(x0+share*dx, y0+share*dy)
		if d < distance {
			t, distance, index, ok = c.t[i-1]+share*(c.t[i]-c.t[i-1]), d, i, true
		}
		if ok && math.Hypot(x1, y1) > overFix {
			break
		}
	}
	return t, distance, index, ok
}

// lap cuts one lap into its legs by the turns in it.
func (c *cutter) lap(from, to float64) FlownLap {
	var in []stretch
	for _, s := range c.list {
		// A turn belongs to the lap in which its middle lies: the first may begin before
		// the fix, the last end after it.
		if mid := (s.from + s.to) / 2; mid >= from && mid < to && s.turn() == c.pattern.Turn() {
			in = append(in, s)
		}
	}
	var lap FlownLap
	level, turnIn, established := to, to, to
	switch n := len(in); n {
	case 0:
		lap.Orbit = true
	case 1:
		lap.Orbit = true
		established = min(to, in[0].to)
		level = c.opposite(from, established)
		turnIn = level
	default:
		// The outbound leg is the longest pause between turns.
		longest := 1
		for i := 2; i < n; i++ {
			if in[i].from-in[i-1].to > in[longest].from-in[longest-1].to {
				longest = i
			}
		}
		level, turnIn, established = in[longest-1].to, in[longest].from, min(to, in[n-1].to)
	}
	edges := [5]float64{from, level, turnIn, established, to}
	for i := range lap.Legs {
		lap.Legs[i] = Span{at(edges[i]), at(edges[i+1])}
	}
	lap.Inbound = lap.Legs[hold.InboundLeg].Length()
	c.describe(&lap, edges)
	return lap
}

// opposite is when an orbit points away from the inbound course.
func (c *cutter) opposite(from, to float64) float64 {
	a, b := c.index(from), c.index(to)
	for i := a; i < b; i++ {
		if math.Abs(math.Remainder(c.course[i]-c.inbound, 360)) > 150 {
			return c.t[i]
		}
	}
	return (from + to) / 2
}

// describe fills in what is measured on a lap cut at its edges.
func (c *cutter) describe(lap *FlownLap, edges [5]float64) {
	from, level, turnIn, established, to := edges[0], edges[1], edges[2], edges[3], edges[4]
	clock := level
	for i := c.index(from) + 1; i < c.index(to); i++ {
		lap.Widest = max(lap.Widest, abeam.NM(c.y[i]))
		lap.Astray = max(lap.Astray, abeam.NM(-c.y[i]))
		lap.Longest = max(lap.Longest, abeam.NM(-c.x[i]))
		if c.x[i-1] >= 0 && c.x[i] < 0 && c.t[i] < established {
			share := c.x[i-1] / (c.x[i-1] - c.x[i])
			clock = max(clock, c.t[i-1]+share*(c.t[i]-c.t[i-1]))
		}
	}
	if !lap.Orbit {
		lap.Outbound = at(max(0, turnIn-clock))
		lap.OutboundCourse = c.legCourse(level, turnIn)
	}
	if lap.Inbound > 0 {
		lap.InboundCourse = c.legCourse(established, to)
		i := min(c.index(established), len(c.t)-1)
		lap.Established = hold.Point{Along: abeam.NM(c.x[i]), Abreast: abeam.NM(c.y[i])}
	}
}

// legCourse is the mean course of a leg without the rolls at its ends, in the north of
// the pattern.
func (c *cutter) legCourse(from, to float64) abeam.Bearing {
	trim := min(c.window/2, (to-from)/4)
	a, b := c.index(from+trim), c.index(to-trim)
	if b <= a {
		b = min(a+1, len(c.t))
		a = b - 1
	}
	return c.pattern.Fix().Variation.Magnetic(c.mean(a, b))
}
