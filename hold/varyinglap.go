package hold

import (
	"math"
	"slices"

	"github.com/holdingfix/abeam"
)

// varyingLap is a lap of a varying flight while it is worked out. Three times make it: of
// the steady part of either turn, and of the outbound leg. In units of NM, seconds and
// radians.
type varyingLap struct {
	fl     flow
	limits [2]turnLimit // of the outbound and the inbound turn
	roll   float64      // rad/s; 0 rolls at once
	delay  float64
	fine   float64 // 1; more divides every step
	leg    *Leg
	want   float64 // what the leg is given by: s, NM along, or NM of slant range
	// The DME station: along the course, and feet up.
	station, elevation float64

	pieces [10]piece // 9 at most, and where the last of them ends
	n      int
	t      float64
	m      motion

	rolledOut, call, level corner
}

// corner is a moment between pieces.
type corner struct {
	t float64
	m motion
}

// newVaryingLap prepares a lap of a flight that has been validated. Levels and kinks go
// into the buffers, as far as they fit; fine divides the steps.
func newVaryingLap(p *Pattern, v *Varying, fine float64, levels []airLevel, kinks []float64) varyingLap {
	q := varyingLap{
		fl: newFlow(p, v, levels, kinks), leg: &p.leg, fine: fine,
		delay: v.Delay.Seconds(), roll: float64(v.RollRate) * (math.Pi / 180),
	}
	for i, rule := range [2]TurnRule{v.OutboundTurn, v.InboundTurn} {
		q.limits[i] = limitOf(rule)
		q.fl.kinks = q.fl.handOver(q.fl.kinks, &q.limits[i])
	}
	slices.Sort(q.fl.kinks)
	return q
}

func (q *varyingLap) corner() corner { return corner{q.t, q.m} }

// fly lays the lap from over the fix to wings level inbound.
func (q *varyingLap) fly(z *[3]float64) {
	q.n, q.t = 0, 0
	h, _ := q.fl.at(0).crab()
	q.m = motion{h: h}
	q.turn(OutboundTurn, 0, z[0])
	q.rolledOut = q.corner()
	q.add(piece{kind: straight, phase: OutboundLeg}, z[1])
	q.call = q.corner()
	q.turn(InboundTurn, 1, z[2])
	q.level = q.corner()
}

// flyHome lays the lap of the answer, which comes out on the course but for rounding.
func (q *varyingLap) flyHome(z *[3]float64) {
	q.fly(z)
	q.level.m.y = 0
}

// turn flies the delay, the roll into the turn, the turn and the roll out of it.
func (q *varyingLap) turn(phase Phase, which uint8, steady float64) {
	limit := &q.limits[which]
	if q.delay > 0 {
		q.add(piece{kind: straight, phase: phase}, q.delay)
	}
	if q.roll == 0 {
		q.add(piece{kind: turning, phase: phase, which: which}, steady)
		return
	}
	// The bank to reach is that of the airspeed at the end of the roll, which changes by a
	// hundredth over it where neither roll nor climb is extreme: each round gains two digits.
	in, before := 0.0, -1.0
	for range 30 {
		if in == before {
			break
		}
		before, in = in, limit.bankAt(q.fl.at(q.t+in).v)/q.roll
	}
	q.add(piece{kind: rollIn, phase: phase}, in)
	q.add(piece{kind: turning, phase: phase, which: which}, steady)
	bank := limit.bankAt(q.fl.at(q.t).v)
	q.add(piece{kind: rollOut, phase: phase, bank: bank}, bank/q.roll)
}

func (q *varyingLap) add(p piece, duration float64) {
	p.t0, p.t1, p.start = q.t, q.t+duration, q.m
	at := &q.pieces[q.n]
	*at = p
	q.n++
	q.advance(at, &q.m, p.t0, p.t1)
	q.t = p.t1
	q.pieces[q.n].start = q.m
}

// misses tells by how much the lap of the three times misses closing, in NM: off the
// inbound heading at the radius of the turn, off the course, off the end of the leg.
func (q *varyingLap) misses(z *[3]float64) (miss [3]float64) {
	q.fly(z)
	a := q.fl.at(q.level.t)
	crab, _ := a.crab()
	radius := a.v / q.limits[1].at(a.v)
	return [3]float64{(q.level.m.h - crab - 2*math.Pi) * radius, q.level.m.y, q.ending()}
}

// ending is by how much the lap misses what the leg is given by.
func (q *varyingLap) ending() float64 {
	switch q.leg.kind {
	case InboundTimed:
		m := q.level.m
		q.alongside(&m, q.level.t, q.level.t+q.want)
		return m.x
	case InboundLength:
		return q.level.m.x + q.want
	case OutboundLength:
		return q.call.m.x + q.want
	case OutboundDME:
		height := (q.fl.altitude(q.call.t) - q.elevation) * (1.0 / abeam.FeetPerNM)
		dx := q.call.m.x - q.station
		return math.Sqrt(dx*dx+q.call.m.y*q.call.m.y+height*height) - q.want
	}
	// OutboundTimed: the clock runs from wings level, or from abeam if that is later, which
	// is where a leg of just the clock's time would have begun.
	if m := q.call.m; q.rolledOut.m.x > 0 {
		leg := &piece{kind: straight}
		q.advance(leg, &m, q.call.t, q.call.t-q.want)
		return m.x
	}
	return (q.want - (q.call.t - q.rolledOut.t)) * q.fl.last.v
}

// alongside follows the course.
func (q *varyingLap) alongside(m *motion, t0, t1 float64) {
	q.advance(&piece{kind: alongside, phase: InboundLeg}, m, t0, t1)
}

// inbound finds the time from wings level inbound to abeam the fix by Newton's method:
// the groundspeed hardly changes along the leg.
func (q *varyingLap) inbound() (t float64, m motion, ok bool) {
	m, at := q.level.m, q.level.t
	for range 30 {
		_, along := q.fl.at(at).crab()
		step := -m.x / along
		if !(math.Abs(step) < 1e9) {
			return 0, m, false
		}
		q.alongside(&m, at, at+step)
		at += step
		if math.Abs(step) < 1e-9 {
			return at - q.level.t, m, true
		}
	}
	return 0, m, false
}

// solve finds the three times from a start, by Broyden's method: Newton's with a
// difference Jacobian that is then kept up to date from the steps taken, and made anew
// where a step does not help. Each evaluation is a lap flown, of which there are at most
// some 200. The lap of the answer is the last one flown.
func (q *varyingLap) solve(z *[3]float64) bool {
	miss := q.misses(z)
	size := norm(&miss)
	for range 12 {
		if closed(size) {
			return true
		}
		jac := q.jacobian(z, &miss)
		improved := false
		for range 12 {
			step, ok := solve3(jac, miss)
			if !ok {
				return false
			}
			next, after, better := q.shorten(z, &step, size, improved)
			if !better {
				break
			}
			broyden(&jac, z, &next, &miss, &after)
			*z, miss, size, improved = next, after, norm(&after), true
			if closed(size) {
				return true
			}
		}
		q.fly(z)
		if !improved {
			return false
		}
	}
	return false
}

// closed reports whether a miss, in NM, is rounding: of places up to some hundred NM away,
// over some hundred steps.
func closed(size float64) bool { return size < 1e-11 }

// shorten takes a step from z, or the part of it that comes nearer: a half, a quarter and
// so on. A step of a Jacobian that is not fresh is taken whole or not at all.
func (q *varyingLap) shorten(z, step *[3]float64, size float64, whole bool) (next, after [3]float64, better bool) {
	for share := 1.0; share > 1e-3; share /= 2 {
		for i := range next {
			next[i] = z[i] - share*step[i]
		}
		after = q.misses(&next)
		if better = norm(&after) < size; better || whole {
			break
		}
	}
	return next, after, better
}

// jacobian is that of the misses, by forward differences.
func (q *varyingLap) jacobian(z, miss *[3]float64) (jac [3][3]float64) {
	const d = 1e-4
	for j := range z {
		shifted := *z
		shifted[j] += d
		m := q.misses(&shifted)
		for i := range m {
			jac[i][j] = (m[i] - miss[i]) / d
		}
	}
	return jac
}

// broyden corrects a Jacobian so that it explains the last step.
func broyden(jac *[3][3]float64, z, next, miss, after *[3]float64) {
	var d [3]float64
	var dd float64
	for j := range d {
		d[j] = next[j] - z[j]
		dd += d[j] * d[j]
	}
	for i := range jac {
		off := after[i] - miss[i]
		for j := range d {
			off -= jac[i][j] * d[j]
		}
		for j := range d {
			jac[i][j] += off * d[j] / dd
		}
	}
}

func norm(v *[3]float64) float64 {
	return math.Sqrt(v[0]*v[0] + v[1]*v[1] + v[2]*v[2])
}

// solve3 solves three linear equations by elimination with pivots.
func solve3(a [3][3]float64, b [3]float64) (x [3]float64, ok bool) {
	for k := range 3 {
		pivot := k
		for i := k + 1; i < 3; i++ {
			if math.Abs(a[i][k]) > math.Abs(a[pivot][k]) {
				pivot = i
			}
		}
		a[k], a[pivot] = a[pivot], a[k]
		b[k], b[pivot] = b[pivot], b[k]
		if !(math.Abs(a[k][k]) > 0) {
			return x, false
		}
		for i := k + 1; i < 3; i++ {
			f := a[i][k] / a[k][k]
			for j := k; j < 3; j++ {
				a[i][j] -= f * a[k][j]
			}
			b[i] -= f * b[k]
		}
	}
	for k := 2; k >= 0; k-- {
		for j := k + 1; j < 3; j++ {
			b[k] -= a[k][j] * x[j]
		}
		x[k] = b[k] / a[k][k]
	}
	return x, true
}
