package hold

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/draw"
)

// Each direction lies in one octant, and in two only halfway between points.
func TestOctants(t *testing.T) {
	for tenth := range 3600 {
		b := abeam.Bearing(float64(tenth) / 10)
		var in []Octant
		for o := North; o <= Northwest; o++ {
			if o.Contains(b) {
				in = append(in, o)
			}
		}
		want := 1
		if tenth%450 == 225 {
			want = 2
		}
		if len(in) != want || !slices.Contains(in, OctantOf(b)) {
			t.Errorf("%v: %v, nearest %v", b, in, OctantOf(b))
		}
	}
	for b, want := range map[abeam.Bearing]Octant{
		0: North, 359: North, 22.5: Northeast, 337.5: North, 22.4999: North, 180: South, 202.5: Southwest,
		abeam.Bearing(math.NaN()): 0, abeam.Bearing(math.Inf(1)): 0,
	} {
		if got := OctantOf(b); got != want {
			t.Errorf("%v: %v, want %v", float64(b), got, want)
		}
	}
	if Octant(0).Contains(0) || Octant(9).Contains(0) || Octant(9).String() != "none" || Octant(0).String() != "none" {
		t.Error("none is an octant")
	}
	rapid.Check(t, func(t *rapid.T) {
		b := draw.Bearing().Draw(t, "bearing")
		if o := OctantOf(b); !o.Contains(b) || OctantOf(b.Reciprocal()).Bearing() != o.Bearing().Reciprocal() {
			t.Fatalf("%v: %v, reciprocal %v", b, o, OctantOf(b.Reciprocal()))
		}
	})
}
