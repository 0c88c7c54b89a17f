package oracle

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// Ending says by how much a circuit misses what its leg is given by: 0 when it ends there.
type Ending func(h Hold, a Answer) float64

// SolveUntil finds the circuit whose leg has the given ending, with the inbound time
// (Hold.Inbound, here only a start) as a third unknown beside the angle of the outbound
// turn and the outbound time: Newton's method with a difference Jacobian on the miss at
// the end and the ending. The wind is brought up from calm in steps of a tenth of the
// airspeed, halved where Newton's method loses its way: on this machine or that by its rounding.
func (h Hold) SolveUntil(ending Ending) (Hold, Answer, error) {
	a := Answer{InboundHeading: h.Course, Turn: 180, Straight: h.Inbound}
	solved := h
	step := 1 / (math.Ceil(10*h.WindSpeed/h.TAS) + 1)
	for share := 0.0; share < 1; {
		next := math.Min(1, share+step)
		partial := solved
		partial.WindSpeed = h.WindSpeed * next
		heading, err := partial.crab(a.InboundHeading)
		if err != nil {
			return Hold{}, Answer{}, err
		}
		partial, answer, err := partial.newtonUntil(Answer{InboundHeading: heading, Turn: a.Turn, Straight: a.Straight}, ending)
		if err != nil {
			if step /= 2; step < 1e-3 {
				return Hold{}, Answer{}, err
			}
			continue
		}
		solved, a, share = partial, answer, next
	}
	return solved, a, nil
}

// crab finds the inbound heading by Newton's method on the across-course velocity.
func (h Hold) crab(heading float64) (float64, error) {
	c := h.Course * math.Pi / 180
	across := func(heading float64) float64 {
		n, e := h.displacement(heading, 0, 1)
		return e*math.Cos(c) - n*math.Sin(c)
	}
	for range 20 {
		const d = 1e-4
		step := across(heading) / ((across(heading+d) - across(heading-d)) / (2 * d))
		heading -= step
		if math.Abs(step) < 1e-11 {
			return heading, nil
		}
	}
	return 0, ErrNoConvergence
}

func (h Hold) newtonUntil(a Answer, ending Ending) (Hold, Answer, error) {
	miss := func(turn, straight, inbound float64) (m [3]float64) {
		h, a := h, a
		a.Turn, a.Straight, h.Inbound = turn, straight, inbound
		m[0], m[1] = h.miss(a)
		m[2] = ending(h, a)
		return m
	}
	x := [3]float64{a.Turn, a.Straight, h.Inbound}
	for range 40 {
		const d = 1e-3
		at := miss(x[0], x[1], x[2])
		jac := mat.NewDense(3, 3, nil)
		for col := range x {
			up, down := x, x
			up[col] += d
			down[col] -= d
			mu, md := miss(up[0], up[1], up[2]), miss(down[0], down[1], down[2])
			for row := range at {
				jac.Set(row, col, (mu[row]-md[row])/(2*d))
			}
		}
		var step mat.VecDense
		if err := step.SolveVec(jac, mat.NewVecDense(3, at[:])); err != nil {
			return Hold{}, Answer{}, err
		}
		size := 0.0
		for i := range x {
			x[i] -= step.AtVec(i)
			size = math.Max(size, math.Abs(step.AtVec(i)))
		}
		if size < 1e-9 {
			a.Turn, a.Straight, h.Inbound = x[0], x[1], x[2]
			return h, a, nil
		}
	}
	return Hold{}, Answer{}, ErrNoConvergence
}

// Along is how far along the course a place lies from the fix, in NM.
func (h Hold) Along(north, east float64) float64 {
	s, c := math.Sincos(h.Course * math.Pi / 180)
	return north*c + east*s
}

// AbeamAfter is the time from wings level outbound to abeam the fix on the outbound
// leg, going on straight.
func (h Hold) AbeamAfter(a Answer) float64 {
	p := h.Pieces(a)[1]
	n, e := h.displacement(p.Heading, 0, 1)
	return -h.Along(p.North, p.East) / h.Along(n, e)
}

// Range is the ground distance at which the outbound leg ends from a place on the course.
func (h Hold) Range(a Answer, along float64) float64 {
	p := h.Pieces(a)[2]
	s, c := math.Sincos(h.Course * math.Pi / 180)
	return math.Hypot(p.North-along*c, p.East-along*s)
}
