package abeam_test

import (
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/draw"
)

// textual is what every type with a unit can do.
type textual interface {
	~float64
	fmt.Stringer
	encoding.TextMarshaler
	encoding.TextAppender
}

type reads[T any] interface {
	*T
	encoding.TextUnmarshaler
}

// roundTrip gives what v becomes through text; all the written forms must agree.
func roundTrip[T textual, P reads[T]](v T) (float64, error) {
	text, err := v.MarshalText()
	if err != nil {
		return 0, err
	}
	if s := v.String(); s != string(text) {
		return 0, fmt.Errorf("String %q, MarshalText %q", s, text)
	}
	appended, err := v.AppendText([]byte("at "))
	if err != nil || string(appended) != "at "+string(text) {
		return 0, fmt.Errorf("AppendText gave %q, %v", appended, err)
	}
	if !utf8.Valid(text) {
		return 0, fmt.Errorf("%q is not UTF-8", text)
	}
	var back T
	if err := P(&back).UnmarshalText(text); err != nil {
		return 0, err
	}
	return float64(back), nil
}

// numbers are the types that are a float64 with a unit.
var numbers = []struct {
	name, field, op, limit string
	roundTrip              func(float64) (float64, error)
	holds                  func(float64) bool // the value is in the range of the type
	unmarshal              func(string) (changed bool, err error)
	bad                    []string
}{
	{
		"Bearing", "bearing", "abeam.ParseBearing", "a number from 0 to 360, in degrees",
		func(x float64) (float64, error) { return roundTrip[abeam.Bearing](abeam.Bearing(x)) },
		func(x float64) bool { return x >= 0 && x < 360 },
		unmarshals[abeam.Bearing](123),
		[]string{"361", "-1", "360.00000000000006", "-0.0000001", "090E", "90 kt", "361\n", "361." + strings.Repeat("0", 1<<16)},
	},
	{
		"Degrees", "angle", "abeam.Degrees.UnmarshalText", "a finite number, in °",
		func(x float64) (float64, error) { return roundTrip[abeam.Degrees](abeam.Degrees(x)) },
		func(float64) bool { return true },
		unmarshals[abeam.Degrees](-12),
		[]string{"5 kt", "5 deg", "5E"},
	},
	{
		"Knots", "speed", "abeam.Knots.UnmarshalText", "a finite number, in kt",
		func(x float64) (float64, error) { return roundTrip[abeam.Knots](abeam.Knots(x)) },
		func(float64) bool { return true },
		unmarshals[abeam.Knots](120),
		[]string{"5 ft", "5 KT", "5 kts", "5 kt kt", "5 km/h"},
	},
	{
		"NM", "distance", "abeam.NM.UnmarshalText", "a finite number, in NM",
		func(x float64) (float64, error) { return roundTrip[abeam.NM](abeam.NM(x)) },
		func(float64) bool { return true },
		unmarshals[abeam.NM](4.5),
		[]string{"5 ft", "5 nm", "5 NMNM", "5 km"},
	},
	{
		"Feet", "height", "abeam.Feet.UnmarshalText", "a finite number, in ft",
		func(x float64) (float64, error) { return roundTrip[abeam.Feet](abeam.Feet(x)) },
		func(float64) bool { return true },
		unmarshals[abeam.Feet](6000),
		[]string{"5 NM", "5 FT", "FL60", "5'"},
	},
	{
		"Variation", "variation", "abeam.Variation.UnmarshalText", "a size from 0 to 180 degrees followed by E or W",
		func(x float64) (float64, error) { return roundTrip[abeam.Variation](abeam.Variation(x)) },
		func(x float64) bool { return x >= -180 && x <= 180 && !same(x, minusZero) },
		unmarshals[abeam.Variation](-7),
		[]string{"12N", "12", "-12", "-12E", "181E", "180.00000000000003W", "12EE", "12EW", "E", "W", "°E", "12e", "12 kt", "E12", "abcE", "NaNW", "infE"},
	},
}

// unmarshals makes a reader of texts into a value that must survive a bad one.
func unmarshals[T comparable, P reads[T]](start T) func(string) (bool, error) {
	return func(text string) (bool, error) {
		v := start
		err := P(&v).UnmarshalText([]byte(text))
		return v != start, err
	}
}

func TestTextRoundTrip(t *testing.T) {
	specials := []float64{
		0, minusZero, 1, -1, 0.1, 0.3, 70, 110.7, 179.95, 180, -180, 359.9, 1e-20, -1e-20, 1e22, 1.0 / 3,
		above(0), below(0), below(180), above(180), above(-180), below(360), above(360),
		math.MaxFloat64, -math.MaxFloat64, 0x1p-1022, 123456.789,
	}
	for _, n := range numbers {
		tried := 0
		for _, x := range specials {
			if !n.holds(x) || n.name == "Bearing" && same(x, minusZero) {
				continue
			}
			tried++
			if got, err := n.roundTrip(x); err != nil || !same(got, x) {
				t.Errorf("%s(%v) came back as %v, %v", n.name, x, got, err)
			}
		}
		if tried < 10 {
			t.Errorf("%s: only %d values tried", n.name, tried)
		}
		t.Run(n.name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				x := rapid.OneOf(draw.Angle(), draw.Finite()).Filter(n.holds).Draw(t, "x") + 0
				if got, err := n.roundTrip(x); err != nil || !same(got, x) {
					t.Fatalf("%s(%v) came back as %v, %v", n.name, x, got, err)
				}
			})
		})
	}
}

// What is out of range is reduced (a bearing) or has no sign (zero), and is then
// read back as the same direction.
func TestTextReduces(t *testing.T) {
	for _, c := range []struct{ in, want float64 }{{360, 0}, {minusZero, 0}, {-90, 270}, {1e17, 280}} {
		if got, err := roundTrip[abeam.Bearing](abeam.Bearing(c.in)); err != nil || !same(got, c.want) {
			t.Errorf("Bearing(%v) came back as %v, %v, want %v", c.in, got, err, c.want)
		}
	}
	if got, err := roundTrip[abeam.Variation](abeam.Variation(minusZero)); err != nil || !same(got, 0) {
		t.Errorf("a variation of -0 came back as %v, %v", got, err)
	}
}

func TestTextRejectsNotFinite(t *testing.T) {
	for _, x := range []float64{nan, inf, -inf} {
		for _, c := range []struct {
			v     encoding.TextAppender
			op    string
			field string
			limit string
		}{
			{abeam.Bearing(x), "abeam.Bearing.AppendText", "bearing", "finite"},
			{abeam.Degrees(x), "abeam.Degrees.AppendText", "angle", "finite"},
			{abeam.Knots(x), "abeam.Knots.AppendText", "speed", "finite"},
			{abeam.NM(x), "abeam.NM.AppendText", "distance", "finite"},
			{abeam.Feet(x), "abeam.Feet.AppendText", "height", "finite"},
			{abeam.Variation(x), "abeam.Variation.AppendText", "variation", "from -180 to 180"},
		} {
			_, err := c.v.AppendText(nil)
			wantFieldError(t, err, c.op, c.field, c.limit)
			if text, err := c.v.(encoding.TextMarshaler).MarshalText(); text != nil || !errors.Is(err, abeam.ErrInvalid) {
				t.Errorf("%T(%v) marshalled to %q, %v", c.v, x, text, err)
			}
		}
	}
	for _, x := range []float64{above(180), below(-180)} {
		_, err := abeam.Variation(x).AppendText(nil)
		wantFieldError(t, err, "abeam.Variation.AppendText", "variation", "from -180 to 180")
	}
}

var malformed = []string{
	"", " ", "abc", "0x10", "0b1", "0o7", "1e3", "1E3", "1_0", "inf", "+Inf", "-Inf", "infinity", "NaN", "nan",
	"--1", "+-1", "1.2.3", ".", "-", "+", "1,5", "1 2", "1-2", "\x00", "7\x00", "\xff\xfe", "one\ntwo",
	"٣", "１２", "½", "°", "kt", "ft", "NM", "not said", "TRUE", "true\n",
	strings.Repeat("9", 400), strings.Repeat("x", 40), strings.Repeat("x", 41), strings.Repeat("x", 1<<20), strings.Repeat("é", 1<<10),
}

func TestMalformedText(t *testing.T) {
	for _, n := range numbers {
		for _, text := range append(n.bad, malformed...) {
			changed, err := n.unmarshal(text)
			if changed {
				t.Errorf("%s: %.40q was refused but changed the value", n.name, text)
			}
			wantFieldError(t, err, n.op, n.field, n.limit)
			wantGiven(t, err, text)
		}
	}
	north := unmarshals[abeam.North](abeam.Magnetic)
	for _, text := range append([]string{"True", "t", "0", "1", "grid"}, malformed...) {
		changed, err := north(text)
		if changed {
			t.Errorf("North: %.40q was refused but changed the value", text)
		}
		wantFieldError(t, err, "abeam.North.UnmarshalText", "north", "true or magnetic")
		wantGiven(t, err, text)
	}
}

// wantGiven fails unless the error quotes the text, or its start where it is long.
func wantGiven(t *testing.T, err error, text string) {
	t.Helper()
	want := fmt.Sprintf("%q", text)
	if len(text) > 40 {
		want = fmt.Sprintf("%q", text[:40]+"...")
	}
	if fe, ok := errors.AsType[*abeam.FieldError](err); ok && fe.Value != want {
		t.Errorf("the error holds %v, want %s", fe.Value, want)
	}
}

// everything is a value of each type, as an application would store it.
type everything struct {
	Course    abeam.Bearing
	Turn      abeam.Degrees
	Speed     abeam.Knots
	Leg       abeam.NM
	Height    abeam.Feet
	Variation abeam.Variation
	North     abeam.North
}

func TestJSON(t *testing.T) {
	in := everything{70.5, -12.25, 118, 4.5, 6000, -4, abeam.Magnetic}
	text, err := json.Marshal(in)
	if err != nil {
		t.Fatal(err)
	}
	const want = `{"Course":"070.5°","Turn":"-12.25°","Speed":"118 kt","Leg":"4.5 NM","Height":"6000 ft","Variation":"4°W","North":"magnetic"}`
	if diff := cmp.Diff(want, string(text)); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	var out everything
	if err := json.Unmarshal(text, &out); err != nil || out != in {
		t.Errorf("came back as %+v, %v", out, err)
	}

	for _, bad := range []everything{{North: 0}, {North: abeam.True, Speed: abeam.Knots(nan)}, {North: abeam.True, Variation: 181}} {
		if text, err := json.Marshal(bad); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("%+v became %s, %v", bad, text, err)
		}
	}
	out = in
	if err := json.Unmarshal([]byte(`{"Course":"400"}`), &out); !errors.Is(err, abeam.ErrInvalid) || out != in {
		t.Errorf("got %+v, %v", out, err)
	}
}

func TestJSONRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := everything{
			Course:    draw.Bearing().Draw(t, "course"),
			Turn:      draw.Degrees().Draw(t, "turn"),
			Speed:     abeam.Knots(draw.Finite().Draw(t, "speed")),
			Leg:       abeam.NM(draw.Finite().Draw(t, "leg")),
			Height:    abeam.Feet(draw.Finite().Draw(t, "height")),
			Variation: draw.Variation().Draw(t, "variation"),
			North:     rapid.SampledFrom([]abeam.North{abeam.True, abeam.Magnetic}).Draw(t, "north"),
		}
		text, err := json.Marshal(in)
		if err != nil {
			t.Fatal(err)
		}
		var out everything
		if err := json.Unmarshal(text, &out); err != nil || out != in {
			t.Fatalf("%s came back as %+v, %v", text, out, err)
		}
	})
}
