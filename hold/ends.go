package hold

import (
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
)

// end is what the outbound leg is measured by, in the units of frame: seconds of the
// clock, distance along the course, or ground distance from the station.
type end struct {
	kind    LegKind
	want    float64
	station float64 // where it lies along the course
	fix     float64 // ground distance from station to fix
	away    bool
}

// inboundTime gives the inbound time that the leg of the pattern makes.
func (fr *frame) inboundTime(op string, p *Pattern, f *Flight) (float64, error) {
	switch leg := &p.leg; leg.kind {
	case InboundTimed:
		return leg.time.Seconds(), nil
	case InboundLength:
		return float64(leg.distance) / (f.perSecond() * fr.g), nil
	case OutboundTimed:
		e := end{kind: leg.kind, want: leg.time.Seconds()}
		if s, ok := fr.clockFromLevel(e.want); ok {
			return s, nil
		}
		return fr.seek(op, leg, &e)
	case OutboundLength:
		e := end{kind: leg.kind, want: float64(leg.distance) / f.perSecond()}
		return fr.seek(op, leg, &e)
	}
	e, err := dmeEnd(op, &p.leg, f)
	if err != nil {
		return 0, err
	}
	return fr.seek(op, &p.leg, &e)
}

// dmeEnd puts the station and the limit on the ground.
func dmeEnd(op string, leg *Leg, f *Flight) (end, error) {
	height := abeam.NM(math.Abs(float64((f.Altitude - leg.station.Elevation).NM())))
	fix, limit := leg.station.Fix, leg.distance
	if !(fix >= height) {
		return end{}, belowHeight(op, "fix DME", fix, height)
	}
	if !(limit >= height) {
		return end{}, belowHeight(op, "DME limit", limit, height)
	}
	ground := func(slant abeam.NM) float64 {
		return math.Sqrt(float64((slant-height)*(slant+height))) / f.perSecond()
	}
	e := end{kind: OutboundDME, want: ground(limit), fix: ground(fix), away: leg.station.Course == Away}
	e.station = e.fix
	if e.away {
		e.station = -e.fix
	}
	return e, nil
}

// clockFromLevel is the closed form of the timed outbound leg where the clock starts at
// wings level, the fix having been passed abeam in the turn; false where it does not. The
// straight time is then given, and the turns close with uy t = -wy (T + t).
func (fr *frame) clockFromLevel(t float64) (s float64, ok bool) {
	flown := 360*fr.perRate + t
	uy := -fr.wy * flown / t
	if !(math.Abs(uy) <= 1) {
		return 0, false
	}
	ux := -math.Sqrt((1 - uy) * (1 + uy))
	turned := angle.Atan2(uy, ux) - angle.Asin(fr.sinIn)
	if turned < 0 {
		turned += 360
	}
	s = -(fr.wx*flown + ux*t) / fr.g
	x1 := fr.r*(uy-fr.sinIn) + fr.wx*turned*fr.perRate
	return s, s >= 0 && x1 <= 0
}

// over tells by how much the outbound leg of a circuit goes beyond its end, and how that
// grows with the inbound time.
func (e *end) over(fr *frame, m *member) (over, slope float64) {
	switch e.kind {
	case OutboundTimed:
		// The clock runs from abeam, x = 0, or from wings level if that is later.
		dt := -fr.g * m.ux / m.slip
		if m.x1 <= 0 || m.ax <= 0 {
			return m.t - e.want, dt
		}
		left := (m.ax - m.x1) / m.ax // share of the leg that is left at abeam
		dx1 := fr.r * m.gx * m.dh
		return m.t*left - e.want, dt*left + m.t*(m.x1*fr.g/m.ax-dx1)/m.ax
	case OutboundLength:
		return -m.x2 - e.want, fr.g - fr.r*m.gx*m.dh
	}
	dx := m.x2 - e.station
	d := math.Sqrt(dx*dx + m.y2*m.y2)
	slope = (dx*(fr.r*m.gx*m.dh-fr.g) + m.y2*fr.r*m.gy*m.dh) / d
	if e.away {
		return e.want - d, -slope
	}
	return d - e.want, slope
}

// start is an inbound time near the answer: the answer itself without crosswind. The
// inbound turn then drifts wx T/2 along the course and comes out 2r from the line it began
// on. A clock that starts at wings level has its closed form, and of a ring about the
// station too narrow to hold 2r the start is on the flank, nine tenths of its radius abreast.
func (e *end) start(fr *frame) float64 {
	along := e.want // from abeam the fix to the start of the inbound turn
	switch e.kind {
	case OutboundTimed:
		along *= 1 - fr.wx
	case OutboundDME:
		across := math.Min(2*fr.r, 0.9*e.want)
		along = math.Sqrt((e.want-across)*(e.want+across)) - e.fix
		if e.away {
			along = -along
		}
	}
	return (along - 180*fr.perRate*fr.wx) / fr.g
}

// most is an inbound time at which every leg has passed its end, or on a course away from
// the station has passed it abeam: x1 is below 2r + wT.
func (e *end) most(fr *frame) float64 {
	full := 360 * fr.perRate
	x1 := 2*fr.r + fr.w*full
	ax := x1 + e.want + e.fix
	if e.kind == OutboundTimed {
		// t is at least ax/2, and half of it by the clock where ax is twice x1.
		ax = math.Max(2*x1, 4*e.want)
	}
	return math.Max(0, (ax-fr.wx*full)/fr.g)
}

// seek finds the inbound time at which the leg ends where it should: by Newton's method
// or, where that strays, by a search of the family from its smallest inbound time up for
// the first circuit that passes the end.
func (fr *frame) seek(op string, leg *Leg, e *end) (float64, error) {
	in := angle.Asin(fr.sinIn)
	least := fr.least()
	var m member
	if s, _, ok := fr.newton(e, &m, in, least); ok {
		return s, fr.arrives(op, leg, e, &m)
	}
	return fr.search(op, leg, e, in, least)
}

// newton is Newton's method from near the answer, which takes two to four steps, and tells
// how many it took.
func (fr *frame) newton(e *end, m *member, in, least float64) (s float64, steps int, ok bool) {
	s = math.Max(least, e.start(fr))
	for steps = range 12 {
		m.set(fr, in, s)
		over, slope := e.over(fr, m)
		step := over / slope
		if !(slope > 0 && s-step >= least) {
			break
		}
		s -= step
		// Quadratic convergence, on the scale of the outbound time: after a step of a
		// millionth of it the next would be below 1e-12 of it.
		if math.Abs(step) < 1e-6*math.Min(1, m.t) {
			return s, steps + 1, true
		}
	}
	return s, steps, false
}

// search is seek without a start: a scan, close where the outbound leg is short, then
// bisection to the last bit.
func (fr *frame) search(op string, leg *Leg, e *end, in, least float64) (float64, error) {
	const n = 256
	span := math.Max(0, e.most(fr)-least) // in a strong headwind the least has passed the end
	var m member
	lo, before, passed := least, false, false
	for i := range n + 1 {
		share := float64(i) / n
		s := least + span*share*share*share
		m.set(fr, in, s)
		over, _ := e.over(fr, &m)
		if over >= 0 && before {
			hi := s
			for range 100 {
				mid := (lo + hi) / 2
				m.set(fr, in, mid)
				if over, _ := e.over(fr, &m); over < 0 {
					lo = mid
				} else {
					hi = mid
				}
			}
			return hi, fr.arrives(op, leg, e, &m)
		}
		lo, before = s, over <= 0
		passed = passed || !before
	}
	if passed {
		return 0, leg.tooShort(op, "in this wind the inbound turn comes out beyond the fix or off the course")
	}
	name, value := leg.field()
	return 0, check.Unflyable(op, name, value, "a reading that the outbound leg comes to in this wind")
}

// arrives rejects a circuit whose outbound leg meets the DME limit as it leaves again
// what it entered before: along a straight leg the reading falls to its least and rises,
// and the leg ends where it reads the limit for the first time.
func (fr *frame) arrives(op string, leg *Leg, e *end, m *member) error {
	if e.kind == OutboundDME && e.away && (m.x2-e.station)*m.gx+m.y2*m.gy > 0 {
		name, value := leg.field()
		return check.Unflyable(op, name, value, "a reading that the outbound leg comes to for the first time at its end")
	}
	return nil
}
