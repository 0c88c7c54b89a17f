package hold

import (
	"math"

	"github.com/holdingfix/abeam"
)

// Extent is how far a circuit reaches from the fix, each way as a positive distance.
type Extent struct {
	Beyond   abeam.NM // past the fix in the inbound direction
	Outbound abeam.NM // in the outbound direction
	Widest   abeam.NM // to the holding side
	Astray   abeam.NM // to the non-holding side; 0 on the exact circuit
}

// Length is the longest extent, along the course.
func (e Extent) Length() abeam.NM { return e.Beyond + e.Outbound }

// Width is the widest extent, across the course.
func (e Extent) Width() abeam.NM { return e.Widest + e.Astray }

// extent finds the four extremes in closed form. The ground velocity V u + w turns
// one way through one full circle, so each extreme is taken once, where the
// velocity along or across the course vanishes:
//
//	along:   V cos(h) + wx = 0, at h and 360 - h with cos h = -wx/V
//	abreast: V sin(h) + wy = 0, at the inbound heading and at 180 less it
//
// The first of each pair is the maximum of Along, the minimum of Abreast.
func (l *lap) extent(fr *frame, e *Extent, v float64) {
	c := 0 - fr.wx
	s := math.Sqrt((1 - c) * (1 + c))
	beyond, _ := l.onArc(fr, l.top, s, c)
	outbound, _ := l.onArc(fr, 360-l.top, -s, c)
	_, widest := l.onArc(fr, 180-l.in, fr.sinIn, -fr.cosIn)
	e.Beyond = abeam.NM(max(0, beyond) * v)
	e.Outbound = abeam.NM(max(0, -outbound) * v)
	e.Widest = abeam.NM(max(0, widest) * v)
	e.Astray = abeam.NM(max(0, -l.y3) * v)
}
