package tolerance

import (
	"math"
	"slices"
	"testing"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// testPlan is a hold in a fresh wind: three laps, by no correction, by triple drift, and
// exact.
func testPlan(t testing.TB, turn hold.Turn, w wind.Wind) Plan {
	t.Helper()
	fix := hold.Fix{Ident: "TARNO", Position: s2.LatLngFromDegrees(47.3, -121.9), Variation: 14}
	p, err := hold.NewPattern(fix, 75, turn, hold.TimedInbound(time.Minute))
	if err != nil {
		t.Fatal(err)
	}
	f := hold.Flight{TAS: 118, Rate: hold.StandardRate, Wind: w}
	exact, err := p.Circuit(f)
	if err != nil {
		t.Fatal(err)
	}
	return Plan{
		Pattern: p, Flight: f, Altitude: 7000, Arrival: exact.InboundHeading, Before: 2 * time.Minute,
		Laps: []PlannedLap{
			{Heading: p.Outward(), Outbound: time.Minute},
			{Heading: p.Outward().Add(-3 * exact.InboundCorrection), Outbound: 50 * time.Second},
			{Heading: exact.OutboundHeading, Outbound: exact.Clock},
		},
		After: time.Minute, Step: time.Second, Seed: 1, HeadingNorth: abeam.Magnetic,
	}
}

func logOf(t testing.TB, p Plan) Log {
	t.Helper()
	log, err := p.Log()
	if err != nil {
		t.Fatal(err)
	}
	return log
}

// The corners and passages of simulated flights are found where they were flown.
func TestCutFindsTheCornersFlown(t *testing.T) {
	var worst, worstPassage float64
	n := 0
	for _, turn := range []hold.Turn{hold.Right, hold.Left} {
		for from := 0.0; from < 360; from += 45 {
			for _, step := range []time.Duration{time.Second / 5, time.Second, 2 * time.Second} {
				plan := testPlan(t, turn, wind.Wind{From: abeam.Bearing(from), Speed: 20})
				plan.Step = step
				plan.Noise = Noise{Heading: 0.5, Track: 0.5, Groundspeed: 0.5, Altitude: 10, IAS: 1}
				truth, err := plan.fly("test")
				if err != nil {
					t.Fatal(err)
				}
				got, err := Cut(logOf(t, plan), plan.Pattern)
				if err != nil {
					t.Fatal(err)
				}
				if len(got.Laps) != 3 || len(got.Passages) != 4 || got.Entry.Kind != entry.Direct || !got.ByHeading {
					t.Fatalf("%v turns, wind from %v, every %v: %d laps, %d passages, %v", turn, from, step, len(got.Laps), len(got.Passages), got.Entry)
				}
				for i, p := range got.Passages {
					worstPassage = math.Max(worstPassage, math.Abs(p.Time.Seconds()-truth.passages[i]))
				}
				for i, lap := range got.Laps {
					for k, phase := range []hold.Phase{hold.OutboundLeg, hold.InboundTurn, hold.InboundLeg} {
						d := math.Abs(lap.Legs[phase].From.Seconds() - truth.corners[i][k])
						if d > worst {
							worst = d
						}
						if d > 1+step.Seconds() {
							t.Errorf("%v turns, wind from %v, every %v, lap %d, %v: %v, flown %.1f", turn, from, step, i, phase, lap.Legs[phase].From, truth.corners[i][k])
						}
						n++
					}
				}
				if r := float64(got.Rate); math.Abs(r-3) > 0.1 {
					t.Errorf("rate %v", r)
				}
			}
		}
	}
	t.Logf("%d corners, worst %.2f s; passages worst %.3f s", n, worst, worstPassage)
	if worstPassage > 0.1 {
		t.Errorf("a passage is off by %.3f s", worstPassage)
	}
}

// A lap flown exactly is that of package hold: its figures come back out of the log.
func TestCutOfTheExactLap(t *testing.T) {
	plan := testPlan(t, hold.Right, wind.Wind{From: 131, Speed: 26})
	plan.Laps = plan.Laps[2:]
	exact, err := plan.Pattern.Circuit(plan.Flight)
	if err != nil {
		t.Fatal(err)
	}
	got, err := Cut(logOf(t, plan), plan.Pattern)
	if err != nil {
		t.Fatal(err)
	}
	lap := got.Laps[0]
	for _, c := range []struct {
		name      string
		got, want float64
		tol       float64
	}{
		{"inbound s", lap.Inbound.Seconds(), 60, 1},
		{"outbound s", lap.Outbound.Seconds(), exact.Clock.Seconds(), 1},
		{"lap s", lap.Span().Length().Seconds(), exact.Lap.Seconds(), 0.1},
		{"outbound heading", float64(lap.OutboundCourse), float64(exact.OutboundHeading), 0.1},
		{"inbound heading", float64(lap.InboundCourse), float64(exact.InboundHeading), 0.1},
		{"widest", float64(lap.Widest), float64(exact.Extent.Widest), 0.01},
		{"longest", float64(lap.Longest), float64(exact.Extent.Outbound), 0.01},
		{"astray", float64(lap.Astray), 0, 0.001},
	} {
		if math.Abs(c.got-c.want) > c.tol {
			t.Errorf("%s: %v, exact %v", c.name, c.got, c.want)
		}
	}
}

// Every entry is recognised as flown, from headings over its whole sector and in winds
// from all sides.
func TestEntryFlown(t *testing.T) {
	n := 0
	for _, turn := range []hold.Turn{hold.Right, hold.Left} {
		for from := 0.0; from < 360; from += 60 {
			for angle := -175.0; angle <= 180; angle += 15 {
				plan := testPlan(t, turn, wind.Wind{From: abeam.Bearing(from), Speed: 15})
				plan.Arrival = plan.Pattern.Inbound().Add(turn.Apply(abeam.Degrees(angle)))
				d, err := entry.FAA().Choose(plan.Pattern, plan.Arrival)
				if err != nil {
					t.Fatal(err)
				}
				plan.Entry = d.Entry
				pr, err := entry.Published(plan.Pattern, d.Entry, plan.Arrival, time.Minute)
				if err != nil {
					t.Fatal(err)
				}
				steer, err := wind.SolveHeading(pr.Heading, plan.Flight.TAS, plan.Flight.Wind)
				if err != nil {
					t.Fatal(err)
				}
				plan.EntryHeading, plan.EntryTime = steer.Heading, time.Minute
				log := logOf(t, plan)
				got, err := Cut(log, plan.Pattern)
				if err != nil {
					t.Fatalf("%v turns, wind from %v, angle %v, %v: %v", turn, from, angle, d.Entry, err)
				}
				if got.Entry.Kind != d.Entry || len(got.Laps) != 3 {
					t.Errorf("%v turns, wind from %v, angle %v: %v with %d laps, flown %v", turn, from, angle, got.Entry.Kind, len(got.Laps), d.Entry)
				}
				if off := got.Entry.Heading.Sub(plan.Arrival).Abs(); off > 3.01 {
					t.Errorf("heading at the fix %v, flown %v", got.Entry.Heading, plan.Arrival)
				}
				n++
			}
		}
	}
	t.Logf("%d entries", n)
}

// The hold comes back from the track alone.
func TestInferSimulated(t *testing.T) {
	n := 0
	for _, turn := range []hold.Turn{hold.Right, hold.Left} {
		for from := 0.0; from < 360; from += 45 {
			for _, laps := range []int{1, 3} {
				plan := testPlan(t, turn, wind.Wind{From: abeam.Bearing(from), Speed: 20})
				plan.Laps = slices.Repeat(plan.Laps[2:], laps)
				plan.Noise = Noise{Heading: 1, Track: 0.5, Groundspeed: 0.5}
				got, err := Infer(logOf(t, plan))
				if err != nil {
					t.Fatal(err)
				}
				fix := plan.Pattern.Fix()
				off := got.Pattern.Fix().Position.Distance(fix.Position).Radians() * 3440
				course := got.Pattern.Inbound().Sub(fix.Variation.True(plan.Pattern.Inbound())).Abs()
				if got.Pattern.Turn() != turn || off > 0.25 || course > 3 || got.Pattern.Leg() != plan.Pattern.Leg() && laps == 3 {
					t.Errorf("%v turns, wind from %v, %d laps: %+v is off by %.2f NM, %.1f degrees", turn, from, laps, got, off, float64(course))
				}
				n++
			}
		}
	}
	t.Logf("%d holds", n)
}

// The hold comes back whatever the entry.
func TestInferAfterEveryEntry(t *testing.T) {
	n := 0
	for _, turn := range []hold.Turn{hold.Right, hold.Left} {
		for from := 0.0; from < 360; from += 60 {
			for angle := -165.0; angle <= 180; angle += 15 {
				for laps := 1; laps <= 2; laps++ {
					plan := testPlan(t, turn, wind.Wind{From: abeam.Bearing(from), Speed: 15})
					plan.Laps = slices.Repeat(plan.Laps[2:], laps)
					plan.Arrival = plan.Pattern.Inbound().Add(turn.Apply(abeam.Degrees(angle)))
					d, err := entry.FAA().Choose(plan.Pattern, plan.Arrival)
					if err != nil {
						t.Fatal(err)
					}
					plan.Entry, plan.EntryTime, plan.EntryHeading = d.Entry, time.Minute, plan.Pattern.Outward()
					if d.Entry == entry.Teardrop {
						plan.EntryHeading = plan.EntryHeading.Add(-turn.Apply(30))
					}
					if laps == 1 && (d.Entry == entry.Direct || d.Entry == entry.Parallel) {
						continue // one inbound leg alone, for a parallel entry comes back at any angle, is no two
					}
					n++
					got, err := Infer(logOf(t, plan))
					if err != nil {
						t.Errorf("%v turns, wind from %v, %v at %v, %d laps: %v", turn, from, d.Entry, angle, laps, err)
						continue
					}
					fix := plan.Pattern.Fix()
					off := got.Pattern.Fix().Position.Distance(fix.Position).Radians() * 3440
					course := got.Pattern.Inbound().Sub(fix.Variation.True(plan.Pattern.Inbound())).Abs()
					// The leg after an entry at an angle is flown straight to the fix, off the course.
					if got.Pattern.Turn() != turn || off > 0.3 || course > 25 {
						t.Errorf("%v turns, wind from %v, %v at %v, %d laps: fix off by %.2f NM, course by %.1f, %v turns", turn, from, d.Entry, angle, laps, off, float64(course), got.Pattern.Turn())
					}
				}
			}
		}
	}
	t.Logf("%d holds", n)
}

// By tracks alone the corners are found nearly as well: in a wind the track turns faster
// on one side of the circle than on the other.
func TestCutByTracks(t *testing.T) {
	var worst float64
	n := 0
	for from := 0.0; from < 360; from += 45 {
		for _, positions := range []bool{false, true} {
			plan := testPlan(t, hold.Right, wind.Wind{From: abeam.Bearing(from), Speed: 20})
			truth, err := plan.fly("test")
			if err != nil {
				t.Fatal(err)
			}
			log := logOf(t, plan)
			for i := range log.Samples {
				log.Samples[i].Has &^= Quantities(Heading)
				if positions {
					log.Samples[i].Has &^= Quantities(Track | Groundspeed)
				}
			}
			got, err := Cut(log, plan.Pattern)
			if err != nil {
				t.Fatal(err)
			}
			if len(got.Laps) != 3 || got.ByHeading {
				t.Fatalf("%d laps", len(got.Laps))
			}
			for i, lap := range got.Laps {
				for k, phase := range []hold.Phase{hold.OutboundLeg, hold.InboundTurn, hold.InboundLeg} {
					d := math.Abs(lap.Legs[phase].From.Seconds() - truth.corners[i][k])
					worst = math.Max(worst, d)
					if d > 2 {
						t.Errorf("wind from %v, positions alone %v, lap %d, %v: %v, flown %.1f", from, positions, i, phase, lap.Legs[phase].From, truth.corners[i][k])
					}
					n++
				}
			}
		}
	}
	t.Logf("%d corners, worst %.2f s", n, worst)
}
