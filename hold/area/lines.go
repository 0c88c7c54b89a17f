package area

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/internal/clock"
)

// Lines are the lines of the holding template, unrounded. Their names are the book's; the
// package comment says what the points are. The numbers in the formulas are the published
// allowances, other [Allowances] take their place: 5 is Bank, 11 Bank and Reaction, t - 5
// and t + 21 are t less Timing plus 5 and t plus Timing plus 11, t + 15 is t plus Timing
// plus 5, and the 5 degrees are Heading. A leg of a length D puts D for t v, has no Timing
// and no Heading, and counts no wind along the leg: (t - 5) v is then D + 5 v, (t + 21) v is
// D + 11 v, t + 6 is 16 and t + 32 is 22 (our reading, from the published XE and YE of such
// a leg).
//
// Sources and classes. K to L: ICAO Doc 8168 Vol II (2006, amendment 1) table I-4-3-App C-1,
// published, with the base turn, whose lines these are too. AB to YE: from memory, but for
// XE and YE of a leg with a length, published in III-3-7-4. That the radius of a point is the
// wind times the flying time from the fix is published (App C-4, C-5), and every W below is
// held against it in the tests.
//
// Exact to rounding.
type Lines struct {
	K      float64     // TAS/IAS, [wind.DesignFactor]
	TAS    abeam.Knots // V = K IAS
	V      float64     // v = V/3600, NM/s
	Rate   hold.Rate   // R = 3431 tan(bank)/(pi V), at most 3 deg/s: [hold.TurnRule.At]
	Radius abeam.NM    // r = V/(20 pi R)
	H      float64     // h, the altitude in thousands of feet
	Wind   abeam.Knots // w = 2 h + 47, [wind.OmnidirectionalWind], or the wind given
	W      float64     // w' = w/3600, NM/s
	E      float64     // E = w'/R, NM for a degree of turn
	E45    abeam.NM    // 45 E
	Time   time.Duration
	L      abeam.NM // v t

	AB  abeam.NM // 5 v, from the fix to b
	AC  abeam.NM // 11 v, from the fix to c
	GI1 abeam.NM // (t - 5) v, from g to i1 and to i3
	GI2 abeam.NM // (t + 21) v, from g to i2 and to i4

	Wb  abeam.NM // 5 w'
	Wc  abeam.NM // 11 w'
	Wd  abeam.NM // Wc + E45
	We  abeam.NM // Wc + 2 E45
	Wf  abeam.NM // Wc + 3 E45
	Wg  abeam.NM // Wc + 4 E45
	Wh  abeam.NM // Wb + 4 E45
	Wo  abeam.NM // Wb + 5 E45
	Wp  abeam.NM // Wb + 6 E45
	Wi1 abeam.NM // (t + 6) w' + 4 E45, of i1 and i3
	// Wi2 is (t + 32) w' + 4 E45, of i2 and i4, which is Wi1 + 26 w': derived here from the time
	// flown, 11 s to c, 180 degrees of turn and the t + 21 s of gi2.
	Wi2 abeam.NM
	Wj  abeam.NM // Wi2 + E45
	Wk  abeam.NM // Wi2 + 2 E45, of k and l
	Wm  abeam.NM // Wi2 + 3 E45
	Wn3 abeam.NM // Wi1 + 4 E45
	Wn4 abeam.NM // Wi2 + 4 E45

	// RememberedWi2 is Wi1 + 14 w', the Wi2 that is remembered of the book, for comparison
	// only: nothing else is computed from it. It falls short of the time flown to i2 by 12
	// seconds of wind, 0.2 NM in 59 kt, and so would j, k, l, m and n4 with it. It is zero
	// where the allowances are not the published ones or the leg has a length, for which
	// none is remembered.
	RememberedWi2 abeam.NM

	// XE and YE are the point E of entries from any direction: how far outbound and how far
	// to the holding side of the fix a direct entry comes whose heading is 70 degrees or more
	// from the inbound course, towards the holding side.
	//
	//	XE = 2 r + (t + 15) v + (t + 26 + 195/R) w'
	//	YE = 11 v cos 20 + r (1 + sin 20) + (t + 15) v tan 5 + (t + 26 + 125/R) w'
	//
	// and of a leg with a length D
	//
	//	XE = 2 r + D + 11 v + (22 + 195/R) w'
	//	YE = 11 v cos 20 + r (1 + sin 20) + (22 + 125/R) w'
	//
	// XE is of the arrival square across the course. 11 seconds after the fix it turns through
	// 90 degrees, which takes it r outbound; it flies outbound t + 15 seconds, and r more in the
	// next 90 degrees. The wind counts for another 15 degrees of turn, over which it carries
	// the aeroplane on while the turn takes little back; the radius for that is not
	// reduced, so that XE covers the true extreme while the wind is at most 0.51 of the true
	// airspeed. The time is 11 + 90/R + t + 15 + 105/R.
	//
	// YE is of the arrival on a heading 20 degrees short of square: 11 seconds at that
	// heading, 110 degrees of turn, which are r (1 + sin 20) to the holding side, and t + 15
	// seconds outbound, 5 degrees towards it. The time is 11 + 110/R + t + 15 + 15/R. Arrivals
	// closer to the inbound course turn farther to the holding side than YE, as the
	// pattern itself does with its 2 r: YE does not bound them.
	//
	// The 15 seconds are the timing and the bank. With the reaction, which i2 has, they would
	// be 21, and XE would be 6 (v + w') more; the book's figure stands. A leg with a length has
	// the reaction and no timing: 11.
	XE, YE abeam.NM

	Notes Notes
}

// Lines gives the lines of the template. At a speed beyond the limits of the altitude they
// stand, with a note.
//
// Errors: as [Design.Filled], and [abeam.ErrInvalid] for a leg so long that its time is none.
func (d Design) Lines() (Lines, error) {
	const op = "area.Design.Lines"
	d, k, turn, err := d.filled(op)
	if err != nil {
		return Lines{}, err
	}
	l := Lines{
		K: k, TAS: d.IAS * abeam.Knots(k), Rate: turn.Rate, Radius: turn.Radius,
		H: float64(d.Altitude) / 1000, Wind: d.Wind, W: float64(d.Wind) / 3600, Time: d.Outbound,
	}
	l.V = float64(l.TAS) / 3600
	l.E = l.W / float64(l.Rate)
	l.E45 = abeam.NM(45 * l.E)
	l.L = abeam.NM(d.Outbound.Seconds() * l.V)
	if d.Length != 0 {
		l.L = d.Length
		var ok bool
		if l.Time, ok = clock.Duration(float64(d.Length) / l.V); !ok {
			return Lines{}, check.Invalid(op, "length", d.Length, "short enough to be flown in 292 years")
		}
	}
	l.template(&d)
	l.Notes = d.notes(l.Time)
	return l, nil
}

// template fills the lines from AB on.
func (l *Lines) template(d *Design) {
	a := d.Allowances
	early, late, timing := a.early(), a.late(), a.Timing.Seconds()
	heading := a.Heading
	windTime := d.Outbound.Seconds() // 0 for a leg with a length
	end := timing + early            // of the outbound leg in an entry
	if d.Length != 0 {
		timing, heading, end = 0, 0, late
	}
	flown := func(seconds float64) abeam.NM { return abeam.NM(seconds * l.V) }
	carried := func(seconds, turned float64) abeam.NM { return abeam.NM(seconds*l.W + turned*l.E) }

	l.AB, l.AC = flown(early), flown(late)
	l.GI1, l.GI2 = l.L+flown(early-timing), l.L+flown(late+timing)
	l.Wb, l.Wc = carried(early, 0), carried(late, 0)
	l.Wd, l.We, l.Wf, l.Wg = l.Wc+l.E45, l.Wc+2*l.E45, l.Wc+3*l.E45, l.Wc+4*l.E45
	l.Wh, l.Wo, l.Wp = l.Wb+4*l.E45, l.Wb+5*l.E45, l.Wb+6*l.E45
	l.Wi1 = carried(late+windTime-timing+early, 180)
	l.Wi2 = carried(late+windTime+timing+late, 180)
	l.Wj, l.Wk, l.Wm = l.Wi2+l.E45, l.Wi2+2*l.E45, l.Wi2+3*l.E45
	l.Wn3, l.Wn4 = l.Wi1+4*l.E45, l.Wi2+4*l.E45
	if d.Length == 0 && a == PublishedAllowances() {
		l.RememberedWi2 = l.Wi1 + carried(14, 0)
	}

	sin20, cos20 := angle.Sincos(20)
	aside := abeam.NM(tanDegrees(heading))
	l.XE = 2*l.Radius + l.L + flown(end) + carried(late+windTime+end, 195)
	l.YE = l.AC*abeam.NM(cos20) + l.Radius*abeam.NM(1+sin20) + (l.L+flown(end))*aside +
		carried(late+windTime+end, 125)
}
