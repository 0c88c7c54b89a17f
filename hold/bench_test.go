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

func runOutbound(p *Pattern, f *Flight) {
	h, t, _ := p.Outbound(*f)
	sink += float64(h) + float64(t)
}

func runCircuit(p *Pattern, f *Flight) {
	c, _ := p.Circuit(*f)
	sink += float64(c.OutboundHeading)
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

func BenchmarkOutbound(b *testing.B) { benchmark(b, runOutbound) }
func BenchmarkCircuit(b *testing.B)  { benchmark(b, runCircuit) }

func oracleOf(p Pattern, f Flight) oracle.Hold {
	return oracle.Hold{
		Course: float64(p.inbound), TAS: float64(f.TAS), Rate: float64(f.Rate),
		WindFrom: float64(f.Wind.From), WindSpeed: float64(f.Wind.Speed),
		Inbound: p.leg.time.Seconds(), Left: p.turn == Left,
	}
}
