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
// course at wings level, with the leg as the pattern gives it.
//
// For a leg given by its inbound time t_in, with A = g t_in + w T, the equation of the
// package comment has the modulus
//
//	(V² - w²) t² - 2 (A.w) t - A² = 0
//
// whose one root that is not negative,
//
//	t = A² / (sqrt((A.w)² + (V² - w²) A²) - A.w)
//
// is the outbound time; the heading is the direction of -(A + w t). No iteration, no
// allocation. Accuracy: rounding, 1e-9 s and 1e-9 degrees for usual winds, growing as
// 1/(1 - w/V) where the wind comes near the airspeed.
//
// A leg given by its inbound length d takes t_in = d/g. The other kinds are given by where
// or when the outbound leg ends; the circuits that close make a family with one parameter,
// t_in, and the one wanted is found in it by Newton's method, to 1e-9 s where the outbound
// leg lasts a second or more, or in closed form where there is one: with a clock that
// starts at wings level, sin(outbound) is -w_y (T + t)/(V t), and without crosswind
// everything is linear in t_in. A DME limit is reached where the slant range at the
// flight's altitude reads it, the first time on the outbound leg. Of several circuits the
// ordinary one is given, with the outbound heading within 90 degrees of the reciprocal.
//
// The leg gains ground outbound only while A points inbound, that is while
// t_in > -w_x T / g. In a headwind straight down the inbound course that ends at
// w = V t_in / (t_in + T), a third of the airspeed for one minute at 3 deg/s.
//
// Errors: [abeam.ErrInvalid] for a pattern or flight out of range;
// [abeam.ErrUnflyable] for a wind as strong as the TAS, or where no outbound leg
// gives so short an inbound leg: the limit then names the shortest, which
// [Pattern.ShortestInbound] gives as a value; where the outbound leg is too short for the
// inbound turn to come out on the course and short of the fix; where a DME reading is
// smaller than the height above the station, or the outbound leg never reaches it.
func (p Pattern) Outbound(f Flight) (heading abeam.Bearing, straight time.Duration, err error) {
	const op = "hold.Pattern.Outbound"
	var fr frame
	if err := fr.set(op, &p, &f); err != nil {
		return 0, 0, err
	}
	in, err := fr.inboundTime(op, &p, &f)
	if err != nil {
		return 0, 0, err
	}
	dx, dy, _, t, ok := fr.solve(in)
	if !ok {
		return 0, 0, fr.noOutboundLeg(op, &p.leg, &f)
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
	if ax < -ground {
		return 0, 0, 0, 0, false
	}
	ax = max(0, ax)
	aw := ax*fr.wx + ay*fr.wy
	a2 := ax*ax + ay*ay
	den := math.Sqrt(aw*aw+(1-fr.w)*(1+fr.w)*a2) - aw
	if !(a2 > 0) { // one continuous turn; the outbound heading is passed, not flown
		return -1, 0, 1, 0, true
	}
	// -(A + w t), whose length is t, taken times den to be free of the division.
	return -(ax*den + fr.wx*a2), 0 - (ay*den + fr.wy*a2), a2, a2 / den, true
}

// noOutboundLeg rejects an inbound leg, given by time or by length.
func (fr *frame) noOutboundLeg(op string, leg *Leg, f *Flight) error {
	name, value := leg.field()
	limit := "longer than the wind allows"
	if shortest, ok := clock.Ceil(fr.shortest()); ok {
		least := shortest.String()
		if leg.kind == InboundLength {
			least = abeam.NM(fr.shortest() * fr.g * f.perSecond()).String()
		}
		limit = "at least " + least + ": in this headwind no outbound leg gives less"
	}
	return check.Unflyable(op, name, value, limit)
}
