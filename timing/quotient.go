package timing

import (
	"time"

	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/internal/clock"
)

// Quotient gives the next outbound time from the last lap, exactly for a wind straight along
// the course and nearly for others, without knowing the wind:
//
//	next = (t (2 out + T) + T (out - in)) / (2 in + T)
//
// with t the target, T the time of both turns together, out the straight part of the last
// outbound leg, from wings level, and in its inbound time. Where T is 2 t, as for 1 minute
// at 3 deg/s, and times are in units of t, that is
//
//	next = (1 + 2 out - in) / (1 + in)
//
// A lap of 60 s out and 90 s in asks for 36 s.
//
// Derivation: a lap along the course closes when out (V - w) = in (V + w) + T w, w being the
// tailwind inbound; so w/V = (out - in)/(out + in + T), the difference of the legs over the
// lap. The same equation with the target as inbound time gives the next outbound time.
//
// Source: derived here. Each time is 0 to [hold.MaxLeg], target and turns above 0; the answer
// is brought into the range of 0 to [hold.MaxLeg].
//
// Errors: [abeam.ErrInvalid] for a time out of range.
func Quotient(out, in, target, turns time.Duration) (time.Duration, error) {
	const op = "timing.Quotient"
	if err := checkTimes(op, out, in, target, 0); err != nil {
		return 0, err
	}
	if !(turns > 0 && turns <= hold.MaxLeg) {
		return 0, check.Invalid(op, "turns", turns, "above 0s and at most "+hold.MaxLeg.String())
	}
	d, _ := clock.Duration(min(hold.MaxLeg.Seconds(), quotient(out.Seconds(), in.Seconds(), target.Seconds(), turns.Seconds())))
	return within(d), nil
}

func quotient(out, in, t, turns float64) float64 {
	return (t*(2*out+turns) + turns*(out-in)) / (2*in + turns)
}

// ByQuotient is [Quotient] on every lap after the first, the outbound time taken from wings
// level.
func ByQuotient() TimingRule {
	return TimingRule{
		About: About{
			Name: "lap quotient", Statement: "in legs, from wings level: one and twice the outbound less the inbound, over one and the inbound",
			Source: "derived here", Class: Derived, Applies: "every lap after the first", Needs: NeedsInboundTime,
		},
		Next: func(s Seen) Plan {
			p := afterFirst(s, quotient(s.Last.Outbound.Seconds(), observed(s), s.Target().Seconds(), 360/float64(s.Flight.Rate)))
			p.Start = AtTurnComplete
			return p
		},
	}
}
