package timing

import (
	"context"
	"errors"
	"math"
	"reflect"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"gonum.org/v1/gonum/stat"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/wind"
)

func smallGrid() Grid {
	g := LightGrid(30)
	g.Cases, g.Shares = g.Cases[:3], g.Shares[2:9:9]
	return g
}

func study(strategies ...Strategy) Study {
	return Study{Grid: smallGrid(), Strategies: strategies, Laps: 4, Start: AtWingsLevelOrAbeam, Intercept: StandardIntercept(), Seed: 7}
}

// broken strategies: each fails on the third lap, in its own way.
func broken() map[string]struct {
	next func(Seen) Plan
	says string
} {
	good := Compose("", ByHalf(), ThreeTimes()).Next
	after := func(bad func(p *Plan)) func(Seen) Plan {
		return func(s Seen) Plan {
			p := good(s)
			if s.Laps == 2 {
				bad(&p)
			}
			return p
		}
	}
	return map[string]struct {
		next func(Seen) Plan
		says string
	}{
		"NaN":        {after(func(p *Plan) { p.Correction = abeam.Degrees(math.NaN()) }), "not finite"},
		"NaN then":   {after(func(p *Plan) { p.Then = abeam.Degrees(math.NaN()) }), "not finite"},
		"infinite":   {after(func(p *Plan) { p.Correction = abeam.Degrees(math.Inf(-1)) }), "not finite"},
		"negative":   {after(func(p *Plan) { p.Outbound = -1 }), "negative time"},
		"negative 2": {after(func(p *Plan) { p.Change = -1 }), "negative time"},
		"too long":   {after(func(p *Plan) { p.Outbound = hold.MaxLeg + 1 }), "above 1h"},
		"start":      {after(func(p *Plan) { p.Start = 9 }), "start of the clock"},
		"abeams":     {after(func(p *Plan) { p.Abeams = math.NaN() }), "multiple of the time abeam"},
		"panics":     {after(func(*Plan) { panic("my own bug") }), "it panicked: my own bug"},
		"index":      {after(func(p *Plan) { p.Outbound = make([]time.Duration, 3)[int(p.Outbound)] }), "index out of range"},
	}
}

// A strategy that fails is reported by name, with the lap and what it was told; the laps flown
// before are kept, and the others are measured all the same.
func TestBrokenStrategies(t *testing.T) {
	for name, tc := range broken() {
		s := Strategy{Name: name, Next: tc.next}
		trial := Trial{
			Pattern: pattern(t, 75, hold.Left, time.Minute), Flight: hold.Flight{TAS: 110, Rate: 3, Wind: wind.Wind{From: 120, Speed: 15}},
			Strategy: s, Start: AtAbeam,
		}
		laps, err := trial.AppendLaps(nil, 5)
		var failed *StrategyError
		if !errors.As(err, &failed) || !errors.Is(err, abeam.ErrInvalid) {
			t.Fatalf("%s: %v", name, err)
		}
		if len(laps) != 2 || failed.Strategy != name || failed.Lap != 3 || failed.Seen.Laps != 2 || failed.Seen.Inbound != laps[1].Inbound {
			t.Errorf("%s: %d laps, %+v", name, len(laps), failed)
		}
		for _, says := range []string{name, "lap 3", tc.says, "110 kt", "120°", "15 kt", "075°"} {
			if !strings.Contains(err.Error(), says) {
				t.Errorf("%s: %q does not say %q", name, err, says)
			}
		}
		good := Compose("good", ByFull(), ThreeTimes())
		alone, err := study(good).Run(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		both, err := study(s, good).Run(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		bad := both.Outcomes[0]
		if bad.Failed != bad.Trials || bad.Failed == 0 || !errors.As(bad.Failure, &failed) || bad.Laps[1].Inbound.N() != bad.Trials || bad.Laps[2].Inbound.N() != 0 {
			t.Errorf("%s: %d of %d failed, %v", name, bad.Failed, bad.Trials, bad.Failure)
		}
		if !reflect.DeepEqual(both.Outcomes[1], alone.Outcomes[0]) {
			t.Errorf("%s changed the results of the others", name)
		}
	}
}

func TestTrialErrors(t *testing.T) {
	good := Trial{Pattern: pattern(t, 75, hold.Right, time.Minute), Flight: hold.Flight{TAS: 110, Rate: 3}, Strategy: Exact(), Start: AtAbeam}
	for name, tc := range map[string]struct {
		change func(*Trial)
		n      int
		kind   error
	}{
		"no laps":     {func(*Trial) {}, 0, abeam.ErrInvalid},
		"many laps":   {func(*Trial) {}, MaxLaps + 1, abeam.ErrInvalid},
		"no pattern":  {func(t *Trial) { t.Pattern = hold.Pattern{} }, 1, abeam.ErrInvalid},
		"other leg":   {func(t *Trial) { t.Pattern, _ = t.Pattern.WithLeg(hold.LengthOutbound(5)) }, 1, abeam.ErrInvalid},
		"no flight":   {func(t *Trial) { t.Flight = hold.Flight{} }, 1, abeam.ErrInvalid},
		"no start":    {func(t *Trial) { t.Start = 0 }, 1, abeam.ErrInvalid},
		"no strategy": {func(t *Trial) { t.Strategy = Strategy{} }, 1, abeam.ErrInvalid},
		"half a rule": {func(t *Trial) { t.Strategy = Compose("", TimingRule{}, ThreeTimes()) }, 1, abeam.ErrInvalid},
		"cut":         {func(t *Trial) { t.Intercept.Cut = MaxCut + 1 }, 1, abeam.ErrInvalid},
		"cut NaN":     {func(t *Trial) { t.Intercept.Cut = abeam.Degrees(math.NaN()) }, 1, abeam.ErrInvalid},
		"scatter":     {func(t *Trial) { t.Scatter.Timing = -1 }, 1, abeam.ErrInvalid},
		"scatter NaN": {func(t *Trial) { t.Scatter.Bank = abeam.Degrees(math.NaN()) }, 1, abeam.ErrInvalid},
		"heading":     {func(t *Trial) { t.Scatter.Heading = 31 }, 1, abeam.ErrInvalid},
		"wind":        {func(t *Trial) { t.Flight.Wind.Speed = 110 }, 1, abeam.ErrUnflyable},
		"wind grows":  {func(t *Trial) { t.Flight.TAS, t.Flight.Wind.Speed, t.Scatter.WindChange = 70, 69, 50 }, MaxLaps, abeam.ErrUnflyable},
	} {
		trial := good
		tc.change(&trial)
		laps, err := trial.AppendLaps(nil, tc.n)
		if !errors.Is(err, tc.kind) || len(laps) != 0 && name != "wind grows" {
			t.Errorf("%s: %d laps, %v", name, len(laps), err)
		}
	}
}

// No finite lap for any strategy and error whatever: what comes out is finite, or an error.
func TestTrialsAreFinite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tas := abeam.Knots(draw.Uniform(60, 400).Draw(t, "TAS"))
		p, err := hold.NewPattern(hold.Fix{}, draw.Bearing().Draw(t, "inbound"), hold.Turn(rapid.IntRange(0, 1).Draw(t, "turn")), hold.TimedInbound(time.Minute))
		if err != nil {
			t.Fatal(err)
		}
		trial := Trial{
			Pattern: p, Flight: hold.Flight{TAS: tas, Rate: 3, Wind: draw.Wind(tas, 0.99).Draw(t, "wind")},
			Strategy: rapid.SampledFrom(Strategies()).Draw(t, "strategy"), Start: Start(rapid.IntRange(1, 3).Draw(t, "start")),
			Intercept: Intercept{Cut: abeam.Degrees(draw.Uniform(0, 60).Draw(t, "cut"))}, Seed: rapid.Uint64().Draw(t, "seed"),
			Scatter: rapid.SampledFrom([]Scatter{{}, {Timing: 3 * time.Second, Heading: 5, Airspeed: 5, Bank: 3, WindChange: 5, WindKnown: 10}}).Draw(t, "scatter"),
		}
		laps, err := trial.AppendLaps(nil, 6)
		if err != nil && !errors.Is(err, abeam.ErrUnflyable) {
			t.Fatal(err)
		}
		for i, l := range laps {
			for _, x := range []float64{float64(l.RollOut.Along), float64(l.RollOut.Abreast), float64(l.Passed), float64(l.Cut), float64(l.Wind.Speed)} {
				if math.IsNaN(x) || math.IsInf(x, 0) {
					t.Fatalf("lap %d: %+v", i+1, l)
				}
			}
			if l.Lap <= 0 || l.Outbound < 0 || l.Straight < 0 || l.ToAbeam < 0 || l.Error != l.Inbound-time.Minute || l.Astray() < 0 {
				t.Fatalf("lap %d: %+v", i+1, l)
			}
		}
	})
}

// One seed gives the same to the bit, whatever the number of workers; another seed does not.
func TestReproducible(t *testing.T) {
	s := study(Compose("", ByHalf(), ThreeTimes()), Exact())
	s.Scatter = Scatter{Timing: 2 * time.Second, Heading: 3, Airspeed: 3, Bank: 2, WindChange: 2, WindKnown: 8}
	var first Results
	for i, workers := range []int{1, 2, 3, 7, 1} {
		s.Workers = workers
		r, err := s.Run(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		if i == 0 {
			first = r
		} else if !reflect.DeepEqual(r, first) {
			t.Errorf("%d workers: other results", workers)
		}
	}
	s.Seed++
	r, err := s.Run(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if reflect.DeepEqual(r, first) {
		t.Error("another seed gives the same")
	}
	var score Score
	for i, workers := range []int{1, 2, 3, 7} {
		s.Workers = workers
		got, err := s.Score(context.Background(), s.Strategies[0], InboundLoss(2, 4), 0.3, true)
		if err != nil {
			t.Fatal(err)
		}
		if i == 0 {
			score = got
		} else if got != score {
			t.Errorf("%d workers: %v, one %v", workers, got, score)
		}
	}
	trial := Trial{Pattern: pattern(t, 75, hold.Right, time.Minute), Flight: hold.Flight{TAS: 110, Rate: 3}, Strategy: Exact(), Start: AtAbeam, Scatter: s.Scatter, Seed: 5}
	a, err := trial.AppendLaps(nil, 20)
	if err != nil {
		t.Fatal(err)
	}
	b, _ := trial.AppendLaps(nil, 20)
	// The errors do not depend on the strategy: the wind is the same for another one.
	trial.Strategy = Compose("", ByFull(), DoubleDrift())
	c, _ := trial.AppendLaps(nil, 20)
	for i := range a {
		if a[i] != b[i] || a[i].Wind != c[i].Wind || i > 0 && a[i].Wind == a[i-1].Wind {
			t.Errorf("lap %d: %+v, %+v, %+v", i+1, a[i], b[i], c[i])
		}
	}
}

// The errors are what Scatter says: mean 0, the standard deviation asked for, none above 3.5.
func TestScatterIsAsSaid(t *testing.T) {
	const n = 200_000
	var fl flyer
	fl.random.Seed(1, 0)
	x := make([]float64, n)
	for i := range x {
		x[i] = bell(&fl.random)
	}
	mean, sd := stat.MeanStdDev(x, nil)
	// Four standard errors of each.
	if math.Abs(mean) > 4/math.Sqrt(n) || math.Abs(sd-1) > 4*0.65/math.Sqrt(n) || slices.Max(x) > 2*sqrt3 || slices.Min(x) < -2*sqrt3 || slices.Max(x) < 3 {
		t.Errorf("mean %v, standard deviation %v, from %v to %v", mean, sd, slices.Min(x), slices.Max(x))
	}
	if k := stat.ExKurtosis(x, nil); math.Abs(k+0.3) > 0.05 { // -1.2/4 for four uniform ones
		t.Errorf("kurtosis %v", 3+k)
	}
	// Each field acts on what it names, by its size.
	trial := Trial{Pattern: pattern(t, 0, hold.Right, time.Minute), Flight: hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 40, Speed: 20}}, Start: AtTurnComplete, Seed: 9}
	plan := Plan{Outbound: time.Minute}
	spreadOf := func(s Scatter, of func(Lap) float64) (float64, float64) {
		trial.Scatter, trial.Strategy = s, fixed(plan)
		laps, err := trial.AppendLaps(nil, MaxLaps)
		if err != nil {
			t.Fatal(err)
		}
		v := make([]float64, len(laps))
		for i, l := range laps {
			v[i] = of(l)
		}
		return stat.MeanStdDev(v, nil)
	}
	if mean, sd := spreadOf(Scatter{Timing: 3 * time.Second}, func(l Lap) float64 { return l.Straight.Seconds() }); math.Abs(mean-60) > 0.5 || math.Abs(sd-3) > 0.3 {
		t.Errorf("timing: %v, %v", mean, sd)
	}
	for name, s := range map[string]Scatter{"heading": {Heading: 3}, "airspeed": {Airspeed: 3}, "bank": {Bank: 2}, "wind": {WindChange: 1}} {
		if _, sd := spreadOf(s, func(l Lap) float64 { return l.Inbound.Seconds() }); sd < 0.1 {
			t.Errorf("%s: the inbound time does not vary", name)
		}
	}
	var believed []float64
	trial.Scatter = Scatter{WindKnown: 5}
	trial.Strategy = Strategy{Name: "ask", Next: func(s Seen) Plan {
		c := s.Flight.Wind.Components(40)
		believed = append(believed, float64(c.Head)-20, float64(c.Cross))
		return plan
	}}
	for seed := range uint64(2000) {
		trial.Seed = seed
		if _, err := trial.AppendLaps(nil, 1); err != nil {
			t.Fatal(err)
		}
	}
	if mean, sd := stat.MeanStdDev(believed, nil); math.Abs(mean) > 0.4 || math.Abs(sd-5) > 0.4 {
		t.Errorf("the wind as it is known: %v, %v", mean, sd)
	}
}

func TestStudyErrors(t *testing.T) {
	good := study(Exact())
	for name, change := range map[string]func(*Study){
		"empty grid":    func(s *Study) { s.Grid = Grid{} },
		"no winds":      func(s *Study) { s.Grid.Shares = nil },
		"no angles":     func(s *Study) { s.Grid.Angles = nil },
		"share":         func(s *Study) { s.Grid.Shares = []float64{0.95} },
		"share NaN":     func(s *Study) { s.Grid.Shares = []float64{math.NaN()} },
		"angle NaN":     func(s *Study) { s.Grid.Angles = []abeam.Degrees{abeam.Degrees(math.NaN())} },
		"leg":           func(s *Study) { s.Grid.Cases = []Case{{TAS: 100, Rate: 3}} },
		"airspeed":      func(s *Study) { s.Grid.Cases = []Case{{Rate: 3, Leg: time.Minute}} },
		"side":          func(s *Study) { s.Grid.Turn = 2 },
		"no strategies": func(s *Study) { s.Strategies = nil },
		"no next":       func(s *Study) { s.Strategies = append(s.Strategies, Strategy{Name: "empty"}) },
		"no laps":       func(s *Study) { s.Laps = 0 },
		"no start":      func(s *Study) { s.Start = 0 },
		"workers":       func(s *Study) { s.Workers = -1 },
	} {
		s := good
		change(&s)
		if r, err := s.Run(context.Background()); !errors.Is(err, abeam.ErrInvalid) || !reflect.DeepEqual(r, Results{}) {
			t.Errorf("%s: %v", name, err)
		}
		if name == "no strategies" || name == "no next" || name == "workers" {
			continue // a fit has its own
		}
		if _, err := s.Fit(context.Background(), GainFamily(ThreeTimes()), InboundLoss(1, 1), 0.3); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("%s: fit %v", name, err)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if r, err := good.Run(ctx); !errors.Is(err, context.Canceled) || !reflect.DeepEqual(r, Results{}) {
		t.Errorf("cancelled: %v", err)
	}
	if _, err := good.Fit(ctx, GainFamily(ThreeTimes()), InboundLoss(1, 1), 0.3); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled fit: %v", err)
	}
	for name, err := range map[string]error{
		"no family": func() error { _, err := good.Fit(context.Background(), Family{}, InboundLoss(1, 1), 0.3); return err }(),
		"share": func() error {
			_, err := good.Fit(context.Background(), GainFamily(ThreeTimes()), InboundLoss(1, 1), 0)
			return err
		}(),
		"no loss": func() error { _, err := good.Score(context.Background(), Exact(), nil, 0.3, true); return err }(),
		"a loss that panics": func() error {
			_, err := good.Score(context.Background(), Exact(), func([]Lap) float64 { panic("mine") }, 0.3, true)
			return err
		}(),
		"a family that panics": func() error {
			f := GainFamily(ThreeTimes())
			f.Make = func(x []float64) Strategy { return Compose("", ByGain(x[1]), ThreeTimes()) }
			_, err := good.Fit(context.Background(), f, InboundLoss(1, 1), 0.3)
			return err
		}(),
		"NaN loss": func() error {
			_, err := good.Score(context.Background(), Exact(), func([]Lap) float64 { return math.NaN() }, 0.3, true)
			return err
		}(),
	} {
		if !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := good.Fit(context.Background(), GainFamily(ThreeTimes()), func([]Lap) float64 { return math.NaN() }, 0.3); !errors.Is(err, abeam.ErrNoConvergence) {
		t.Errorf("no minimum: %v", err)
	}
}

// Progress comes to all of the cells, and cells left out are counted.
func TestProgressAndLeftOut(t *testing.T) {
	s := study(Exact())
	s.Grid.Shares = []float64{0, 0.5}
	last := 0
	s.Progress = func(done, total int) {
		if done < last || total != s.Grid.Len() {
			t.Errorf("%d of %d after %d", done, total, last)
		}
		last = done
	}
	s.Workers = 1
	r, err := s.Run(context.Background())
	if err != nil || last != s.Grid.Len() || r.Cells != last || r.LeftOut == 0 || r.Outcomes[0].Trials != uint64(r.Cells-r.LeftOut) {
		t.Errorf("%d of %d cells, %d left out, %d trials, %v", last, r.Cells, r.LeftOut, r.Outcomes[0].Trials, err)
	}
	out := 0
	for i := range s.Grid.Len() {
		if _, err := s.Grid.Cell(i); errors.Is(err, abeam.ErrUnflyable) {
			out++
		}
	}
	if out != r.LeftOut {
		t.Errorf("%d cells left out, %d of them unflyable", r.LeftOut, out)
	}
}

// Eight times the grid takes no more memory.
func TestMemoryDoesNotGrowWithTheGrid(t *testing.T) {
	used := func(times int) uint64 {
		s := study(Compose("", ByHalf(), ThreeTimes()))
		s.Workers = 1
		s.Grid.Cases = slices.Repeat(s.Grid.Cases, times)
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		if _, err := s.Run(context.Background()); err != nil {
			t.Fatal(err)
		}
		runtime.ReadMemStats(&after)
		return after.TotalAlloc - before.TotalAlloc
	}
	used(1)
	if one, eight := used(1), used(8); float64(eight) > 1.05*float64(one) {
		t.Errorf("%d bytes, eight times the grid %d", one, eight)
	}
}
