package convex

import (
	"math"

	"github.com/holdingfix/abeam/internal/angle"
)

// Reach is the support function: how far the region reaches from the origin in the
// direction a, in degrees.
func (r Region) Reach(a float64) float64 {
	p := r.find(&a)
	sin, cos := angle.Sincos(a)
	return p.x*cos + p.y*sin + p.c + p.e*(a-p.from)
}

// Edge is the point of the edge where the outward normal points to a.
func (r Region) Edge(a float64) (x, y float64) {
	p := r.find(&a)
	return p.edge(a)
}

// find reduces a to [0, 360) and gives its piece; of an empty region one without reach.
func (r Region) find(a *float64) *piece {
	*a = math.Mod(*a, 360)
	if *a < 0 {
		*a += 360
	}
	if *a >= 360 { // a tiny negative angle, rounded
		*a = 0
	}
	found := &nowhere
	for i := range r.pieces {
		if r.pieces[i].from > *a {
			break
		}
		found = &r.pieces[i]
	}
	return found
}

var nowhere = piece{c: math.Inf(-1), h: math.Inf(-1)}

// edge is the support times the normal and its slope times the tangent, which is the
// centre, the radius along the normal and the growth along the tangent.
func (p *piece) edge(a float64) (x, y float64) {
	sin, cos := angle.Sincos(a)
	radius, slope := p.c+p.e*(a-p.from), p.e/degree
	return p.x + radius*cos - slope*sin, p.y + radius*sin + slope*cos
}

// Beyond is the most that b reaches beyond a, and the first direction where it does: the greatest
// difference of their reaches, which is where a piece begins or the slope of the difference
// is nil. It is -Inf where b is empty, and +Inf where only a is.
func Beyond(a, b Region) (most, direction float64) {
	most = math.Inf(-1)
	switch {
	case b.Empty():
		return most, 0
	case a.Empty():
		return math.Inf(1), 0
	}
	for i, j, from := 0, 0, 0.0; from < 360; {
		p, q := b.pieces[j].starting(from), a.pieces[i].starting(from)
		i, j, from = next(a.pieces, b.pieces, i, j)
		d := gap{piece{from: p.from, x: p.x - q.x, y: p.y - q.y, c: p.c - q.c, e: p.e - q.e}}
		// The end of one cell is the beginning of the next.
		knots := d.knots(from)
		for _, at := range [3]float64{p.from, knots[0], knots[1]} {
			if f := d.at(at); f > most {
				most, direction = f, at
			}
		}
	}
	return most, math.Mod(direction, 360)
}

// Distance is how far (x, y) is outside the edge, negative inside: the greatest over
// all directions of how far the point lies beyond the region's reach there. For a point
// outside that is the distance to the nearest point, for one inside, less the distance to
// the nearest edge. It is +Inf for an empty region and NaN for a point that is not one.
//
// On a piece, d cos(a - b) - c - e (a - from), with d and b the distance and direction
// from its centre, is greatest at an end or where its slope is nil, sin(a - b) = -e/d.
func (r Region) Distance(x, y float64) float64 {
	if x != x || y != y {
		return math.NaN()
	}
	best := math.Inf(-1)
	if r.Empty() {
		return -best
	}
	for i := range r.pieces {
		p := &r.pieces[i]
		best = math.Max(best, x*p.cos+y*p.sin-p.h)
	}
	for i := range r.pieces {
		p := &r.pieces[i]
		to := end(r.pieces, i)
		dx, dy := x-p.x, y-p.y
		slope := p.e / degree
		square := dx*dx + dy*dy - slope*slope
		if !(square > 0) {
			continue
		}
		root := math.Sqrt(square)
		if root-math.Min(p.c, p.c+p.e*(to-p.from)) <= best {
			continue
		}
		a := angle.Atan2(dy, dx)
		if slope != 0 {
			a -= angle.Atan2(slope, root)
		}
		a -= p.from
		if a -= 360 * math.Floor(a/360); a <= to-p.from {
			best = math.Max(best, root-p.c-p.e*a)
		}
	}
	return best
}
