package angle

import (
	"math"
	"runtime"
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
	if differ > 0 && runtime.GOARCH == "amd64" {
		t.Errorf("%d of %d differ from package math in the last digit", differ, n)
	}
}
