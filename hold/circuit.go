package hold

import (
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/clock"
)

// Point is a place in the course frame: origin at the fix, Along positive in the
// inbound direction, Abreast positive to the holding side.
type Point struct {
	Along, Abreast abeam.NM
}

// Arc is one turn: through what angle, 0 to 360 degrees, and for how long.
type Arc struct {
	Angle abeam.Degrees
	Time  time.Duration
}

// Circuit is one lap flown in a steady wind: from over the fix through the outbound
// turn, the outbound leg and the inbound turn to wings level inbound, and on the
// inbound heading until the fix is reached or abeam. [Pattern.Circuit] gives the one
// that closes exactly, [Pattern.Fly] any other.
type Circuit struct {
	InboundHeading  abeam.Bearing // makes the inbound course good
	OutboundHeading abeam.Bearing
	// Corrections are the angles from the still-air headings, positive to the right:
	// the inbound course, and its reciprocal.
	InboundCorrection  abeam.Degrees
	OutboundCorrection abeam.Degrees

	InboundGroundspeed  abeam.Knots
	OutboundGroundspeed abeam.Knots

	OutboundTurn Arc
	InboundTurn  Arc
	Straight     time.Duration // on the outbound heading, wings level to the inbound turn
	// ToAbeam is the time from wings level outbound to abeam the fix, where the line
	// at right angles to the course through the fix is crossed. It is negative when
	// the line is crossed in the turn, before the wings are level.
	ToAbeam time.Duration
	// Clock is the outbound time as a pilot takes it, from wings level or abeam,
	// whichever is later, to the start of the inbound turn; 0 if the fix is abeam
	// only after that.
	Clock   time.Duration
	Inbound time.Duration // wings level inbound to over or abeam the fix
	Lap     time.Duration // exactly the sum of the four legs

	RollOut     Point // wings level outbound
	TurnIn      Point // start of the inbound turn
	Established Point // wings level inbound; Abreast is the across-course error
	Extent      Extent

	Notes Notes

	inbound abeam.Bearing
	turn    Turn
	legs    legs
}

// legs are the four pieces as the track needs them: NM/s, degrees in the course
// frame, seconds.
type legs struct {
	v, wx, wy, rate float64
	in, out         float64
	t1, t2, t3, t4  float64
}

// Circuit gives the lap that closes on the fix with the pattern's leg: see
// [Pattern.Outbound] for the equations, accuracy and errors.
func (p Pattern) Circuit(f Flight) (c Circuit, err error) {
	err = p.circuit("hold.Pattern.Circuit", &f, &c)
	return c, err
}

// circuit is Circuit in place: it sets all of c, to zero with an error.
func (p *Pattern) circuit(op string, f *Flight, c *Circuit) (err error) {
	var fr frame
	if err := fr.set(op, p, f); err != nil {
		*c = Circuit{}
		return err
	}
	in := p.leg.time.Seconds()
	if p.leg.kind != InboundTimed {
		if in, err = fr.inboundTime(op, p, f); err != nil {
			*c = Circuit{}
			return err
		}
	}
	dx, dy, n, t, ok := fr.solve(in)
	if !ok {
		*c = Circuit{}
		return fr.noOutboundLeg(op, &p.leg, f)
	}
	var l lap
	l.turnOut(&fr, dx, dy, n)
	l.findAbeam(&fr, t)
	l.t2, l.t4 = t, in
	l.x2, l.y2 = l.x1+l.gx*t, l.y1+l.gy*t
	l.x3 = 0 - fr.g*in // where the closing equation puts it, with y3 = 0
	if c.Inbound, ok = clock.Duration(in); !ok || !c.fill(p, f, &fr, &l) {
		*c = Circuit{}
		return tooLong(op, *f)
	}
	if p.leg.kind != InboundTimed {
		c.Notes |= c.legNotes(p, f, &fr, &l)
	}
	return nil
}

// fill takes the results from the lap; false if a time is beyond a Duration.
func (c *Circuit) fill(p *Pattern, f *Flight, fr *frame, l *lap) bool {
	var ok [4]bool
	c.OutboundTurn.Time, ok[0] = clock.Duration(l.t1)
	c.InboundTurn.Time, ok[1] = clock.Duration(l.t3)
	c.Straight, ok[2] = clock.Duration(l.t2)
	c.ToAbeam, ok[3] = clock.Duration(l.abeam)
	if ok != [4]bool{true, true, true, true} {
		return false
	}
	c.OutboundTurn.Angle, c.InboundTurn.Angle = abeam.Degrees(l.d1), abeam.Degrees(360-l.d1)
	c.Clock = max(0, c.Straight-max(0, c.ToAbeam))
	c.Lap = c.OutboundTurn.Time + c.Straight + c.InboundTurn.Time + c.Inbound
	if c.Lap < c.Inbound { // the sum has run over
		return false
	}

	c.inbound, c.turn = p.inbound, p.turn
	in, out := l.in, l.out-180
	if p.turn == Left {
		in, out = 0-in, 0-out
	}
	c.InboundCorrection, c.OutboundCorrection = abeam.Degrees(in), abeam.NewDegrees(out)
	c.InboundHeading = abeam.NewBearing(float64(p.inbound) + in)
	c.OutboundHeading = p.compass(l.out)
	c.InboundGroundspeed = abeam.Knots(fr.g) * f.TAS
	c.OutboundGroundspeed = abeam.Knots(math.Sqrt(l.gx*l.gx+l.gy*l.gy)) * f.TAS

	v := f.perSecond()
	c.RollOut = Point{abeam.NM(l.x1 * v), abeam.NM(l.y1 * v)}
	c.TurnIn = Point{abeam.NM(l.x2 * v), abeam.NM(l.y2 * v)}
	c.Established = Point{abeam.NM(l.x3 * v), abeam.NM(l.y3 * v)}
	l.extent(fr, &c.Extent, v)

	c.Notes = l.notes
	if c.ToAbeam == 0 { // wings level abeam, and in the turn only by rounding
		c.Notes &^= Notes(AbeamInTurn)
	}
	if l.ux > 0 {
		c.Notes |= Notes(OutboundPointsInbound)
	}
	if c.Straight == 0 {
		c.Notes |= Notes(NoOutboundLeg)
	}
	if l.x3 > ground {
		c.Notes |= Notes(BeyondFix)
	}
	if l.y3 < -ground {
		c.Notes |= Notes(NonHoldingSide)
	}
	c.legs = legs{
		v: v, wx: fr.wx * v, wy: fr.wy * v, rate: float64(f.Rate), in: l.in, out: l.out,
		t1: l.t1, t2: l.t2, t3: l.t3, t4: l.t4,
	}
	return true
}
