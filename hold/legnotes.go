package hold

import (
	"math"
	"time"
)

// The shortest legs that ICAO allows.
//
// Source: ICAO Doc 8168 Vol II II-4-1-4.
const (
	leastInbound = 30 * time.Second
	leastDMELeg  = 60.0 // s at the true airspeed
)

// legNotes are the remarks on a circuit whose inbound time follows from its leg.
func (c *Circuit) legNotes(p *Pattern, f *Flight, fr *frame, l *lap) (ns Notes) {
	if c.Inbound < leastInbound {
		ns |= Notes(ShortInbound)
	}
	if p.leg.kind != OutboundDME {
		return ns
	}
	e, _ := dmeEnd("", &p.leg, f) // it has passed before
	if math.Abs(e.want-e.fix) < leastDMELeg {
		ns |= Notes(ShortDMELeg)
	}
	switch {
	case e.away && fr.missesUncorrected(l.in, &e):
		ns |= Notes(LimitingRadial)
	case !e.away && math.Hypot(l.x1-e.station, l.y1) >= e.want:
		ns |= Notes(LimitInTurn)
	}
	return ns
}

// missesUncorrected reports whether the outbound leg on the reciprocal course heading
// passes the DME limit by. It leaves from the end of a turn of 180 degrees less the
// inbound heading, runs along the line of the ground velocity, and is nearest to the
// station where it starts or abeam of it, whichever is later.
func (fr *frame) missesUncorrected(in float64, e *end) bool {
	t := (180 - in) * fr.perRate
	x := 0 - fr.r*fr.sinIn + fr.wx*t - e.station
	y := fr.r*(fr.cosIn+1) + fr.wy*t
	gx, gy := fr.wx-1, fr.wy
	nearest := max(0, -(x*gx+y*gy)/(gx*gx+gy*gy))
	return math.Hypot(x+gx*nearest, y+gy*nearest) > e.want
}
