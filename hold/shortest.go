package hold

import (
	"math"
	"time"

	"github.com/holdingfix/abeam/internal/clock"
)

// ShortestInbound is the shortest inbound leg that can be had in a wind, whatever
// the leg of the pattern: the one after which the outbound leg gains no ground
// outbound. It is 0 unless the wind is a headwind on the inbound course:
//
//	shortest = -w_x T / g
//
// with w_x the tailwind on the course, T the time of a full circle and g the
// inbound groundspeed. Straight down the course it is flown as one continuous turn
// without any outbound leg; with a crosswind the outbound leg runs straight across.
// The result is rounded up to the nanosecond, so that a circuit of just this leg
// solves.
//
// Errors: as [Pattern.Outbound], but never for want of an outbound leg.
func (p Pattern) ShortestInbound(f Flight) (time.Duration, error) {
	const op = "hold.Pattern.ShortestInbound"
	var fr frame
	if err := fr.set(op, &p, &f); err != nil {
		return 0, err
	}
	d, ok := clock.Ceil(fr.shortest())
	if !ok {
		return 0, tooLong(op, f)
	}
	return d, nil
}

func (fr *frame) shortest() float64 { return math.Max(0, -fr.wx*360*fr.perRate/fr.g) }
