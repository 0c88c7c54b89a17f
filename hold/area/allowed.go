package area

import "github.com/holdingfix/abeam/internal/convex"

// allowed is what the allowances let an aeroplane do, in NM, seconds and degrees.
type allowed struct {
	v       float64    // true airspeed, NM/s
	r       float64    // radius of turn
	perTurn float64    // NM that the wind carries it for a degree of turn
	w       float64    // wind, NM/s
	delays  [2]float64 // from the fix to the turn, at the least and at the most
	legs    [2]leg     // the straight outbound leg, at the shortest and at the longest
	heading float64    // how far the outbound heading may be off
}

// leg is a straight leg: how long it is, and for how many seconds of it the wind counts.
type leg struct {
	length, wind float64
}

// turned is every place of a right turn from one heading to another about the origin, each
// as wide as the wind carries it from the beginning of the turn: at heading a the aeroplane
// is abeam its centre, r u(a - 90) from it.
func (m *allowed) turned(from, to float64) convex.Region {
	return convex.Arc(m.r, from-90, to-90, m.perTurn)
}

// drifted is a region as the wind blurs it in so many seconds.
func (m *allowed) drifted(r convex.Region, seconds float64) convex.Region {
	return convex.Sum(r, convex.Disc(0, 0, m.w*seconds))
}

// turning is how far the wind carries in so many degrees of turn, as a region to add.
func (m *allowed) turning(degrees float64) convex.Region {
	return convex.Disc(0, 0, m.perTurn*degrees)
}

// allowed is what the design lets an aeroplane do.
func (d Design) allowed(op string) (*allowed, error) {
	d, _, _, err := d.filled(op)
	if err != nil {
		return nil, err
	}
	l, err := d.Lines()
	if err != nil {
		return nil, err
	}
	a := d.Allowances
	timing := a.Timing.Seconds()
	if d.Length != 0 {
		timing = 0
	}
	t := d.Outbound.Seconds() // of a leg with a length none: the wind does not count along it
	return &allowed{
		v: l.V, r: float64(l.Radius), perTurn: l.E, w: l.W, delays: [2]float64{a.early(), a.late()},
		legs:    [2]leg{{float64(l.GI1), t - timing + a.early()}, {float64(l.GI2), t + timing + a.late()}},
		heading: d.aside(),
	}, nil
}

// aside is how far the outbound heading of a filled design may be off, in degrees.
func (d *Design) aside() float64 {
	if d.Length != 0 {
		return 0
	}
	return float64(d.Allowances.Heading)
}
