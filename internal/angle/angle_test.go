package angle

import (
	"math"
	"runtime"
	"testing"
)

// Exact at the quarter turns, without negative zeros, and right between.
func TestSincos(t *testing.T) {
	for q := -9; q <= 9; q++ {
		want := [4][2]float64{{0, 1}, {1, 0}, {0, -1}, {-1, 0}}[q&3]
		s, c := Sincos(float64(90 * q))
		if s != want[0] || c != want[1] || s == 0 && math.Signbit(s) || c == 0 && math.Signbit(c) {
			t.Errorf("%d degrees: %v %v, want %v", 90*q, s, c, want)
		}
	}
	for deg := -1000.0; deg < 1000; deg += 0.37 {
		s, c := Sincos(deg)
		ws, wc := math.Sincos(deg * math.Pi / 180)
		if math.Abs(s-ws) > 1e-14 || math.Abs(c-wc) > 1e-14 {
			t.Errorf("%v degrees: %v %v, want %v %v", deg, s, c, ws, wc)
		}
	}
	// Within an eighth of a turn it is package math, to the last digit where the
	// compiler does not fuse products and sums.
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
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if s, c := Sincos(x); !math.IsNaN(s) || !math.IsNaN(c) {
			t.Errorf("%v degrees: %v %v", x, s, c)
		}
	}
}
