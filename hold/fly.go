package hold

import (
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/internal/clock"
)

// Fly gives the lap that comes of an outbound heading and an outbound clock time,
// as a pilot flies it: from over the fix, established on the inbound heading that
// makes the course good; a turn to the outbound heading; the clock from wings level
// or abeam, whichever is later; a turn to the same inbound heading, held until the
// fix is abeam. Established.Abreast and Inbound tell the errors left.
//
// The clock time is 0 to [MaxLeg]. The leg of the pattern is not used.
//
// Errors: as [Pattern.Outbound]; [abeam.ErrInvalid] for a heading that is not finite
// or a clock out of range; [abeam.ErrUnflyable] for a heading on which the fix never
// comes abeam.
func (p Pattern) Fly(f Flight, heading abeam.Bearing, outbound time.Duration) (c Circuit, err error) {
	const op = "hold.Pattern.Fly"
	var fr frame
	if err := fr.set(op, &p, &f); err != nil {
		return c, err
	}
	if err := check.Finite(op, "outbound heading", heading); err != nil {
		return c, err
	}
	if !(outbound >= 0 && outbound <= MaxLeg) {
		return c, check.Invalid(op, "outbound time", outbound, "from 0s to "+MaxLeg.String())
	}
	rel := float64(heading - p.inbound)
	if p.turn == Left {
		rel = -rel
	}
	uy, ux := angle.Sincos(rel)
	var l lap
	l.turnOut(&fr, ux, uy, 1)
	if l.x1 > -ground && l.gx >= 0 {
		return c, check.Unflyable(op, "outbound heading", heading, "one that brings the fix abeam")
	}
	l.findAbeam(&fr, math.Inf(1))
	l.t2 = outbound.Seconds() + max(0, l.abeam)
	l.x2, l.y2 = l.x1+l.gx*l.t2, l.y1+l.gy*l.t2
	l.x3 = l.x2 + fr.r*(fr.sinIn-l.uy) + fr.wx*l.t3
	l.y3 = l.y2 + fr.r*(l.ux-fr.cosIn) + fr.wy*l.t3
	l.t4 = -l.x3 / fr.g
	var ok bool
	if c.Inbound, ok = clock.Duration(l.t4); !ok || !c.fill(&p, &f, &fr, &l) {
		return Circuit{}, tooLong(op, f)
	}
	return c, nil
}
