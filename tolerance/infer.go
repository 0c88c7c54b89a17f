package tolerance

import (
	"math"
	"slices"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
)

// Inferred is a hold read off its track.
type Inferred struct {
	// Pattern counts courses from true north. Its leg is the median inbound time,
	// rounded to half a minute, for want of a better guess at what was cleared.
	Pattern hold.Pattern
	Turns   int // into the hold at the fix, on which its place rests
	// Spread is the root of the mean square distance of those turns from the fix.
	Spread abeam.NM
	// Legs is on how many inbound legs the course rests; 0 where there was none and the
	// way to and from the fix had to do.
	Legs int
}

// Infer finds the hold in a log from the track alone: the fix is where the inbound legs
// end and the turns begin, time after time.
//
// Two straight legs with a full circle of turns between them, all one way, are laps of
// a pattern. Of the two directions that a racetrack has, inbound is the one whose ends
// lie closer together and on the way of the aeroplane's arrival; a log that begins in a
// hold flown exactly leaves it open which is which. A track whose turns do
// not begin within half a minute of flight of one place holds nowhere.
//
// Errors: [abeam.ErrInvalid] for a log without such a hold.
func Infer(l Log) (Inferred, error) { return infer("tolerance.Infer", l, nil) }

// InferAt finds the hold at a fix: inbound course, direction of turns and leg. Courses
// count from true north, whatever the variation of the fix.
//
// The turns may begin within a minute of flight of the fix.
//
// Errors: as [Infer], and for a fix off the globe or at a pole.
func InferAt(l Log, fix hold.Fix) (Inferred, error) {
	const op = "tolerance.InferAt"
	fix.Variation = 0
	if _, err := hold.NewPattern(fix, 0, hold.Right, hold.TimedInbound(time.Minute)); err != nil {
		return Inferred{}, err
	}
	return infer(op, l, &fix)
}

// leg is a straight part of a track: samples first to last, between two turns.
type leg struct {
	first, last   int
	before, after float64 // the angle of the turn before and after; 0 at the ends of the log
	course        float64 // median, not reduced
}

// leadIn is the least turn of the pattern at either end of a leg; in wind the two turns of
// a circle share it unevenly.
const leadIn = 80

// apartAtMost is how far from the fix the turns at it may begin, in seconds of flight.
const apartAtMost = 30.0

func infer(op string, l Log, fix *hold.Fix) (Inferred, error) {
	if len(l.Samples) == 0 {
		return Inferred{}, check.Invalid(op, "log", "no track", "a log of a flight")
	}
	if err := l.validate(op); err != nil {
		return Inferred{}, err
	}
	track := l // by the track: a heading is off the course by the drift
	m := newMotion(&track, 0)
	if m.heading {
		m = m.byTrack()
	}
	turns := m.turns()
	legs := m.legs(turns)
	var best *candidate
	for _, sign := range []float64{1, -1} {
		taken := make([]bool, len(legs)) // in the set of an earlier leg already
		for i := range legs {
			if taken[i] {
				continue
			}
			c := m.candidate(legs, i, sign, fix)
			if c == nil {
				continue
			}
			for _, k := range c.members {
				taken[k] = true
			}
			if best == nil || c.score() < best.score() {
				best = c
			}
		}
	}
	if best == nil {
		return Inferred{}, check.Invalid(op, "log", "no two laps around one place", "a track that holds")
	}
	limit := apartAtMost
	if fix != nil { // which is where it is, however late the turns begin
		limit *= 2
	}
	if best.distance > limit {
		return Inferred{}, check.Invalid(op, "spread of the turns at the fix", at(best.distance), "at most "+at(limit).String()+" of flight")
	}
	if fix != nil {
		return m.inferred(best, legs, *fix)
	}
	in, err := m.inferred(best, legs, hold.Fix{Position: best.fix})
	if err != nil {
		return Inferred{}, err
	}
	if p, ok := m.arrivalCrossing(best, legs, in.Pattern.Inbound()); ok {
		return m.inferred(best, legs, hold.Fix{Position: p})
	}
	return in, nil
}

// byTrack is the same motion with the track for its course.
func (m *motion) byTrack() *motion {
	log := *m.log
	log.Samples = slices.Clone(m.log.Samples)
	for i := range log.Samples {
		log.Samples[i].Has &^= Quantities(Heading)
	}
	return newMotion(&log, m.magVar)
}

func (m *motion) legs(turns []stretch) []leg {
	var legs []leg
	from, before := m.t[0], 0.0
	add := func(to, after float64) {
		first, last := m.index(from), m.index(to)
		if to-from >= 10 {
			legs = append(legs, leg{first, last, before, after, median(slices.Clone(m.course[first : last+1]))})
		}
	}
	for _, s := range turns {
		add(s.from, s.angle)
		before, from = s.angle, s.to
	}
	add(m.t[len(m.t)-1], 0)
	return legs
}

// candidate is a set of legs one circle of turns after another.
type candidate struct {
	sign     float64
	members  []int // legs
	ends     []int // samples where a turn of the pattern begins
	proper   int   // of those, after a leg that a turn of the pattern led into
	fix      s2.LatLng
	distance float64 // s of flight: root mean square of the ends from the fix
	arrival  float64 // s of flight: of the way of arrival from the fix
}

// What a candidate is worse for, in seconds of flight: a single end proves no
// place, and a leg that no turn of the pattern leads into may be any.
const (
	singleEnd = 3.0
	noLeadIn  = 5.0
)

func (c *candidate) score() float64 {
	s := c.distance + c.arrival
	if len(c.ends) == 1 {
		s += singleEnd
	}
	if c.proper == 0 {
		s += noLeadIn
	}
	return s
}

// candidate takes a leg and all that follow it by a circle of turns one way.
func (m *motion) candidate(legs []leg, i int, sign float64, fix *hold.Fix) *candidate {
	c := &candidate{sign: sign, members: []int{i}}
	last := legs[i]
	for j := i + 1; j < len(legs); j++ {
		// A circle, less or more what the legs differ by.
		if by := sign * (legs[j].course - last.course); by > 320 && by < 400 {
			c.members = append(c.members, j)
			last = legs[j]
		}
	}
	if len(c.members) < 2 {
		return nil
	}
	for _, k := range c.members {
		if sign*legs[k].after >= leadIn {
			c.ends = append(c.ends, legs[k].last)
			if sign*legs[k].before >= leadIn {
				c.proper++
			}
		}
	}
	if len(c.ends) == 0 {
		return nil
	}
	var lat, lon float64
	ref := m.log.Samples[c.ends[0]].Lon
	for _, e := range c.ends {
		s := &m.log.Samples[e]
		lat += s.Lat / float64(len(c.ends))
		lon += math.Remainder(s.Lon-ref, 360) / float64(len(c.ends))
	}
	c.fix = s2.LatLngFromDegrees(lat, math.Remainder(ref+lon, 360))
	if fix != nil {
		c.fix = fix.Position
	}
	o := localAt(c.fix)
	sum, gs := 0.0, m.speed(legs[i].first, c.ends[len(c.ends)-1])
	for _, e := range c.ends {
		x, y := o.to(m.log.Samples[e].Lat, m.log.Samples[e].Lon)
		sum += (x*x + y*y) / float64(len(c.ends))
	}
	c.distance = math.Sqrt(sum) / gs
	c.arrival = m.nearestBefore(o, legs, c) / gs
	return c
}

// nearestBefore is how near the fix the aeroplane came before it began its first turn
// of the pattern's direction.
func (m *motion) nearestBefore(o local, legs []leg, c *candidate) float64 {
	nearest := math.Inf(1)
	for k := range m.log.Samples[:m.firstTurn(legs, c.sign)] {
		x, y := o.to(m.log.Samples[k].Lat, m.log.Samples[k].Lon)
		nearest = min(nearest, math.Hypot(x, y))
	}
	return nearest
}

// speed is the mean speed over the ground between two samples, NM/s.
func (m *motion) speed(a, b int) float64 {
	sum, n := 0.0, 0
	stride := max(1, (b-a)/500)
	for i := a; i <= b; i += stride {
		if e, nn, ok := m.velocity(i); ok {
			sum += math.Hypot(e, nn)
			n++
		}
	}
	if sum == 0 {
		return 1.0 / 3600
	}
	return sum / float64(n) / 3600
}

// arrivalCrossing is where the way of arrival crosses the line of the inbound course at
// 20 degrees or more, not far from where the turns begin. One flies to the fix first and
// turns some time after every passage, so that the crossing is the better place.
func (m *motion) arrivalCrossing(c *candidate, legs []leg, inbound abeam.Bearing) (s2.LatLng, bool) {
	frame := localAt(c.fix).along(float64(inbound), 1)
	far := apartAtMost * m.speed(legs[c.members[0]].first, c.ends[len(c.ends)-1])
	s := m.log.Samples
	for i := 1; i < m.firstTurn(legs, c.sign); i++ {
		x0, y0 := frame.point(s[i-1].Lat, s[i-1].Lon)
		x1, y1 := frame.point(s[i].Lat, s[i].Lon)
		if (y0 < 0) == (y1 < 0) || math.Abs(y1-y0) < math.Abs(x1-x0)*math.Tan(20*math.Pi/180) {
			continue
		}
		share := y0 / (y0 - y1)
		if x := x0 + share*(x1-x0); math.Abs(x) > far {
			continue
		}
		dlon := math.Remainder(s[i].Lon-s[i-1].Lon, 360)
		return s2.LatLngFromDegrees(s[i-1].Lat+share*(s[i].Lat-s[i-1].Lat), math.Remainder(s[i-1].Lon+share*dlon, 360)), true
	}
	return s2.LatLng{}, false
}

// firstTurn is the sample by which the first turn of the pattern's direction has begun.
func (m *motion) firstTurn(legs []leg, sign float64) int {
	for _, l := range legs {
		if sign*l.after >= bigTurn {
			return min(m.index(m.t[l.last]+m.window)+1, len(m.t))
		}
	}
	return len(m.t)
}

func (m *motion) inferred(c *candidate, legs []leg, fix hold.Fix) (Inferred, error) {
	o := localAt(fix.Position)
	turn := hold.Right
	if c.sign == -1 {
		turn = hold.Left
	}
	// The course is that of the legs that a turn of the pattern leads into, up to the fix.
	var courses, times []float64
	for _, k := range c.members {
		l := legs[k]
		end := m.nearest(o, l.first, l.last)
		if c.sign*l.before < leadIn || m.t[end]-m.t[l.first] < 10+m.window/2 {
			continue
		}
		courses = m.reduced(courses, l.first, end, l.course, legs[c.members[0]].course)
		times = append(times, m.t[end]-m.t[l.first])
	}
	inferred := Inferred{Turns: len(c.ends), Legs: len(times), Spread: abeam.NM(c.distance * m.speed(legs[c.members[0]].first, c.ends[len(c.ends)-1]))}
	target := time.Minute
	if len(times) == 0 {
		for _, k := range c.members {
			courses = m.reduced(courses, legs[k].first, legs[k].last, legs[k].course, legs[c.members[0]].course)
		}
	} else {
		target = at(median(times)).Round(30 * time.Second) // never 0: none is below 15 s
	}
	inbound := abeam.NewBearing(median(courses))
	var err error
	inferred.Pattern, err = hold.NewPattern(fix, inbound, turn, hold.TimedInbound(min(target, hold.MaxLeg)))
	if err != nil {
		return Inferred{}, err
	}
	return inferred, nil
}

// nearest is the sample of a stretch that is nearest the origin.
func (m *motion) nearest(o local, from, to int) int {
	best, at := math.Inf(1), from
	for i := from; i <= to; i++ {
		x, y := o.to(m.log.Samples[i].Lat, m.log.Samples[i].Lon)
		if d := math.Hypot(x, y); d < best {
			best, at = d, i
		}
	}
	return at
}

// reduced appends the courses of a stretch, less whole circles, so that its leg lies
// within half a circle of a reference.
func (m *motion) reduced(dst []float64, from, to int, course, reference float64) []float64 {
	circles := 360 * math.Round((course-reference)/360)
	for _, c := range m.course[from : to+1] {
		dst = append(dst, c-circles)
	}
	return dst
}

// median sorts x. A polygon's leg is where most of its samples are, and a needle's
// swings are passed over; a mean takes both in.
func median(x []float64) float64 {
	slices.Sort(x)
	n := len(x)
	return (x[(n-1)/2] + x[n/2]) / 2
}
