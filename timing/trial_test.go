package timing

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/wind"
)

func pattern(tb testing.TB, inbound abeam.Bearing, turn hold.Turn, leg time.Duration) hold.Pattern {
	tb.Helper()
	p, err := hold.NewPattern(hold.Fix{}, inbound, turn, hold.TimedInbound(leg))
	if err != nil {
		tb.Fatal(err)
	}
	return p
}

// fixed asks for the same lap over and over.
func fixed(p Plan) Strategy { return Strategy{Name: "fixed", Next: func(Seen) Plan { return p }} }

// drawHold draws a hold whose leg can be had in the wind.
func drawHold(t *rapid.T, share float64) (hold.Pattern, hold.Flight) {
	leg := rapid.SampledFrom([]time.Duration{time.Minute, 90 * time.Second, 2 * time.Minute}).Draw(t, "leg")
	p, err := hold.NewPattern(hold.Fix{}, draw.Bearing().Draw(t, "inbound"), hold.Turn(rapid.IntRange(0, 1).Draw(t, "turn")), hold.TimedInbound(leg))
	if err != nil {
		t.Fatal(err)
	}
	tas := draw.TAS().Draw(t, "TAS")
	f := hold.Flight{TAS: tas, Rate: hold.Rate(rapid.SampledFrom([]float64{3, 2.2, 1.7}).Draw(t, "rate")), Wind: draw.Wind(tas, share).Draw(t, "wind")}
	shortest, err := p.ShortestInbound(f)
	if err != nil {
		t.Fatal(err)
	}
	if shortest > leg {
		t.Skip("the leg cannot be had in this wind")
	}
	return p, f
}

// A lap from the fix is the lap that package hold flies.
func TestLapIsHoldFly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, f := drawHold(t, 0.5)
		correction := abeam.Degrees(draw.Uniform(-60, 60).Draw(t, "correction"))
		out := time.Duration(rapid.IntRange(0, 200).Draw(t, "outbound")) * time.Second
		want, err := p.Fly(f, p.Outward().Add(correction), out)
		if err != nil {
			t.Skip("never abeam")
		}
		if want.ToAbeam > hold.MaxLeg {
			t.Skip("abeam later than a trial waits")
		}
		laps, err := Trial{Pattern: p, Flight: f, Start: AtWingsLevelOrAbeam, Strategy: fixed(Plan{Correction: correction, Outbound: out})}.AppendLaps(nil, 1)
		if err != nil {
			t.Fatal(err)
		}
		got := laps[0]
		const ns, nm = 20 * time.Nanosecond, 1e-10
		if (got.Inbound-want.Inbound).Abs() > ns || (got.Straight-want.Straight).Abs() > ns ||
			(got.ToAbeam-want.OutboundTurn.Time-want.ToAbeam).Abs() > ns ||
			math.Abs(float64(got.RollOut.Along-want.Established.Along)) > nm || math.Abs(float64(got.RollOut.Abreast-want.Established.Abreast)) > nm {
			t.Fatalf("got %+v\nwant %+v", got, want)
		}
		if want.Inbound >= 0 && ((got.Lap-want.Lap).Abs() > ns || math.Abs(float64(got.Passed-want.Established.Abreast)) > nm) {
			t.Fatalf("lap %v passed %v, want %v", got.Lap, got.Passed, want.Lap)
		}
	})
}

func TestExactLeavesNoError(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, f := drawHold(t, 0.6)
		laps, err := Trial{Pattern: p, Flight: f, Start: AtAbeam, Strategy: Exact(), Intercept: StandardIntercept()}.AppendLaps(nil, 5)
		if err != nil {
			t.Fatal(err)
		}
		for i, l := range laps {
			if l.Error.Abs() > time.Microsecond || math.Abs(float64(l.RollOut.Abreast)) > 1e-6 || l.Cut != 0 {
				t.Fatalf("lap %d: %+v", i+1, l)
			}
		}
	})
}

// BenchmarkRatio takes turns between circuits, laps and laps with errors, and reports what the
// fastest turn of each costs in circuits: on a shared machine the others measure the
// neighbours. A lap is to cost at most 4.
func BenchmarkRatio(b *testing.B) {
	var trials [64]Trial
	for i := range trials {
		x := float64(i)
		tas := 70 + math.Mod(x*61.803, 230)
		trials[i] = Trial{
			Pattern: pattern(b, abeam.NewBearing(x*137.508), hold.Turn(i&1), time.Minute), Start: AtWingsLevelOrAbeam, Intercept: StandardIntercept(),
			Flight:   hold.Flight{TAS: abeam.Knots(tas), Rate: hold.StandardRate, Wind: wind.Wind{From: abeam.NewBearing(x * 97.31), Speed: abeam.Knots(tas * math.Mod(x*0.0731, 0.3))}},
			Strategy: Compose("", ByHalf(), ThreeTimes()),
		}
	}
	const laps = 16
	laid := make([]Lap, 0, laps)
	var sink time.Duration
	circuits := func() {
		for i := range trials {
			for range laps {
				c, _ := trials[i].Pattern.Circuit(trials[i].Flight)
				sink += c.Lap
			}
		}
	}
	fly := func(s Scatter) func() {
		return func() {
			for i := range trials {
				t := trials[i]
				t.Scatter = s
				laid, _ = t.AppendLaps(laid[:0], laps)
				sink += laid[len(laid)-1].Lap
			}
		}
	}
	rough := Scatter{Timing: 2 * time.Second, Heading: 2, Airspeed: 2, Bank: 2, WindChange: 1, WindKnown: 5}
	runs := []func(){circuits, fly(Scatter{}), fly(rough)}
	best := [3]time.Duration{math.MaxInt64, math.MaxInt64, math.MaxInt64}
	for b.Loop() {
		for k, run := range runs {
			start := time.Now()
			run()
			best[k] = min(best[k], time.Since(start))
		}
	}
	b.ReportMetric(0, "ns/op") // a block of a thousand laps: not a figure of anything
	b.ReportMetric(float64(best[1])/float64(best[0]), "lap/circuit")
	b.ReportMetric(float64(best[2])/float64(best[0]), "scattered-lap/circuit")
}

// BenchmarkWorkers runs a study with one worker and with two, in turns, and reports how many
// times as fast the fastest run with two is. It means something on a machine with two
// processors to spare.
func BenchmarkWorkers(b *testing.B) {
	s := Study{Grid: LightGrid(60), Strategies: Strategies(), Laps: 6, Start: AtWingsLevelOrAbeam, Intercept: StandardIntercept()}
	best := [2]time.Duration{math.MaxInt64, math.MaxInt64}
	for b.Loop() {
		for k := range best {
			s.Workers = k + 1
			start := time.Now()
			if _, err := s.Run(b.Context()); err != nil {
				b.Fatal(err)
			}
			best[k] = min(best[k], time.Since(start))
		}
	}
	b.ReportMetric(0, "ns/op")
	b.ReportMetric(float64(best[0])/float64(best[1]), "one/two-workers")
}

func TestLapsAllocateNothing(t *testing.T) {
	trial := Trial{
		Pattern: pattern(t, 75, hold.Right, time.Minute), Start: AtAbeam, Intercept: StandardIntercept(),
		Flight:   hold.Flight{TAS: 110, Rate: 3, Wind: wind.Wind{From: 120, Speed: 25}},
		Strategy: Compose("", ByHalf(), ThreeTimes()),
	}
	laps := make([]Lap, 0, 8)
	for _, s := range []Scatter{{}, {Timing: time.Second, Bank: 1, WindChange: 1}} {
		trial.Scatter = s
		if n := testing.AllocsPerRun(100, func() { laps, _ = trial.AppendLaps(laps[:0], 8) }); n != 0 {
			t.Errorf("%v allocations", n)
		}
	}
}
