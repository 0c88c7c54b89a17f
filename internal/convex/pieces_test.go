package convex

import (
	"math"
	"testing"
)

// The crossing of two arcs is found in a few of Newton's steps, wherever in the bracket it
// lies, and is one: cos(a - b) + c + e (a - from) between the knots where its slope is nil.
func TestCrossingOfArcs(t *testing.T) {
	brackets := 0
	for _, from := range []float64{0, 90, 180, 270} {
		for b := 5.0; b < 360; b += 15 {
			for c := -0.95; c < 1; c += 0.1 {
				for _, e := range []float64{-0.01, -0.002, 0, 0.002, 0.01} {
					d := gap{piece{from: from, x: math.Cos(b * degree), y: math.Sin(b * degree), c: c, e: e}}
					lo := from
					for _, hi := range d.knots(from + 90) {
						if hi < from || hi > from+90 {
							t.Fatalf("a knot at %v", hi)
						}
						// The slope per radian is -sin(a - b) + e (180/pi).
						if slope := -math.Sin((hi-b)*degree) + e/degree; hi < from+90 && !(math.Abs(slope) <= 1e-12) {
							t.Fatalf("slope %v at the knot %v of %+v", slope, hi, d)
						}
						if d.at(lo)*d.at(hi) < 0 {
							brackets++
							at, steps := d.root(lo, hi)
							if !(at > lo && at < hi) || !(math.Abs(d.at(at)) <= 1e-14) || steps > 9 {
								t.Fatalf("between %v and %v a root of %v at %v after %d steps: %+v", lo, hi, d.at(at), at, steps, d)
							}
						}
						lo = hi
					}
				}
			}
		}
	}
	if brackets < 1000 {
		t.Errorf("only %d crossings", brackets)
	}
}

// Arcs that begin alike and grow apart are two: 1 + 0.01 x 45 at 45 degrees.
func TestSpiralFromACircle(t *testing.T) {
	grown := []piece{newPiece(0, 0, 0, 1, 0.01), newPiece(90, 0, 0, 1.9, -0.01), newPiece(180, 0, 0, 1, 0), newPiece(270, 0, 0, 1, 0)}
	for _, r := range []Region{{upper(Disc(0, 0, 1).pieces, grown)}, {upper(grown, Disc(0, 0, 1).pieces)}} {
		if got := r.Reach(45); !(math.Abs(got-1.45) <= 1e-15) {
			t.Errorf("reach at 45: %v", got)
		}
	}
}

// A piece that goes on with the one before is part of it, unless a quarter turn begins; what
// comes to lie within another region leaves no trace.
func TestPiecesJoin(t *testing.T) {
	small := Hull(Point(0.5, 0), Point(0, 0.5), Point(-0.5, 0), Point(0, -0.5)) // its sides begin at 45, 135 ...
	if len(small.pieces) != 8 {
		t.Fatalf("%d pieces of a square on its corner", len(small.pieces))
	}
	grown := Arc(3, 0, 270, 0.005)
	for name, r := range map[string]struct{ got, want Region }{
		"disc":              {Hull(Disc(1, 2, 9), small), Disc(1, 2, 9)},
		"spiral":            {Hull(grown, small), grown},
		"spiral after":      {Hull(small, grown), grown},
		"itself":            {Hull(small, small), small},
		"itself and a disc": {Hull(small, Disc(1, 2, 9), small, grown, small), Hull(Disc(1, 2, 9), grown)},
		"nothing added":     {Sum(grown, Point(0, 0)), grown},
		"added to nothing":  {Sum(Point(0, 0), grown), grown},
	} {
		if len(r.got.pieces) != len(r.want.pieces) {
			t.Errorf("%s: %d pieces, want %d", name, len(r.got.pieces), len(r.want.pieces))
			continue
		}
		for i, p := range r.got.pieces {
			if w := r.want.pieces[i]; !(math.Abs(p.from-w.from) <= 1e-9) || !(math.Abs(p.h-w.h) <= 1e-12) {
				t.Errorf("%s: piece %d %+v, want %+v", name, i, p, w)
			}
		}
	}
	// Radii of 1 and 0.5 about centres 4 apart: two pieces that differ in radius alone where
	// the centres lie on one line of y, none of them joined.
	if a, b := Hull(Disc(0, -2, 1), Disc(0, 2, 0.5)), Hull(Disc(-2, 0, 1), Disc(2, 0, 0.5)); len(a.pieces) != 6 || len(b.pieces) != 6 {
		t.Errorf("%d and %d pieces", len(a.pieces), len(b.pieces))
	}
	// Two that begin at one angle: the second counts.
	if got := appended(appended(appended(nil, newPiece(0, 0, 0, 1, 0)), newPiece(10, 0, 0, 2, 0)), newPiece(10, 0, 0, 3, 0)); len(got) != 2 || got[1].c != 3 {
		t.Errorf("%+v", got)
	}
}

// What takes over at the end of the piece does so in the next one; a little before, in this.
func TestCrossedAtTheEnd(t *testing.T) {
	for from, want := range map[float64]int{90: 1, math.Nextafter(90, 0): 2} {
		if got := crossed(nil, newPiece(0, 0, 0, 1, 0), newPiece(from, 0, 0, 2, 0), 90); len(got) != want {
			t.Errorf("taken over at %v: %+v", from, got)
		}
	}
}

// An arc without radius whose discs do not grow is the origin; where they grow it is the last
// of them, 0.01 x 90 about it.
func TestArcWithoutRadius(t *testing.T) {
	for rate, want := range map[float64]float64{0: 0, 0.01: 0.9} {
		r := Arc(0, 10, 100, rate)
		for a := 0.0; a < 360; a += 15 {
			if got := r.Reach(a); !(math.Abs(got-want) < 1e-15) {
				t.Errorf("growing by %v it reaches %v at %v, want %v", rate, got, a, want)
			}
		}
	}
}

// The area of a spiral region is the same wherever it lies.
func TestSizeOfDisplaced(t *testing.T) {
	spiral := Arc(1, 0, 230, 0.005)
	want := spiral.Size()
	for _, by := range [][2]float64{{7, 0}, {-7, 0}, {0, 5}, {0, -5}} {
		if got := Sum(spiral, Point(by[0], by[1])).Size(); !(math.Abs(got-want) <= 1e-12) {
			t.Errorf("%v, and displaced by %v %v", want, by, got)
		}
	}
}

// Sums of spirals with what has its pieces elsewhere, either way round: radii add.
func TestSumOfSpirals(t *testing.T) {
	square := Hull(Point(1, 0), Point(0, 1), Point(-1, 0), Point(0, -1))
	spiral := Arc(1, 0, 270, 0.005)
	for _, sum := range []Region{Sum(square, spiral), Sum(spiral, square)} {
		for a := 0.0; a < 360; a += 5 {
			if d := sum.Reach(a) - square.Reach(a) - spiral.Reach(a); !(math.Abs(d) <= 1e-12) {
				t.Errorf("at %v the sum is %v off", a, d)
			}
		}
	}
}

// Round the circle the pieces follow each other whatever the beginning and the span, and are
// there from the one to the other only.
func TestRing(t *testing.T) {
	for _, from := range []float64{-400, -360, -90, -10, 0, 10, 90, 180, 350, 360, 400} {
		for _, span := range []float64{0, 10, 90, 180, 350, 360} {
			pieces := ring(piece{from: from, x: 1, y: 2, c: 3, e: 0.01}, from+span)
			for i, p := range pieces {
				if i == 0 && p.from != 0 || !(end(pieces, i) > p.from) {
					t.Fatalf("from %v by %v: %+v", from, span, pieces)
				}
				if mid := (p.from + end(pieces, i)) / 2; !p.void() {
					after := math.Mod(mid-from+1080, 360) // degrees along
					if got := p.c + p.e*(mid-p.from); after > span || !(math.Abs(got-3-0.01*after) <= 1e-12) {
						t.Errorf("from %v by %v: a radius of %v at %v", from, span, got, mid)
					}
				} else if after := math.Mod(mid-from+1080, 360); after < span {
					t.Errorf("from %v by %v: nothing at %v", from, span, mid)
				}
			}
		}
	}
}

// 360 less an angle of 90 and less the next number above 90 is one number: mirrored, what
// lies between has no width.
func TestMirroredNarrow(t *testing.T) {
	narrow := math.Nextafter(90, 91)
	r := Region{[]piece{newPiece(0, 0, 0, 1, 0), newPiece(90, 0, 0, 1, 0), newPiece(narrow, 0, 0, 1, 0), newPiece(180, 0, 0, 1, 0), newPiece(270, 0, 0, 1, 0)}}
	m := r.Mirrored()
	if len(m.pieces) != 4 {
		t.Errorf("%d pieces", len(m.pieces))
	}
	for i, p := range m.pieces {
		if p.from != float64(90*i) {
			t.Errorf("piece %d from %v", i, p.from)
		}
	}
}

// Where a corner's turn begins the edge is where the turn begins, of a tiny negative angle
// too, for which the nearest number to a full turn more is a full turn.
func TestEdgeAtTheBeginning(t *testing.T) {
	square := Hull(Point(1, 1), Point(-1, 1), Point(-1, -1), Point(1, -1))
	for _, a := range []float64{0, 360, -360, -1e-300, 89} {
		if x, y := square.Edge(a); x != 1 || y != 1 {
			t.Errorf("edge at %v: %v, %v", a, x, y)
		}
	}
}

// Concentric discs: the same everywhere, and the first direction counts, as it does of the two
// ends of a stroke from (0, -1) to (0, 1), which reaches |sin a| beyond the origin.
func TestBeyondFirst(t *testing.T) {
	if most, at := Beyond(Disc(3, 4, 1), Disc(3, 4, 3)); !(math.Abs(most-2) <= 1e-14) || at != 0 {
		t.Errorf("%v at %v", most, at)
	}
	spiral := Arc(1, 0, 270, 0.005) // by what is added to it: a disc reaches as far everywhere
	if most, _ := Beyond(spiral, Sum(spiral, Disc(0, 0, 0.5))); !(math.Abs(most-0.5) <= 1e-14) {
		t.Errorf("a disc of a half added to a spiral reaches %v beyond it", most)
	}
	if most, at := Beyond(Point(0, 0), Hull(Point(0, -1), Point(0, 1))); most != 1 || at != 90 {
		t.Errorf("%v at %v, want 1 at 90", most, at)
	}
}

// What differs by the tolerance is one arc, and by the next number above it two: centres and
// radii, and growths by what makes as much of a quarter turn.
func TestTie(t *testing.T) {
	above := math.Nextafter(tie, 1)
	for name, c := range map[string]struct{ at, past piece }{
		"x": {piece{x: tie}, piece{x: above}},
		"y": {piece{y: -tie}, piece{y: -above}},
		"c": {piece{c: tie}, piece{c: above}},
		"e": {piece{e: -tie / 90}, piece{e: -math.Nextafter(tie/90, 1)}},
	} {
		if d := (gap{c.at}); !d.tie() {
			t.Errorf("%s: %+v is no tie", name, d)
		}
		if d := (gap{c.past}); d.tie() {
			t.Errorf("%s: %+v is a tie", name, d)
		}
	}
	// From radius 0 on, so that the difference of the radii is the second, unrounded.
	for radius, want := range map[float64]int{tie: 1, above: 2, -tie: 1, -above: 2} {
		if got := appended([]piece{newPiece(0, 1, 2, 0, 0)}, newPiece(10, 1, 2, radius, 0)); len(got) != want {
			t.Errorf("a radius of %v makes %d pieces, want %d", radius, len(got), want)
		}
	}
}

// The knots of a gap whose size is not 1, by hand: 4 cos a + 2 a, a in radians, has the slope
// -4 sin a + 2, nil where sin a is a half, at 30 degrees and at 150. Turned round the origin
// it has them as much further on.
func TestKnots(t *testing.T) {
	for turned, want := range map[float64][2]float64{0: {30, 150}, 40: {70, 190}, -60: {90, 330}} {
		d := gap{piece{x: 4 * math.Cos(turned*degree), y: 4 * math.Sin(turned*degree), e: 2 * degree}}
		got := d.knots(360)
		if !(math.Abs(got[0]-want[0]) <= 1e-12) || !(math.Abs(got[1]-want[1]) <= 1e-12) || got[2] != 360 {
			t.Errorf("turned by %v: %v, want %v and the end", turned, got, want)
		}
	}
	// Too steep to turn: 4 cos a + 5 a only rises.
	if d := (gap{piece{x: 4, e: 5 * degree}}); d.knots(90) != [3]float64{90, 90, 90} {
		t.Errorf("knots %v of what has none", d.knots(90))
	}
}

// Mirrored spirals shrink along the way, and the distance to them is that of the mirrored
// point.
func TestDistanceToMirrored(t *testing.T) {
	r := Sum(Arc(1, 20, 290, 0.005), Disc(0.5, 0.2, 0.1))
	m := r.Mirrored()
	for x := -3.0; x <= 3; x += 0.25 {
		for y := -3.0; y <= 3; y += 0.25 {
			if a, b := r.Distance(x, y), m.Distance(x, -y); !(math.Abs(a-b) <= 1e-12) {
				t.Errorf("(%v, %v): %v, mirrored %v", x, y, a, b)
			}
		}
	}
}

func outline(r Region, sag float64) (at [][2]float64) {
	for x, y := range r.Outline(sag) {
		at = append(at, [2]float64{x, y})
	}
	return at
}

// The corners of a square about the origin, in order; two points as near as corners may be
// are one, and a little farther two.
func TestOutlineOfPoints(t *testing.T) {
	square := Hull(Point(1, 1), Point(-1, 1), Point(-1, -1), Point(1, -1))
	got := outline(square, 1e-3)
	if len(got) != 4 || got[0] != [2]float64{1, 1} || got[1] != [2]float64{-1, 1} || got[2] != [2]float64{-1, -1} || got[3] != [2]float64{1, -1} {
		t.Errorf("%v", got)
	}
	for apart, want := range map[float64]int{closest: 1, math.Nextafter(closest, 1): 2, 1e-9: 1, 1: 2} {
		if got := outline(Hull(Point(0, 0), Point(-apart, 0)), 1e-3); len(got) != want {
			t.Errorf("%v apart: %v", apart, got)
		}
		// The last of three as far from the first.
		if got := outline(Hull(Point(0, 0), Point(-1, 1), Point(-1, -1), Point(0, -apart)), 1e-3); len(got) != want+2 {
			t.Errorf("last %v from the first: %v", apart, got)
		}
		// The second and the third.
		if got := outline(Hull(Point(1, -1), Point(0, 0), Point(-apart, 0)), 1e-3); len(got) != want+1 {
			t.Errorf("second %v from the third: %v", apart, got)
		}
	}
}

// No chord cuts off more than the sag, and on every piece one cuts off nearly as much: there
// are no more points than needed. A disc of 2 with a sag of a hundredth: sqrt(8 x 0.01 / 2) is
// 0.2 of a radian, so 8 chords a quarter turn.
func TestOutlineIsNoFinerThanNeeded(t *testing.T) {
	if got := outline(Disc(7, -3, 2), 0.01); len(got) != 32 {
		t.Errorf("%d points round a disc", len(got))
	}
	const sag = 1e-6
	r := Arc(1, 0, 270, 0.005)
	worst := make([]float64, len(r.pieces))
	at := outline(r, sag)
	for i, p := range at {
		q := at[(i+1)%len(at)]
		normal := math.Mod(math.Atan2(p[0]-q[0], q[1]-p[1])/degree+360, 360)
		for k := range r.pieces {
			if normal > r.pieces[k].from && normal < end(r.pieces, k) {
				worst[k] = max(worst[k], -r.Distance((p[0]+q[0])/2, (p[1]+q[1])/2))
			}
		}
	}
	for k, p := range r.pieces {
		if worst[k] > sag || p.c > 0.5 && end(r.pieces, k)-p.from > 5 && worst[k] < 0.9*sag {
			t.Errorf("piece %d from %v to %v cuts off %v", k, p.from, end(r.pieces, k), worst[k])
		}
	}
}
