package entry

import (
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// problem is one entry to be decided and flown.
type problem struct {
	pattern hold.Pattern
	flight  hold.Flight
	heading abeam.Bearing
	plan    Plan
}

// varied gives inputs that no branch predictor learns: 1,024 entries, the kind of each
// as its sector has it, all flyable.
func varied(tb testing.TB) []problem {
	var all []problem
	for i := range 1024 {
		x := float64(i)
		p := pattern(tb, abeam.NewBearing(x*137.508), hold.Turn(i&1))
		tas := 70 + math.Mod(x*61.803, 230)
		pr := problem{
			pattern: p, heading: abeam.NewBearing(x * 222.49),
			flight: hold.Flight{TAS: abeam.Knots(tas), Rate: hold.StandardRate, Wind: wind.Wind{
				From: abeam.NewBearing(x * 97.31), Speed: abeam.Knots(tas * math.Mod(x*0.0731, 0.3)),
			}},
		}
		d, err := FAA().Choose(p, pr.heading)
		if err != nil {
			tb.Fatal(err)
		}
		pr.plan = FAA().Plan(d.Entry, time.Minute)
		for _, m := range []Manner{AsPublished, ForWind} {
			if _, err := pr.plan.Fly(p, pr.flight, pr.heading, m); err != nil {
				tb.Fatal(err)
			}
		}
		all = append(all, pr)
	}
	return all
}

// sink takes the results, and feeds each run with the one before, so that a chain of
// additions is one from run to run too and not several overlapping.
var sink float64

// fed is a heading that depends on the result before, in the same way for all.
func fed(h abeam.Bearing) abeam.Bearing { return h + abeam.Bearing(0*sink) }

// adds is the floor of a decision: 8 float64 additions, each fed by the one before.
//
//go:noinline
func adds(x float64) float64 {
	const d = 0.1
	x += d
	x += d
	x += d
	x += d
	x += d
	x += d
	x += d
	x += d
	return x
}

func runAdds(pr *problem) { sink = adds(float64(fed(pr.heading))) }

func runChoose(pr *problem) {
	d, _ := FAA().Choose(pr.pattern, fed(pr.heading))
	sink = float64(d.Margin)
}

func runChooseInWind(pr *problem) {
	d, _ := FAARNAV().ChooseInWind(pr.pattern, pr.flight, fed(pr.heading))
	sink = float64(d.Margin)
}

func runCircuit(pr *problem) {
	f := pr.flight
	f.Wind.From = fed(f.Wind.From)
	c, _ := pr.pattern.Circuit(f)
	sink = float64(c.OutboundHeading)
}

func runPublished(pr *problem) {
	fl, _ := pr.plan.Fly(pr.pattern, pr.flight, fed(pr.heading), AsPublished)
	sink = float64(fl.EntryHeading)
}

func runForWind(pr *problem) {
	fl, _ := pr.plan.Fly(pr.pattern, pr.flight, fed(pr.heading), ForWind)
	sink = float64(fl.EntryHeading)
}

func benchmark(b *testing.B, run func(*problem)) {
	all := varied(b)
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		run(&all[i&1023])
		i++
	}
}

func BenchmarkAdds(b *testing.B)         { benchmark(b, runAdds) }
func BenchmarkChoose(b *testing.B)       { benchmark(b, runChoose) }
func BenchmarkChooseInWind(b *testing.B) { benchmark(b, runChooseInWind) }
func BenchmarkPublished(b *testing.B)    { benchmark(b, runPublished) }
func BenchmarkForWind(b *testing.B)      { benchmark(b, runForWind) }

// BenchmarkRatio takes turns between them, so that a machine that slows down slows them
// all, and reports decisions in chains of 8 float additions, flown entries in circuits of
// package hold.
func BenchmarkRatio(b *testing.B) {
	all := varied(b)
	run := []func(*problem){runAdds, runChoose, runChooseInWind, runCircuit, runPublished, runForWind}
	var spent [6]time.Duration
	for b.Loop() {
		for k := range run {
			start := time.Now()
			for range 4 {
				for i := range all {
					run[k](&all[i])
				}
			}
			spent[k] += time.Since(start)
		}
	}
	ratio := func(k, floor int) float64 { return float64(spent[k]) / float64(spent[floor]) }
	b.ReportMetric(0, "ns/op") // a block of thousands of runs: not a figure of anything
	b.ReportMetric(ratio(1, 0), "choose/adds")
	b.ReportMetric(ratio(2, 0), "choose-in-wind/adds")
	b.ReportMetric(ratio(4, 3), "published/circuit")
	b.ReportMetric(ratio(5, 3), "for-wind/circuit")
}
