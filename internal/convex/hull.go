package convex

import (
	"math"

	"github.com/holdingfix/abeam/internal/angle"
)

// Hull is the smallest convex region around all of these: wherever two of them leave a
// gap their common tangent closes it. Of none, or of empty ones, it is empty.
func Hull(regions ...Region) Region {
	switch len(regions) {
	case 0:
		return Region{}
	case 1:
		return regions[0]
	}
	a, b := Hull(regions[:len(regions)/2]...), Hull(regions[len(regions)/2:]...)
	if a.Empty() {
		return b
	}
	if b.Empty() {
		return a
	}
	return Region{upper(a.pieces, b.pieces)}
}

// upper is the greater of two support functions, piece by piece.
func upper(a, b []piece) []piece {
	out := make([]piece, 0, len(a)+len(b))
	for i, j, from := 0, 0, 0.0; from < 360; {
		p, q := a[i].starting(from), b[j].starting(from)
		i, j, from = next(a, b, i, j)
		out = higher(out, p, q, from)
	}
	return out
}

// higher adds the greater of p and q, which begin together, up to `to`.
func higher(out []piece, p, q piece, to float64) []piece {
	d := gap{piece{from: p.from, x: p.x - q.x, y: p.y - q.y, c: p.c - q.c, e: p.e - q.e}}
	switch {
	case q.void() || d.tie():
		return appended(out, p)
	case p.void():
		return appended(out, q)
	}
	lo, at := p.from, d.at(p.from)
	for _, hi := range d.knots(to) {
		if !(hi > lo) {
			continue
		}
		then := d.at(hi)
		switch {
		case at > 0 && then < 0:
			root, _ := d.root(lo, hi)
			out = crossed(out, p.starting(lo), q.starting(root), to)
		case at < 0 && then > 0:
			root, _ := d.root(lo, hi)
			out = crossed(out, q.starting(lo), p.starting(root), to)
		case at+then >= 0:
			out = appended(out, p.starting(lo))
		default:
			out = appended(out, q.starting(lo))
		}
		lo, at = hi, then
	}
	return out
}

// crossed adds a piece and the one that takes over from it, if that is before the end.
func crossed(out []piece, a, b piece, to float64) []piece {
	out = appended(out, a)
	if b.from < to {
		out = appended(out, b)
	}
	return out
}

// gap is the difference of two pieces.
type gap struct{ piece }

// tie tells whether it is the same arc, computed in two ways.
func (d *gap) tie() bool {
	return math.Abs(d.x) <= tie && math.Abs(d.y) <= tie && math.Abs(d.c) <= tie && math.Abs(d.e) <= tie/90
}

func (d *gap) at(a float64) float64 {
	sin, cos := angle.Sincos(a)
	return d.x*cos + d.y*sin + d.c + d.e*(a-d.from)
}

// knots are where the slope -D sin(a - b) + e of the difference changes its sign before
// `to`, D and b being the size and the direction of (x, y), and `to` itself: between two
// of them the difference runs one way.
func (d *gap) knots(to float64) [3]float64 {
	size, slope := math.Hypot(d.x, d.y), d.e/degree
	if !(math.Abs(slope) < size) {
		return [3]float64{to, to, to}
	}
	s := angle.Asin(slope / size)
	b := angle.Atan2(d.y, d.x)
	first, second := d.within(b+s, to), d.within(b+180-s, to)
	return [3]float64{math.Min(first, second), math.Max(first, second), to}
}

// within is the angle brought after the beginning of the piece, at most to.
func (d *gap) within(a, to float64) float64 {
	a = d.from + math.Mod(a-d.from, 360)
	if a < d.from {
		a += 360
	}
	return math.Min(a, to)
}

// root is where the difference, which changes its sign once between lo and hi, is nil, and
// in how many steps that was found: Newton's steps, and halves where one would leave the
// bracket.
func (d *gap) root(lo, hi float64) (a float64, steps int) {
	up := d.at(hi) > 0
	a = (lo + hi) / 2
	for steps = range 64 {
		sin, cos := angle.Sincos(a)
		f := d.x*cos + d.y*sin + d.c + d.e*(a-d.from)
		if f > 0 == up {
			hi = a
		} else {
			lo = a
		}
		next := a - f/((d.y*cos-d.x*sin)*degree+d.e)
		if !(next >= lo && next <= hi) {
			next = (lo + hi) / 2
		}
		step := next - a
		a = next
		if math.Abs(step) < 1e-13 {
			break
		}
	}
	return a, steps
}
