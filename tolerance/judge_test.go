package tolerance

import (
	"errors"
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

// The entry alone passes nobody, and fails where it is wrong.
func TestOverallOfTheEntryAlone(t *testing.T) {
	plan := testPlan(t, hold.Right, wind.Wind{})
	s := FAAInstrument()
	s.Heading = Limit[abeam.Degrees]{}
	bare := func(c *Clearance) { *c = Clearance{Pattern: c.Pattern} }
	if j := judged(t, plan, s, bare); j.Overall != NotJudged || j.Standard.Words(j.Overall) != "not judged" || j.Item(EntryItem).Verdict != Within {
		t.Errorf("%v", j.Overall)
	}
	plan.Arrival, plan.Entry, plan.EntryHeading, plan.EntryTime = plan.Pattern.Inbound().Add(150), entry.Parallel, plan.Pattern.Outward(), time.Minute
	if j := judged(t, plan, s, bare); j.Overall != Beyond {
		t.Errorf("%v", j.Overall)
	}
}

// A heading off by 11 degrees for 5 s of an outbound leg, course and holding side on
// places put where they are.
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

// The entry is judged by the sector rule, with the flexible zone.
func TestEntryJudged(t *testing.T) {
	for _, c := range []struct {
		angle abeam.Degrees
		flown entry.Kind
		want  Verdict
	}{
		{150, entry.Teardrop, Within}, {20, entry.Direct, Within}, {-120, entry.Parallel, Within},
		{150, entry.Parallel, Beyond}, {-120, entry.Teardrop, Beyond}, {-177, entry.Teardrop, Within}, {177, entry.Parallel, Within},
	} {
		plan := testPlan(t, hold.Right, wind.Wind{})
		plan.Arrival = plan.Pattern.Inbound().Add(c.angle)
		plan.Entry, plan.EntryTime = c.flown, time.Minute
		plan.EntryHeading = plan.Pattern.Outward()
		if c.flown == entry.Teardrop {
			plan.EntryHeading = plan.EntryHeading.Add(-30)
		}
		j := judged(t, plan, FAAInstrument(), nil)
		if r := j.Item(EntryItem); r.Verdict != c.want {
			t.Errorf("%v at %v: %+v", c.flown, c.angle, r)
		}
	}
}

func TestJudgeErrors(t *testing.T) {
	plan := testPlan(t, hold.Right, wind.Wind{From: 200, Speed: 15})
	log := logOf(t, plan)
	f, err := Cut(log, plan.Pattern)
	if err != nil {
		t.Fatal(err)
	}
	good := Clearance{Pattern: plan.Pattern, Altitude: 7000, IAS: 105}
	for name, bad := range map[string]func(s *Standard, c *Clearance, f *Flown){
		"no standard":   func(s *Standard, _ *Clearance, _ *Flown) { *s = Standard{} },
		"no limit":      func(s *Standard, _ *Clearance, _ *Flown) { *s = Standard{Authority: "own", Met: "in", NotMet: "out"} },
		"NaN limit":     func(s *Standard, _ *Clearance, _ *Flown) { s.Altitude.Over = abeam.Feet(math.NaN()) },
		"less than 0":   func(s *Standard, _ *Clearance, _ *Flown) { s.Airspeed.Under = -1 },
		"no pattern":    func(_ *Standard, c *Clearance, _ *Flown) { c.Pattern = hold.Pattern{} },
		"NaN altitude":  func(_ *Standard, c *Clearance, _ *Flown) { c.Altitude = abeam.Feet(math.NaN()) },
		"two guidances": func(_ *Standard, c *Clearance, _ *Flown) { c.Guidance = Guidance{Angle: 10, Distance: 1} },
		"no guidance":   func(_ *Standard, c *Clearance, _ *Flown) { c.Guidance = Guidance{Name: "x"} },
		"negative time": func(_ *Standard, c *Clearance, _ *Flown) { c.Leave = -1 },
		"no passages":   func(_ *Standard, _ *Clearance, f *Flown) { f.Passages = nil },
		"other pattern": func(_ *Standard, _ *Clearance, f *Flown) { f.Pattern = hold.Pattern{} },
		"NaN course": func(_ *Standard, _ *Clearance, f *Flown) {
			f.Laps = []FlownLap{{InboundCourse: abeam.Bearing(math.NaN())}}
		},
		"endless course": func(s *Standard, _ *Clearance, _ *Flown) { s.Course.Degrees = abeam.Degrees(math.Inf(1)) },
		"backward legs":  func(_ *Standard, _ *Clearance, f *Flown) { f.Laps = []FlownLap{{Legs: [4]Span{{1, 0}}}} },
	} {
		s, c, flown := FAAInstrument(), good, f
		bad(&s, &c, &flown)
		if got, err := Judge(log, flown, s, c); !errors.Is(err, abeam.ErrInvalid) || got.Items != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A log put together by hand is held to what readers promise.
func TestLogsThatAreNone(t *testing.T) {
	plan := testPlan(t, hold.Right, wind.Wind{From: 200, Speed: 15})
	good := logOf(t, plan)
	f, err := Cut(good, plan.Pattern)
	if err != nil {
		t.Fatal(err)
	}
	for name, bad := range map[string]func(s []Sample){
		"NaN latitude":     func(s []Sample) { s[5].Lat = math.NaN() },
		"endless altitude": func(s []Sample) { s[5].Altitude = abeam.Feet(math.Inf(1)) },
		"NaN deviation":    func(s []Sample) { s[5].CDI = math.NaN() },
		"order":            func(s []Sample) { s[5], s[6] = s[6], s[5] },
		"equal times":      func(s []Sample) { s[5].Time = s[6].Time },
	} {
		log := good
		log.Samples = slices.Clone(good.Samples)
		bad(log.Samples)
		_, cut := Cut(log, plan.Pattern)
		_, judge := Judge(log, f, FAAInstrument(), Clearance{Pattern: plan.Pattern})
		_, inferred := Infer(log)
		_, estimate := EstimateWind(log, All(), 0)
		for op, err := range map[string]error{"Cut": cut, "Judge": judge, "Infer": inferred, "EstimateWind": estimate} {
			if !errors.Is(err, abeam.ErrInvalid) {
				t.Errorf("%s of %s: %v", op, name, err)
			}
		}
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
