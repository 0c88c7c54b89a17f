package edges

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/holdingfix/abeam/internal/check"
)

// heard takes the place of a test and keeps what Check finds.
type heard struct {
	testing.TB
	said []string
}

func (h *heard) Helper() {}

func (h *heard) Errorf(format string, args ...any) {
	h.said = append(h.said, fmt.Sprintf(format, args...))
}

// ranged refuses what is outside of least to most, as it should or not quite.
func ranged(least, most float64) func(float64) error {
	return func(x float64) error { return check.Within("op", "field", x, least, most) }
}

func TestCheckFinds(t *testing.T) {
	below, above := math.Nextafter(1, 0), math.Nextafter(2, 3)
	for _, c := range []struct {
		name  string
		input Input
		want  []float64
	}{
		{"as documented", Real("op", "field", 1, 2, ranged(1, 2)), nil},
		{"lower end refused", Real("op", "field", 1, 2, ranged(math.Nextafter(1, 2), 2)), []float64{1}},
		{"upper end refused", Real("op", "field", 1, 2, ranged(1, math.Nextafter(2, 1))), []float64{2}},
		{"below accepted", Real("op", "field", 1, 2, ranged(below, 2)), []float64{below}},
		{"above accepted", Real("op", "field", 1, 2, ranged(1, above)), []float64{above}},
		{"whole", Whole("op", "field", 1, 20, ranged(0.5, 20.5)), nil},
		{"whole, neighbours accepted", Whole("op", "field", 1, 20, ranged(0, 21)), []float64{0, 21}},
		{"NaN accepted", Real("op", "field", 1, 2, func(x float64) error {
			if x != x {
				return nil
			}
			return ranged(1, 2)(x)
		}), []float64{math.NaN()}},
		{"another operation", Real("other", "field", 1, 2, ranged(1, 2)), []float64{below, above, math.NaN()}},
		{"another field", Real("op", "other", 1, 2, ranged(1, 2)), []float64{below, above, math.NaN()}},
	} {
		h := &heard{TB: t}
		Check(h, []Input{c.input})
		var want []string
		for _, x := range c.want {
			want = append(want, fmt.Sprintf("%s, %s of %v: %v", c.input.op, c.input.field, x, c.input.call(x)))
		}
		if !slices.Equal(h.said, want) {
			t.Errorf("%s: %q, want %q", c.name, h.said, want)
		}
	}
}
