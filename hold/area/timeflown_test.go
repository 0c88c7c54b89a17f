package area

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
)

// flown is what is flown from the fix to a point: seconds straight ahead, whether the outbound
// time is among them, and degrees of turn.
type flown struct {
	straight float64
	leg      bool
	turned   float64
}

// Every point of the template, from first principles: the turn at the fix begins 5 s after
// it (b) or 11 s (c), the outbound leg is 10 s too short or too long, and the turn at its
// end begins 5 s after that at the earliest (i1), 11 s at the latest (i2).
var template = map[string]flown{
	"b": {5, false, 0}, "c": {5 + 6, false, 0},
	"d": {11, false, 45}, "e": {11, false, 90}, "f": {11, false, 135}, "g": {11, false, 180},
	"h": {5, false, 180}, "o": {5, false, 225}, "p": {5, false, 270},
	"i1": {11 - 10 + 5, true, 180}, "i2": {11 + 10 + 5 + 6, true, 180},
	"j": {11 + 21, true, 225}, "k": {11 + 21, true, 270}, "m": {11 + 21, true, 315},
	"n3": {11 - 5, true, 360}, "n4": {11 + 21, true, 360},
	"XE": {11 + 10 + 5, true, 90 + 90 + 15}, "YE": {11 + 10 + 5, true, 110 + 15},
}

func radii(l Lines) map[string]abeam.NM {
	return map[string]abeam.NM{
		"b": l.Wb, "c": l.Wc, "d": l.Wd, "e": l.We, "f": l.Wf, "g": l.Wg, "h": l.Wh, "o": l.Wo, "p": l.Wp,
		"i1": l.Wi1, "i2": l.Wi2, "j": l.Wj, "k": l.Wk, "m": l.Wm, "n3": l.Wn3, "n4": l.Wn4,
	}
}

var templateDesigns = []Design{
	{IAS: 140, Altitude: 6000, Outbound: 2 * time.Minute},
	{IAS: 220, Altitude: 10000},
	{IAS: 265, Altitude: 31000},
	{IAS: 90, Altitude: 1000, Warmer: -20, Wind: 70, Bank: 15},
}

// A radius is the wind times the time flown since the fix: ICAO Doc 8168 Vol II App C-4, C-5.
func TestRadiiAreTheWindTimesTheTimeFlown(t *testing.T) {
	for _, d := range templateDesigns {
		l, err := d.Lines()
		if err != nil {
			t.Fatal(err)
		}
		got := radii(l)
		// Of XE and YE the radius is what the wind adds.
		calm := d
		calm.Wind, calm.Calm = 0, true
		still, err := calm.Lines()
		if err != nil {
			t.Fatal(err)
		}
		got["XE"], got["YE"] = l.XE-still.XE, l.YE-still.YE
		for point, f := range template {
			seconds := f.straight + f.turned/float64(l.Rate)
			if f.leg {
				seconds += l.Time.Seconds()
			}
			want := float64(l.Wind) * seconds / 3600
			if math.Abs(float64(got[point])-want) > 1e-12 {
				t.Errorf("%v %s: %v after %.2f s, want %v", d, point, got[point], seconds, want)
			}
		}
		if len(got) != len(template) {
			t.Errorf("%d radii for %d points", len(got), len(template))
		}
		for name, radius := range radii(still) {
			if radius != 0 {
				t.Errorf("calm, %s: %v", name, radius)
			}
		}
	}
}

// The distances of the template are those of the same times.
func TestStraightPartsAreTheirTimesToo(t *testing.T) {
	for _, d := range templateDesigns {
		l, err := d.Lines()
		if err != nil {
			t.Fatal(err)
		}
		leg := l.Time.Seconds()
		for name, c := range map[string]struct {
			got     abeam.NM
			seconds float64
		}{
			"ab": {l.AB, template["b"].straight}, "ac": {l.AC, template["c"].straight},
			"gi1": {l.GI1, leg + template["i1"].straight - template["g"].straight},
			"gi2": {l.GI2, leg + template["i2"].straight - template["g"].straight},
			"L":   {l.L, leg},
		} {
			if want := float64(l.TAS) * c.seconds / 3600; math.Abs(float64(c.got)-want) > 1e-12 {
				t.Errorf("%v %s: %v, want %v", d, name, c.got, want)
			}
		}
	}
}

// What is remembered of Wi2 is 12 s of wind short of the time flown: 26 - 14.
func TestRememberedWi2FallsShort(t *testing.T) {
	for _, d := range templateDesigns {
		l, err := d.Lines()
		if err != nil {
			t.Fatal(err)
		}
		short := float64(l.Wind) / 3600 * 12
		if math.Abs(float64(l.Wi2-l.RememberedWi2)-short) > 1e-12 {
			t.Errorf("%v: %v short, want %v", d, l.Wi2-l.RememberedWi2, short)
		}
		if gap := float64(l.Wi2 - l.Wi1); math.Abs(gap-26*l.W) > 1e-12 {
			t.Errorf("%v: Wi2 is Wi1 + %v s of wind", d, gap/l.W)
		}
	}
	for _, d := range []Design{
		{IAS: 220, Altitude: 10000, Length: 5},
		{IAS: 220, Altitude: 10000, Allowances: Allowances{None: true}},
		{IAS: 220, Altitude: 10000, Allowances: Allowances{Bank: 5 * time.Second, Reaction: 6 * time.Second, Timing: 9 * time.Second, Heading: 5}},
	} {
		if l, err := d.Lines(); err != nil || l.RememberedWi2 != 0 {
			t.Errorf("%v: %v, %v", d, l.RememberedWi2, err)
		}
	}
}

func ExampleDesign_Lines_remembered() {
	l, err := Design{IAS: 140, Altitude: 6000, Outbound: 2 * time.Minute}.Lines()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("Wi2 by the time flown %.2f NM, as remembered %.2f: %.1f NM short in %.0f kt\n",
		float64(l.Wi2), float64(l.RememberedWi2), float64(l.Wi2-l.RememberedWi2), float64(l.Wind))
	// Output: Wi2 by the time flown 3.47 NM, as remembered 3.28: 0.2 NM short in 59 kt
}
