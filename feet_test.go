package abeam_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/internal/near"
)

func TestFeet(t *testing.T) {
	for _, c := range []struct {
		in         abeam.Feet
		metres, nm float64
	}{
		// The foot is 0.3048 m and the mile 1,852 m by definition.
		{0, 0, 0}, {10_000, 3048, 3048.0 / 1852}, {-1000, -304.8, -304.8 / 1852},
		{abeam.FeetPerNM, 1852, 1}, {1000 * abeam.FeetPerNM, 1_852_000, 1000},
	} {
		if got := c.in.Metres(); !near.Relative(got, c.metres, 2.3e-16) {
			t.Errorf("%v is %v m, want %v m", c.in, got, c.metres)
		}
		if got := float64(c.in.NM()); !near.Relative(got, c.nm, 4.5e-16) {
			t.Errorf("%v is %v NM, want %v NM", c.in, got, c.nm)
		}
	}
	for _, x := range []float64{nan, inf, -inf} {
		f := abeam.Feet(x)
		if m, n := f.Metres(), float64(f.NM()); !near.Equal(m, x, 0) || !near.Equal(n, x, 0) {
			t.Errorf("%v ft is %v m, %v NM", x, m, n)
		}
	}
}

func TestFeetTwoWaysToMetres(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := abeam.Feet(draw.Uniform(-2000, 60_000).Draw(t, "f"))
		if direct, byNM := f.Metres(), f.NM().Metres(); !near.Relative(direct, byNM, 6e-16) {
			t.Fatalf("%v is %v m, by way of miles %v m", f, direct, byNM)
		}
	})
}

func TestFeetString(t *testing.T) {
	for _, c := range []struct {
		in   abeam.Feet
		want string
	}{{6000, "6000 ft"}, {0, "0 ft"}, {-12.5, "-12.5 ft"}, {abeam.Feet(math.Inf(-1)), "-Inf ft"}} {
		if got := c.in.String(); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}
