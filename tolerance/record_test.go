package tolerance

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// straightPlan is a flight straight over the fix, without a lap.
func straightPlan(t *testing.T, before, after, step time.Duration) Plan {
	t.Helper()
	p := testPlan(t, hold.Right, wind.Wind{})
	p.Laps, p.Before, p.After, p.Step = nil, before, after, step
	return p
}

// A plan is sampled from its first moment to the last that is a whole number of steps on, that
// included.
func TestSamplesOfAPlan(t *testing.T) {
	for _, tc := range []struct {
		step    time.Duration
		samples int
	}{{time.Second, 31}, {2 * time.Second, 16}, {4 * time.Second, 8}, {30 * time.Second, 2}, {31 * time.Second, 1}, {250 * time.Millisecond, 121}} {
		log := logOf(t, straightPlan(t, 10*time.Second, 20*time.Second, tc.step))
		if len(log.Samples) != tc.samples {
			t.Errorf("every %v: %d samples, want %d", tc.step, len(log.Samples), tc.samples)
		}
		for i, s := range log.Samples {
			if s.Time != time.Duration(i)*tc.step {
				t.Errorf("every %v: sample %d at %v", tc.step, i, s.Time)
			}
		}
	}
}

// A flight of as many steps as a log may have samples has one sample more, and is refused.
func TestMostSamplesOfAPlan(t *testing.T) {
	p := straightPlan(t, 0, 0, time.Millisecond)
	var e *abeam.FieldError
	if log, err := p.record("test", &flown{now: MaxSamples / 1000}, 100); !errors.As(err, &e) || e.Field != "samples" || e.Value != MaxSamples || log.Samples != nil {
		t.Errorf("%d samples, %v", len(log.Samples), err)
	}
}

// Noise has the standard deviation that the plan says, in every quantity of its own, about what is
// flown. Of n draws the mean is within four of its own deviations, 1/sqrt(n), and the deviation
// within four of its own, 1/sqrt(2n).
func TestNoiseOfAPlan(t *testing.T) {
	plan := straightPlan(t, 1000*time.Second, 1000*time.Second, time.Second)
	quiet := logOf(t, plan)
	plan.Noise = Noise{Altitude: 20, IAS: 2, Heading: 1.5, Groundspeed: 3, Track: 0.5}
	noisy := logOf(t, plan)
	n := float64(len(quiet.Samples))
	for name, tc := range map[string]struct {
		deviation float64
		of        func(a, b *Sample) float64
	}{
		"altitude":    {20, func(a, b *Sample) float64 { return float64(a.Altitude - b.Altitude) }},
		"airspeed":    {2, func(a, b *Sample) float64 { return float64(a.IAS - b.IAS) }},
		"heading":     {1.5, func(a, b *Sample) float64 { return float64(a.Heading.Sub(b.Heading)) }},
		"groundspeed": {3, func(a, b *Sample) float64 { return float64(a.Groundspeed - b.Groundspeed) }},
		"track":       {0.5, func(a, b *Sample) float64 { return float64(a.Track.Sub(b.Track)) }},
	} {
		sum, squares := 0.0, 0.0
		for i := range quiet.Samples {
			x := tc.of(&noisy.Samples[i], &quiet.Samples[i]) / tc.deviation
			sum += x
			squares += x * x
		}
		if mean := sum / n; !(math.Abs(mean) < 4/math.Sqrt(n)) {
			t.Errorf("%s: mean %v of the deviation", name, mean)
		}
		if deviation := math.Sqrt(squares / n); !(math.Abs(deviation-1) < 4/math.Sqrt(2*n)) {
			t.Errorf("%s: %v of the deviation", name, deviation)
		}
	}
}

// Airspeeds and groundspeeds of noise are never below zero.
func TestNoiseLeavesSpeedsThatCanBe(t *testing.T) {
	plan := straightPlan(t, 100*time.Second, 100*time.Second, time.Second)
	plan.Noise = Noise{IAS: 300, Groundspeed: 300}
	stopped := 0
	for _, s := range logOf(t, plan).Samples {
		if s.IAS < 0 || s.Groundspeed < 0 {
			t.Errorf("%+v", s)
		}
		if s.IAS == 0 {
			stopped++
		}
	}
	if stopped == 0 {
		t.Error("no airspeed was held at zero")
	}
}

// Slips last from their time on until they are over, and add up.
func TestSlipsFromUntil(t *testing.T) {
	plan := straightPlan(t, 10*time.Second, 20*time.Second, time.Second)
	quiet := logOf(t, plan)
	plan.Slips = []Slip{
		{Altitude, 5 * time.Second, 3 * time.Second, 100}, {Altitude, 7 * time.Second, 2 * time.Second, -30},
		{IAS, 5 * time.Second, time.Second, 9}, {IAS, 20 * time.Second, time.Second, -1000}, {Heading, 29 * time.Second, 9 * time.Second, -7},
	}
	for i, s := range logOf(t, plan).Samples {
		q := quiet.Samples[i]
		want := map[int]abeam.Feet{5: 100, 6: 100, 7: 70, 8: -30}[i]
		ias := q.IAS + map[int]abeam.Knots{5: 9}[i]
		if i == 20 {
			ias = 0
		}
		heading := map[int]abeam.Degrees{29: -7, 30: -7}[i]
		if s.Altitude-q.Altitude != want || s.IAS != ias || s.Heading.Sub(q.Heading) != heading || s.Track != q.Track {
			t.Errorf("at %d s: %+v, without slips %+v", i, s, q)
		}
	}
}
