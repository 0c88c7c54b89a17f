package area

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

func TestFilled(t *testing.T) {
	published := Allowances{Bank: 5 * time.Second, Reaction: 6 * time.Second, Timing: 10 * time.Second, Heading: 5}
	for name, c := range map[string]struct{ given, want Design }{
		"the book's": {
			Design{IAS: 220, Altitude: 14000},
			Design{IAS: 220, Altitude: 14000, Warmer: 15, Outbound: time.Minute, Bank: 25, Wind: 75, Allowances: published},
		},
		"above 14,000 ft": {
			Design{IAS: 240, Altitude: 14000.5},
			Design{IAS: 240, Altitude: 14000.5, Warmer: 15, Outbound: 90 * time.Second, Bank: 25, Wind: 75.001, Allowances: published},
		},
		"standard day, calm, no allowances": {
			Design{IAS: 220, Altitude: 5000, StandardDay: true, Calm: true, Allowances: Allowances{None: true}},
			Design{IAS: 220, Altitude: 5000, StandardDay: true, Calm: true, Outbound: time.Minute, Bank: 25, Allowances: Allowances{None: true}},
		},
		"given": {
			Design{IAS: 170, Altitude: 2000, Warmer: -10, StandardDay: true, Length: 6, Bank: 20, Wind: 40, Allowances: Allowances{Reaction: 3 * time.Second}},
			Design{IAS: 170, Altitude: 2000, Warmer: -10, StandardDay: true, Length: 6, Bank: 20, Wind: 40, Allowances: Allowances{Reaction: 3 * time.Second}},
		},
		"at the limits": {
			Design{IAS: 500, Altitude: 20000, Warmer: -80, Outbound: time.Hour, Bank: 60, Wind: 400, Allowances: Allowances{Bank: time.Minute, Reaction: time.Minute, Timing: time.Minute, Heading: 30}},
			Design{IAS: 500, Altitude: 20000, Warmer: -80, Outbound: time.Hour, Bank: 60, Wind: 400, Allowances: Allowances{Bank: time.Minute, Reaction: time.Minute, Timing: time.Minute, Heading: 30}},
		},
		"timing as long as the leg": {
			Design{IAS: 100, Altitude: -2000, Warmer: 80, Length: 0, Outbound: 10 * time.Second},
			Design{IAS: 100, Altitude: -2000, Warmer: 80, Outbound: 10 * time.Second, Bank: 25, Wind: 43, Allowances: published},
		},
	} {
		got, err := c.given.Filled()
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if math.Abs(float64(got.Wind-c.want.Wind)) < 1e-12 {
			got.Wind = c.want.Wind
		}
		if got != c.want {
			t.Errorf("%s: %+v\nwant %+v", name, got, c.want)
		}
		if again, err := got.Filled(); err != nil || again != got {
			t.Errorf("%s, filled again: %+v, %v", name, again, err)
		}
		if _, err := got.Lines(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	if PublishedAllowances() != published {
		t.Errorf("%+v", PublishedAllowances())
	}
}

func TestDesignErrors(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	next := func(x, to float64) float64 { return math.Nextafter(x, to) }
	good := Design{IAS: 220, Altitude: 10000}
	for _, c := range []struct {
		field  string
		values []float64
		set    func(d *Design, x float64)
	}{
		{"IAS", []float64{0, -1, next(800, 900), nan, inf}, func(d *Design, x float64) { d.IAS = abeam.Knots(x) }},
		{"altitude", []float64{next(-2000, -3000), next(65617, 1e9), nan, inf, -inf}, func(d *Design, x float64) { d.Altitude = abeam.Feet(x) }},
		{"deviation", []float64{-81, next(80, 90), nan, inf}, func(d *Design, x float64) { d.Warmer = wind.Deviation(x) }},
		{"length", []float64{-1, next(500, 600), nan, inf}, func(d *Design, x float64) { d.Length = abeam.NM(x) }},
		{"bank", []float64{-1, next(60, 61), nan, inf}, func(d *Design, x float64) { d.Bank = abeam.Degrees(x) }},
		{"wind", []float64{-1, next(400, 500), nan, inf}, func(d *Design, x float64) { d.Wind = abeam.Knots(x) }},
		{"heading allowance", []float64{-1, next(30, 31), nan, inf}, func(d *Design, x float64) { d.Allowances.Heading = abeam.Degrees(x) }},
	} {
		for _, x := range c.values {
			d := good
			c.set(&d, x)
			checkDesign(t, fmt.Sprint(c.field, " ", x), d, abeam.ErrInvalid, c.field)
		}
	}
	for name, c := range map[string]struct {
		field string
		set   func(*Design)
	}{
		"TAS":              {"TAS", func(d *Design) { d.IAS = 700 }},
		"time and length":  {"outbound time", func(d *Design) { d.Outbound, d.Length = time.Minute, 5 }},
		"time below 0":     {"outbound time", func(d *Design) { d.Outbound = -1 }},
		"time too long":    {"outbound time", func(d *Design) { d.Outbound = hold.MaxLeg + 1 }},
		"timing past leg":  {"timing", func(d *Design) { d.Outbound = 10*time.Second - 1 }},
		"bank too slow":    {"bank", func(d *Design) { d.Bank = 1 }},
		"wind when calm":   {"wind", func(d *Design) { d.Wind, d.Calm = 10, true }},
		"bank below 0 s":   {"bank establishment", func(d *Design) { d.Allowances.Bank = -1 }},
		"bank too long":    {"bank establishment", func(d *Design) { d.Allowances.Bank = MaxAllowance + 1 }},
		"reaction below 0": {"reaction", func(d *Design) { d.Allowances.Reaction = -1 }},
		"reaction too long": {"reaction", func(d *Design) {
			d.Allowances.Reaction = MaxAllowance + 1
		}},
		"timing below 0":  {"timing", func(d *Design) { d.Allowances.Timing = -1 }},
		"timing too long": {"timing", func(d *Design) { d.Allowances.Timing, d.Outbound = MaxAllowance+1, time.Hour }},
		"none and some":   {"allowances", func(d *Design) { d.Allowances = Allowances{None: true, Heading: 5} }},
	} {
		d := good
		c.set(&d)
		checkDesign(t, name, d, abeam.ErrInvalid, c.field)
	}
	for name, d := range map[string]Design{
		"wind above the airspeed":    {IAS: 100, Altitude: 0, StandardDay: true, Wind: 120},
		"wind as the airspeed":       {IAS: 220, Altitude: 10000, Wind: 220 * abeam.Knots(given(wind.DesignFactor(10000, 15)))},
		"the book's, slow up high":   {IAS: 40, Altitude: 14000},
		"the book's, nearly at rest": {IAS: 1e-300, Altitude: 0},
	} {
		checkDesign(t, name, d, abeam.ErrUnflyable, "wind")
	}
	// A leg whose time is none.
	slow := Design{IAS: 1e-6, Altitude: 0, Calm: true, Length: 500}
	l, err := slow.Lines()
	wantFieldError(t, "slow", err, abeam.ErrInvalid, "area.Design.Lines", "length")
	if l != (Lines{}) {
		t.Errorf("%+v with the error", l)
	}
}

func checkDesign(t *testing.T, name string, d Design, kind error, field string) {
	t.Helper()
	filled, err := d.Filled()
	wantFieldError(t, name, err, kind, "area.Design.Filled", field)
	if err != nil && filled != (Design{}) {
		t.Errorf("%s: %+v with the error", name, filled)
	}
	l, err := d.Lines()
	wantFieldError(t, name, err, kind, "area.Design.Lines", field)
	if err != nil && l != (Lines{}) {
		t.Errorf("%s: %+v with the error", name, l)
	}
}

func given[T any](x T, err error) T {
	if err != nil {
		panic(err)
	}
	return x
}
