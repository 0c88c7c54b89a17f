package tolerance

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam/internal/geodesy"
)

// timed is a log of samples at one place at these times in seconds.
func timed(times ...float64) *Log {
	log := &Log{}
	for i, s := range times {
		log.Samples = append(log.Samples, Sample{Time: time.Duration(s * float64(time.Second)), Line: int32(i + 2), Has: Quantities(Time | Latitude | Longitude)})
	}
	return log
}

// after are whole seconds from one up to another.
func after(from, to float64) (times []float64) {
	for s := from; s < to; s++ {
		times = append(times, s)
	}
	return times
}

func secondsOf(l *Log) (times []float64) {
	for _, s := range l.Samples {
		times = append(times, s.Time.Seconds())
	}
	return times
}

// Seconds above 10^8 count from 1970; the start of civil times is moved to the first sample.
func TestEpochs(t *testing.T) {
	start := time.Date(2026, 7, 3, 17, 42, 5, 0, time.UTC)
	for name, tc := range map[string]struct {
		start time.Time
		first float64
		want  time.Time
		times []float64
	}{
		"seconds":         {first: 7, times: []float64{7, 8}},
		"10^8":            {first: 1e8, times: []float64{1e8, 1e8 + 1}},
		"above 10^8":      {first: 1e8 + 0.5, want: time.Unix(1e8, 5e8), times: []float64{0, 1}},
		"below":           {first: 1e8 - 1, times: []float64{1e8 - 1, 1e8}},
		"civil":           {start: start, first: 0, want: start, times: []float64{0, 1}},
		"civil, later on": {start: start, first: 3, want: start.Add(3 * time.Second), times: []float64{0, 1}},
		"civil, earlier":  {start: start, first: -3, want: start.Add(-3 * time.Second), times: []float64{0, 1}},
	} {
		log := timed(tc.first, tc.first+1)
		log.Start = tc.start
		log.epoch()
		if got := secondsOf(log); !log.Start.Equal(tc.want) || fmt.Sprint(got) != fmt.Sprint(tc.times) {
			t.Errorf("%s: %v, %v", name, log.Start, got)
		}
	}
}

// Clocks set back go on a step later: the last step, where that is no leap of more than a minute,
// else a second.
func TestClockSetBack(t *testing.T) {
	for name, tc := range map[string]struct {
		first []float64
		on    float64
		text  string
	}{
		"a second":     {[]float64{100, 101, 102}, 103, "goes back by 1m42s: it is taken to go on 1s after"},
		"two seconds":  {[]float64{100, 102, 104}, 106, "goes back by 1m44s: it is taken to go on 2s after"},
		"a minute":     {[]float64{100, 160, 220}, 280, "goes back by 3m40s: it is taken to go on 1m0s after"},
		"over minutes": {[]float64{100, 161, 222}, 223, "goes back by 3m42s: it is taken to go on 1s after"},
		"at once":      {[]float64{100}, 101, "goes back by 1m40s: it is taken to go on 1s after"},
	} {
		log := timed(append(tc.first, after(0, 10)...)...)
		log.order()
		want := append(tc.first[:len(tc.first):len(tc.first)], after(tc.on, tc.on+10)...)
		if f := found(*log, ClockStep); fmt.Sprint(secondsOf(log)) != fmt.Sprint(want) || !strings.Contains(f.Text, tc.text) || f.Line != len(tc.first)+2 || log.Unused != 0 || len(log.Findings) != 1 {
			t.Errorf("%s: %v, %v", name, secondsOf(log), log.Findings)
		}
	}
}

// Stragglers are those whose clock is beyond the last good time again within eight samples: at it
// is not enough, and a ninth is too late. At the end of a log fewer than eight are stragglers.
func TestStragglers(t *testing.T) {
	for name, tc := range map[string]struct {
		back   []float64
		unused int
		steps  int
	}{
		"the eighth is beyond": {after(3, 20), 8, 0}, // after 10: 3, then 4 to 11; 3 to 10 are left out
		"the eighth is not":    {after(2, 20), 0, 1}, // after 10: 2, then 3 to 10
		"one":                  {append([]float64{9.5}, after(11, 20)...), 1, 0},
		"seven after it":       {after(1, 9), 8, 0}, // the end comes before it is told
		"eight after it":       {after(1, 10), 0, 1},
	} {
		log := timed(append([]float64{8, 9, 10}, tc.back...)...)
		log.order()
		steps, late := 0, 0
		for _, f := range log.Findings {
			switch f.Kind {
			case ClockStep:
				steps++
			case OutOfOrder, Duplicate:
				late++
			}
		}
		if log.Unused != tc.unused || late != tc.unused || steps != tc.steps || len(log.Samples) != 3+len(tc.back)-tc.unused {
			t.Errorf("%s: %v, %v, unused %d", name, secondsOf(log), log.Findings, log.Unused)
		}
	}
	// After a step the clock of the file is meant, and how much earlier it was is told in its seconds:
	// 8.5 after 9 is a straggler half a second late.
	log := timed(append(append([]float64{100, 101}, after(0, 10)...), append([]float64{8.5}, after(10, 30)...)...)...)
	log.order()
	f := found(*log, OutOfOrder)
	if log.Unused != 1 || f.Line != 14 || !strings.HasPrefix(f.Text, "500ms earlier than") || len(log.Findings) != 2 || log.Samples[len(log.Samples)-1].Time != 131*time.Second {
		t.Errorf("%v, %v", secondsOf(log), log.Findings)
	}
}

// A second sample at a time says whether it is at the same place.
func TestDuplicatesInPlace(t *testing.T) {
	for _, tc := range []struct {
		lat, lon float64
		says     string
	}{{50, 8, "at the same place"}, {50.1, 8, "at another place"}, {50, 8.1, "at another place"}, {50.1, 8.1, "at another place"}} {
		log := timed(1, 2, 2, 3)
		log.Samples[1].Lat, log.Samples[1].Lon = 50, 8
		log.Samples[2].Lat, log.Samples[2].Lon = tc.lat, tc.lon
		log.order()
		if f := found(*log, Duplicate); !strings.Contains(f.Text, tc.says) || f.Line != 4 || f.Time != 2*time.Second || log.Unused != 1 || len(log.Samples) != 3 {
			t.Errorf("%v, %v: %v", tc.lat, tc.lon, log.Findings)
		}
	}
}

// A log covers 4 10^9 s either way of its first sample, shifts included; a sample beyond it is
// found and counted, one at it is used.
func TestLongestLog(t *testing.T) {
	const most = 4e9
	last := func(l *Log) float64 { return l.Samples[len(l.Samples)-1].Time.Seconds() }
	for name, tc := range map[string]struct {
		times  []float64
		last   float64
		unused int
		line   int
	}{
		"at it":          {[]float64{0, most}, most, 0, 0},
		"beyond":         {[]float64{0, most + 1}, 0, 1, 3},
		"at it, before":  {[]float64{-most, 0}, 0, 0, 0},
		"beyond, before": {[]float64{-most - 1, 0}, 0, 1, 2},
		// Set back from 101 s to 0, taken for 102 s: what comes later is 102 s later.
		"shifted":     {append(append([]float64{100, 101}, after(0, 9)...), most-102), most, 0, 0},
		"shifted out": {append(append([]float64{100, 101}, after(0, 9)...), most-101), 110, 1, 13},
		// Set back where no step is left.
		"a straggler":  {append([]float64{0, most - 1}, after(0, 1)...), most - 1, 1, 0},
		"step by step": {append([]float64{most - 1}, after(0, 9)...), most, 8, 4},
		"no step left": {append([]float64{most}, after(0, 9)...), most, 9, 3},
	} {
		log := timed(tc.times...)
		log.order()
		f := found(*log, BadValue)
		if last(log) != tc.last || log.Unused != tc.unused || f.Line != tc.line {
			t.Errorf("%s: %v, %v, unused %d", name, secondsOf(log), log.Findings, log.Unused)
		}
	}
}

// miles is a log along the equator at these distances, in NM of the geodesic, from the first.
func miles(step time.Duration, distances ...float64) *Log {
	log := &Log{}
	for i, d := range distances {
		_, lon, _ := geodesy.Direct(0, 179.9, 90, d*1852)
		log.Samples = append(log.Samples, Sample{Time: 1000*time.Second + time.Duration(i)*step, Lon: s2.LatLngFromDegrees(0, lon).Normalized().Lng.Degrees(), Line: int32(i + 2), Has: Quantities(Time | Latitude | Longitude)})
	}
	return log
}

// What 1200 kt reach, and 0.05 NM more, is no jump: 1.05 NM in three seconds.
func TestReach(t *testing.T) {
	for d, jumps := range map[float64]int{1.049: 0, 1.051: 1} {
		log := miles(3*time.Second, 0, d, d+1.02)
		log.jumps()
		if len(log.Findings) != jumps || len(log.Samples) != 3 {
			t.Errorf("%v NM: %v", d, log.Findings)
		}
		// Back within reach of the one before, in twice the time, it is a single wrong position.
		log = miles(3*time.Second, 0, d, 0.2)
		log.jumps()
		if len(log.Findings) != jumps || log.Unused != jumps || len(log.Samples) != 3-jumps {
			t.Errorf("%v NM and back: %v", d, log.Findings)
		}
	}
	for d, unused := range map[float64]int{2.049: 1, 2.051: 0} {
		log := miles(3*time.Second, 0, 40, d)
		log.jumps()
		if log.Unused != unused || len(log.Samples) != 3-unused || found(*log, Jump).Line != 3 {
			t.Errorf("back at %v NM: %v", d, log.Findings)
		}
	}
	// The last sample has none after it to be back at.
	log := miles(time.Second, 0, 0.1, 7)
	log.jumps()
	if len(log.Findings) != 1 || log.Unused != 0 || !strings.Contains(log.Findings[0].Text, "6.90 NM from the sample before, and on from there") {
		t.Errorf("%v", log.Findings)
	}
}

// The usual interval is the median of the steps, whatever the first is.
func TestUsualInterval(t *testing.T) {
	for _, tc := range []struct {
		times []float64
		want  time.Duration
	}{
		{nil, 0}, {[]float64{3}, 0}, {[]float64{3, 10}, 7 * time.Second}, {[]float64{0, 30, 31, 32, 33}, time.Second},
		{[]float64{0, 1, 2, 30, 60, 90}, 28 * time.Second}, // of 1, 1, 28, 30 and 30 s
		{append([]float64{0}, after(30, 9000)...), time.Second},
	} {
		if got := timed(tc.times...).interval(); got != tc.want {
			t.Errorf("%d samples: %v, want %v", len(tc.times), got, tc.want)
		}
	}
}

// A gap is more than ten seconds, or five intervals where those are more.
func TestGaps(t *testing.T) {
	for _, tc := range []struct {
		step, gap float64
		found     bool
	}{{1, 10, false}, {1, 10.001, true}, {2, 10, false}, {2, 10.001, true}, {3, 15, false}, {3, 15.001, true}} {
		times := []float64{0, tc.step, 2 * tc.step, 3 * tc.step, 3*tc.step + tc.gap}
		log := timed(times...)
		log.gaps()
		f := found(*log, Gap)
		long := log.Samples[4].Time - log.Samples[3].Time
		if (len(log.Findings) == 1) != tc.found || tc.found && (f.Line != 6 || f.Time != log.Samples[3].Time || !strings.HasPrefix(f.Text, long.String()+" without samples")) {
			t.Errorf("%+v: %v", tc, log.Findings)
		}
	}
}
