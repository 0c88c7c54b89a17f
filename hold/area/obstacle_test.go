package area

import (
	"math"
	"testing"

	"github.com/holdingfix/abeam"
)

// The steps and both sides of each; the feet are those of the metres.
func TestObstacleClearance(t *testing.T) {
	past := func(x float64) abeam.NM { return abeam.NM(math.Nextafter(x, 10)) }
	for _, c := range []struct {
		beyond       abeam.NM
		flat, height float64
	}{
		{-20, 300, 600}, {0, 300, 600}, {past(0), 300, 300}, {1, 300, 300}, {past(1), 150, 150}, {2, 150, 150},
		{past(2), 120, 120}, {3, 120, 120}, {past(3), 90, 90}, {4, 90, 90}, {past(4), 60, 60}, {5, 60, 60},
		{past(5), 0, 0}, {1000, 0, 0},
	} {
		for mountainous, want := range map[bool]float64{false: c.flat, true: c.height} {
			got, err := ObstacleClearance(c.beyond, mountainous)
			if err != nil || got.Metres != want || math.Abs(got.Feet.Metres()-want) > 1e-9 {
				t.Errorf("%v, mountainous %v: %+v, %v", c.beyond, mountainous, got, err)
			}
		}
	}
	if BufferWidth != 5 {
		t.Error(BufferWidth)
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		got, err := ObstacleClearance(abeam.NM(bad), true)
		wantFieldError(t, "distance", err, abeam.ErrInvalid, "area.ObstacleClearance", "distance")
		if got != (MOC{}) {
			t.Errorf("%+v with the error", got)
		}
	}
}
