package timing

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/wind"
)

// seen is a pilot after a lap of 60 s out and the given time in, 8 degrees of correction to the
// right held inbound.
func seen(tb testing.TB, turn hold.Turn, inbound time.Duration) Seen {
	return Seen{
		Pattern: pattern(tb, 0, turn, time.Minute), Flight: hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 180, Speed: 20}},
		Start: AtAbeam, Laps: 1, Correction: 8, Last: Plan{Outbound: time.Minute}, Inbound: inbound,
	}
}

// The rule values say what the reference sheet says of each rule, worked by hand from there.
func TestRulesSayWhatTheSheetSays(t *testing.T) {
	s := func(sec float64) time.Duration { return time.Duration(sec * 1e9) }
	for _, tc := range []struct {
		rule TimingRule
		in   time.Duration
		want Plan
	}{
		{LegTime(), s(90), Plan{Outbound: s(60)}},
		{ByFull(), s(50), Plan{Outbound: s(70)}},                       // CNATRA P-871: 60 out, 50 in
		{ByFull(), s(90), Plan{Outbound: s(30)}},                       // and 60 out, 90 in
		{ByFull(), s(130), Plan{}},                                     // later it may reach zero
		{ByFull(), -s(5), Plan{Outbound: s(120)}},                      // beyond the fix a clock reads nothing
		{ByHalf(), s(84), Plan{Outbound: s(48)}},                       // 60 out, 84 in
		{ByGain(0.25), s(84), Plan{Outbound: s(54)}},                   // a quarter of 24 s
		{InProportion(), s(90), Plan{Outbound: s(40)}},                 // 60 x 60/90
		{BySecondsPerKnot(), s(90), Plan{Outbound: s(80)}},             // 20 kt of headwind: 1:20
		{BySecondsPerKnotPerMinute(), s(90), Plan{Outbound: s(80)}},    // one minute
		{TwiceAbeam(), s(90), Plan{Abeams: 2}},                         //
		{AtLeast30(ByFull()), s(130), Plan{Outbound: s(30)}},           // the first correction
		{AtLeast30(ByFull()), s(50), Plan{Outbound: s(70)}},            // not in the way
		{FirstThen(LegTime(), ByFull()), s(90), Plan{Outbound: s(30)}}, // after the first lap
		{Lopsided(), s(84), Plan{Outbound: s(42)}},                     // three quarters of 24 s off
		{Lopsided(), s(48), Plan{Outbound: s(76)}},                     // 12 s and a third of it on
		{Tenths(), s(90), Plan{Outbound: s(100)}},                      // 20 of 120 kt is 1.667 tenths of 24 s
		{ByQuotient(), s(90), Plan{Outbound: s(36), Start: AtTurnComplete}},
	} {
		got := tc.rule.Next(seen(t, hold.Right, tc.in))
		if (got.Outbound-tc.want.Outbound).Abs() > 1 || got.Start != tc.want.Start || got.Abeams != tc.want.Abeams || got.Correction != 0 {
			t.Errorf("%s, %v in: %+v, want %+v", tc.rule.Name, tc.in, got, tc.want)
		}
		first := tc.rule.Next(Seen{Pattern: pattern(t, 0, hold.Right, time.Minute), Flight: hold.Flight{TAS: 120, Rate: 3}})
		if first.Abeams == 0 && first.Outbound != time.Minute {
			t.Errorf("%s: the first lap in calm is flown for %v", tc.rule.Name, first.Outbound)
		}
	}
	later := seen(t, hold.Right, s(130))
	later.Laps = 2
	if got := AtLeast30(ByFull()).Next(later); got.Outbound != 0 {
		t.Errorf("on the second correction %v", got.Outbound)
	}
	down := seen(t, hold.Right, s(90))
	down.Flight.Wind.From = 0 // tailwind outbound
	for name, want := range map[string]struct {
		rule TimingRule
		out  time.Duration
	}{"20 kt of tailwind: 0:40": {BySecondsPerKnot(), s(40)}, "half of it": {BySecondsPerKnotPerMinute(), s(50)}, "1.667 tenths of 20 s": {Tenths(), s(60 - 100./3)}} {
		if got := want.rule.Next(down).Outbound; (got - want.out).Abs() > time.Microsecond {
			t.Errorf("%s: %v, want %v", name, got, want.out)
		}
	}

	for _, tc := range []struct {
		rule DriftRule
		turn hold.Turn
		want Plan // of 8 degrees right inbound and 60 s
	}{
		{NoDrift(), hold.Right, Plan{}},
		{SingleDrift(), hold.Right, Plan{Correction: -8}},
		{DoubleDrift(), hold.Right, Plan{Correction: -16}},
		{ThreeTimes(), hold.Right, Plan{Correction: -24}},
		{ThreeTimes(), hold.Left, Plan{Correction: -24}},
		{Multiple(2.5), hold.Right, Plan{Correction: -20}},
		{TripleThenSingle(), hold.Right, Plan{Correction: -24, Then: -8, Change: time.Minute}},
		{BySide(), hold.Right, Plan{Correction: -24}}, // wind from the right, the holding side
		{BySide(), hold.Left, Plan{Correction: -16}},
		{ByTurns(), hold.Right, Plan{Correction: -24}},
		{ByOutbound(), hold.Right, Plan{Correction: -24}},
		{AtLeast20(SingleDrift(), 8), hold.Right, Plan{Correction: -20}},
		{AtLeast20(SingleDrift(), 9), hold.Right, Plan{Correction: -8}},
		{AtLeast20(ThreeTimes(), 8), hold.Right, Plan{Correction: -24}},
	} {
		got := tc.rule.Next(seen(t, tc.turn, s(60)), Plan{Outbound: s(60)})
		tc.want.Outbound = s(60)
		if got != tc.want {
			t.Errorf("%s, %v turns: %+v, want %+v", tc.rule.Name, tc.turn, got, tc.want)
		}
	}
	// 1 + turns/outbound: 2.33 for 1.5 minutes, 2 for 2, and no more than 60 degrees.
	for out, want := range map[float64]abeam.Degrees{90: -8 * 7. / 3, 120: -16, 10: -60, 0: -60} {
		if got := ByOutbound().Next(seen(t, hold.Right, s(60)), Plan{Outbound: s(out)}); math.Abs(float64(got.Correction-want)) > 1e-9 {
			t.Errorf("drift by time of %v s: %v, want %v", out, got.Correction, want)
		}
	}
}

// Every rule says what it is, whence and what it needs; names tell them apart.
func TestRulesSayWhatTheyAre(t *testing.T) {
	names := map[string]bool{}
	check := func(a About) {
		if a.Name == "" || a.Statement == "" || a.Source == "" || a.Applies == "" || a.Class == Unstated || names[a.Name] {
			t.Errorf("%+v", a)
		}
		names[a.Name] = true
		if a.Class == Practice && !strings.Contains(a.Source, "common practice") {
			t.Errorf("%s is common practice and its source says %q", a.Name, a.Source)
		}
	}
	for _, r := range append(TimingRules(), Lopsided(), Tenths(), ByQuotient(), ByGain(0.7), AtLeast30(ByHalf())) {
		check(r.About)
	}
	for _, r := range append(DriftRules(), ByOutbound(), Multiple(2.5), AtLeast20(SingleDrift(), 10)) {
		check(r.About)
	}
	strategies := map[string]bool{}
	for _, s := range Strategies() {
		if a := s.About; a.Name != s.Name || a.Statement == "" || a.Source == "" || a.Applies == "" || a.Class == Unstated {
			t.Errorf("%+v", a)
		}
		if strategies[s.Name] || s.Next == nil {
			t.Errorf("%q", s.Name)
		}
		strategies[s.Name] = true
	}
	if a := Exact().About; a.Needs != NeedsWind|NeedsComputer || a.Class != Derived {
		t.Errorf("%+v", a)
	}
	if a := Compose("", BySecondsPerKnot(), ThreeTimes()).About; a.Needs != NeedsWind|NeedsDrift || a.Class != Practice {
		t.Errorf("%+v", a)
	}
	for c := Unstated; c <= Memory+1; c++ {
		if (c.String() == "source not stated") != (c == Unstated || c > Memory) {
			t.Errorf("class %d: %v", c, c)
		}
	}
	if got := (NeedsInboundTime | NeedsWind).String(); got != "an inbound time, the wind" || Needs(0).String() != "nothing" {
		t.Error(got)
	}
}

// The laws behind the rule values reject what is out of range.
func TestLawErrors(t *testing.T) {
	const min, hour = time.Minute, time.Hour
	nan := math.NaN()
	for name, call := range map[string]func() (float64, error){
		"proportional, no inbound": func() (float64, error) { d, err := Proportional(min, 0, min); return float64(d), err },
		"proportional, negative":   func() (float64, error) { d, err := Proportional(-1, min, min); return float64(d), err },
		"knots, no target":         func() (float64, error) { d, err := SecondsPerKnot(0, 10); return float64(d), err },
		"knots, NaN":               func() (float64, error) { d, err := SecondsPerKnot(min, abeam.Knots(nan)); return float64(d), err },
		"knots, gale":              func() (float64, error) { d, err := SecondsPerKnotPerMinute(min, 401); return float64(d), err },
		"multiple, no outbound":    func() (float64, error) { return DriftMultiple(2*min, 0) },
		"multiple, turns":          func() (float64, error) { return DriftMultiple(hour+1, min) },
		"crab, NaN":                func() (float64, error) { d, err := CrabFromBearing(abeam.Bearing(nan), 0); return float64(d), err },
		"crab, course":             func() (float64, error) { d, err := CrabFromBearing(0, abeam.Bearing(nan)); return float64(d), err },
		"quotient, out":            func() (float64, error) { d, err := Quotient(hour+1, min, min, min); return float64(d), err },
		"quotient, turns":          func() (float64, error) { d, err := Quotient(min, min, min, 0); return float64(d), err },
	} {
		if got, err := call(); !errors.Is(err, abeam.ErrInvalid) || got != 0 {
			t.Errorf("%s: %v, %v", name, got, err)
		}
	}
	if d, err := Proportional(hour, 1, hour); d != hour || err != nil {
		t.Errorf("beyond an hour: %v, %v", d, err)
	}
	if d, err := SecondsPerKnot(min, -400); d != 0 || err != nil {
		t.Errorf("more tailwind than time: %v, %v", d, err)
	}
}

// The lap quotient finds, from any lap straight along the course, the outbound time that the
// exact circuit has.
func TestQuotientIsExactAlongTheCourse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		leg := rapid.SampledFrom([]time.Duration{time.Minute, 90 * time.Second, 2 * time.Minute}).Draw(t, "leg")
		rate := hold.Rate(rapid.SampledFrom([]float64{3, 2.2, 1.7}).Draw(t, "rate"))
		tas := draw.TAS().Draw(t, "TAS")
		p, err := hold.NewPattern(hold.Fix{}, 90, hold.Turn(rapid.IntRange(0, 1).Draw(t, "turn")), hold.TimedInbound(leg))
		if err != nil {
			t.Fatal(err)
		}
		f := hold.Flight{TAS: tas, Rate: rate, Wind: wind.Wind{From: abeam.Bearing(rapid.SampledFrom([]float64{90, 270}).Draw(t, "from")), Speed: tas * abeam.Knots(draw.Uniform(0, 0.3).Draw(t, "share"))}}
		exact, err := p.Circuit(f)
		if err != nil {
			t.Skip("no outbound leg")
		}
		out := time.Duration(draw.Uniform(30, 200).Draw(t, "outbound") * 1e9)
		laps, err := Trial{Pattern: p, Flight: f, Start: AtTurnComplete, Strategy: fixed(Plan{Outbound: out})}.AppendLaps(nil, 1)
		if err != nil {
			t.Fatal(err)
		}
		if laps[0].Inbound < 0 {
			t.Skip("rolled out beyond the fix")
		}
		got, err := Quotient(laps[0].Straight, laps[0].Inbound, leg, time.Duration(360/float64(rate)*1e9))
		if err != nil || (got-exact.Straight).Abs() > time.Microsecond {
			t.Fatalf("%v, exact %v, %v", got, exact.Straight, err)
		}
	})
}

// The sines of the corrections of the exact circuit are in the ratio that ByOutbound rests on.
func TestDriftByTimeIsTheExactRatio(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, f := drawHold(t, 0.5)
		c, err := p.Circuit(f)
		if err != nil || c.Straight < time.Second {
			t.Skip("next to no outbound leg")
		}
		turns := (c.OutboundTurn.Time + c.InboundTurn.Time).Seconds()
		m, err := DriftMultiple(c.OutboundTurn.Time+c.InboundTurn.Time, c.Straight)
		if err != nil || math.Abs(m-(turns+c.Straight.Seconds())/c.Straight.Seconds()) > 1e-9 {
			t.Fatal(m, err)
		}
		sin := func(d abeam.Degrees) float64 { return math.Sin(float64(d) * math.Pi / 180) }
		if got, want := sin(c.OutboundCorrection), -m*sin(c.InboundCorrection); math.Abs(got-want) > 1e-6*(1+m) {
			t.Fatalf("outbound %v, inbound %v, multiple %v: %v and %v", c.OutboundCorrection, c.InboundCorrection, m, got, want)
		}
	})
}

// What the documentation of the fitted rules promises, on the cells that the fits never saw and
// over the whole grid.
func TestFittedRulesKeepTheirPromises(t *testing.T) {
	ctx := context.Background()
	s := Study{Grid: LightGrid(30), Laps: 4, Start: AtWingsLevelOrAbeam, Intercept: StandardIntercept(), Seed: 1}
	loss := func(rule TimingRule, l Loss) float64 {
		score, err := s.Score(ctx, Compose("", rule, ThreeTimes()), l, 0.3, true)
		if err != nil || score.Cells < 900 {
			t.Fatal(score, err)
		}
		return score.Loss
	}
	lopsided := loss(Lopsided(), InboundLoss(2, 4))
	for _, c := range []struct {
		rule TimingRule
		most float64 // of its loss
	}{{ByHalf(), 0.26}, {ByFull(), 0.62}, {InProportion(), 0.55}} {
		if share := lopsided / loss(c.rule, InboundLoss(2, 4)); share > c.most {
			t.Errorf("lopsided leaves %.2f of the error of %s", share, c.rule.Name)
		}
	}
	if share := loss(Tenths(), InboundLoss(1, 1)) / loss(BySecondsPerKnot(), InboundLoss(1, 1)); share > 1./3 {
		t.Errorf("seconds per tenth leave %.2f of the error of a second a knot", share)
	}
	// The fit itself: its numbers round to the rule's, and beat them by little.
	fit, err := s.Fit(ctx, LopsidedFamily(ThreeTimes()), InboundLoss(2, 4), 0.3)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(fit.Parameters[0]-lopsidedLong) > 0.05 || math.Abs(fit.Parameters[1]-lopsidedShort) > 0.1 || fit.HeldOut.Loss < 0.9*lopsided {
		t.Errorf("%+v, the rule leaves %v", fit, lopsided)
	}
	s.Strategies = []Strategy{Compose("", Lopsided(), ThreeTimes())}
	r, err := s.Run(ctx)
	if err != nil {
		t.Fatal(err)
	}
	for lap, bound := range map[int][2]float64{2: {2, 12}, 3: {0.5, 6}} {
		l := r.Outcomes[0].Laps[lap-1].Inbound
		if l.AbsQuantile(0.5) >= bound[0] || l.AbsQuantile(0.95) >= bound[1] {
			t.Errorf("lap %d: median %v, 95 %% %v, promised %v", lap, l.AbsQuantile(0.5), l.AbsQuantile(0.95), bound)
		}
	}
}

// Where the wind leaves no outbound leg, the exact strategy flies the shortest inbound leg.
func TestExactWithoutOutboundLeg(t *testing.T) {
	p := pattern(t, 90, hold.Right, time.Minute)
	f := hold.Flight{TAS: 100, Rate: 3, Wind: wind.Wind{From: 80, Speed: 50}}
	shortest, err := p.ShortestInbound(f)
	if err != nil || shortest <= time.Minute {
		t.Fatal(shortest, err)
	}
	laps, err := Trial{Pattern: p, Flight: f, Strategy: Exact(), Start: AtAbeam}.AppendLaps(nil, 3)
	if err != nil {
		t.Fatal(err)
	}
	for i, l := range laps {
		if (l.Inbound-shortest).Abs() > time.Microsecond || math.Abs(float64(l.RollOut.Abreast)) > 1e-6 {
			t.Errorf("lap %d: %v, shortest %v", i+1, l.Inbound, shortest)
		}
	}
	// A wind as it is known that stops the aeroplane: the leg's time, no error.
	gale := Seen{Pattern: p, Flight: hold.Flight{TAS: 100, Rate: 3, Wind: wind.Wind{From: 80, Speed: 120}}}
	if got := Exact().Next(gale); got.Outbound != time.Minute || got.Correction != 0 {
		t.Errorf("%+v", got)
	}
}

// A pilot who knows nothing of the wind flies exactly all the same once the laps have told it,
// in a steady wind of up to a fifth of the airspeed.
func TestMeasuredFindsTheWind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, f := drawHold(t, 0.2)
		calm := Measured()
		calm.Next = func(s Seen) Plan {
			s.Flight.Wind = wind.Wind{}
			return Measured().Next(s)
		}
		laps, err := Trial{Pattern: p, Flight: f, Start: AtAbeam, Strategy: calm, Intercept: StandardIntercept()}.AppendLaps(nil, 20)
		if err != nil {
			t.Fatal(err)
		}
		// What is left across the course is below the smallest cut: two turns by 1.875 degrees.
		radius, err := hold.Radius(f.TAS, f.Rate)
		if err != nil {
			t.Fatal(err)
		}
		if last := laps[19]; last.Error.Abs() > 10*time.Millisecond || math.Abs(float64(last.RollOut.Abreast)) > 1.5e-3*float64(radius) {
			t.Fatalf("after 20 laps %v and %v, first %v and %v", last.Error, last.RollOut.Abreast, laps[0].Error, laps[0].RollOut.Abreast)
		}
	})
	// A lap that no wind explains is flown again.
	s := seen(t, hold.Right, time.Minute)
	s.Correction, s.Last = 44, Plan{Outbound: time.Second, Correction: 5, Start: AtTurnComplete}
	if got := Measured().Next(s); got != s.Last {
		t.Errorf("%+v", got)
	}
}
