package hold

import (
	"fmt"
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/internal/clock"
)

// Outbound gives the outbound heading, and the time to fly on it from wings level
// to the start of the inbound turn, that bring the inbound leg out exactly: on the
// course at wings level, at the fix after the leg's time.
//
// With A = g t_in + w T, the equation of the package comment has the modulus
//
//	(V2 - w2) t2 - 2 (A.w) t - A2 = 0
//
// whose one root that is not negative,
//
//	t = A2 / (sqrt((A.w)2 + (V2 - w2) A2) - A.w)
//
// is the outbound time; the heading is the direction of -(A + w t). No iteration, no
// allocation. Accuracy: rounding, 1e-9 s and 1e-9 degrees for usual winds, growing as
// 1/(1 - w/V) where the wind comes near the airspeed.
//
// The leg gains ground outbound only while A points inbound, that is while
// t_in > -w_x T / g. In a headwind straight down the inbound course that ends at
// w = V t_in / (t_in + T), a third of the airspeed for one minute at 3 deg/s.
//
// Errors: [abeam.ErrInvalid] for a pattern or flight out of range;
// [abeam.ErrUnflyable] for a wind as strong as the TAS, or where no outbound leg
// gives so short an inbound leg: the limit then names the shortest, which
// [Pattern.ShortestInbound] gives as a value.
func (p Pattern) Outbound(f Flight) (heading abeam.Bearing, straight time.Duration, err error) {
	const op = "hold.Pattern.Outbound"
	var fr frame
	if err := fr.set(op, &p, &f); err != nil {
		return 0, 0, err
	}
	dx, dy, _, t, ok := fr.solve(p.leg.inbound.Seconds())
	if !ok {
		return 0, 0, fr.noOutboundLeg(op, p.leg.inbound)
	}
	straight, ok = clock.Duration(t)
	if !ok {
		return 0, 0, tooLong(op, f)
	}
	return p.compass(angle.Atan2(dy, dx)), straight, nil
}

func tooLong(op string, f Flight) error {
	return check.Unflyable(op, "wind speed", f.Wind.Speed,
		fmt.Sprintf("far enough below the TAS of %v for the circuit to end", f.TAS))
}

// ground below which the outbound leg is no leg, in airspeed seconds: a micrometre.
// It lets the shortest inbound time through its own rounding to the nanosecond.
const ground = 1e-8

// solve gives a vector along the outbound heading, its length, and the outbound time;
// false if there is no outbound leg for this inbound time.
func (fr *frame) solve(in float64) (dx, dy, n, t float64, ok bool) {
	full := 360 * fr.perRate
	ax := fr.g*in + fr.wx*full
	ay := fr.wy * full
	if ax < 0 {
		if ax < -ground {
			return 0, 0, 0, 0, false
		}
		ax = 0
	}
	aw := ax*fr.wx + ay*fr.wy
	a2 := ax*ax + ay*ay
	den := math.Sqrt(aw*aw+(1-fr.w)*(1+fr.w)*a2) - aw
	if !(a2 > 0) { // one continuous turn; the outbound heading is passed, not flown
		return -1, 0, 1, 0, true
	}
	// -(A + w t), whose length is t, taken times den to be free of the division.
	return -(ax*den + fr.wx*a2), 0 - (ay*den + fr.wy*a2), a2, a2 / den, true
}

func (fr *frame) noOutboundLeg(op string, inbound time.Duration) error {
	limit := "longer than the wind allows"
	if shortest, ok := clock.Ceil(fr.shortest()); ok {
		limit = "at least " + shortest.String() + ": in this headwind no outbound leg gives less"
	}
	return check.Unflyable(op, "inbound leg", inbound, limit)
}
