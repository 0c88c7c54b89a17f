package abeam_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/internal/near"
)

func TestVariationCross(t *testing.T) {
	const tr, mag = abeam.True, abeam.Magnetic
	for _, c := range []struct {
		v        abeam.Variation
		b        abeam.Bearing
		from, to abeam.North
		want     abeam.Bearing
	}{
		// "Variation east, magnetic least" (common practice).
		{12, 100, tr, mag, 88}, {12, 88, mag, tr, 100}, {-12, 100, tr, mag, 112}, {-12, 112, mag, tr, 100},
		{0, 100, tr, mag, 100}, {12, 5, tr, mag, 353}, {12, 353, mag, tr, 5}, {-12, 355, tr, mag, 7},
		{12, 0, mag, tr, 12}, {12, 12, tr, mag, 0},
		{12, 100, tr, tr, 100}, {12, 100, mag, mag, 100}, {12, 360, mag, mag, 0}, {12, -10, tr, tr, 350},
		{180, 10, tr, mag, 190}, {-180, 10, tr, mag, 190}, {180, 10, mag, tr, 190}, {-180, 10, mag, tr, 190},
	} {
		got, err := c.v.Cross(c.b, c.from, c.to)
		if err != nil || !same(got, c.want) {
			t.Errorf("variation %v: %v from %v to %v is %v, %v, want %v", c.v, c.b, c.from, c.to, got, err, c.want)
		}
	}
}

func TestVariationCrossErrors(t *testing.T) {
	const tr, mag = abeam.True, abeam.Magnetic
	for _, c := range []struct {
		v        float64
		b        float64
		from, to abeam.North
		field    string
	}{
		{12, 100, 0, mag, "from"}, {12, 100, 3, mag, "from"}, {12, 100, tr, 0, "to"}, {12, 100, mag, 255, "to"},
		{12, 100, 0, 0, "from"}, // the same unsaid north is no crossing either
		{nan, 100, tr, mag, "variation"}, {inf, 100, tr, mag, "variation"}, {-inf, 100, tr, mag, "variation"},
		{above(180), 100, tr, mag, "variation"}, {below(-180), 100, mag, tr, "variation"},
		{nan, 100, tr, tr, "variation"}, // a variation that is not needed is still judged
		{12, nan, tr, mag, "bearing"}, {12, inf, mag, tr, "bearing"}, {12, -inf, tr, tr, "bearing"},
	} {
		got, err := abeam.Variation(c.v).Cross(abeam.Bearing(c.b), c.from, c.to)
		var fe *abeam.FieldError
		if !errors.As(err, &fe) || !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("variation %v, %v from %v to %v: got %v, %v", c.v, c.b, c.from, c.to, got, err)
			continue
		}
		if got != 0 || fe.Field != c.field || fe.Op != "abeam.Variation.Cross" {
			t.Errorf("got %v with the error %v, want the field %q", got, err, c.field)
		}
	}
}

func TestVariationThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, b := draw.Variation().Draw(t, "v"), draw.Bearing().Draw(t, "b")
		m, err := v.Cross(b, abeam.True, abeam.Magnetic)
		if err != nil || m != v.Magnetic(b) {
			t.Fatalf("Cross gave %v, %v, Magnetic %v", m, err, v.Magnetic(b))
		}
		back, err := v.Cross(m, abeam.Magnetic, abeam.True)
		if err != nil || back != v.True(m) {
			t.Fatalf("Cross gave %v, %v, True %v", back, err, v.True(m))
		}
		if !near.Angle(back, b, math.Ldexp(1, -43)) {
			t.Fatalf("variation %v: %v true, %v magnetic, %v true", v, b, m, back)
		}
		// East variation: the magnetic figure is the smaller.
		if d := float64(b.Sub(m)); !near.Angle(d, float64(v), math.Ldexp(1, -43)) {
			t.Fatalf("variation %v: true %v less magnetic %v is %v", v, b, m, d)
		}
	})
}

func TestVariationString(t *testing.T) {
	for _, c := range []struct {
		in   abeam.Variation
		want string
	}{{12.5, "12.5°E"}, {-4, "4°W"}, {0, "0°"}, {abeam.Variation(minusZero), "0°"}, {-180, "180°W"}, {abeam.Variation(nan), "NaN°"}} {
		if got := c.in.String(); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

func TestVariationUnmarshalText(t *testing.T) {
	for _, c := range []struct {
		in   string
		want abeam.Variation
	}{
		{"12.5°E", 12.5}, {"4W", -4}, {"4 W", -4}, {" 4° W ", -4}, {"0", 0}, {"0°", 0}, {"0W", 0}, {"0E", 0}, {"-0", 0},
		{"180E", 180}, {"180W", -180}, {"012E", 12},
	} {
		var got abeam.Variation
		if err := got.UnmarshalText([]byte(c.in)); err != nil || !same(got, c.want) {
			t.Errorf("%q read as %v, %v, want %v", c.in, float64(got), err, float64(c.want))
		}
	}
}
