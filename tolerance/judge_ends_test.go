package tolerance

import (
	"testing"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/near"
)

// levelFlight is a log of a sample a second on the inbound course, at 5,000 ft and 100 kt,
// and a flight of it with one lap, an inbound leg between two times.
func levelFlight(t *testing.T, leg hold.Leg, samples int, from, to time.Duration) (Log, Flown) {
	t.Helper()
	p, err := hold.NewPattern(hold.Fix{Position: s2.LatLngFromDegrees(50, 8)}, 40, hold.Left, leg)
	if err != nil {
		t.Fatal(err)
	}
	var points []hold.Point
	for i := range samples {
		points = append(points, hold.Point{Along: abeam.NM(-3 + 0.03*float64(i))})
	}
	log := placed(t, p, points)
	for i := range log.Samples {
		s := &log.Samples[i]
		s.Altitude, s.IAS, s.Has = 5000, 100, s.Has|Quantities(Altitude|IAS)
	}
	lap := FlownLap{Legs: [4]Span{{from, from}, {from, from}, {from, from}, {from, to}}, Inbound: to - from, Established: hold.Point{Along: -3}}
	return log, Flown{Pattern: p, Passages: []Passage{{Time: from}, {Time: to}}, Laps: []FlownLap{lap}, Entry: FlownEntry{Kind: entry.Direct, Heading: 40}}
}

// From the first passage, whose sample counts, to the last, whose sample does not.
func TestJudgedBetweenThePassages(t *testing.T) {
	minute := hold.TimedInbound(time.Minute)
	for name, tc := range map[string]struct {
		from, to time.Duration
		judged   time.Duration
		lowest   float64
		highest  float64
	}{
		"in between":         {20 * time.Second, 100 * time.Second, 80 * time.Second, -30, 40},
		"a sample later":     {21 * time.Second, 101 * time.Second, 80 * time.Second, -20, 40},
		"past its end":       {90 * time.Second, 500 * time.Second, 30 * time.Second, -20, 40},
		"all after its end":  {200 * time.Second, 300 * time.Second, 0, 0, 0},
		"at its last sample": {120 * time.Second, 300 * time.Second, 0, 10, 10},
	} {
		log, f := levelFlight(t, minute, 121, tc.from, tc.to)
		for i := range log.Samples {
			log.Samples[i].Altitude += 10
		}
		log.Samples[19].Altitude, log.Samples[20].Altitude = 4900, 4970
		log.Samples[50].Altitude, log.Samples[99].Altitude, log.Samples[102].Altitude = 4980, 5040, 4980
		if tc.to < log.Samples[120].Time {
			log.Samples[101].Altitude = 5100
		}
		j, err := Judge(log, f, FAAInstrument(), Clearance{Pattern: f.Pattern, Altitude: 5000})
		if err != nil {
			t.Fatal(err)
		}
		r := j.Item(AltitudeItem)
		want := ItemResult{Item: AltitudeItem, Verdict: Within, Under: 100, Over: 100, Source: r.Source, Judged: tc.judged, Inside: tc.judged, Lowest: tc.lowest, Highest: tc.highest}
		if tc.from > log.Samples[120].Time {
			want.Verdict, want.Why = NotJudged, "there was nothing to measure"
		}
		if r != want {
			t.Errorf("%s: %+v, want %+v", name, r, want)
		}
	}
}

// What follows the last lap before the last passage is its inbound leg still.
func TestSamplesAfterTheLastLap(t *testing.T) {
	log, f := levelFlight(t, hold.TimedInbound(time.Minute), 121, 20*time.Second, 80*time.Second)
	f.Passages[1].Time = 100 * time.Second
	log.Samples[90].Altitude = 5200
	j, err := Judge(log, f, FAAInstrument(), Clearance{Pattern: f.Pattern, Altitude: 5000})
	if err != nil {
		t.Fatal(err)
	}
	want := Excursion{Item: AltitudeItem, Span: Span{90 * time.Second, 91 * time.Second}, Samples: 1, Worst: 200, At: 90 * time.Second, Limit: 100, Lap: 1, Phase: hold.InboundLeg}
	if len(j.Excursions) != 1 || j.Excursions[0] != want || j.Laps[0].Legs[hold.InboundLeg].Altitude.N != 80 {
		t.Errorf("%+v, %+v", j.Excursions, j.Laps)
	}
}

// Ten seconds without a sample are none too many, more are a gap: the sample before it
// stands for no time, and an excursion ends with it.
func TestGapOfTenSeconds(t *testing.T) {
	for later, want := range map[time.Duration]struct {
		judged     time.Duration
		excursions int
	}{0: {100 * time.Second, 1}, 1: {90 * time.Second, 2}} {
		log, f := levelFlight(t, hold.TimedInbound(time.Minute), 121, 0, 100*time.Second+later)
		log.Samples = append(log.Samples[:51], log.Samples[60:]...) // 50 s, 60 s
		for i := range log.Samples {
			s := &log.Samples[i]
			if s.Time > 50*time.Second {
				s.Time += later
			}
			if s.Time >= 48*time.Second && s.Time < 62*time.Second {
				s.Altitude = 5200
			}
		}
		j, err := Judge(log, f, FAAInstrument(), Clearance{Pattern: f.Pattern, Altitude: 5000})
		if r := j.Item(AltitudeItem); err != nil || r.Judged != want.judged || r.Excursions != want.excursions {
			t.Errorf("%v more than 10 s: %+v, %v", later, r, err)
		}
	}
}

// The heading counts from 3 s after the turn to 3 s before the next.
func TestHeadingsWithoutTheRolls(t *testing.T) {
	log, f := levelFlight(t, hold.TimedInbound(time.Minute), 121, 0, 100*time.Second)
	f.ByHeading = true
	lap := &f.Laps[0]
	lap.OutboundCourse = 220
	lap.Legs = [4]Span{{0, 10 * time.Second}, {10 * time.Second, 40 * time.Second}, {40 * time.Second, 50 * time.Second}, {50 * time.Second, 100 * time.Second}}
	for i := range log.Samples {
		s := &log.Samples[i]
		s.Heading, s.Has = 225, s.Has|Quantities(Heading)
		if i < 13 || i >= 37 {
			s.Heading = 250
		}
	}
	log.HeadingNorth = abeam.Magnetic
	log.Samples[13].Heading, log.Samples[36].Heading = 212, 229
	j, err := Judge(log, f, FAAInstrument(), Clearance{Pattern: f.Pattern})
	if err != nil {
		t.Fatal(err)
	}
	r, heard := j.Item(HeadingItem), j.Laps[0].Legs[hold.OutboundLeg].Heading
	if r.Verdict != Within || r.Judged != 24*time.Second || r.Lowest != -8 || r.Highest != 9 || heard.N != 24 || heard.Least != -8 || heard.Most != 9 {
		t.Errorf("%+v, %+v", r, heard)
	}
}

// What has no figure or no target says so, and of it nothing was measured but where the flight
// was across the course.
func TestItemsWithoutAFigureOrATarget(t *testing.T) {
	s := Standard{
		Authority: "own", Met: "in", NotMet: "out", Airspeed: either(abeam.Knots(10), "own"), LegTime: either(10*time.Second, "own"),
		LegLength: either(abeam.NM(0.5), "own"), Arrival: either(5*time.Second, "own"),
	}
	log, f := levelFlight(t, hold.LengthInbound(3), 121, 0, 100*time.Second)
	j, err := Judge(log, f, s, Clearance{Pattern: f.Pattern, Guidance: GPSTerminal()})
	if err != nil {
		t.Fatal(err)
	}
	for item, why := range map[Item]string{
		AirspeedItem: "the clearance gives no target", LegTimeItem: "the clearance gives no target", LegLengthItem: "the clearance gives no target",
		ArrivalItem: "the clearance gives no target", AltitudeItem: "the standard gives no figure", CourseItem: "the standard gives no figure",
		HoldingSideItem: "the standard gives no figure", HeadingItem: "the standard gives no figure",
	} {
		r := j.Item(item)
		measured := item == CourseItem || item == HoldingSideItem && near.Equal(r.Highest, 0, 1e-9) // across, of a flight on the course
		if r.Why != why || r.Verdict != NotJudged || r.Judged != 0 || (r.Lowest != 0 || r.Highest != 0) && !measured {
			t.Errorf("%v: %+v", item, r)
		}
	}
	if lap := j.Laps[0]; lap.Inbound != 100*time.Second || lap.OffTarget != 0 {
		t.Errorf("%+v", lap)
	}
	// No leg inbound was flown: there is no time of it, nor a length.
	f.Laps[0].Inbound = 0
	j, err = Judge(log, f, s, Clearance{Pattern: f.Pattern, LegLength: 3, Leave: 100 * time.Second})
	if r := j.Item(LegLengthItem); err != nil || r.Why != "there was nothing to measure" || r.Verdict != NotJudged {
		t.Errorf("%+v, %v", r, err)
	}
	if r := j.Item(ArrivalItem); r.Verdict != Within || r.Judged != 0 {
		t.Errorf("%+v", r)
	}
}

// Excursions stand in the order of time, whatever found them.
func TestExcursionsInOrder(t *testing.T) {
	log, f := levelFlight(t, hold.TimedInbound(time.Minute), 121, 10*time.Second, 110*time.Second)
	log.Samples[70].IAS, log.Samples[40].Altitude, log.Samples[10].Altitude = 80, 5200, 4800
	s := FAAInstrument()
	s.LegTime = either(10*time.Second, "own")
	j, err := Judge(log, f, s, Clearance{Pattern: f.Pattern, Altitude: 5000, IAS: 100})
	if err != nil {
		t.Fatal(err)
	}
	var got []Item
	for _, e := range j.Excursions {
		got = append(got, e.Item)
	}
	// The one of the leg, which begins with the other, was found after all.
	want := []Item{AltitudeItem, LegTimeItem, AltitudeItem, AirspeedItem}
	if len(got) != len(want) {
		t.Fatalf("%v", got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%v, want %v", got, want)
		}
	}
}
