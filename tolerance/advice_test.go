package tolerance

import (
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// The rate flown counts from hold.MinRate to hold.MaxRate; otherwise it is that of the FAA's
// rule, 3 deg/s where 25 or 30 degrees of bank give no less.
func TestExactLapAtTheRateFlown(t *testing.T) {
	plan := testPlan(t, hold.Right, wind.Wind{})
	for flown, want := range map[hold.Rate]hold.Rate{
		0: 3, hold.MinRate: hold.MinRate, hold.MaxRate: hold.MaxRate, 2.7: 2.7, hold.Rate(math.NaN()): 3,
		hold.Rate(math.Nextafter(float64(hold.MinRate), 0)): 3, hold.Rate(math.Nextafter(float64(hold.MaxRate), 99)): 3,
	} {
		e, err := ExactLap(Flown{Pattern: plan.Pattern, Rate: flown}, WindEstimate{TAS: 118})
		if err != nil || e.Flight.Rate != want {
			t.Errorf("flown at %v: %v, %v", flown, e.Flight.Rate, err)
		}
	}
	if e, err := ExactLap(Flown{Pattern: plan.Pattern}, WindEstimate{TAS: 1e6}); err == nil || e != (Exact{}) {
		t.Errorf("%+v", e)
	}
}

// The shortest inbound leg is itself to be had; one a nanosecond shorter is not. In 30 kt on
// the nose two minutes of turns at 3 deg/s leave the aeroplane 1 NM outbound, and at 118 - 30
// = 88 kt that takes 3600/88 = 40.909 s.
func TestExactLapOfTheShortestLeg(t *testing.T) {
	plan := testPlan(t, hold.Right, wind.Wind{})
	w := WindEstimate{TAS: 118, Wind: wind.Wind{From: plan.Pattern.Fix().Variation.True(plan.Pattern.Inbound()), Speed: 30}}
	e, err := ExactLap(Flown{Pattern: plan.Pattern, Rate: 3}, w)
	if err != nil || !e.Possible {
		t.Fatalf("%+v, %v", e, err)
	}
	shortest, err := plan.Pattern.ShortestInbound(e.Flight)
	if err != nil || math.Abs(shortest.Seconds()-3600.0/88) > 1e-6 {
		t.Fatal(shortest, err)
	}
	for less, possible := range map[time.Duration]bool{0: true, 1: false} {
		p, err := plan.Pattern.WithLeg(hold.TimedInbound(shortest - less))
		if err != nil {
			t.Fatal(err)
		}
		e, err := ExactLap(Flown{Pattern: p, Rate: 3}, w)
		if err != nil || e.Possible != possible || e.Circuit.Inbound != shortest {
			t.Errorf("%v less than %v: possible %v, %v, %v", less, shortest, e.Possible, e.Circuit.Inbound, err)
		}
	}
	// A leg that is no time can always be had.
	p, err := plan.Pattern.WithLeg(hold.LengthInbound(2))
	if err != nil {
		t.Fatal(err)
	}
	if e, err := ExactLap(Flown{Pattern: p, Rate: 3}, w); err != nil || !e.Possible {
		t.Errorf("%+v, %v", e, err)
	}
}

// A lap counts by its place among all, and only with both legs.
func TestDriftsOfLapsWithBothLegs(t *testing.T) {
	plan := testPlan(t, hold.Left, wind.Wind{From: 200, Speed: 25})
	log := logOf(t, plan)
	f, err := Cut(log, plan.Pattern)
	if err != nil {
		t.Fatal(err)
	}
	f.Laps = append(f.Laps, f.Laps...)
	f.Laps[0].Orbit = true
	f.Laps[2].Inbound = 0
	f.Laps[3].Inbound = 1
	drifts, err := Drifts(f, Exact{})
	if err != nil {
		t.Fatal(err)
	}
	var laps []int
	for _, d := range drifts {
		laps = append(laps, d.Lap)
		if lap := f.Laps[d.Lap-1]; d.InboundTime != lap.Inbound || d.Clock != lap.Outbound || d.Wants != time.Minute ||
			d.Inbound != lap.InboundCourse.Sub(75) || d.Outbound != lap.OutboundCourse.Sub(255) {
			t.Errorf("%+v of %+v", d, lap)
		}
	}
	if len(laps) != 4 || laps[0] != 2 || laps[1] != 4 || laps[2] != 5 || laps[3] != 6 {
		t.Errorf("laps %v", laps)
	}
}

// A debrief of a flight with a whole lap ends in advice, and one without in none.
func TestDebriefAdvises(t *testing.T) {
	plan := testPlan(t, hold.Right, wind.Wind{From: 200, Speed: 15})
	d, err := NewDebrief(logOf(t, plan), Clearance{Pattern: plan.Pattern, Altitude: 7000}, FAAInstrument())
	if err != nil || d.NoWind != "" || len(d.Drifts) != 3 {
		t.Fatalf("%+v, %v", d, err)
	}
	// Both times, both outbound headings and the inbound one.
	if len(d.Advice) != 5 || d.Advice[4].Topic != "inbound heading" {
		t.Errorf("%+v", d.Advice)
	}
	orbits := Debrief{Flown: d.Flown}
	for i := range orbits.Flown.Laps {
		orbits.Flown.Laps[i].Orbit = true
	}
	if err := orbits.air(logOf(t, plan)); err != nil || orbits.Wind != d.Wind || orbits.Exact != d.Exact || orbits.Drifts != nil || orbits.Advice != nil {
		t.Errorf("%+v, %v", orbits, err)
	}
}
