package tolerance

import (
	"math"
	"testing"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// placed is a log of one lap flown from place to place, one second each, so that
// deviations are known without any flight mechanics.
func placed(t *testing.T, p hold.Pattern, points []hold.Point) Log {
	t.Helper()
	log := Log{TrackNorth: abeam.True}
	for i, at := range points {
		pos, err := p.Place(at)
		if err != nil {
			t.Fatal(err)
		}
		log.Samples = append(log.Samples, Sample{
			Time: time.Duration(i) * time.Second, Lat: pos.Lat.Degrees(), Lon: pos.Lng.Degrees(), Has: Quantities(Time | Latitude | Longitude),
		})
	}
	return log
}

func TestCourseAndHoldingSideToTheSample(t *testing.T) {
	fix := hold.Fix{Position: s2.LatLngFromDegrees(50, 8)}
	p, err := hold.NewPattern(fix, 40, hold.Left, hold.TimedInbound(time.Minute))
	if err != nil {
		t.Fatal(err)
	}
	// Inbound for 100 s at 0.03 NM/s from 3 NM out: at x = -3 + 0.03 i.
	var points []hold.Point
	for i := range 101 {
		x := -3 + 0.03*float64(i)
		y := 0.0
		switch {
		case i >= 20 && i < 30:
			y = 0.76 // of 1 NM full scale: beyond three quarters
		case i >= 30 && i < 40:
			y = 0.74
		case i >= 50 && i < 57:
			y = -0.8
		}
		points = append(points, hold.Point{Along: abeam.NM(x), Abreast: abeam.NM(y)})
	}
	log := placed(t, p, points)
	lap := FlownLap{Legs: [4]Span{{0, 0}, {0, 0}, {0, 0}, {0, 100 * time.Second}}, Inbound: 100 * time.Second,
		Established: hold.Point{Along: -3}}
	f := Flown{Pattern: p, Passages: []Passage{{}, {Time: 100 * time.Second}}, Laps: []FlownLap{lap}, Entry: FlownEntry{Kind: entry.Direct, Heading: 40}}
	s := FAAInstrument()
	s.Authority = "own"
	s.HoldingSide = Limit[abeam.NM]{Over: 0.5, Source: "own"}
	s.LegTime = either(10*time.Second, "own")
	s.LegLength = either(abeam.NM(0.5), "own")
	s.Arrival = either(5*time.Second, "own")
	j, err := Judge(log, f, s, Clearance{Pattern: p, Guidance: GPSTerminal(), LegLength: 2.4, Leave: 94 * time.Second})
	if err != nil {
		t.Fatal(err)
	}
	want := []Excursion{
		{Item: CourseItem, Span: Span{20 * time.Second, 30 * time.Second}, Samples: 10, Worst: 0.76, Limit: 0.75},
		{Item: CourseItem, Span: Span{50 * time.Second, 57 * time.Second}, Samples: 7, Worst: -0.8, Limit: -0.75},
		{Item: HoldingSideItem, Span: Span{50 * time.Second, 57 * time.Second}, Samples: 7, Worst: 0.8, Limit: 0.5},
		{Item: LegTimeItem, Span: Span{0, 100 * time.Second}, Samples: 1, Worst: 40, Limit: 10},
		{Item: LegLengthItem, Span: Span{0, 100 * time.Second}, Samples: 1, Worst: 0.6, Limit: 0.5},
		{Item: ArrivalItem, Span: Span{94 * time.Second, 100 * time.Second}, Samples: 1, Worst: 6, Limit: 5},
	}
	for _, w := range want {
		found := false
		for _, e := range j.Excursions {
			found = found || e.Item == w.Item && e.Span == w.Span && e.Samples == w.Samples && math.Abs(e.Worst-w.Worst) < 1e-4 && e.Limit == w.Limit && e.Lap == 1 && e.Phase == hold.InboundLeg
		}
		if !found {
			t.Errorf("missing %+v", w)
		}
	}
	if len(j.Excursions) != len(want) {
		t.Errorf("%+v", j.Excursions)
	}
	if r := j.Item(CourseItem); r.Judged != 100*time.Second || r.Inside != 83*time.Second || r.Share() != 0.83 {
		t.Errorf("%+v", r)
	}
	if s := j.Laps[0].Legs[hold.InboundLeg]; s.Course.N != 100 || math.Abs(s.Course.Least+0.8) > 1e-4 || math.Abs(s.Course.Most-0.76) > 1e-4 || s.Inside != 83*time.Second {
		t.Errorf("%+v", s)
	}
}

// The deviation in the log goes before the guidance, and changes side for left turns.
func TestLoggedDeviationGoverns(t *testing.T) {
	plan := testPlan(t, hold.Left, wind.Wind{From: 200, Speed: 15})
	log := logOf(t, plan)
	f, err := Cut(log, plan.Pattern)
	if err != nil {
		t.Fatal(err)
	}
	in := f.Laps[2].Legs[hold.InboundLeg]
	n := 0
	for i := range log.Samples {
		s := &log.Samples[i]
		s.Has |= Quantities(CDI)
		if s.Time >= in.From+5*time.Second && s.Time < in.From+9*time.Second {
			s.CDI = 0.8 // right of course, which is the non-holding side of a left-hand hold
			n++
		}
	}
	j, err := Judge(log, f, FAAInstrument(), Clearance{Pattern: plan.Pattern})
	if err != nil {
		t.Fatal(err)
	}
	got := of(j, CourseItem)
	if len(got) != 1 || got[0].Worst != -0.8 || got[0].Samples != n || got[0].Lap != 3 {
		t.Errorf("%+v", got)
	}
}
