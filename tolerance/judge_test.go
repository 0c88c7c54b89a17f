package tolerance

import (
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

func judged(t testing.TB, plan Plan, s Standard, change func(*Clearance)) Judgement {
	t.Helper()
	log := logOf(t, plan)
	f, err := Cut(log, plan.Pattern)
	if err != nil {
		t.Fatal(err)
	}
	c := Clearance{Pattern: plan.Pattern, Altitude: plan.Altitude, IAS: log.Samples[0].IAS}
	if change != nil {
		change(&c)
	}
	j, err := Judge(log, f, s, c)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func of(j Judgement, item Item) (out []Excursion) {
	for _, e := range j.Excursions {
		if e.Item == item {
			out = append(out, e)
		}
	}
	return out
}

// Excursions put into a log come out of the judgement to the sample: when they begin and
// end, how many samples, how far and when at the worst.
func TestExcursionsToTheSample(t *testing.T) {
	type slip struct {
		q        Quantity
		from, to int // seconds
		by       float64
		beyond   bool // of the FAA's instrument rating
	}
	slips := []slip{
		{Altitude, 150, 165, 101, true}, {Altitude, 200, 230, 100, false}, {Altitude, 260, 261, -100.5, true},
		{Altitude, 300, 340, -140, true}, {Altitude, 340, 350, 140, true}, // from under to over without a pause
		{IAS, 180, 190, 10, false}, {IAS, 400, 440, 10.01, true}, {IAS, 500, 503, -12, true},
	}
	for _, step := range []time.Duration{100 * time.Millisecond, time.Second} {
		plan := testPlan(t, hold.Right, wind.Wind{From: 200, Speed: 15})
		plan.Step = step
		for _, s := range slips {
			plan.Slips = append(plan.Slips, Slip{s.q, time.Duration(s.from) * time.Second, time.Duration(s.to-s.from) * time.Second, s.by})
		}
		j := judged(t, plan, FAAInstrument(), nil)
		got := map[Quantity][]Excursion{Altitude: of(j, AltitudeItem), IAS: of(j, AirspeedItem)}
		outside := map[Quantity]time.Duration{}
		for _, s := range slips {
			if !s.beyond {
				continue
			}
			if len(got[s.q]) == 0 {
				t.Fatalf("%v at %d s is not found", s.q, s.from)
			}
			e := got[s.q][0]
			got[s.q] = got[s.q][1:]
			from, to := time.Duration(s.from)*time.Second, time.Duration(s.to)*time.Second
			limit := math.Copysign(map[Quantity]float64{Altitude: 100, IAS: 10}[s.q], s.by)
			if e.Span != (Span{from, to}) || e.Samples != int((to-from)/step) || math.Abs(e.Worst-s.by) > 1e-9 || e.At != from || e.Limit != limit {
				t.Errorf("every %v, %v at %d to %d s by %v: %+v", step, s.q, s.from, s.to, s.by, e)
			}
			outside[s.q] += to - from
		}
		if n := len(got[Altitude]) + len(got[IAS]); n > 0 {
			t.Errorf("every %v: %d excursions that were not flown: %+v", step, n, got)
		}
		for q, item := range map[Quantity]Item{Altitude: AltitudeItem, IAS: AirspeedItem} {
			r := j.Item(item)
			if r.Verdict != Beyond || r.Judged-r.Inside != outside[q] {
				t.Errorf("every %v: %+v, outside %v", step, r, outside[q])
			}
			// Samples from the first passage of the fix (120 s) to the last stand for the time.
			if r.Judged < 10*time.Minute || r.Share() != float64(r.Inside)/float64(r.Judged) {
				t.Errorf("judged %v, share %v", r.Judged, r.Share())
			}
		}
		if j.Overall != Beyond || j.Standard.Words(j.Overall) != "unsatisfactory" {
			t.Errorf("overall %v", j.Overall)
		}
	}
}

// The limit itself is within, its neighbour is not, on both sides.
func TestLimitsAreInclusive(t *testing.T) {
	var x tally
	x.under, x.over = 5, 10
	for _, c := range []struct {
		deviation float64
		beyond    bool
	}{
		{10, false}, {math.Nextafter(10, 11), true}, {-5, false}, {math.Nextafter(-5, -6), true}, {0, false}, {math.NaN(), true},
	} {
		if _, got := x.beyond(c.deviation); got != c.beyond {
			t.Errorf("%v: %v", c.deviation, got)
		}
	}
}

// A flight within everything is within, and says what could not be judged and why.
func TestWithinAndNotJudged(t *testing.T) {
	plan := testPlan(t, hold.Left, wind.Wind{From: 200, Speed: 15})
	plan.Laps = plan.Laps[2:]
	j := judged(t, plan, FAAInstrument(), func(c *Clearance) { c.Guidance = GPSTerminal() })
	for item, want := range map[Item]string{
		AirspeedItem: "", AltitudeItem: "", HeadingItem: "", CourseItem: "", EntryItem: "",
		LegTimeItem: "the standard gives no figure", ArrivalItem: "the standard gives no figure", HoldingSideItem: "the standard gives no figure",
		LegLengthItem: "the standard gives no figure",
	} {
		r := j.Item(item)
		if r.Why != want || (want == "") != (r.Verdict == Within) || want == "" && r.Share() != 1 {
			t.Errorf("%v: %+v", item, r)
		}
	}
	if j.Overall != Within || j.Standard.Words(j.Overall) != "satisfactory" || len(j.Excursions) != 0 {
		t.Errorf("%v, %v", j.Overall, j.Excursions)
	}
	j = judged(t, plan, EUInstrument(), func(c *Clearance) { *c = Clearance{Pattern: c.Pattern} })
	for item, want := range map[Item]string{
		AirspeedItem: "the clearance gives no target", AltitudeItem: "the clearance gives no target", CourseItem: "the clearance gives no target",
	} {
		if r := j.Item(item); r.Why != want && !(item == CourseItem && r.Why != "") || r.Verdict != NotJudged {
			t.Errorf("%v: %+v", item, r)
		}
	}
}

// A heading off by 14 degrees for 5 s of an outbound leg is found there, and nowhere else.
func TestHeadingExcursion(t *testing.T) {
	plan := testPlan(t, hold.Right, wind.Wind{From: 200, Speed: 15})
	truth, err := plan.fly("test")
	if err != nil {
		t.Fatal(err)
	}
	mid := time.Duration(math.Round((truth.corners[1][0]+truth.corners[1][1])/2)) * time.Second
	plan.Slips = []Slip{{Heading, mid, 5 * time.Second, 14}}
	j := judged(t, plan, FAAInstrument(), nil)
	got := of(j, HeadingItem)
	// The slip moves the leg's mean by some of itself: 14 x 5 s over the leg.
	if len(got) != 1 || got[0].Span.From != mid || got[0].Span.Length() != 5*time.Second || got[0].Samples != 5 || got[0].Lap != 2 || got[0].Phase != hold.OutboundLeg {
		t.Fatalf("%+v", got)
	}
	if got[0].Worst < 12 || got[0].Worst > 14 || got[0].Limit != 10 {
		t.Errorf("%+v", got[0])
	}
}

// A gap ends an excursion and counts for nothing.
func TestGapEndsAnExcursion(t *testing.T) {
	plan := testPlan(t, hold.Right, wind.Wind{From: 200, Speed: 15})
	plan.Slips = []Slip{{Altitude, 200 * time.Second, 100 * time.Second, 200}}
	log := logOf(t, plan)
	kept := log.Samples[:0]
	for _, s := range log.Samples {
		if s.Time < 220*time.Second || s.Time >= 260*time.Second {
			kept = append(kept, s)
		}
	}
	log.Samples = kept
	f, err := Cut(log, plan.Pattern)
	if err != nil {
		t.Fatal(err)
	}
	j, err := Judge(log, f, FAAInstrument(), Clearance{Pattern: plan.Pattern, Altitude: plan.Altitude})
	if err != nil {
		t.Fatal(err)
	}
	got := of(j, AltitudeItem)
	if len(got) != 2 || got[0].Span != (Span{200 * time.Second, 219 * time.Second}) || got[0].Samples != 20 || got[1].Span != (Span{260 * time.Second, 300 * time.Second}) {
		t.Errorf("%+v", got)
	}
}

// Judging allocates nothing a sample.
func TestJudgingAllocatesNothing(t *testing.T) {
	plan := testPlan(t, hold.Right, wind.Wind{From: 200, Speed: 15})
	plan.Slips = []Slip{{Altitude, 200 * time.Second, 10 * time.Second, 300}}
	log := logOf(t, plan)
	f, err := Cut(log, plan.Pattern)
	if err != nil {
		t.Fatal(err)
	}
	s, c := FAAInstrument(), Clearance{Pattern: plan.Pattern, Altitude: 7000, IAS: 105, Guidance: GPSTerminal()}
	j := newJudge(&log, &f, &s, &c)
	j.excursions = make([]Excursion, 0, 1000)
	if n := testing.AllocsPerRun(10, func() {
		j.lap, j.excursions = -1, j.excursions[:0]
		for i := j.first; i < j.last; i++ {
			j.sample(i)
		}
	}); n != 0 {
		t.Errorf("%v allocations in %d samples", n, j.last-j.first)
	}
}
