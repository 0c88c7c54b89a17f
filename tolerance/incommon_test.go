package tolerance

import (
	"math"
	"testing"
)

// What neighbours have in common, by hand: 1 and twice the correlations up to the first lag
// at which there is none, of a quarter of the figures at most.
func TestInCommon(t *testing.T) {
	repeat := func(n int, pattern ...float64) (r []float64) {
		for i := range n {
			r = append(r, pattern[i%len(pattern)])
		}
		return r
	}
	for name, tc := range map[string]struct {
		r    []float64
		want float64
	}{
		"nothing":          {repeat(16, 0), 1},
		"up and down":      {repeat(16, 1, -1), 1},
		"of any size":      {repeat(16, 3, -3), 1},
		"none at once":     {repeat(16, 2, 0), 1},
		"two up, two down": {repeat(17, 1, 1, -1, -1), 1}, // 8 products up, 8 down
		// 16 figures: at the first lag 8 up, 7 down, over 16.
		"one in common": {repeat(16, 1, 1, -1, -1), 1 + 2.0/16},
		// Lags 1 to 3 of a quarter of 16: 15, 14 and 13 of 16 in common.
		"all the same":         {repeat(16, 2), 1 + 2*(15.0+14+13)/16},
		"a quarter of 15 is 3": {repeat(15, 1), 1 + 2*(14.0+13)/15},
		"three":                {repeat(3, 1), 1},
		"eight":                {repeat(8, 1), 1 + 2*7.0/8},
	} {
		if got := inCommon(tc.r); math.Abs(got-tc.want) > 1e-12 {
			t.Errorf("%s: %v, want %v", name, got, tc.want)
		}
	}
}
