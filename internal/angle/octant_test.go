package angle

import (
	"math"
	"testing"
)

// It is package math, to the last digit where the compiler does not fuse products and
// sums.
func TestOctantIsPackageMath(t *testing.T) {
	differ, n := 0, 0
	for x := -math.Pi / 4; x <= math.Pi/4; x += 1e-4 {
		s, c := octant(x)
		ws, wc := math.Sincos(x)
		if math.Abs(s-ws) > 1.2e-16 || math.Abs(c-wc) > 1.2e-16 {
			t.Errorf("%v radians: %v %v, want %v %v", x, s, c, ws, wc)
		}
		if n++; s != ws || c != wc {
			differ++
		}
	}
	if differ > 0 && !fused(math.Nextafter(1, 2)) {
		t.Errorf("%d of %d differ from package math in the last digit", differ, n)
	}
}

// fused reports whether the compiler fuses products and sums here, as it may on arm64 and
// from GOAMD64=v3 on: the rounding of the product is then what is left.
func fused(x float64) bool { return x*x+minusSquare(x) != 0 }

//go:noinline
func minusSquare(x float64) float64 { return -(x * x) }
