package near

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Test support that passes everything would hide every defect: each comparison is
// shown to fail as well.
func TestEqual(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	for _, c := range []struct {
		a, b, tol float64
		want      bool
	}{
		{1, 1, 0, true}, {1, 1.25, 0.25, true}, {1, 1.25, 0.24, false}, {1.25, 1, 0.24, false}, {0, math.Copysign(0, -1), 0, true},
		{nan, nan, 0, true}, {nan, 1, 1e9, false}, {1, nan, inf, false}, {inf, inf, 0, true}, {inf, -inf, 1e9, false}, {inf, 1, 1e9, false},
	} {
		if got := Equal(c.a, c.b, c.tol); got != c.want {
			t.Errorf("Equal(%v, %v, %v) is %v", c.a, c.b, c.tol, got)
		}
	}
}

func TestRelative(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	for _, c := range []struct {
		a, b, tol float64
		want      bool
	}{
		{100, 101, 0.01, true}, {100, 102, 0.01, false}, {102, 100, 0.01, false}, {-100, 100, 0.01, false}, {0, 0, 0, true},
		{0, 1e-300, 0.01, false}, {inf, inf, 0, true}, {inf, -inf, 1, false}, {inf, 1, 0.01, false}, {1, -inf, 0.01, false},
		{nan, nan, 0, true}, {nan, 1, 1, false}, {nan, inf, 1, false},
	} {
		if got := Relative(c.a, c.b, c.tol); got != c.want {
			t.Errorf("Relative(%v, %v, %v) is %v", c.a, c.b, c.tol, got)
		}
	}
}

func TestAngle(t *testing.T) {
	for _, c := range []struct {
		a, b, tol float64
		want      bool
	}{
		{359, 1, 2, true}, {359, 1, 1.9, false}, {1, 359, 2, true}, {0, 720, 0, true}, {0, 180, 179, false}, {-180, 180, 0, true},
		{math.NaN(), 1, 360, false}, {math.Inf(1), 1, 360, false},
	} {
		if got := Angle(c.a, c.b, c.tol); got != c.want {
			t.Errorf("Angle(%v, %v, %v) is %v", c.a, c.b, c.tol, got)
		}
	}
}

type knots float64

func TestComparer(t *testing.T) {
	type leg struct{ Speed knots }
	if diff := cmp.Diff(leg{100}, leg{100.4}, Comparer[knots](0.5)); diff != "" {
		t.Error(diff)
	}
	if cmp.Equal(leg{100}, leg{100.6}, Comparer[knots](0.5)) {
		t.Error("a difference beyond the tolerance passed")
	}
}
