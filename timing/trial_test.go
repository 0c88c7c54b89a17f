package timing

import (
	"math"
	"sync"
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

// BenchmarkWorkers runs a study with one worker and with two, in turns, and reports how many
// times as fast two are; beside it the same for two loops that share nothing, which is what the
// machine has to give at the time. With two processors to spare that is 2.
func BenchmarkWorkers(b *testing.B) {
	s := Study{Grid: LightGrid(60), Strategies: Strategies(), Laps: 6, Start: AtWingsLevelOrAbeam, Intercept: StandardIntercept()}
	spin := func(loops int) {
		var wait sync.WaitGroup
		for range 2 / loops { // one loop of two parts, or two of one
			for range loops {
				wait.Go(func() {
					x := 1.0
					for range 200_000_000 {
						x = x*1.0000001 + 1e-9
					}
					if x == 0 {
						b.Error("the loop was left out")
					}
				})
			}
			wait.Wait()
		}
	}
	var spent [4]time.Duration
	for b.Loop() {
		for k := range 2 {
			s.Workers = k + 1
			start := time.Now()
			if _, err := s.Run(b.Context()); err != nil {
				b.Fatal(err)
			}
			spent[k] += time.Since(start)
			start = time.Now()
			spin(k + 1)
			spent[2+k] += time.Since(start)
		}
	}
	b.ReportMetric(0, "ns/op")
	b.ReportMetric(float64(spent[0])/float64(spent[1]), "one/two-workers")
	b.ReportMetric(float64(spent[2])/float64(spent[3]), "one/two-loops")
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
