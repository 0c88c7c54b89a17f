package wind_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/wind"
)

// problem is a triangle and an airspeed, and what the floors need of them.
type problem struct {
	dir, from               abeam.Bearing
	tas, speed, cas         abeam.Knots
	track, heading          abeam.Bearing
	groundspeed             abeam.Knots
	off, correction         float64 // from - dir and heading - track, in radians
	v, w, g, casMach, delta float64
}

func problems(b *testing.B) []problem {
	b.Helper()
	r := rand.New(rand.NewPCG(1, 2))
	ps := make([]problem, 1024)
	for i := range ps {
		p := &ps[i]
		p.dir, p.from = abeam.Bearing(360*r.Float64()), abeam.Bearing(360*r.Float64())
		p.tas, p.speed, p.cas = abeam.Knots(80+400*r.Float64()), abeam.Knots(60*r.Float64()), abeam.Knots(80+200*r.Float64())
		t, err := wind.SolveHeading(p.dir, p.tas, wind.Wind{From: p.from, Speed: p.speed})
		if err != nil {
			b.Fatal(err)
		}
		p.track, p.heading, p.groundspeed = t.Track, t.Heading, t.Groundspeed
		p.off = float64(p.from.Sub(p.dir)) * math.Pi / 180
		p.correction = float64(t.Correction) * math.Pi / 180
		p.v, p.w, p.g = float64(p.tas), float64(p.speed), float64(p.groundspeed)
		p.casMach, p.delta = float64(p.cas)/661.4788, 0.3876
	}
	return ps
}

// sink keeps the compiler from dropping what is measured.
var sink float64

// BenchmarkAgainstFloor runs each law beside a floor that makes only the calls of
// package math that the law cannot do without, in turns within one run, so that
// whatever else the machine does falls on both. It reports the law's time and its
// ratio to the floor.
func BenchmarkAgainstFloor(b *testing.B) {
	air, err := wind.StandardAir(24_000, 8)
	if err != nil {
		b.Fatal(err)
	}
	for _, c := range []struct {
		name       string
		floor, law func(ps []problem) float64
	}{
		{"SolveHeading", floorHeading, func(ps []problem) (s float64) {
			for i := range ps {
				p := &ps[i]
				t, _ := wind.SolveHeading(p.dir, p.tas, wind.Wind{From: p.from, Speed: p.speed})
				s += float64(t.Heading)
			}
			return s
		}},
		{"SolveTrack", floorTrack, func(ps []problem) (s float64) {
			for i := range ps {
				p := &ps[i]
				t, _ := wind.SolveTrack(p.dir, p.tas, wind.Wind{From: p.from, Speed: p.speed})
				s += float64(t.Track)
			}
			return s
		}},
		{"SolveWind", floorWind, func(ps []problem) (s float64) {
			for i := range ps {
				p := &ps[i]
				t, _ := wind.SolveWind(p.track, p.groundspeed, p.heading, p.tas)
				s += float64(t.Wind.From)
			}
			return s
		}},
		{"SolveTAS", floorTAS, func(ps []problem) (s float64) {
			for i := range ps {
				p := &ps[i]
				t, _ := wind.SolveTAS(p.track, p.groundspeed, wind.Wind{From: p.from, Speed: p.speed})
				s += float64(t.TAS)
			}
			return s
		}},
		{"TASFromCAS", floorAirspeed, func(ps []problem) (s float64) {
			for i := range ps {
				v, _ := air.TASFromCAS(ps[i].cas)
				s += float64(v)
			}
			return s
		}},
		{"CASFromTAS", floorAirspeed, func(ps []problem) (s float64) {
			for i := range ps {
				v, _ := air.CASFromTAS(ps[i].tas)
				s += float64(v)
			}
			return s
		}},
	} {
		b.Run(c.name, func(b *testing.B) {
			ps := problems(b)
			var floor, law time.Duration
			b.ReportAllocs()
			for b.Loop() {
				t0 := time.Now()
				a := c.floor(ps)
				t1 := time.Now()
				a += c.law(ps)
				law += time.Since(t1)
				floor += t1.Sub(t0)
				sink = a
			}
			each := float64(b.N * len(ps))
			b.ReportMetric(float64(law)/each, "law-ns")
			b.ReportMetric(float64(floor)/each, "floor-ns")
			b.ReportMetric(float64(law)/float64(floor), "x-floor")
		})
	}
}

// The floors: the calls that each law cannot do without, on the arguments that it
// makes them on.

func floorHeading(ps []problem) (s float64) {
	for i := range ps {
		p := &ps[i]
		sin, cos := math.Sincos(p.off)
		x := p.w * sin / p.v
		s += cos + math.Asin(x) + math.Sqrt(1-x*x)
	}
	return s
}

func floorTrack(ps []problem) (s float64) {
	for i := range ps {
		p := &ps[i]
		sin, cos := math.Sincos(p.off)
		y, x := p.w*sin, p.v-p.w*cos
		s += math.Atan2(y, x) + math.Sqrt(x*x+y*y)
	}
	return s
}

func floorWind(ps []problem) (s float64) {
	for i := range ps {
		p := &ps[i]
		sin, cos := math.Sincos(p.correction)
		y, x := p.v*sin, p.v*cos-p.g
		s += math.Atan2(y, x) + math.Sqrt(x*x+y*y)
	}
	return s
}

func floorTAS(ps []problem) (s float64) {
	for i := range ps {
		p := &ps[i]
		sin, cos := math.Sincos(p.off)
		y, x := p.w*sin, p.g+p.w*cos
		s += math.Atan2(y, x) + math.Sqrt(x*x+y*y)
	}
	return s
}

// A power of 3.5 is products and a root; the power of 2/7 has no such way out.
func floorAirspeed(ps []problem) (s float64) {
	for i := range ps {
		p := &ps[i]
		q := math.Sqrt(1+0.2*p.casMach*p.casMach) - 1
		s += math.Sqrt(math.Pow(1+q/p.delta, 2.0/7) - 1)
	}
	return s
}

func BenchmarkDecodeAloftBulletin(b *testing.B) {
	text := made(200)
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := wind.DecodeAloftBulletin(text); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWindFromLap(b *testing.B) {
	ps := problems(b)
	lap := wind.Lap{TAS: 200, Rate: 3, Outbound: time.Minute, Inbound: time.Minute}
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		lap.Correction = abeam.Degrees(10 * ps[i&1023].correction)
		w, err := wind.WindFromLap(ps[i&1023].dir, lap)
		if err != nil {
			b.Fatal(err)
		}
		sink = float64(w.Speed)
		i++
	}
}
