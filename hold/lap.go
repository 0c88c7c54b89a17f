package hold

import "github.com/holdingfix/abeam/internal/angle"

// lap is the geometry of one circuit while it is worked out, in the units of frame.
type lap struct {
	in, out        float64 // headings
	ux, uy         float64 // the outbound heading as a vector
	gx, gy         float64 // the velocity over the ground on it
	d1             float64 // angle of the outbound turn
	t1, t2, t3, t4 float64 // outbound turn, outbound leg, inbound turn, inbound leg
	x1, y1         float64 // roll-out
	x2, y2         float64 // start of the inbound turn
	x3, y3         float64 // wings level inbound
	top            float64 // the heading, 0 to 180, on which Along is greatest
	abeam          float64 // time from wings level to abeam
	notes          Notes
}

// turnOut flies the outbound turn to the heading of the vector (dx, dy) of length n.
func (l *lap) turnOut(fr *frame, dx, dy, n float64) {
	ux, uy := dx/n, dy/n
	l.ux, l.uy = ux, uy
	l.in, l.out = angle.Asin(fr.sinIn), angle.Atan2(dy, dx)
	l.top = angle.Acos(0 - fr.wx)
	d := l.out - l.in
	if d < 0 {
		d += 360
	}
	l.d1 = d
	l.t1, l.t3 = d*fr.perRate, (360-d)*fr.perRate
	l.x1 = fr.r*(uy-fr.sinIn) + fr.wx*l.t1
	l.y1 = fr.r*(fr.cosIn-ux) + fr.wy*l.t1
	l.gx, l.gy = ux+fr.wx, uy+fr.wy
}

// onArc gives the place on whichever turn passes through the heading h.
func (l *lap) onArc(fr *frame, h, sinH, cosH float64) (x, y float64) {
	turned := h - l.in
	if turned <= l.d1 {
		t := turned * fr.perRate
		return fr.r*(sinH-fr.sinIn) + fr.wx*t, fr.r*(fr.cosIn-cosH) + fr.wy*t
	}
	t := (turned - l.d1) * fr.perRate
	return l.x2 + fr.r*(sinH-l.uy) + fr.wx*t, l.y2 + fr.r*(l.ux-cosH) + fr.wy*t
}
