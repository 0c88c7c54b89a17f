package main

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// newton finds where f vanishes from a start, by Newton's method with a difference
// Jacobian: f puts its values at x into y. It gives NaN where it finds nothing.
func newton(x []float64, f func(x, y []float64)) []float64 {
	n := len(x)
	y, up, down := make([]float64, n), make([]float64, n), make([]float64, n)
	jac := mat.NewDense(n, n, nil)
	for range 50 {
		f(x, y)
		for col := range x {
			at := x[col]
			d := 1e-5 * (1 + math.Abs(at))
			x[col] = at + d
			f(x, up)
			x[col] = at - d
			f(x, down)
			x[col] = at
			for row := range y {
				jac.Set(row, col, (up[row]-down[row])/(2*d))
			}
		}
		var step mat.VecDense
		if err := step.SolveVec(jac, mat.NewVecDense(n, y)); err != nil {
			break
		}
		size := 0.0
		for i := range x {
			x[i] -= step.AtVec(i)
			size = math.Max(size, math.Abs(step.AtVec(i)))
		}
		if size < 1e-9 {
			return x
		}
	}
	for i := range x {
		x[i] = math.NaN()
	}
	return x
}
