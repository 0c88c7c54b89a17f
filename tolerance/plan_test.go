package tolerance

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// The most laps are accepted, one more is not.
func TestMostLaps(t *testing.T) {
	plan := testPlan(t, hold.Right, wind.Wind{})
	plan.Laps = make([]PlannedLap, maxLaps+1)
	var e *abeam.FieldError
	if err := plan.validate("op"); !errors.As(err, &e) || e.Field != "laps" || e.Value != maxLaps+1 {
		t.Error(err)
	}
	plan.Laps = plan.Laps[1:]
	if err := plan.validate("op"); err != nil {
		t.Error(err)
	}
}

// Square to the course no fix comes abeam, and a fix that the turn goes round is not found.
func TestPlansThatFindNoFix(t *testing.T) {
	calm := testPlan(t, hold.Right, wind.Wind{})
	calm.Arrival = calm.Pattern.Inbound()
	for name, tc := range map[string]struct {
		change func(p *Plan)
		field  string
	}{
		"square": {func(p *Plan) { p.Laps = []PlannedLap{{Heading: p.Pattern.Inbound().Add(90)}} }, "outbound heading"},
		"nearly": {func(p *Plan) { p.Laps = []PlannedLap{{Heading: p.Pattern.Inbound().Add(90.001)}} }, ""},
		// Three quarters of the circle, then 10 s across it: the fix is inside the next one.
		"inside": {func(p *Plan) {
			p.Laps = []PlannedLap{{Heading: p.Pattern.Inbound().Add(270), Outbound: 10 * time.Second}}
		}, "turn to the fix"},
	} {
		p := calm
		tc.change(&p)
		_, err := p.fly("op")
		var e *abeam.FieldError
		if tc.field == "" {
			if err != nil {
				t.Errorf("%s: %v", name, err)
			}
		} else if !errors.As(err, &e) || !errors.Is(err, abeam.ErrUnflyable) || e.Field != tc.field {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A lap in calm air by hand: half a circle at 3 deg/s takes 60 s. The fix is abeam as the
// wings are level, the clock runs for 60 s, and the way back takes as long.
func TestPlanInCalmAir(t *testing.T) {
	for _, turn := range []hold.Turn{hold.Right, hold.Left} {
		p := testPlan(t, turn, wind.Wind{})
		p.Arrival, p.Laps = p.Pattern.Inbound(), []PlannedLap{{Heading: p.Pattern.Outward(), Outbound: time.Minute}}
		f, err := p.fly("op")
		if err != nil {
			t.Fatal(err)
		}
		for i, want := range []float64{120, 360} {
			if len(f.passages) != 2 || math.Abs(f.passages[i]-want) > 1e-6 {
				t.Errorf("%v turns: passages %v", turn, f.passages)
			}
		}
		for i, want := range []float64{180, 240, 300} {
			if len(f.corners) != 1 || math.Abs(f.corners[0][i]-want) > 1e-6 {
				t.Errorf("%v turns: corners %v", turn, f.corners)
			}
		}
		if math.Abs(f.now-420) > 1e-6 {
			t.Errorf("%v turns: %v s in all", turn, f.now)
		}
	}
}

// An entry that is not direct adds a passage, and turns the short way to its heading: from a
// track 150 degrees to the holding side of the inbound course 60 to the left for a teardrop
// of 30 degrees, 30 to the right for a parallel one, each at 3 deg/s, and a minute after that.
func TestPlannedEntries(t *testing.T) {
	for _, turn := range []hold.Turn{hold.Right, hold.Left} {
		for kind, tc := range map[entry.Kind]struct{ arrival, heading abeam.Degrees }{
			entry.Teardrop: {-150, 150}, entry.Parallel: {150, 180},
		} {
			p := testPlan(t, turn, wind.Wind{})
			p.Laps, p.EntryTime = p.Laps[:1], time.Minute
			p.Arrival = p.Pattern.Inbound().Add(turn.Apply(tc.arrival))
			p.Entry, p.EntryHeading = kind, p.Pattern.Inbound().Add(turn.Apply(tc.heading))
			f, err := p.fly("op")
			if err != nil {
				t.Fatal(err)
			}
			// Pieces: to the fix, the turn, the leg out, the turn back.
			through := math.Abs(float64(abeam.NewDegrees(float64(tc.heading-tc.arrival)))) / 3
			out, back := f.pieces[2], f.pieces[3]
			if len(f.passages) != 3 || math.Abs(out.start-120-through) > 1e-6 || math.Abs(back.start-180-through) > 1e-6 {
				t.Errorf("%v, %v turns: passages %v, out at %v, back at %v", kind, turn, f.passages, out.start, back.start)
			}
			if against := back.Rate < 0; against != (kind == entry.Parallel) {
				t.Errorf("%v, %v turns: back at %v", kind, turn, back.Rate)
			}
		}
	}
}

// Back square to the course: in calm air at 3 deg/s a minute's flight is pi radii, so that a
// teardrop of 60 degrees for two radii, 38.2 s, rolls out abeam the fix after 210 degrees, 70 s.
func TestPlanBackSquareToTheCourse(t *testing.T) {
	p := testPlan(t, hold.Right, wind.Wind{})
	p.Arrival, p.Laps = p.Pattern.Inbound(), nil
	p.Entry, p.EntryHeading = entry.Teardrop, p.Pattern.Inbound().Add(60)
	for ms := -200; ms <= 200; ms += 25 {
		p.EntryTime = time.Duration(2*60/math.Pi*1000+float64(ms)) * time.Millisecond
		f, err := p.fly("op")
		if err != nil {
			t.Fatal(err)
		}
		if back := f.pieces[3].Duration; math.Abs(back-70) > 0.2 {
			t.Errorf("%v out: back in %v s", p.EntryTime, back)
		}
	}
}
