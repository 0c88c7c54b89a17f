package area

import (
	"math"
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// Other allowances take the place of the published ones: every line with 4 s, 3 s, 7 s and 2
// degrees, worked by hand in the seconds that stand in the formulas.
func TestLinesOfOtherAllowances(t *testing.T) {
	a := Allowances{Bank: 4 * time.Second, Reaction: 3 * time.Second, Timing: 7 * time.Second, Heading: 2}
	for _, d := range []Design{
		{IAS: 220, Altitude: 10000, Allowances: a}, {IAS: 220, Altitude: 10000, Length: 5, Allowances: a},
	} {
		l := given(d.Lines())
		v, w, e, leg := l.V, l.W, l.E, l.Time.Seconds()
		windLeg := leg
		first, last, end, heading := -7+4.0, 7+4+3.0, 7+4.0, 2.0
		if d.Length != 0 {
			windLeg, first, last, end, heading = 0, 4, 4+3, 4+3, 0
		}
		sin20, cos20 := math.Sincos(20 * math.Pi / 180)
		for name, c := range map[string]struct{ got, want float64 }{
			"AB": {float64(l.AB), 4 * v}, "AC": {float64(l.AC), 7 * v}, "L": {float64(l.L), leg * v},
			"GI1": {float64(l.GI1), (leg + first) * v}, "GI2": {float64(l.GI2), (leg + last) * v},
			"Wb": {float64(l.Wb), 4 * w}, "Wc": {float64(l.Wc), 7 * w}, "Wd": {float64(l.Wd), 7*w + 45*e},
			"We": {float64(l.We), 7*w + 90*e}, "Wf": {float64(l.Wf), 7*w + 135*e}, "Wg": {float64(l.Wg), 7*w + 180*e},
			"Wh": {float64(l.Wh), 4*w + 180*e}, "Wo": {float64(l.Wo), 4*w + 225*e}, "Wp": {float64(l.Wp), 4*w + 270*e},
			"Wi1": {float64(l.Wi1), (7+windLeg+first)*w + 180*e}, "Wi2": {float64(l.Wi2), (7+windLeg+last)*w + 180*e},
			"Wj": {float64(l.Wj), (7+windLeg+last)*w + 225*e}, "Wk": {float64(l.Wk), (7+windLeg+last)*w + 270*e},
			"Wm": {float64(l.Wm), (7+windLeg+last)*w + 315*e}, "Wn3": {float64(l.Wn3), (7+windLeg+first)*w + 360*e},
			"Wn4": {float64(l.Wn4), (7+windLeg+last)*w + 360*e},
			"XE":  {float64(l.XE), 2*float64(l.Radius) + (leg+end)*v + (7+windLeg+end)*w + 195*e},
			"YE": {float64(l.YE), 7*v*cos20 + float64(l.Radius)*(1+sin20) +
				(leg+end)*v*math.Tan(heading*math.Pi/180) + (7+windLeg+end)*w + 125*e},
		} {
			if math.Abs(c.got-c.want) > 1e-9 { // a leg with a length has its time to the nanosecond
				t.Errorf("%v %s: %v, want %v", d.Length, name, c.got, c.want)
			}
		}
	}
}

// Without wind and allowances the template is the racetrack itself.
func TestLinesOfNothing(t *testing.T) {
	l := given(Design{IAS: 220, Altitude: 10000, Calm: true, Allowances: Allowances{None: true}}.Lines())
	if l.AB != 0 || l.AC != 0 || l.GI1 != l.L || l.GI2 != l.L || l.Wn4 != 0 || l.Wind != 0 || l.XE != 2*l.Radius+l.L {
		t.Errorf("%+v", l)
	}
}

// The basis of the lines against the functions it comes from, and the published example to
// half a unit of its digits in reference rows.
func TestBasis(t *testing.T) {
	l := given(Design{IAS: 220, Altitude: 10000, Bank: 23, Warmer: -5}.Lines())
	tas := given(wind.DesignTAS(220, 10000, -5))
	turn := given(hold.TurnRule{Rate: 3, Bank: 23}.At(tas))
	if l.TAS != tas || l.Rate != turn.Rate || l.Radius != turn.Radius || l.K != given(wind.DesignFactor(10000, -5)) || l.H != 10 {
		t.Errorf("%+v", l)
	}
	if math.Abs(l.V*3600-float64(tas)) > 1e-9 || math.Abs(l.W*3600-67) > 1e-9 || l.Wind != 67 ||
		math.Abs(l.E*float64(turn.Rate)-l.W) > 1e-15 || math.Abs(float64(l.E45)-45*l.E) > 1e-15 || l.Time != time.Minute {
		t.Errorf("%+v", l)
	}
	if slow := given(Design{IAS: 120, Altitude: 2000}.Lines()); slow.Rate != hold.StandardRate {
		t.Errorf("%v", slow.Rate)
	}
}

// numbers are the fields of Lines that are numbers.
func numbers(l Lines) map[string]float64 {
	out := map[string]float64{}
	v := reflect.ValueOf(l)
	for i := range v.NumField() {
		if f := v.Field(i); f.CanFloat() {
			out[v.Type().Field(i).Name] = f.Float()
		}
	}
	return out
}

func drawn(t *rapid.T) Design {
	d := Design{
		IAS:      abeam.Knots(rapid.Float64Range(120, 300).Draw(t, "IAS")),
		Altitude: abeam.Feet(rapid.Float64Range(0, 24000).Draw(t, "altitude")),
		Warmer:   wind.Deviation(rapid.Float64Range(-20, 40).Draw(t, "warmer")),
		Bank:     abeam.Degrees(rapid.Float64Range(10, 45).Draw(t, "bank")),
		Wind:     abeam.Knots(rapid.Float64Range(1, 90).Draw(t, "wind")),

		StandardDay: true,
	}
	if rapid.Bool().Draw(t, "by length") {
		d.Length = abeam.NM(rapid.Float64Range(1, 30).Draw(t, "length"))
	} else {
		d.Outbound = time.Duration(rapid.IntRange(30, 300).Draw(t, "outbound")) * time.Second
	}
	return d
}

// A faster aeroplane, a stronger wind, a longer leg, a warmer day, a smaller bank: no line
// gets shorter, but those that the change is of.
func TestLinesGrow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawn(t)
		before := numbers(given(d.Lines()))
		more := rapid.Float64Range(1e-3, 0.2).Draw(t, "more")
		for name, c := range map[string]struct {
			change func(*Design)
			fixed  []string // that may fall
		}{
			"IAS":    {func(d *Design) { d.IAS *= abeam.Knots(1 + more) }, []string{"Rate"}},
			"wind":   {func(d *Design) { d.Wind *= abeam.Knots(1 + more) }, nil},
			"warmer": {func(d *Design) { d.Warmer += wind.Deviation(10 * more) }, []string{"Rate"}},
			"leg": {func(d *Design) {
				d.Length *= abeam.NM(1 + more)
				d.Outbound += time.Duration(float64(d.Outbound) * more)
			}, nil},
			"bank":     {func(d *Design) { d.Bank /= abeam.Degrees(1 + more) }, []string{"Rate"}},
			"altitude": {func(d *Design) { d.Altitude += abeam.Feet(1000 * more) }, []string{"Rate"}},
			"allowances": {func(d *Design) {
				d.Allowances = PublishedAllowances()
				d.Allowances.Reaction += time.Duration(more * float64(time.Second))
			}, []string{"RememberedWi2"}},
		} {
			changed := d
			c.change(&changed)
			grown := false
			for field, x := range numbers(given(changed.Lines())) {
				if x < before[field]*(1-1e-12) && (len(c.fixed) == 0 || c.fixed[0] != field) {
					t.Fatalf("%s: %s falls from %v to %v", name, field, before[field], x)
				}
				grown = grown || x > before[field]
			}
			if !grown && name != "bank" { // at 3 deg/s it is not the bank that turns
				t.Fatalf("%s: nothing grows", name)
			}
		}
	})
}

// The exact lines worked in metric units, from speeds in km/h and the constant 6355: in km
// they are those in NM. What is left is the rounding of 3431 and 6355, 1e-4 of the rate.
func TestLinesWorkedInMetricUnits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawn(t)
		l := given(d.Lines())
		const km = 1.852
		v := l.K * float64(d.IAS) * km
		rate := min(3, 6355*math.Tan(float64(d.Bank)*math.Pi/180)/(math.Pi*v))
		radius := v / (20 * math.Pi * rate)
		e := float64(d.Wind) * km / 3600 / rate
		for name, c := range map[string]struct{ got, want float64 }{
			"rate": {float64(l.Rate), rate}, "radius": {float64(l.Radius) * km, radius}, "E": {l.E * km, e},
			"Wg": {float64(l.Wg) * km, 11*float64(d.Wind)*km/3600 + 180*e},
		} {
			if math.Abs(c.got/c.want-1) > 1e-4 {
				t.Fatalf("%s: %v, in metric units %v", name, c.got, c.want)
			}
		}
	})
}

// The book is the exact lines within what its rounding can do: a half of the last digit of
// every value and what the later lines make of it.
func TestBookIsTheLinesWithinRounding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawn(t)
		l := given(d.Lines())
		for units, toNM := range map[Units]float64{NonSI: 1, SI: 1 / 1.852} {
			book := given(d.Book(units))
			// Of the rounded values: K to its digits and with the interpolation, v, w' and E to their
			// digits, w to 0.05, R to 0.005 and the constants. K bends by 9e-9 per m² at most, K times
			// (dlnK/dH)² + d²lnK/dH² = 1.58 (3.5e-9 + 1.7e-9) at 24,000 ft and 40 degrees warmer;
			// interpolated over a row it errs by the square of the row over 8 times that.
			row := map[Units]float64{NonSI: 304.8, SI: 500}[units]
			relV := (0.5e-4+9e-9/8*row*row)/l.K + 0.5e-4*toNM/l.V + 0.005/float64(l.TAS)
			relRate := 0.0055/float64(l.Rate) + relV
			relW := (0.5e-4*toNM + 0.05*toNM/3600) / l.W
			relE := 0.5e-5*toNM/l.E + relRate + relW
			within := func(name string, exact abeam.NM, tol float64) {
				if got := lineOf(book, name).Value * toNM; math.Abs(got-float64(exact)) > tol+0.0051*toNM {
					t.Fatalf("%v %s: book %v, exact %v, within %v", units, name, got, exact, tol)
				}
			}
			turns := float64(l.E45) / 45 * relE
			seconds := func(s float64) float64 { return s * l.W * relW }
			radius := float64(l.Radius) * (relRate + relV)
			leg := l.Time.Seconds()
			if d.Length == 0 {
				within("ab", l.AB, float64(l.AB)*relV)
				within("gi2", l.GI2, float64(l.GI2)*relV+0.5*l.V)
				within("Wg", l.Wg, seconds(11)+180*turns+0.02*toNM)
				within("Wi2 by time flown", l.Wi2, seconds(leg+32)+180*turns+0.02*toNM)
			} else {
				leg = 0
			}
			straight := float64(l.XE) - 2*float64(l.Radius)
			within("XE", l.XE, 2*radius+straight*relV+seconds(leg+26)+195*turns+0.02*toNM)
			within("YE", l.YE, 2*radius+straight*relV+seconds(leg+26)+125*turns+0.02*toNM)
		}
	})
}
