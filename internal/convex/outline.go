package convex

import (
	"iter"
	"math"
)

// closest is how near each other two points of an outline may be. Where an arc begins the
// reach changes with the square of the angle, so that its rounding, 1e-16, blurs the
// beginning by 1e-8: corners nearer than that may come in the wrong order.
const closest = 1e-7

// finest is the most chords of a piece, which spans at most a quarter turn.
const finest = 10_000

// Outline walks once round the edge, from where its normal points along x towards y and
// so on: points on the edge, such that the chord between two of them is nowhere more
// than sag within it, but no finer than finest points a piece. The last point is not the
// first again.
func (r Region) Outline(sag float64) iter.Seq2[float64, float64] {
	return func(yield func(x, y float64) bool) {
		first := true
		var x0, y0, lx, ly float64
		put := func(x, y float64) bool {
			if !first && math.Hypot(x-lx, y-ly) <= closest || !first && math.Hypot(x-x0, y-y0) <= closest {
				return true
			}
			if first {
				x0, y0, first = x, y, false
			}
			lx, ly = x, y
			return yield(x, y)
		}
		for i := range r.pieces {
			p := &r.pieces[i]
			to := end(r.pieces, i)
			radius := math.Max(p.c, p.c+p.e*(to-p.from))
			// The sagitta of a chord over an angle 2 b is radius (1 - cos b), at most radius b2/2.
			n := math.Ceil((to - p.from) * degree / math.Sqrt(8*sag/math.Max(radius, tie)))
			n = math.Min(math.Max(n, 1), finest)
			for k := 0.0; k <= n; k++ {
				if !put(p.edge(p.from + (to-p.from)*k/n)) {
					return
				}
			}
		}
	}
}

// Size is the area of the region, by Green's theorem: half of the integral round the edge
// of (reach times radius of curvature), which has a closed form on each piece, and half of
// the cross product of the ends of each straight line.
func (r Region) Size() float64 {
	var twice, x0, y0, x1, y1 float64
	for i := range r.pieces {
		p := &r.pieces[i]
		to := end(r.pieces, i)
		q := p.starting(to)
		slope := p.e / degree
		// The integral of radius times normal is -radius tangent + slope normal.
		ix := q.c*q.sin + slope*q.cos - p.c*p.sin - slope*p.cos
		iy := -q.c*q.cos + slope*q.sin + p.c*p.cos - slope*p.sin
		twice += p.x*ix + p.y*iy + (p.c*p.c+p.c*q.c+q.c*q.c)/3*(to-p.from)*degree
		x, y := p.edge(p.from)
		if i > 0 {
			twice += x1*y - y1*x
		} else {
			x0, y0 = x, y
		}
		x1, y1 = p.edge(to)
	}
	return (twice + x1*y0 - y1*x0) / 2
}
