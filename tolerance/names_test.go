package tolerance

import (
	"errors"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
)

// Every value of a kind of name has one of its own, and what is none says so.
func TestNames(t *testing.T) {
	for what, tc := range map[string]struct {
		first, last int
		name        func(i int) string
		none        string
	}{
		"finding":  {1, int(Jump), func(i int) string { return Kind(i).String() }, "not a kind"},
		"item":     {0, items - 1, func(i int) string { return Item(i).String() }, "not an item"},
		"verdict":  {0, int(Beyond), func(i int) string { return Verdict(i).String() }, "not a verdict"},
		"quantity": {0, 8, func(i int) string { return Quantity(1 << i).String() }, "not a quantity"},
	} {
		seen := map[string]bool{}
		for i := tc.first; i <= tc.last; i++ {
			if n := tc.name(i); n == "" || n == tc.none || seen[n] {
				t.Errorf("%s %d: %q", what, i, n)
			}
			seen[tc.name(i)] = true
		}
		if got := tc.name(tc.last + 1); got != tc.none {
			t.Errorf("%s %d: %q", what, tc.last+1, got)
		}
	}
	if got := Kind(0).String(); got != "not a kind" {
		t.Error(got)
	}
	for _, q := range []Quantity{0, Time | Latitude} {
		if q.String() != "not a quantity" {
			t.Errorf("%d: %v", q, q)
		}
	}
}

// Names are read back, and what is none is refused by its field, leaving the value alone.
func TestNamesReadBack(t *testing.T) {
	for i := range Item(items) {
		text, err := i.MarshalText()
		got := Item(items)
		if err != nil || got.UnmarshalText(text) != nil || got != i {
			t.Errorf("%d: %q, %v, read back as %d", i, text, err, got)
		}
	}
	for v := NotJudged; v <= Beyond; v++ {
		text, err := v.MarshalText()
		got := Beyond + 1
		if err != nil || got.UnmarshalText(text) != nil || got != v {
			t.Errorf("%d: %q, %v, read back as %d", v, text, err, got)
		}
	}
	refused := func(err error, field string) {
		t.Helper()
		var e *abeam.FieldError
		if !errors.As(err, &e) || !errors.Is(err, abeam.ErrInvalid) || e.Field != field {
			t.Error(err)
		}
	}
	item, verdict := CourseItem, Within
	refused(item.UnmarshalText([]byte("Airspeed")), "item")
	refused(verdict.UnmarshalText([]byte("")), "verdict")
	text, err := Item(items).MarshalText()
	refused(err, "item")
	if item != CourseItem || verdict != Within || text != nil {
		t.Error(item, verdict, text)
	}
}

// Units belong to items; what is no item has none.
func TestUnitsOfItems(t *testing.T) {
	for i, want := range []string{"kt", "ft", "deg", "of full scale", "NM", "s", "NM", "s", "", ""} {
		if got := Item(i).Unit(); got != want {
			t.Errorf("%v: %q, want %q", Item(i), got, want)
		}
	}
	if got := (Judgement{Items: make([]ItemResult, 1)}).Item(1); got != (ItemResult{}) {
		t.Errorf("%+v", got)
	}
	if got := (Flown{}).Span(); got != (Span{}) {
		t.Errorf("%+v", got)
	}
}

// A finding tells its place as far as it has one, and how many more there are.
func TestFindingsInWords(t *testing.T) {
	for want, f := range map[string]Finding{
		"gap: 5s":                                         {Kind: Gap, Text: "5s"},
		"line 7: bad line: x":                             {Kind: BadLine, Line: 7, Text: "x"},
		"line 7, column 2: bad value: x":                  {Kind: BadValue, Line: 7, Column: 2, Text: "x"},
		"bad value: x":                                    {Kind: BadValue, Column: 2, Text: "x"},
		"jump: x (and 1 more of this kind)":               {Kind: Jump, Text: "x", More: 1},
		"line 1: duplicate: x (and 30 more of this kind)": {Kind: Duplicate, Line: 1, Text: "x", More: 30},
	} {
		if got := f.String(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// A stopwatch reads whole seconds, halves up, and no time below zero without its sign.
func TestClock(t *testing.T) {
	for d, want := range map[time.Duration]string{
		0: "0:00", 59 * time.Second: "0:59", time.Minute: "1:00", 61*time.Minute + 5*time.Second: "61:05", -7 * time.Second: "-0:07",
		-61 * time.Second: "-1:01", 499 * time.Millisecond: "0:00", 500 * time.Millisecond: "0:01", -time.Millisecond: "0:00",
	} {
		if got := Clock(d); got != want {
			t.Errorf("%v: %q, want %q", d, got, want)
		}
	}
	for angle, want := range map[abeam.Degrees]string{8: "8 right", -8.4: "8 left", 0.4: "nothing", -0.4: "nothing", 0.6: "1 right", -0.6: "1 left"} {
		if got := side(angle); got != want {
			t.Errorf("%v: %q, want %q", angle, got, want)
		}
	}
}

// The range of two is that of all their values, in either order; one of nothing adds nothing.
func TestRangesTogether(t *testing.T) {
	of := func(values ...float64) (r Range) {
		for _, x := range values {
			r.add(x)
		}
		return r
	}
	for _, tc := range [][3][]float64{
		{{1, 2, 6}, {-4, 5}, {1, 2, 6, -4, 5}}, {{1}, {1}, {1, 1}}, {{}, {3, 4}, {3, 4}}, {{3, 4}, {}, {3, 4}}, {{}, {}, {}}, {{-1, -2}, {-3}, {-1, -2, -3}},
	} {
		got, want := of(tc[0]...).With(of(tc[1]...)), of(tc[2]...)
		if got.N != want.N || got.Least != want.Least || got.Most != want.Most || abs(got.Mean-want.Mean) > 1e-12 {
			t.Errorf("%v with %v: %+v, want %+v", tc[0], tc[1], got, want)
		}
		sum := 0.0
		for _, x := range tc[2] {
			sum += x
		}
		if n := len(tc[2]); n > 0 && abs(want.Mean-sum/float64(n)) > 1e-12 {
			t.Errorf("mean of %v: %v", tc[2], want.Mean)
		}
	}
}
