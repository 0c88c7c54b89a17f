// Package near compares floating-point results in tests: go-cmp's own approximate
// comparison passes over defined float types in silence.
package near

import (
	"math"

	"github.com/google/go-cmp/cmp"
)

// Equal reports whether a and b differ by at most tol, or are both NaN, or the same
// infinity.
func Equal[T ~float64](a, b, tol T) bool {
	if x, y := float64(a), float64(b); x == y || math.IsNaN(x) && math.IsNaN(y) {
		return true
	}
	return math.Abs(float64(a-b)) <= float64(tol)
}

// Relative reports whether a and b differ by at most tol of the larger. An infinity
// is near nothing but itself.
func Relative[T ~float64](a, b T, tol float64) bool {
	larger := math.Max(math.Abs(float64(a)), math.Abs(float64(b)))
	if math.IsInf(larger, 0) {
		return a == b
	}
	return Equal(float64(a), float64(b), tol*larger)
}

// Angle reports whether two directions in degrees differ by at most tol, across
// north too.
func Angle[T ~float64](a, b T, tol float64) bool {
	return math.Abs(math.Remainder(float64(a-b), 360)) <= tol
}

// Comparer is a go-cmp option that compares every value of type T by Equal. Give
// one for each defined type that occurs.
func Comparer[T ~float64](tol T) cmp.Option {
	return cmp.Comparer(func(a, b T) bool { return Equal(a, b, tol) })
}
