package abeam_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/draw"
)

// The short ways round a turn are the long way to the last digit.
func TestReductionIsExact(t *testing.T) {
	check := func(t interface{ Errorf(string, ...any) }, x float64) {
		want := math.Mod(x, 360)
		if want < 0 {
			want += 360
		}
		if want == 360 {
			want = 0
		}
		if got := float64(abeam.NewBearing(x)); got != want || math.Signbit(got) {
			t.Errorf("NewBearing(%v) = %v, want %v", x, got, want)
		}
		want = math.Remainder(x, 360)
		if want == -180 {
			want = 180
		}
		if got := float64(abeam.NewDegrees(x)); got != want {
			t.Errorf("NewDegrees(%v) = %v, want %v", x, got, want)
		}
	}
	for edge := -1080.0; edge <= 1080; edge += 90 {
		check(t, edge)
		check(t, math.Nextafter(edge, math.Inf(1)))
		check(t, math.Nextafter(edge, math.Inf(-1)))
	}
	check(t, math.Copysign(0, -1))
	rapid.Check(t, func(t *rapid.T) {
		check(t, draw.Uniform(-1000, 1000).Draw(t, "degrees"))
	})
}
