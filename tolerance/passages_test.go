package tolerance

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/near"
)

// passed are the times of the passages and how far abreast they were.
func passed(t *testing.T, spots []spot) (times, abreast []float64) {
	t.Helper()
	var f Flown
	times = cutterOf(t, spots).passages(&f)
	if len(times) != len(f.Passages) {
		t.Fatalf("%v, %+v", times, f.Passages)
	}
	for i, p := range f.Passages {
		if p.Time != at(times[i]) {
			t.Errorf("%v, %+v", times, f.Passages)
		}
		abreast = append(abreast, float64(p.Abreast))
	}
	return times, abreast
}

// The first passage is the nearest point of the way, between samples too: from (-0.26, 0.32) to
// (0.22, -0.04) the way runs along (4, -3)/5; its foot (0.06, 0.08) is 0.1 NM from the fix, after
// 0.4 of its 0.6 NM, two thirds of the three seconds.
func TestFirstPassageAtTheNearestPoint(t *testing.T) {
	for name, tc := range map[string]struct {
		way            []spot
		time, distance float64
		index          int
		none           bool
	}{
		"between samples": {way: []spot{{0, -2.26, 1.82, 0}, {10, -0.26, 0.32, 0}, {13, 0.22, -0.04, 0}, {20, 3, -2, 0}}, time: 12, distance: 0.1, index: 2},
		// Coming straight at the fix and turning away short of it.
		"short of the fix": {way: []spot{{0, -1, 0, 0}, {1, -0.25, 0, 0}, {2, -1, 0.5, 0}}, time: 1, distance: 0.25, index: 1},
		"beyond the fix":   {way: []spot{{0, 0.25, 0, 0}, {1, 1, 0, 0}, {2, 2, 0, 0}}, time: 0, distance: 0.25, index: 1},
		// A sample repeated is a way of no length, and hovering is nearest when it begins.
		"standing at first": {way: []spot{{0, 0.25, 0, 0}, {1, 0.25, 0, 0}, {2, 1, 0, 0}}, time: 0, distance: 0.25, index: 1},
		"standing after":    {way: []spot{{0, -1, 0, 0}, {1, -0.25, 0, 0}, {2, -0.25, 0, 0}, {3, -1, 0, 0}}, time: 1, distance: 0.25, index: 1},
		// Away and back within 0.7 NM is one passage, at its nearest; what comes after that is another.
		"again nearer":              {way: []spot{{0, -1, 0, 0}, {1, -0.25, 0, 0}, {2, -0.5, 0, 0}, {3, -0.125, 0, 0}, {4, -2, 0, 0}}, time: 3, distance: 0.125, index: 3},
		"away to just 0.7":          {way: []spot{{0, -1, 0, 0}, {1, -0.25, 0, 0}, {2, -overFix, 0, 0}, {3, -0.125, 0, 0}, {4, -2, 0, 0}}, time: 3, distance: 0.125, index: 3},
		"gone and back nearer":      {way: []spot{{0, -1, 0, 0}, {1, -0.25, 0, 0}, {2, -0.75, 0, 0}, {3, -0.125, 0, 0}, {4, -2, 0, 0}}, time: 1, distance: 0.25, index: 1},
		"gone abreast":              {way: []spot{{0, -1, 0, 0}, {1, -0.25, 0, 0}, {2, -0.25, 0.75, 0}, {3, -0.125, 0, 0}, {4, -2, 0, 0}}, time: 1, distance: 0.25, index: 1},
		"gone at once, back nearer": {way: []spot{{0, -1, 0.5, 0}, {10, 1, 0.5, 0}, {20, -1, 0, 0}}, time: 5, distance: 0.5, index: 1},
		"within 0.7":                {way: []spot{{0, -3, 0.69, 0}, {10, 3, 0.69, 0}}, time: 5, distance: 0.69, index: 1},
		"not within 0.7":            {way: []spot{{0, -3, 0.71, 0}, {10, 3, 0.71, 0}}, none: true},
	} {
		at, distance, index, ok := cutterOf(t, tc.way).firstNear()
		if ok == tc.none || ok && (!near.Equal(at, tc.time, 1e-12) || !near.Equal(distance, tc.distance, 1e-12) || index != tc.index) {
			t.Errorf("%s: at %v, %v NM, sample %d, %v", name, at, distance, index, ok)
		}
	}
}

// A later passage is where the line abeam is crossed: a quarter of the way from 0.5 NM before it
// to 1.5 beyond, abreast a quarter of the way from 0.5 to 1.
func TestPassageBetweenSamples(t *testing.T) {
	spots := joined([]spot{{0, -0.25, 0, 0}, {1, 0, 0, 0}}, idle(2, 60), []spot{{60, -0.5, 0.5, 0}, {64, 1.5, 1, 0}, {65, 3, 1, 0}})
	times, abreast := passed(t, spots)
	if len(times) != 2 || times[0] != 1 || times[1] != 61 || abreast[0] != 0 || abreast[1] != 0.625 {
		t.Errorf("at %v, abreast %v", times, abreast)
	}
}

// What counts as a passage ends where it is documented to: 45 s after the one before, 2 NM
// abreast, 90 degrees of course, and not over a gap of more than ten seconds.
func TestPassageLimits(t *testing.T) {
	first := []spot{{0, -0.25, 0, 0}, {1, 0, 0, 0}, {1.5, 2, 2, 0}}
	over := func(at, apart, y0, y1, course float64) []spot {
		return []spot{{at - apart/2, -1, y0, course}, {at + apart/2, 1, y1, course}}
	}
	for name, tc := range map[string]struct {
		crossing []spot
		counts   bool
	}{
		"after 45 s":         {over(46, 2, 0, 0, 0), true},
		"after 44.9 s":       {over(45.9, 2, 0, 0, 0), false},
		"2 NM abreast":       {over(60, 2, 1, 3, 0), true},
		"2 NM astray":        {over(60, 2, -1, -3, 0), true},
		"2.05 NM abreast":    {over(60, 2, 1, 3.1, 0), false},
		"2.05 NM astray":     {over(60, 2, -1, -3.1, 0), false},
		"across, right":      {over(60, 2, 0, 0, 90), true},
		"across, left":       {over(60, 2, 0, 0, 270), true},
		"backwards, right":   {over(60, 2, 0, 0, math.Nextafter(90, 91)), false},
		"backwards, left":    {over(60, 2, 0, 0, math.Nextafter(270, 0)), false},
		"samples 10 s apart": {over(60, 10, 0, 0, 0), true},
		"samples 11 s apart": {over(60, 11, 0, 0, 0), false},
		// The line is crossed once by a sample on it, and not by coming up to it from beyond.
		"onto the line":   {[]spot{{58, -1, 0, 0}, {60, 0, 0, 0}, {62, 1, 0, 0}}, true},
		"from the line":   {[]spot{{58, 1, 0, 180}, {60, 0, 0, 0}, {62, 1, 0, 0}}, false},
		"outbound":        {[]spot{{58, 1, 0, 0}, {62, -1, 0, 0}}, false},
		"short of it":     {[]spot{{58, -1, 0, 0}, {62, -0.001, 0, 0}, {63, -1, 0, 0}}, false},
		"after a gap":     {[]spot{{48, -1, 0, 0}, {59, -1, 0, 0}, {61, 1, 0, 0}}, true},
		"two in a second": {[]spot{{59, -1, 0, 0}, {61, 1, 0, 0}, {61.5, -1, 0, 0}, {62, 1, 0, 0}}, true},
	} {
		start := int(tc.crossing[0].t)
		far := idle(2, start)
		if tc.crossing[0].x > 0 {
			far = append(far, spot{float64(start) - 0.5, 1, 5, 0}) // across the line where it is no passage
		}
		times, _ := passed(t, joined(first, far, tc.crossing))
		if want := map[bool]int{true: 2, false: 1}[tc.counts]; len(times) != want || times[0] != 1 {
			t.Errorf("%s: %v", name, times)
		}
	}
}

// Where the fix is never passed within 0.7 NM, the hold begins at the first passage abeam.
func TestPassagesAbeamAlone(t *testing.T) {
	times, abreast := passed(t, joined([]spot{{0, -1, 1.5, 0}, {2, 1, 1.5, 0}}, idle(3, 60), []spot{{60, -1, -1.5, 0}, {62, 1, -1.5, 0}}))
	if len(times) != 2 || times[0] != 1 || times[1] != 61 || abreast[0] != 1.5 || abreast[1] != -1.5 {
		t.Errorf("at %v, abreast %v", times, abreast)
	}
}

// The crossing before the first passage is none of its own.
func TestNothingBeforeTheFirstPassage(t *testing.T) {
	times, _ := passed(t, joined([]spot{{0, -1, 1.5, 0}, {2, 1, 1.5, 0}}, idle(3, 60), []spot{{60, -1, 0, 0}, {62, 1, 0, 0}}))
	if len(times) != 1 || times[0] != 61 {
		t.Errorf("at %v", times)
	}
}

// Three samples can hold two passages: from 0.1 NM beyond the fix out through it to a mile before
// it (11 elevenths in 60 s, the fix after one), then in again over it. Two samples cannot, and
// two passages make a lap where one is an error.
func TestFewestSamples(t *testing.T) {
	p := cutterOf(t, idle(0, 3)).pattern
	log := placedAt(t, p, []spot{{0, 0.1, 0, 0}, {60, -1, 0, 0}, {120, 1, 0, 0}})
	got, err := Cut(log, p)
	if err != nil || len(got.Passages) != 2 || len(got.Laps) != 1 {
		t.Fatalf("%+v, %v", got, err)
	}
	for i, want := range []float64{60 * 0.1 / 1.1, 90} {
		if !near.Equal(got.Passages[i].Time.Seconds(), want, 0.01) { // the frame is good to 0.1 m
			t.Errorf("passed at %v, want %v s", got.Passages[i].Time, want)
		}
	}
	for n, field := range map[int]string{0: "samples", 2: "samples", 3: "passages of the fix"} {
		few := log
		few.Samples = few.Samples[:min(n, 2)]
		if n == 3 {
			few = placedAt(t, p, []spot{{0, -1, 0, 0}, {60, 1, 0, 0}, {120, 3, 0, 0}})
		}
		var e *abeam.FieldError
		if got, err := Cut(few, p); !errors.As(err, &e) || !errors.Is(err, abeam.ErrInvalid) || e.Field != field || got.Passages != nil {
			t.Errorf("%d samples: %v", n, err)
		}
	}
}

// placedAt is a log of positions alone that lie where the spots are.
func placedAt(t *testing.T, p hold.Pattern, spots []spot) Log {
	t.Helper()
	var log Log
	for _, s := range spots {
		place, err := p.Place(hold.Point{Along: abeam.NM(s.x), Abreast: abeam.NM(s.y)})
		if err != nil {
			t.Fatal(err)
		}
		log.Samples = append(log.Samples, Sample{
			Time: time.Duration(s.t * float64(time.Second)), Lat: place.Lat.Degrees(), Lon: place.Lng.Degrees(), Has: Quantities(Time | Latitude | Longitude),
		})
	}
	return log
}
