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

// sink keeps the compiler from dropping what is measured.
var sink float64

func runChoose(pr *problem) {
	d, _ := FAA().Choose(pr.pattern, pr.heading)
	sink = float64(d.Margin)
}

func runChooseInWind(pr *problem) {
	d, _ := FAARNAV().ChooseInWind(pr.pattern, pr.flight, pr.heading)
	sink = float64(d.Margin)
}

func runPublished(pr *problem) {
	fl, _ := pr.plan.Fly(pr.pattern, pr.flight, pr.heading, AsPublished)
	sink = float64(fl.EntryHeading)
}

func runForWind(pr *problem) {
	fl, _ := pr.plan.Fly(pr.pattern, pr.flight, pr.heading, ForWind)
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

func BenchmarkChoose(b *testing.B)       { benchmark(b, runChoose) }
func BenchmarkChooseInWind(b *testing.B) { benchmark(b, runChooseInWind) }
func BenchmarkPublished(b *testing.B)    { benchmark(b, runPublished) }
func BenchmarkForWind(b *testing.B)      { benchmark(b, runForWind) }
