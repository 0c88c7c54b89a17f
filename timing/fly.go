package timing

import (
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/internal/kinematics"
)

// air is the aeroplane in the wind of one lap as they truly are, in the course frame: x
// along the inbound course, y to the holding side, degrees from x towards y, NM and
// seconds. Left-hand patterns are mirrored into it, so every turn is positive.
type air struct {
	v, wx, wy        float64 // airspeed, and where the wind goes
	in, sinIn, cosIn float64 // the heading that makes the inbound course good
	g                float64 // groundspeed on it
	rate1, rate2     float64 // of the outbound and the inbound turn
}

// passage is where and how the fix is passed: at x = 0, but beyond where an inbound turn
// rolled out beyond the fix.
type passage struct {
	x, y, heading float64
	sin, cos      float64 // of the heading
}

// level is a passage on the inbound heading.
func (a *air) level(x, y float64) passage {
	return passage{x: x, y: y, heading: a.in, sin: a.sinIn, cos: a.cosIn}
}

// arc is the displacement of a turn to greater headings at a rate: of the radius through the
// air between two headings, and with the wind for its time.
func (a *air) arc(rate, sin0, cos0, sin1, cos1, t float64) (x, y float64) {
	r := a.v / rate * (180 / math.Pi)
	return r*(sin1-sin0) + a.wx*t, r*(cos0-cos1) + a.wy*t
}

func sincos(deg float64) (sin, cos float64) { return angle.Sincos(deg) }

// set resolves a flight; inbound and outbound turns may have rates of their own.
func (a *air) set(op string, p hold.Pattern, f hold.Flight, outTurn, inTurn hold.Rate) error {
	if err := f.Validate(); err != nil {
		return err
	}
	c := f.Wind.Components(p.Inbound())
	cross := float64(c.Cross)
	if p.Turn() == hold.Left {
		cross = -cross
	}
	a.v = float64(f.TAS) / 3600
	a.wx, a.wy = 0-float64(c.Head)/3600, 0-cross/3600
	a.sinIn = cross / float64(f.TAS)
	a.cosIn = math.Sqrt((1 - a.sinIn) * (1 + a.sinIn))
	a.in = angle.Asin(a.sinIn)
	a.g = a.v*a.cosIn + a.wx
	a.rate1, a.rate2 = float64(outTurn), float64(inTurn)
	if !(a.g > 0) {
		return check.Unflyable(op, "wind speed", f.Wind.Speed, "weak enough to make ground along the inbound course")
	}
	return nil
}

// order is a plan in the units of the kernel, with the errors of flying it.
type order struct {
	out, then    float64 // headings in the course frame
	time, change float64 // on the clock; a change of 0 is none
	abeams       float64
	start        Start
	late         float64 // how late the inbound turn begins
	cut          float64
}

// flown is what comes of an order.
type flown struct {
	outbound float64 // the clock as the inbound turn begins
	straight float64 // wings level to the inbound turn
	toAbeam  float64 // over the fix to abeam, 0 if never
	inbound  float64 // wings level to the fix, negative beyond it
	lap      float64
	cut      float64 // to join the course, positive to the holding side
	rollX    float64 // wings level inbound
	rollY    float64
	next     passage // where the next lap begins
}

// fly flies one lap from a passage, in closed form but for the moment of a crossing within
// a turn. The aeroplane turns to the outbound heading; the clock starts by its rule, at
// wings level where the fix is never abeam (AIM 5-3-8 j.4(b)); it turns to the heading that
// makes the inbound course good, and joins the course.
func (a *air) fly(from passage, o *order, f *flown) {
	sin, cos := sincos(o.out)
	gx, gy := a.v*cos+a.wx, a.v*sin+a.wy
	turned := circle(o.out-from.heading) / a.rate1
	dx, dy := a.arc(a.rate1, from.sin, from.cos, sin, cos, turned)
	x, y := from.x+dx, from.y+dy

	// Abeam, from wings level.
	abeam, found := 0.0, false
	switch {
	case x <= 0:
		abeam, found = a.abeamInTurn(from, turned)-turned, true
	case gx < 0 && -x/gx <= hold.MaxLeg.Seconds():
		abeam, found = -x/gx, true
	}
	clock := 0.0
	switch o.start {
	case AtAbeam:
		clock = abeam
	case AtWingsLevelOrAbeam:
		clock = max(0, abeam)
	}
	end := clock + o.time
	if o.abeams > 0 {
		end = o.abeams*(turned+abeam) - turned
	}
	end = max(0, end+o.late)
	f.outbound, f.straight = max(0, end-clock), end

	straight := end
	if o.change > 0 {
		straight = min(end, max(0, clock+o.change))
	}
	f.toAbeam = 0
	if found && abeam <= straight { // and not only after a change of heading or in the inbound turn
		f.toAbeam = turned + abeam
	}
	x, y = x+gx*straight, y+gy*straight
	heading := o.out
	if straight < end {
		x, y, heading = a.changeHeading(x, y, o, end-straight)
		sin, cos = sincos(heading)
	}

	back := circle(a.in-heading) / a.rate2
	dx, dy = a.arc(a.rate2, sin, cos, a.sinIn, a.cosIn, back)
	x, y = x+dx, y+dy
	f.rollX, f.rollY = x, y
	if x >= 0 { // beyond the fix: the next turn begins at once
		f.inbound, f.cut, f.next = -x/a.g, 0, a.level(x, y)
	} else {
		f.inbound, f.next, f.cut = a.inbound(x, y, o.cut)
	}
	f.lap = turned + end + back + max(0, f.inbound)
}

// circle brings an angle to [0, 360).
func circle(deg float64) float64 {
	if deg -= 360 * math.Floor(deg/360); deg >= 360 { // a hair below 0 rounds to a circle
		return 0
	}
	return deg
}

// abeamInTurn is when the outbound turn passes abeam. Along is greatest where the ground
// velocity has no part along the course, at cos(heading) = -wx/V; from there it falls.
func (a *air) abeamInTurn(from passage, duration float64) float64 {
	turn := kinematics.Segment{X: from.x, Y: from.y, Heading: from.heading, Rate: a.rate1, Speed: a.v, WX: a.wx, WY: a.wy}
	top := angle.Acos(min(1, max(-1, -a.wx/a.v)))
	lo := min(duration, max(0, (top-from.heading)/a.rate1))
	return turn.Crossing(lo, duration)
}

// changeHeading turns the short way to the second outbound heading and flies on.
func (a *air) changeHeading(x, y float64, o *order, left float64) (float64, float64, float64) {
	d := math.Remainder(o.then-o.out, 360)
	s := kinematics.Segment{X: x, Y: y, Heading: o.out, Rate: math.Copysign(a.rate1, d), Speed: a.v, WX: a.wx, WY: a.wy}
	s.Duration = min(left, math.Abs(d)/a.rate1)
	at := s.End()
	sin, cos := sincos(at.Heading)
	left -= s.Duration
	return at.X + (a.v*cos+a.wx)*left, at.Y + (a.v*sin+a.wy)*left, at.Heading
}

// steer turns a correction into an outbound heading of the course frame.
func steer(turn hold.Turn, correction abeam.Degrees) float64 {
	if turn == hold.Left {
		correction = -correction
	}
	return 180 + float64(correction)
}
