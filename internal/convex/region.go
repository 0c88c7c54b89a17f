// Package convex is convex regions of the plane, each given by its support function:
// how far the region reaches in every direction.
//
// What an aeroplane may reach in a wind of unknown direction is a family of discs: a
// disc for each point of its track through the air, as wide as the wind carries it in
// the time flown so far. The support function of such a family is a maximum of
//
//	x cos a + y sin a + c + e a
//
// over a few pieces of a: a disc has e = 0, and discs that grow along an arc have a
// spiral. Hulls are maxima of such functions and Minkowski sums are their sums, so that
// both stay in the form, and the signed distance of a point is a closed form. Nothing
// that is made here can cross itself.
//
// Angles are in degrees from x towards y. The arguments are the caller's to check: NaN
// and infinities give a meaningless region, though never a panic.
package convex

import (
	"math"

	"github.com/holdingfix/abeam/internal/angle"
)

const degree = math.Pi / 180

// tie is how far apart the centres or radii of two arcs may be that count as one: what two
// ways of computing the same arc differ by shall make no piece of its own. It is some
// hundred times the rounding of a number below a hundred.
const tie = 1e-12

// Region is a closed convex region. The zero value holds no point: see [Hull].
type Region struct {
	pieces []piece
}

// piece is the support function between from and where the next piece begins, at most
// a quarter turn on: x cos a + y sin a + c + e (a - from).
type piece struct {
	from     float64
	x, y     float64 // the centre of its arc
	c        float64 // the radius of curvature at from
	e        float64 // what the radius gains per degree
	cos, sin float64 // of from
	h        float64 // the support at from
}

func newPiece(from, x, y, c, e float64) piece {
	sin, cos := angle.Sincos(from)
	return piece{from: from, x: x, y: y, c: c, e: e, cos: cos, sin: sin, h: x*cos + y*sin + c}
}

// starting is the same function, begun later.
func (p *piece) starting(from float64) piece {
	if from == p.from {
		return *p
	}
	return newPiece(from, p.x, p.y, p.c+p.e*(from-p.from), p.e)
}

// void is the piece of a function that is not there.
func (p *piece) void() bool { return math.IsInf(p.c, -1) }

// end is where piece i of ps ends.
func end(ps []piece, i int) float64 {
	if i+1 < len(ps) {
		return ps[i+1].from
	}
	return 360
}

// Empty tells whether the region holds no point.
func (r Region) Empty() bool { return len(r.pieces) == 0 }

// Disc is the disc about (x, y).
func Disc(x, y, radius float64) Region {
	ps := make([]piece, 4)
	for i := range ps {
		ps[i] = newPiece(float64(90*i), x, y, radius, 0)
	}
	return Region{ps}
}

// Point is the region of one point.
func Point(x, y float64) Region { return Disc(x, y, 0) }

// Arc is the hull of the discs about radius u(a), a running from `from` to `to` (not
// before it, and at most a full turn on), whose own radius grows from 0 by rate for
// every degree. A negative rate, which by itself has no meaning, is for a [Sum] whose
// other terms make up for it.
//
// The disc that reaches farthest in direction b is the one at a = b + s with
// sin s = rate (180/pi)/radius, where the slope of radius cos(a - b) + rate a is
// nil: a spiral. Where that a is not on the arc, it is the disc at one of the ends.
func Arc(radius, from, to, rate float64) Region {
	s0, c0 := angle.Sincos(from)
	s1, c1 := angle.Sincos(to)
	arc := Hull(Point(radius*c0, radius*s0), Disc(radius*c1, radius*s1, rate*(to-from)))
	slope := rate / degree
	if !(math.Abs(slope) < radius) {
		return arc
	}
	ahead := angle.Asin(slope / radius)
	spiral := piece{from: from - ahead, c: math.Sqrt((radius - slope) * (radius + slope)), e: rate}
	return Region{upper(arc.pieces, ring(spiral, to-ahead))}
}

// ring lays a function that is there between p.from and to, at most a full turn, round the
// circle: in at most two pieces, void elsewhere. The quarter turns it leaves to the function
// that it is compared with.
func ring(p piece, to float64) []piece {
	turns := 360 * math.Floor(p.from/360)
	p.from -= turns
	to -= turns
	var out []piece
	at := 0.0
	if to > 360 { // what lies past 360 comes first
		out = append(out, newPiece(0, p.x, p.y, p.c+p.e*(360-p.from), p.e))
		at = math.Min(to-360, p.from)
	}
	if at < p.from {
		out = append(out, piece{from: at, c: math.Inf(-1), h: math.Inf(-1)})
	}
	if to = math.Min(to, 360); p.from < to {
		out = append(out, newPiece(p.from, p.x, p.y, p.c, p.e))
	}
	if !(to >= 360) { // or is NaN: there is always a piece
		out = append(out, piece{from: to, c: math.Inf(-1), h: math.Inf(-1)})
	}
	return out
}

// Sum is the Minkowski sum: every point of a displaced by every point of b.
func Sum(a, b Region) Region {
	if a.Empty() || b.Empty() {
		return Region{}
	}
	out := make([]piece, 0, len(a.pieces)+len(b.pieces))
	for i, j, from := 0, 0, 0.0; from < 360; {
		p, q := a.pieces[i].starting(from), &b.pieces[j]
		p.x += q.x
		p.y += q.y
		p.c += q.c + q.e*(from-q.from)
		p.e += q.e
		p.h = p.x*p.cos + p.y*p.sin + p.c
		out = appended(out, p)
		i, j, from = next(a.pieces, b.pieces, i, j)
	}
	return Region{out}
}

// next steps to the nearer end of the two pieces.
func next(a, b []piece, i, j int) (int, int, float64) {
	ea, eb := end(a, i), end(b, j)
	to := math.Min(ea, eb)
	if ea == to {
		i++
	}
	if eb == to {
		j++
	}
	return i, j, to
}

// appended adds p unless it goes on with the last piece within the same quarter turn. A
// piece that would end where it began gives way.
func appended(out []piece, p piece) []piece {
	if n := len(out); n > 0 && out[n-1].from == p.from {
		out = out[:n-1]
	}
	if n := len(out); n > 0 && math.Mod(p.from, 90) != 0 {
		if l := &out[n-1]; l.x == p.x && l.y == p.y && l.e == p.e && math.Abs(l.c+l.e*(p.from-l.from)-p.c) <= tie {
			return out
		}
	}
	return append(out, p)
}

// Mirrored is the region with y turned round. A piece so narrow that 360 less its ends are
// one number vanishes.
func (r Region) Mirrored() Region {
	out := make([]piece, 0, len(r.pieces))
	for i := len(r.pieces) - 1; i >= 0; i-- {
		p := &r.pieces[i]
		to := end(r.pieces, i)
		if 360-to == 360-p.from {
			continue
		}
		out = append(out, newPiece(360-to, p.x, -p.y, p.c+p.e*(to-p.from), -p.e))
	}
	return Region{out}
}
