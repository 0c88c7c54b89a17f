package area

import (
	"math"
	"slices"
	"testing"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
)

func BenchmarkTemplate(b *testing.B) {
	d := Design{IAS: 220, Altitude: 10_000}
	for b.Loop() {
		if _, err := d.Template(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkEnvelope(b *testing.B) {
	d := Design{IAS: 220, Altitude: 10_000}
	for b.Loop() {
		if _, err := d.Envelope(); err != nil {
			b.Fatal(err)
		}
	}
}

// places are spread over and around an area.
func places(n int) []hold.Point {
	ps := make([]hold.Point, n)
	for i := range ps {
		_, x := math.Modf(float64(i) * math.Sqrt2)
		_, y := math.Modf(float64(i) * math.Sqrt(3))
		ps[i] = hold.Point{Along: abeam.NM(24*x - 16), Abreast: abeam.NM(24*y - 10)}
	}
	return ps
}

// The signed distance against the same over an outline of 360 corners, side by side: the
// plain way.
func BenchmarkRatioDistance(b *testing.B) {
	d := Design{IAS: 220, Altitude: 10_000}
	a := must[Template](b)(d.Template()).Hold
	ps := places(1024)
	b.Run("area", func(b *testing.B) {
		b.ReportAllocs()
		i := 0
		for b.Loop() {
			_ = a.Distance(ps[i&1023])
			i++
		}
	})
	corners := make([]hold.Point, 360)
	for i := range corners {
		corners[i] = a.Edge(abeam.Degrees(i))
	}
	b.Run("polygon", func(b *testing.B) {
		i := 0
		for b.Loop() {
			p, best := ps[i&1023], math.Inf(1)
			for k, q := range corners {
				r := corners[(k+1)%360]
				dx, dy := float64(r.Along-q.Along), float64(r.Abreast-q.Abreast)
				px, py := float64(p.Along-q.Along), float64(p.Abreast-q.Abreast)
				t := math.Max(0, math.Min(1, (px*dx+py*dy)/(dx*dx+dy*dy+1e-30)))
				best = math.Min(best, math.Hypot(px-t*dx, py-t*dy))
			}
			i++
		}
	})
}

func BenchmarkFollowAMillion(b *testing.B) {
	a := must[Template](b)(Design{IAS: 220, Altitude: 10_000}.Template()).Hold
	ps := places(1_000_000)
	for b.Loop() {
		a.Follow(slices.Values(ps))
	}
}

func BenchmarkTryAMillion(b *testing.B) {
	a := must[Template](b)(Design{IAS: 140, Altitude: 6000}.Template()).Hold
	ask := trials(b, hold.Right)
	ask.Laps = 1_000_000
	for b.Loop() {
		if _, err := a.Try(b.Context(), ask); err != nil {
			b.Fatal(err)
		}
	}
}

func TestDistanceAllocatesNothing(t *testing.T) {
	a := must[Template](t)(Design{IAS: 220, Altitude: 10_000}.Template()).Hold
	if n := testing.AllocsPerRun(100, func() { _ = a.Contains(hold.Point{Along: -3}) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}
