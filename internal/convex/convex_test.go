package convex

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// disc is one disc of a family, for the brute force that the closed forms are held against.
type disc struct{ x, y, r float64 }

type sample struct {
	region Region
	discs  []disc
}

func (s sample) reach(a float64) float64 {
	sin, cos := math.Sincos(a * math.Pi / 180)
	best := math.Inf(-1)
	for _, d := range s.discs {
		best = math.Max(best, d.x*cos+d.y*sin+d.r)
	}
	return best
}

const fine = 720 // discs along an arc

func drawArc(t *rapid.T) sample {
	radius := rapid.Float64Range(0, 5).Draw(t, "radius")
	from := rapid.OneOf(rapid.Float64Range(-400, 400), rapid.SampledFrom([]float64{-90, 0, 90, 180, 270, 360})).Draw(t, "from")
	to := from + rapid.OneOf(rapid.Float64Range(0, 360), rapid.SampledFrom([]float64{0, 5, 90, 180, 360})).Draw(t, "span")
	rate := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0, 0.02), rapid.Float64Range(0, 0.3)).Draw(t, "rate")
	s := sample{region: Arc(radius, from, to, rate)}
	for i := 0.0; i <= fine; i++ {
		a := from + (to-from)*i/fine
		sin, cos := math.Sincos(a * math.Pi / 180)
		s.discs = append(s.discs, disc{radius * cos, radius * sin, rate * (a - from)})
	}
	return s
}

func drawDisc(t *rapid.T) sample {
	d := disc{rapid.Float64Range(-9, 9).Draw(t, "x"), rapid.Float64Range(-9, 9).Draw(t, "y"),
		rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0, 4)).Draw(t, "r")}
	return sample{Disc(d.x, d.y, d.r), []disc{d}}
}

// drawRegion is a hull of up to six arcs, discs and sums of an arc and a disc.
func drawRegion(t *rapid.T) sample {
	var all sample
	var regions []Region
	for range rapid.IntRange(1, 6).Draw(t, "parts") {
		var s sample
		switch rapid.IntRange(0, 2).Draw(t, "kind") {
		case 0:
			s = drawArc(t)
		case 1:
			s = drawDisc(t)
		default:
			arc, d := drawArc(t), drawDisc(t)
			s.region = Sum(arc.region, d.region)
			for _, a := range arc.discs {
				s.discs = append(s.discs, disc{a.x + d.discs[0].x, a.y + d.discs[0].y, a.r + d.discs[0].r})
			}
		}
		regions = append(regions, s.region)
		all.discs = append(all.discs, s.discs...)
	}
	all.region = Hull(regions...)
	return all
}

// The reach of a region is that of its discs. Between two discs of the brute force, a half
// degree apart at most, the arc of 5 bulges by 5 (1 - cos 0.25 deg) = 5e-5.
func TestReachIsThatOfTheDiscs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawRegion(t)
		for a := 0.0; a < 360; a += 7.5 {
			got, want := s.region.Reach(a), s.reach(a)
			if !(got >= want-1e-9 && got <= want+6e-5) {
				t.Fatalf("reach %v at %v, discs reach %v", got, a, want)
			}
		}
		checkPieces(t, s.region)
	})
}

// checkPieces: the pieces go round once, none spans more than a quarter turn, the reach has
// no jump between them, and no radius of curvature is negative, so that the edge turns one
// way and cannot cross itself.
func checkPieces(t *rapid.T, r Region) {
	if r.pieces[0].from != 0 {
		t.Fatalf("the first piece begins at %v", r.pieces[0].from)
	}
	for i, p := range r.pieces {
		to := end(r.pieces, i)
		if !(to > p.from && to-p.from <= 90) || p.void() {
			t.Fatalf("piece %d of %d from %v to %v, radius %v", i, len(r.pieces), p.from, to, p.c)
		}
		next := r.pieces[(i+1)%len(r.pieces)]
		if q := p.starting(to); !(math.Abs(q.h-next.h) <= 1e-9) {
			t.Fatalf("reach %v before %v, %v after it", q.h, to, next.h)
		}
		if !(p.c >= -1e-9 && p.c+p.e*(to-p.from) >= -1e-9) {
			t.Fatalf("a radius of %v at %v", p.c, p.from)
		}
	}
}

// The signed distance is the greatest of (point beyond reach) over all directions; the edge
// has none, a step along its normal has the step.
func TestDistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRegion(t).region
		x, y := rapid.Float64Range(-20, 20).Draw(t, "x"), rapid.Float64Range(-20, 20).Draw(t, "y")
		want := math.Inf(-1)
		const steps = 1000
		for i, p := range r.pieces { // each from its very beginning: there the reach has its kinks
			for k := 0.0; k < steps; k++ {
				a := p.from + (end(r.pieces, i)-p.from)*k/steps
				sin, cos := math.Sincos(a * math.Pi / 180)
				want = math.Max(want, x*cos+y*sin-r.Reach(a))
			}
		}
		// Within half a step of the top, 0.045 degrees, it falls by 60 (1 - cos 0.045 deg) at most.
		if got := r.Distance(x, y); !(got >= want-1e-9 && got <= want+2e-5) {
			t.Fatalf("distance %v, brute force %v", got, want)
		}
		a := rapid.Float64Range(-720, 720).Draw(t, "a")
		ex, ey := r.Edge(a)
		if d := r.Distance(ex, ey); !(math.Abs(d) <= 1e-9) {
			t.Fatalf("the edge at %v is %v off", a, d)
		}
		sin, cos := math.Sincos(a * math.Pi / 180)
		step := rapid.Float64Range(0, 10).Draw(t, "step")
		if d := r.Distance(ex+step*cos, ey+step*sin); !(math.Abs(d-step) <= 1e-9) {
			t.Fatalf("%v beyond the edge at %v is %v off", step, a, d)
		}
	})
}

// The outline is convex, lies on the edge, its chords within sag of it, and the polygon that
// it makes has the size of the region but for what the chords cut off.
func TestOutlineAndSize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRegion(t).region
		const sag = 1e-3
		var xs, ys []float64
		for x, y := range r.Outline(sag) {
			if d := r.Distance(x, y); !(math.Abs(d) <= 1e-9) {
				t.Fatalf("(%v, %v) is %v off the edge", x, y, d)
			}
			xs, ys = append(xs, x), append(ys, y)
		}
		var polygon, round float64
		n := len(xs)
		for i := range xs {
			j, k := (i+1)%n, (i+2)%n
			polygon += (xs[i]*ys[j] - xs[j]*ys[i]) / 2
			round += math.Hypot(xs[j]-xs[i], ys[j]-ys[i])
			if turn := (xs[j]-xs[i])*(ys[k]-ys[j]) - (ys[j]-ys[i])*(xs[k]-xs[j]); !(turn >= -1e-8) {
				t.Fatalf("a turn the wrong way at (%v, %v): %v", xs[j], ys[j], turn)
			}
			if d := r.Distance((xs[i]+xs[j])/2, (ys[i]+ys[j])/2); !(d <= 1e-9 && d >= -sag-1e-9) {
				t.Fatalf("a chord %v off the edge", d)
			}
		}
		if size := r.Size(); !(size >= polygon-1e-8 && size <= polygon+sag*round+1e-8) {
			t.Fatalf("size %v, polygon %v of %d corners", size, polygon, n)
		}
	})
}

// Sums and hulls are what they are by definition: sums of reaches and maxima of them.
func TestSumAndHull(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawRegion(t).region, drawRegion(t).region
		sum, hull := Sum(a, b), Hull(a, b)
		checkPieces(t, sum)
		checkPieces(t, hull)
		at := rapid.Float64Range(0, 360).Draw(t, "at")
		if d := sum.Reach(at) - a.Reach(at) - b.Reach(at); !(math.Abs(d) <= 1e-9) {
			t.Fatalf("the sum's reach at %v is %v off", at, d)
		}
		if d := hull.Reach(at) - math.Max(a.Reach(at), b.Reach(at)); !(math.Abs(d) <= 1e-9) {
			t.Fatalf("the hull's reach at %v is %v off", at, d)
		}
		if twice := Hull(hull, a, b); len(twice.pieces) != len(hull.pieces) {
			t.Fatalf("%d pieces, and %d with its own parts once more", len(hull.pieces), len(twice.pieces))
		}
	})
}

func TestMirrored(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRegion(t).region
		m := r.Mirrored()
		checkPieces(t, m)
		at := rapid.OneOf(rapid.Float64Range(0, 360), rapid.SampledFrom([]float64{0, 90, 180, 270})).Draw(t, "at")
		if d := m.Reach(-at) - r.Reach(at); !(math.Abs(d) <= 1e-9) {
			t.Fatalf("at %v the mirrored region is %v off", at, d)
		}
	})
}

// The most that one region reaches beyond another, against directions tried one by one and
// refined, from each of which it cannot be less.
func TestBeyond(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawRegion(t).region, drawRegion(t).region
		most, direction := Beyond(a, b)
		if d := b.Reach(direction) - a.Reach(direction) - most; !(direction >= 0 && direction < 360) || !(math.Abs(d) <= 1e-9) {
			t.Fatalf("%v at %v, which is %v off", most, direction, d)
		}
		for at := 0.0; at < 360; at += 0.37 {
			if d := b.Reach(at) - a.Reach(at); !(d <= most+1e-9) {
				t.Fatalf("%v at %v, but %v at %v", most, direction, d, at)
			}
		}
	})
	if most, _ := Beyond(Disc(0, 0, 1), Region{}); !math.IsInf(most, -1) {
		t.Errorf("nothing reaches %v beyond a disc", most)
	}
	if most, _ := Beyond(Region{}, Disc(0, 0, 1)); !math.IsInf(most, 1) {
		t.Errorf("a disc reaches %v beyond nothing", most)
	}
	if most, at := Beyond(Disc(0, 0, 1), Disc(3, 4, 1)); !(math.Abs(most-5) <= 1e-12) || !(math.Abs(at-53.13010235415598) <= 1e-6) {
		t.Errorf("%v at %v, want 5 at that of the triangle of 3, 4 and 5", most, at)
	}
}

func TestKnownRegions(t *testing.T) {
	square := Hull(Point(1, 1), Point(-1, 1), Point(-1, -1), Point(1, -1))
	stadium := Sum(square, Disc(0, 0, 1))
	for _, c := range []struct {
		name       string
		got, want  float64
		difference float64
	}{
		{"square", square.Size(), 4, 1e-12},
		{"disc", Disc(3, -2, 2).Size(), 4 * math.Pi, 1e-12},
		{"rounded square", stadium.Size(), 4 + 8 + math.Pi, 1e-12},
		{"half disc", Arc(1, 0, 180, 0).Size(), math.Pi / 2, 1e-12},
		{"corner of the square", square.Distance(2, 2), math.Sqrt2, 1e-15},
		{"side of the square", square.Distance(0.25, 0.5), -0.5, 0},
		{"corner of the rounded square", stadium.Distance(3, 3), 2*math.Sqrt2 - 1, 1e-15},
		{"reach of the half disc", Arc(1, 0, 180, 0).Reach(-90), 0, 0},
		{"reach of the square at 405", square.Reach(405), math.Sqrt2, 1e-15},
		{"reach of the square at a tiny negative angle", square.Reach(-1e-300), 1, 0},
		{"to nothing", Region{}.Distance(0, 0), math.Inf(1), 0},
		{"reach of nothing", Region{}.Reach(0), math.Inf(-1), 0},
		{"size of nothing", Region{}.Size(), 0, 0},
	} {
		if c.got != c.want && !(math.Abs(c.got-c.want) <= c.difference) {
			t.Errorf("%s: %v, want %v", c.name, c.got, c.want)
		}
	}
	if !math.IsNaN(square.Distance(math.NaN(), 0)) || !math.IsNaN(square.Distance(0, math.NaN())) {
		t.Error("a point that is none has a distance")
	}
	if !Hull().Empty() || !Hull(Region{}, Region{}).Empty() || !Sum(Region{}, square).Empty() || !Sum(square, Region{}).Empty() {
		t.Error("nothing is not empty")
	}
	if Hull(Region{}, square).Size() != 4 || Hull(square, Region{}).Size() != 4 {
		t.Error("nothing adds to a hull")
	}
}

// A spiral against the involute that it is: discs that grow by rate along a circle have an
// envelope whose tangents all pass (180/pi) rate from the centre.
func TestSpiralTangents(t *testing.T) {
	const rate = 0.005
	r := Arc(1, 0, 270, rate)
	for a := 20.0; a < 250; a += 23 { // between 14 and 253 it is the spiral, beyond the last disc
		x, y := r.Edge(a)
		sin, cos := math.Sincos(a * math.Pi / 180)
		if across := y*cos - x*sin; !(math.Abs(across-rate*180/math.Pi) <= 1e-12) {
			t.Errorf("at %v the normal passes the centre at %v, want %v", a, across, rate*180/math.Pi)
		}
	}
}

func TestNothingPanics(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e300} {
		r := Hull(Arc(bad, 0, 90, 0.01), Disc(bad, 0, 1), Arc(1, 0, 90, bad), Sum(Point(0, bad), Disc(0, 0, 1)),
			Arc(1, bad, 90, 0), Arc(1, 0, bad, 0))
		_ = r.Distance(0, bad)
		_ = r.Size()
		_ = r.Reach(bad)
		n := 0
		for range r.Outline(bad) {
			if n++; n > 1000 {
				break
			}
		}
	}
}

func TestDistanceAllocatesNothing(t *testing.T) {
	r := Hull(Arc(1, 0, 270, 0.005), Disc(-5, 1, 2))
	if n := testing.AllocsPerRun(100, func() { _ = r.Distance(1, 2) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}
