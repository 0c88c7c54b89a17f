package area

import (
	"fmt"
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/wind"
)

// Class is the kind of evidence of a line.
type Class string

// The classes of a [Line].
const (
	Published Class = "published"   // in the worked example or a formula that was read
	Memory    Class = "from memory" // recalled of the book
	Derived   Class = "derived"     // worked here
)

// Line is one line of the book's calculation.
type Line struct {
	Name    string
	Formula string
	Value   float64 // rounded, and so carried on
	Unit    string
	Class   Class
}

// Book carries the calculation of the template as the book does: line by line, each value
// rounded to the digits printed and the rounded value used in the next. It is for
// comparison with printed calculations; to protect with, take [Design.Lines].
//
//	K    171233 sqrt(288 + VAR - 0.006496 H)/(288 - 0.006496 H)^2.628   4 decimals
//	V    K IAS                                                          2
//	v    V/3600                                                         4
//	R    3431 tan(bank)/(pi V), SI 6355 tan(bank)/(pi V)                2, then at most 3
//	r    V/(20 pi R)                                                    2
//	h    altitude in thousands of ft, SI of m                           2
//	w    2 h + 47 kt, SI 12 h + 87 km/h                                 1
//	w'   w/3600                                                         4
//	E    w/(3600 R)                                                     5
//	t    60 times the minutes                                           0
//	L    v t                                                            2
//
// It gives every line of the published example (140 KIAS, 6,000 ft; SI 260 km/h, 1,850 m) to
// the last digit, by two readings of ours. K is interpolated in a table of the factor to four
// decimals, with a row for every 1000 ft or 500 m: at 1,850 m the formula itself gives
// 1.1243, the table 1.1244, as printed. E goes by the unrounded w': the rounded 0.0164/3
// would be 0.00547, printed is 0.00546; cutting off in place of rounding would explain it as
// well. Whether w is rounded to a tenth or a whole in knots the example does not tell.
//
// 3431 and 6355 are 180 g in knots and in km/h per second, 3431.27 and 6354.71 rounded. Of a
// half that is exact in decimal the greater is taken.
//
// The lines after L are from memory, their digits ours: two decimals, E45 three. Wi2 is
// Wi1 + 14 w' there and is carried on so; the line "Wi2 by time flown" beside it is what
// [Lines] has. Of a leg with a length there are XE and YE only, and these are published.
//
// Source: ICAO Doc 8168 Vol II (2006, amendment 1) table I-4-3-App C-1; I-4-3-7; III-3-7-4.
//
// Errors: as [Design.Filled], and [abeam.ErrInvalid] for units not known, allowances that
// are not the published ones, or a true airspeed below 1 kt, of which the digits leave
// nothing.
func (d Design) Book(units Units) ([]Line, error) {
	const op = "area.Design.Book"
	col, err := units.column(op)
	if err != nil {
		return nil, err
	}
	full, k, _, err := d.filled(op)
	if err != nil {
		return nil, err
	}
	if full.Allowances != PublishedAllowances() {
		return nil, check.Invalid(op, "allowances", full.Allowances, "the published ones, since the book has no other")
	}
	if err := check.Within(op, "TAS", d.IAS*abeam.Knots(k), 1, wind.MaxTAS); err != nil {
		return nil, err
	}
	b := book{column: col, givenWind: d.Wind != 0 || d.Calm}
	b.base(&full)
	if full.Length != 0 {
		b.lengthEntry()
	} else {
		b.template()
	}
	return b.lines, nil
}

// book is the calculation under way: the values that later lines use.
type book struct {
	column
	givenWind bool
	lines     []Line

	v, rate, r, drift, e, t, l float64
}

// put rounds a value, writes its line and gives the rounded value to carry on.
func (b *book) put(class Class, name, formula, unit string, decimals int, value float64) float64 {
	value = roundDecimal(value, decimals)
	b.lines = append(b.lines, Line{Name: name, Formula: formula, Value: value, Unit: unit, Class: class})
	return value
}

// roundDecimal rounds to decimals. A half that is exact in decimal is not in binary, and is
// first brought back to itself.
func roundDecimal(x float64, decimals int) float64 {
	scale := math.Pow10(decimals)
	return math.Round(math.Round(x*scale*1e6)/1e6) / scale
}

// base are the lines from K to L, which the template shares with the base turn.
func (b *book) base(d *Design) {
	bank := float64(d.Bank)
	sin, cos := angle.Sincos(bank)
	k := b.put(Published, "K", "conversion of IAS to TAS", "", 4, b.factor(d.Altitude.Metres(), d.Warmer))
	tas := b.put(Published, "V", "K IAS", b.speed, 2, k*float64(d.IAS)*b.perNM)
	b.v = b.put(Published, "v", "V/3600", b.length+"/s", 4, tas/3600)
	b.rate = b.put(Published, "R", fmt.Sprintf("%g tan %g/(pi V)", b.turn, bank), "deg/s", 2, b.turn*sin/cos/(math.Pi*tas))
	b.rate = b.put(Published, "R used", "R, at most 3", "deg/s", 2, min(b.rate, 3))
	b.r = b.put(Published, "r", "V/(20 pi R)", b.length, 2, tas/(20*math.Pi*b.rate))
	h := b.put(Published, "h", "altitude/1000", b.thousand, 2, float64(d.Altitude)*b.perFoot/1000)
	w, formula := b.slope*h+b.base0, fmt.Sprintf("%g h + %g", b.slope, b.base0)
	if b.givenWind {
		w, formula = float64(d.Wind)*b.perNM, "given"
	}
	w = b.put(Published, "w", formula, b.speed, 1, w)
	b.drift = b.put(Published, "w'", "w/3600", b.length+"/s", 4, w/3600)
	b.e = b.put(Published, "E", "w/(3600 R)", b.length+"/deg", 5, w/3600/b.rate)
	if d.Length != 0 {
		b.l = b.put(Published, "L", "given", b.length, 2, float64(d.Length)*b.perNM)
		return
	}
	b.t = b.put(Published, "t", "60 times the minutes", "s", 0, d.Outbound.Seconds())
	b.l = b.put(Published, "L", "v t", b.length, 2, b.v*b.t)
}

// factor is K interpolated in the table of the factor.
func (b *book) factor(metres float64, warmer wind.Deviation) float64 {
	row := func(i float64) (at, k float64) {
		feet := min(abeam.Feet(i*b.row/0.3048), wind.MaxPressureAltitude)
		k, _ = wind.DesignFactor(feet, warmer) // both are in its range
		return feet.Metres(), roundDecimal(k, 4)
	}
	i := math.Floor(metres / b.row)
	low, kLow := row(i)
	high, kHigh := row(i + 1)
	return kLow + (kHigh-kLow)*(metres-low)/(high-low)
}
