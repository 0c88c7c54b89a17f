package abeam_test

import (
	"math"
	"testing"

	"github.com/holdingfix/abeam"
)

func TestNMMetres(t *testing.T) {
	for _, c := range []struct {
		in   abeam.NM
		want float64
	}{
		// 1,852 m by definition, and binary fractions of it.
		{0, 0}, {1, 1852}, {0.5, 926}, {0.25, 463}, {-2, -3704}, {100, 185200},
		{abeam.NM(inf), inf}, {abeam.NM(-inf), -inf},
	} {
		if got := c.in.Metres(); got != c.want {
			t.Errorf("%v is %v m, want %v m", c.in, got, c.want)
		}
	}
	if got := abeam.NM(nan).Metres(); !math.IsNaN(got) {
		t.Errorf("NaN is %v m", got)
	}
}

func TestNMString(t *testing.T) {
	for _, c := range []struct {
		in   abeam.NM
		want string
	}{{4.5, "4.5 NM"}, {0, "0 NM"}, {-0.25, "-0.25 NM"}, {abeam.NM(nan), "NaN NM"}} {
		if got := c.in.String(); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}
