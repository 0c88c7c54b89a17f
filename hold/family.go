package hold

import (
	"math"

	"github.com/holdingfix/abeam/internal/angle"
)

// member is one of the circuits that close, in the units of frame. They make a family
// with one parameter, the inbound time s: each s gives one outbound leg (see
// frame.solve), and everything else by the turns. The inbound turn flown backwards from
// wings level gives the start of the turn,
//
//	x2 = r (uy - sin in) - wx t3 - g s,  y2 = r (cos in - ux) - wy t3
//
// and the roll-out lies x1 = x2 + A_x, A_x = g s + wx T being the ground that the
// outbound leg covers outbound. A change of s turns the outbound heading by
//
//	dh/ds = -g wy T / (t2 (1 + u.w))
//
// from the derivatives of |A + w t| = t and of uy t = -wy (T + t).
type member struct {
	s, t       float64 // inbound time, outbound time from wings level
	ax         float64
	ux, uy     float64 // outbound heading
	gx, gy     float64 // velocity over the ground on it
	x1, x2, y2 float64
	slip       float64 // 1 + u.w
	dh         float64 // rad/s
}

// set gives the member of inbound time s. in is the inbound heading in degrees.
func (m *member) set(fr *frame, in, s float64) {
	full := 360 * fr.perRate
	dx, dy, n, t, _ := fr.solve(s)
	m.s, m.t = s, t
	m.ax = fr.g*s + fr.wx*full
	m.ux, m.uy = dx/n, dy/n
	m.gx, m.gy = m.ux+fr.wx, m.uy+fr.wy
	turned := angle.Atan2(dy, dx) - in
	if turned < 0 {
		turned += 360
	}
	t3 := (360 - turned) * fr.perRate
	m.x2 = fr.r*(m.uy-fr.sinIn) - fr.wx*t3 - fr.g*s
	m.y2 = fr.r*(fr.cosIn-m.ux) - fr.wy*t3
	m.x1 = m.x2 + m.ax
	m.slip = 1 + m.ux*fr.wx + m.uy*fr.wy
	m.dh = 0
	if fr.wy != 0 { // without crosswind the heading stays, and t may be 0
		m.dh = -fr.g * fr.wy * full / (t * t * m.slip)
	}
}

// least is the smallest inbound time of the ordinary circuits: those on an outbound
// heading within 90 degrees of the reciprocal, that come out short of the fix. Square to
// the course the outbound leg only holds against the crosswind, t = |wy| T/(1 - |wy|),
// and A_x is -wx t.
func (fr *frame) least() float64 {
	full := 360 * fr.perRate
	across := math.Abs(fr.wy)
	return math.Max(0, -fr.wx*(full+across*full/(1-across))/fr.g)
}
