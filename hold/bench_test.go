package hold

import (
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/oracle"
	"github.com/holdingfix/abeam/wind"
)

// varied gives inputs that no branch predictor learns: 1,024 flights, all solvable.
func varied(tb testing.TB) ([]Pattern, []Flight) {
	var ps []Pattern
	var fs []Flight
	for i := range 1024 {
		x := float64(i)
		p, err := NewPattern(Fix{}, abeam.NewBearing(x*137.508), Turn(i&1), TimedInbound(time.Minute))
		if err != nil {
			tb.Fatal(err)
		}
		tas := 70 + math.Mod(x*61.803, 230)
		f := Flight{
			TAS: abeam.Knots(tas), Rate: StandardRate,
			Wind: wind.Wind{From: abeam.NewBearing(x * 97.31), Speed: abeam.Knots(tas * math.Mod(x*0.0731, 0.3))},
		}
		if _, err := p.Circuit(f); err != nil { // a refusal would be cheap
			tb.Fatal(err)
		}
		ps, fs = append(ps, p), append(fs, f)
	}
	return ps, fs
}

var sink float64

// floor runs the calls that no solution can do without, and nothing else: two Sincos,
// one Atan2, three Sqrt. Each is fed by the one before, as in the problem: the wind's
// components, the cosine of the correction, the root of the closing equation, the
// outbound heading, its components, the groundspeed on it.
func floor(windAngle, w float64) float64 {
	s, c := math.Sincos(windAngle)
	root := math.Sqrt(math.Sqrt(1-w*s*s) + c*c)
	s, c = math.Sincos(math.Atan2(w*s, -root))
	return math.Sqrt(2 + s + c)
}

func runFloor(p *Pattern, f *Flight) {
	sink += floor(float64(f.Wind.From-p.inbound)*(math.Pi/180), 0.3)
}

func runOutbound(p *Pattern, f *Flight) {
	h, t, _ := p.Outbound(*f)
	sink += float64(h) + float64(t)
}

func runCircuit(p *Pattern, f *Flight) {
	c, _ := p.Circuit(*f)
	sink += float64(c.OutboundHeading)
}

func runGeneral(p *Pattern, f *Flight) {
	a, _ := oracleOf(*p, *f).Solve()
	sink += a.Straight
}

func benchmark(b *testing.B, run func(*Pattern, *Flight)) {
	ps, fs := varied(b)
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		run(&ps[i&1023], &fs[i&1023])
		i++
	}
}

func BenchmarkFloor(b *testing.B)    { benchmark(b, runFloor) }
func BenchmarkOutbound(b *testing.B) { benchmark(b, runOutbound) }
func BenchmarkCircuit(b *testing.B)  { benchmark(b, runCircuit) }

// General solves the same circuits by quadrature and root finding.
func BenchmarkGeneral(b *testing.B) { benchmark(b, runGeneral) }

// BenchmarkRatio takes turns between the four, so that a machine that slows down slows
// them all, and reports what each costs in the one below it.
func BenchmarkRatio(b *testing.B) {
	ps, fs := varied(b)
	var spent [4]time.Duration
	runs := [4]int{}
	for b.Loop() {
		for k, run := range []func(*Pattern, *Flight){runFloor, runOutbound, runCircuit, runGeneral} {
			n := 4096
			if k == 3 {
				n = 1
			}
			start := time.Now()
			for i := range n {
				at := (runs[k] + i) & 1023
				run(&ps[at], &fs[at])
			}
			spent[k] += time.Since(start)
			runs[k] += n
		}
	}
	per := func(k int) float64 { return float64(spent[k]) / float64(runs[k]) }
	b.ReportMetric(0, "ns/op") // a block of thousands of runs: not a figure of anything
	b.ReportMetric(per(1)/per(0), "outbound/floor")
	b.ReportMetric(per(2)/per(0), "circuit/floor")
	b.ReportMetric(per(3)/per(2), "general/circuit")
}

func oracleOf(p Pattern, f Flight) oracle.Hold {
	return oracle.Hold{
		Course: float64(p.inbound), TAS: float64(f.TAS), Rate: float64(f.Rate),
		WindFrom: float64(f.Wind.From), WindSpeed: float64(f.Wind.Speed),
		Inbound: p.leg.time.Seconds(), Left: p.turn == Left,
	}
}
