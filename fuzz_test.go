package abeam_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/holdingfix/abeam"
)

func seeds(f *testing.F) {
	for _, s := range malformed {
		f.Add(s[:min(len(s), 500)])
	}
	for _, s := range []string{"070", "70.5°", "360", "-0", " 090 °", "12.5°E", "4 W", "180W", "118.5 kt", "4.5 NM", "6000 ft", "true", "magnetic"} {
		f.Add(s)
	}
}

// whole fails unless a refused text leaves an error in one short line.
func whole(t *testing.T, err error) {
	t.Helper()
	if _, ok := errors.AsType[*abeam.FieldError](err); !ok || !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("the error %v is no FieldError of ErrInvalid", err)
	}
	if message := err.Error(); len(message) > 400 || strings.ContainsAny(message, "\n\r\x00") {
		t.Errorf("the message is not one short line: %q", message)
	}
}

func FuzzParseBearing(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, s string) {
		b, err := abeam.ParseBearing(s)
		if err != nil {
			whole(t, err)
			if b != 0 {
				t.Errorf("%q was refused and gave %v", s, b)
			}
			return
		}
		if !(b >= 0 && b < 360) {
			t.Errorf("%q gave %v", s, float64(b))
		}
		if back, err := abeam.ParseBearing(b.String()); err != nil || !same(back, b) {
			t.Errorf("%q gave %v, read again %v, %v", s, b, back, err)
		}
	})
}

// Every type reads the same text: it is refused without a trace, or what was read
// is in range and reads back the same.
func FuzzUnmarshalText(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, s string) {
		refuzz[abeam.Bearing](t, s, 123, 0, below(360))
		refuzz[abeam.Degrees](t, s, 123, -inf, inf)
		refuzz[abeam.Knots](t, s, 123, -inf, inf)
		refuzz[abeam.NM](t, s, 123, -inf, inf)
		refuzz[abeam.Feet](t, s, 123, -inf, inf)
		refuzz[abeam.Variation](t, s, 123, -180, 180)

		north := abeam.North(200)
		if err := north.UnmarshalText([]byte(s)); err != nil {
			whole(t, err)
			if north != 200 {
				t.Errorf("%q was refused and gave %v", s, north)
			}
		} else if north.String() != s {
			t.Errorf("%q gave %v", s, north)
		}
	})
}

func refuzz[T textual, P reads[T]](t *testing.T, s string, start, lo, hi float64) {
	t.Helper()
	v := T(start)
	if err := P(&v).UnmarshalText([]byte(s)); err != nil {
		whole(t, err)
		if v != T(start) {
			t.Errorf("%T: %q was refused and gave %v", v, s, v)
		}
		return
	}
	x := float64(v)
	if !(x >= lo && x <= hi) || x-x != 0 {
		t.Errorf("%T: %q gave %v", v, s, x)
	}
	if back, err := roundTrip[T, P](v); err != nil || !same(back, x) {
		t.Errorf("%T: %q gave %v, read again %v, %v", v, s, x, back, err)
	}
}
