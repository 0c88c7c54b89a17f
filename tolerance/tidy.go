package tolerance

import (
	"math"
	"slices"
	"time"
)

// tidy puts the samples of a file in the order of time and looks for what is wrong with
// them: clocks, positions, units. Whatever it changes or leaves out, it finds.
func (l *Log) tidy() {
	l.epoch()
	l.order()
	l.jumps()
	l.gaps()
	l.contradictions()
}

// epoch recognises seconds since 1970, and where the start is known counts from the
// first sample.
func (l *Log) epoch() {
	const oldest = 1e8 * time.Second // 1973; a recorder that runs for three years is none
	first := l.Samples[0].Time
	switch {
	case !l.Start.IsZero():
		l.Start = l.Start.Add(first)
	case first > oldest:
		l.Start = time.Unix(0, 0).UTC().Add(first)
	default:
		return
	}
	for i := range l.Samples {
		l.Samples[i].Time -= first
	}
}

// longest is the time that a log may cover, as the readers bound a time: what clocks that jump
// back and forth would add up to beyond it is not used.
const longest = 4e9 * time.Second

// back is how many samples may be out of order before the clock itself must have been
// set back.
const back = 8

// order makes times strictly increasing: a second sample of one time and stragglers are
// left out; where the clock itself goes back the rest is shifted to go on a step later.
func (l *Log) order() {
	in := l.Samples
	kept := in[:0] // behind what is read
	var shift, step time.Duration
	for i := range in {
		s := in[i]
		if s.Time.Abs() > longest || s.Time+shift > longest {
			l.find(Finding{Kind: BadValue, Line: int(s.Line)}, "a time %v after the first sample: not used", s.Time)
			l.Unused++
			continue
		}
		s.Time += shift
		if len(kept) == 0 {
			kept = append(kept, s)
			continue
		}
		last := kept[len(kept)-1]
		switch dt := s.Time - last.Time; {
		case dt > 0:
			step = dt
		case dt == 0:
			text := "at the same place"
			if s.Lat != last.Lat || s.Lon != last.Lon {
				text = "at another place"
			}
			l.find(Finding{Kind: Duplicate, Line: int(s.Line), Time: s.Time}, "the time of the sample before, %s: not used", text)
			l.Unused++
			continue
		case recovers(in[i+1:], last.Time-shift):
			l.find(Finding{Kind: OutOfOrder, Line: int(s.Line), Time: s.Time}, "%v earlier than the sample before: not used", -dt)
			l.Unused++
			continue
		default:
			// A step of what is usual; after a leap of the clock it is no measure.
			if step == 0 || step > time.Minute {
				step = time.Second
			}
			if last.Time+step > longest {
				l.find(Finding{Kind: BadValue, Line: int(s.Line)}, "a time beyond %v: not used", longest)
				l.Unused++
				continue
			}
			shift += step - dt
			s.Time = last.Time + step
			l.find(Finding{Kind: ClockStep, Line: int(s.Line), Time: s.Time}, "the clock goes back by %v: it is taken to go on %v after the sample before, and later times with it", -dt, step)
		}
		kept = append(kept, s)
	}
	l.Samples = kept
}

// recovers reports whether the times come back beyond the last good one soon.
func recovers(rest []Sample, last time.Duration) bool {
	for i := range rest[:min(back, len(rest))] {
		if rest[i].Time > last {
			return true
		}
	}
	return len(rest) < back // the end of the file: stragglers
}

// fastest is beyond any aeroplane that holds, in NM/s, and slack is the error that two
// good positions may have, in NM.
const (
	fastest = 1200.0 / 3600
	slack   = 0.05
)

func apart(a, b *Sample) float64 {
	e, n := local{a.Lat, a.Lon}.to(b.Lat, b.Lon)
	return math.Hypot(e, n)
}

func reachable(a, b *Sample) bool {
	return apart(a, b) <= fastest*math.Abs((b.Time-a.Time).Seconds())+slack
}

// jumps leaves out single positions that no flight reaches, and reports those after
// which the flight goes on elsewhere.
func (l *Log) jumps() {
	kept := l.Samples[:0]
	for i := range l.Samples {
		s := l.Samples[i]
		if n := len(kept); n > 0 {
			last := &kept[n-1]
			if !reachable(last, &s) {
				d := apart(last, &s)
				if i+1 < len(l.Samples) && reachable(last, &l.Samples[i+1]) {
					l.find(Finding{Kind: Jump, Line: int(s.Line), Time: s.Time}, "%.2f NM from the sample before, and back: not used", d)
					l.Unused++
					continue
				}
				l.find(Finding{Kind: Jump, Line: int(s.Line), Time: s.Time}, "%.2f NM from the sample before, and on from there", d)
			}
		}
		kept = append(kept, s)
	}
	l.Samples = kept
}

// interval is the usual time between samples.
func (l *Log) interval() time.Duration {
	n := len(l.Samples)
	if n < 2 {
		return 0
	}
	const look = 2000 // spread over the log
	stride := max(1, n/look)
	var steps []time.Duration
	for i := 1; i < n; i += stride {
		steps = append(steps, l.Samples[i].Time-l.Samples[i-1].Time)
	}
	slices.Sort(steps)
	return steps[len(steps)/2]
}

// gapAfter is the time between samples from which on nothing is known in between.
func (l *Log) gapAfter() time.Duration { return max(10*time.Second, 5*l.interval()) }

func (l *Log) gaps() {
	limit := l.gapAfter()
	for i := 1; i < len(l.Samples); i++ {
		a, b := &l.Samples[i-1], &l.Samples[i]
		if d := b.Time - a.Time; d > limit {
			l.find(Finding{Kind: Gap, Line: int(b.Line), Time: a.Time}, "%v without samples, over %.1f NM: a gap, or a clock set forward", d, apart(a, b))
		}
	}
}
