package area

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

var baseTurn = Design{IAS: 140, Altitude: 6000, Outbound: 2 * time.Minute}

func baseTurnSI() Design {
	return Design{IAS: 260 / 1.852, Altitude: 1850 / 0.3048, Outbound: 2 * time.Minute}
}

func written(lines []Line) string {
	var b strings.Builder
	for _, l := range lines {
		fmt.Fprintf(&b, "%s %v %s %s\n", l.Name, l.Value, l.Unit, l.Class)
	}
	return b.String()
}

// Every line of the published example, to its last digit.
//
// Source: ICAO Doc 8168 Vol II (2006, amendment 1) table I-4-3-App C-1, PUBLISHED.
func TestBookGivesThePublishedExample(t *testing.T) {
	for units, c := range map[Units]struct {
		design    Design
		published map[string]float64
	}{
		NonSI: {baseTurn, map[string]float64{
			"K": 1.1231, "V": 157.23, "v": 0.0437, "R": 3.24, "R used": 3, "r": 0.83, "w": 59, "w'": 0.0164,
			"E": 0.00546, "t": 120, "L": 5.24,
		}},
		SI: {baseTurnSI(), map[string]float64{
			"K": 1.1244, "V": 292.34, "R": 3.23, "R used": 3, "r": 1.55, "w": 109.2,
		}},
	} {
		lines, err := c.design.Book(units)
		if err != nil {
			t.Fatal(err)
		}
		found := 0
		for _, l := range lines {
			want, ok := c.published[l.Name]
			if !ok {
				continue
			}
			found++
			if l.Value != want || l.Class != Published {
				t.Errorf("%v, %s: %v, published %v (%s)", units, l.Name, l.Value, want, l.Class)
			}
		}
		if found != len(c.published) {
			t.Errorf("%v: %d lines of %d", units, found, len(c.published))
		}
	}
}

// The lines after L, with the formulas as remembered, worked by hand from the rounded values
// above: MEMORY.
func TestBookTemplate(t *testing.T) {
	lines, err := baseTurn.Book(NonSI)
	if err != nil {
		t.Fatal(err)
	}
	const want = `K 1.1231  published
V 157.23 kt published
v 0.0437 NM/s published
R 3.24 deg/s published
R used 3 deg/s published
r 0.83 NM published
h 6 1000 ft published
w 59 kt published
w' 0.0164 NM/s published
E 0.00546 NM/deg published
t 120 s published
L 5.24 NM published
ab 0.22 NM from memory
ac 0.48 NM from memory
gi1 5.03 NM from memory
gi2 6.16 NM from memory
E45 0.246 NM from memory
Wb 0.08 NM from memory
Wc 0.18 NM from memory
Wd 0.43 NM from memory
We 0.67 NM from memory
Wf 0.92 NM from memory
Wg 1.16 NM from memory
Wh 1.06 NM from memory
Wo 1.31 NM from memory
Wp 1.56 NM from memory
Wi1 3.05 NM from memory
Wi2 3.28 NM from memory
Wi2 by time flown 3.48 NM derived
Wj 3.53 NM from memory
Wk 3.77 NM from memory
Wm 4.02 NM from memory
Wn3 4.03 NM from memory
Wn4 4.26 NM from memory
XE 11.02 NM from memory
YE 5.16 NM from memory
`
	if got := written(lines); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// A leg with a length: XE and YE by the published formulas, worked by hand with r 2.16,
// D 4.38, v 0.0731, R 1.94 and w' 0.0186.
func TestBookOfALength(t *testing.T) {
	lines, err := Design{IAS: 220, Altitude: 10000, Length: 4.38}.Book(NonSI)
	if err != nil {
		t.Fatal(err)
	}
	const want = `K 1.1958  published
V 263.08 kt published
v 0.0731 NM/s published
R 1.94 deg/s published
R used 1.94 deg/s published
r 2.16 NM published
h 10 1000 ft published
w 67 kt published
w' 0.0186 NM/s published
E 0.00959 NM/deg published
L 4.38 NM published
XE 11.78 NM published
YE 5.26 NM published
`
	if got := written(lines); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	for name, formula := range map[string]string{
		"R": "3431 tan 25/(pi V)", "w": "2 h + 47", "L": "given", "XE": "2 r + D + 11 v + (22 + 195/R) w'",
	} {
		if got := lineOf(lines, name).Formula; got != formula {
			t.Errorf("%s: %q", name, got)
		}
	}
}

func lineOf(lines []Line, name string) Line {
	for _, l := range lines {
		if l.Name == name {
			return l
		}
	}
	return Line{}
}

// What is given and not the book's goes into the calculation and says so.
func TestBookOfWhatIsGiven(t *testing.T) {
	lines, err := Design{IAS: 200, Altitude: 8000, Wind: 30, Bank: 20, StandardDay: true}.Book(SI)
	if err != nil {
		t.Fatal(err)
	}
	k, err := wind.DesignFactor(8000, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []struct {
		name, formula string
		value, tol    float64
	}{
		{"K", "conversion of IAS to TAS", k, 2e-4},
		{"R", "6355 tan 20/(pi V)", 6355 * math.Tan(math.Pi/9) / (math.Pi * k * 370.4), 0.01},
		{"w", "given", 55.6, 1e-9}, // 55.56 rounded
		{"h", "altitude/1000", 2.44, 1e-9},
		{"t", "60 times the minutes", 60, 1e-9},
	} {
		if got := lineOf(lines, want.name); got.Formula != want.formula || math.Abs(got.Value-want.value) > want.tol {
			t.Errorf("%+v, want %+v", got, want)
		}
	}
	lines, err = Design{IAS: 200, Altitude: 8000, Calm: true}.Book(NonSI)
	if w := lineOf(lines, "w"); err != nil || w.Value != 0 || w.Formula != "given" {
		t.Errorf("%+v, %v", w, err)
	}
}

// The column in metric units is the other one: 6355 and 3431 are 180 g, and a line in km is
// its line in NM times 1.852 within the rounding of the two, a unit of the last digit times
// what the next lines multiply it by; the winds differ by 0.5 kt at 20,000 ft.
func TestTheColumnsAgree(t *testing.T) {
	const g = 9.80665
	if a, b := 180*g*3600/1852, 180*g*3.6; math.Round(a) != 3431 || math.Round(b) != 6355 || math.Abs(a-3431.27) > 0.005 || math.Abs(b-6354.71) > 0.005 {
		t.Errorf("%v, %v", a, b)
	}
	for _, d := range []Design{baseTurn, {IAS: 220, Altitude: 10000}, {IAS: 230, Altitude: 13999, Length: 7}, {IAS: 265, Altitude: 30000}} {
		nm, err := d.Book(NonSI)
		if err != nil {
			t.Fatal(err)
		}
		km, err := d.Book(SI)
		if err != nil {
			t.Fatal(err)
		}
		if len(nm) != len(km) {
			t.Fatalf("%d and %d lines", len(nm), len(km))
		}
		for i := range nm {
			a, b := nm[i], km[i]
			factor := 1.0
			switch a.Unit {
			case "kt", "NM", "NM/s", "NM/deg":
				factor = 1.852
			case "1000 ft":
				factor = 0.3048
			}
			if gap := math.Abs(a.Value*factor - b.Value); a.Name != b.Name || gap > 0.012*math.Abs(b.Value)+0.012 {
				t.Errorf("%v %s: %v %s, %s: %v %s", d, a.Name, a.Value, a.Unit, b.Name, b.Value, b.Unit)
			}
		}
	}
}

// The unrounded lines are the book's within what rounding does to them, but for those that
// follow from Wi2.
func TestLinesAreTheBookUnrounded(t *testing.T) {
	for _, d := range []Design{baseTurn, {IAS: 170, Altitude: 2000}, {IAS: 220, Altitude: 10000}, {IAS: 240, Altitude: 20000}} {
		book, err := d.Book(NonSI)
		if err != nil {
			t.Fatal(err)
		}
		l, err := d.Lines()
		if err != nil {
			t.Fatal(err)
		}
		short := abeam.NM(12 * l.W)
		leg := l.Time.Seconds()
		for name, want := range map[string]struct {
			exact abeam.NM
			tol   float64
		}{
			// v and w' are good to 5e-5, R to 0.005, E to 5e-6 and R's share of it.
			"ab": {l.AB, 0.006}, "ac": {l.AC, 0.006}, "gi1": {l.GI1, 0.006 + leg*5e-5}, "gi2": {l.GI2, 0.006 + (leg+21)*5e-5},
			"Wb": {l.Wb, 0.006}, "Wc": {l.Wc, 0.006}, "Wd": {l.Wd, 0.013}, "We": {l.We, 0.015}, "Wf": {l.Wf, 0.017}, "Wg": {l.Wg, 0.02},
			"Wh": {l.Wh, 0.02}, "Wo": {l.Wo, 0.022}, "Wp": {l.Wp, 0.025},
			"Wi1": {l.Wi1, 0.03}, "Wi2": {l.Wi2 - short, 0.035}, "Wi2 by time flown": {l.Wi2, 0.035},
			"Wj": {l.Wj - short, 0.04}, "Wk": {l.Wk - short, 0.04}, "Wm": {l.Wm - short, 0.045},
			"Wn3": {l.Wn3, 0.045}, "Wn4": {l.Wn4 - short, 0.05}, "XE": {l.XE, 0.06}, "YE": {l.YE, 0.04},
		} {
			if got := lineOf(book, name); math.Abs(got.Value-float64(want.exact)) > want.tol {
				t.Errorf("%v %s: book %v, exact %v", d, name, got.Value, want.exact)
			}
		}
	}
}

func TestRoundDecimal(t *testing.T) {
	for _, c := range []struct {
		x        float64
		decimals int
		want     float64
	}{
		{1.1231 * 150, 2, 168.47}, // 168.465, in binary a little below
		{0.125, 2, 0.13}, {0.1249999, 2, 0.12}, {2.5, 0, 3}, {2.49999, 0, 2}, {-0.125, 2, -0.13}, {109.2, 1, 109.2},
	} {
		if got := roundDecimal(c.x, c.decimals); got != c.want {
			t.Errorf("%v to %d: %v, want %v", c.x, c.decimals, got, c.want)
		}
	}
}

// A table with rows of four decimals, at 500 m or 1000 ft: on a row it is the formula
// rounded, between two rows their share. The formula at 1,850 m gives 1.1243, printed is 1.1244.
func TestFactorIsInterpolated(t *testing.T) {
	si, err := SI.column("")
	if err != nil {
		t.Fatal(err)
	}
	nm, err := NonSI.column("")
	if err != nil {
		t.Fatal(err)
	}
	formula := func(metres float64) float64 {
		k, err := wind.DesignFactor(abeam.Feet(metres/0.3048), 15)
		if err != nil {
			t.Fatal(err)
		}
		return roundDecimal(k, 4)
	}
	for _, c := range []struct {
		col    column
		metres float64
		want   float64
	}{
		{nm, 6000 * 0.3048, formula(6000 * 0.3048)},
		{nm, 6250 * 0.3048, 0.75*formula(6000*0.3048) + 0.25*formula(7000*0.3048)},
		{si, 1850, 0.3*formula(1500) + 0.7*formula(2000)},
		{si, -100, 0.2*formula(-500) + 0.8*formula(0)},
		{nm, 65617 * 0.3048, formula(65617 * 0.3048)},
	} {
		b := book{column: c.col}
		if got := b.factor(c.metres, 15); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%v m: %v, want %v", c.metres, got, c.want)
		}
	}
	if k := formula(1850); k != 1.1243 {
		t.Errorf("the formula gives %v", k)
	}
}

func TestBookErrors(t *testing.T) {
	for name, c := range map[string]struct {
		design Design
		units  Units
		field  string
	}{
		"units":      {baseTurn, 2, "units"},
		"design":     {Design{Altitude: 6000}, NonSI, "IAS"},
		"allowances": {Design{IAS: 140, Altitude: 6000, Allowances: Allowances{None: true}}, SI, "allowances"},
		"too slow":   {Design{IAS: 0.5, Altitude: 0, Calm: true}, NonSI, "TAS"},
	} {
		lines, err := c.design.Book(c.units)
		wantFieldError(t, name, err, abeam.ErrInvalid, "area.Design.Book", c.field)
		if lines != nil {
			t.Errorf("%s: %v with the error", name, lines)
		}
	}
	if lines, err := (Design{IAS: 1, Calm: true}).Book(SI); err != nil || lineOf(lines, "v").Value != 0.0005 {
		t.Errorf("%v, %v", lines, err)
	}
}

func wantFieldError(t *testing.T, name string, err, kind error, op, field string) {
	t.Helper()
	var f *abeam.FieldError
	if !errors.Is(err, kind) || !errors.As(err, &f) || f.Op != op || f.Field != field || f.Limit == "" {
		t.Errorf("%s: %v", name, err)
	}
}

func TestUnitsString(t *testing.T) {
	for u, want := range map[Units]string{NonSI: "kt, NM, ft", SI: "km/h, km, m", 2: "not units"} {
		if got := u.String(); got != want {
			t.Errorf("%d: %q", u, got)
		}
	}
	if hold.StandardRate != 3 { // the rate to which the book holds R
		t.Error(hold.StandardRate)
	}
}
