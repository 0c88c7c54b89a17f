package timing

import (
	"math"
	"strconv"
	"time"

	"github.com/holdingfix/abeam"
)

// NoDrift flies the still-air outbound heading.
func NoDrift() DriftRule {
	return multiple(0, About{
		Name: "no correction", Statement: "fly the reciprocal of the inbound course",
		Source: "still air", Class: Derived, Applies: "calm", Needs: 0,
	})
}

// SingleDrift flies on the outbound leg the drift correction of the inbound leg, on the
// other side of the nose: what makes the reciprocal of the course good.
//
// Source: common practice.
func SingleDrift() DriftRule {
	return multiple(1, About{
		Name: "single drift", Statement: "the inbound correction, on the other side",
		Source: "common practice", Class: Practice, Applies: "long outbound legs", Needs: NeedsDrift,
	})
}

// DoubleDrift is two times the inbound correction.
//
// Source: common practice; CNATRA P-1244 has 2 to 3 times.
func DoubleDrift() DriftRule {
	return multiple(2, About{
		Name: "double drift", Statement: "twice the inbound correction, on the other side",
		Source: "common practice; CNATRA P-1244 (2 to 3 times)", Class: Practice, Applies: "legs of 2 minutes", Needs: NeedsDrift,
	})
}

// ThreeTimes is three times the inbound correction, as [TripleDrift].
//
// Source: AIM 5-3-8 j.8(c).
func ThreeTimes() DriftRule {
	return multiple(3, About{
		Name: "triple drift", Statement: "three times the inbound correction, on the other side",
		Source: "AIM 5-3-8 j.8(c)", Class: Published, Applies: "legs of 1 minute", Needs: NeedsDrift,
	})
}

// Multiple is m times the inbound correction on the other side, m of your choosing. An m
// that is not finite makes it a rule that is reported when it is flown.
func Multiple(m float64) DriftRule {
	return multiple(m, About{
		Name: strconv.FormatFloat(m, 'f', -1, 64) + " times the drift", Statement: "that multiple of the inbound correction, on the other side",
		Source: "outbound = -m inbound", Class: Derived, Applies: "as chosen", Needs: NeedsDrift,
	})
}

func multiple(m float64, about About) DriftRule {
	return DriftRule{About: about, Multiple: m, Next: func(s Seen, p Plan) Plan {
		p.Correction = 0 - abeam.Degrees(m)*s.Correction
		return p
	}}
}

// TripleThenSingle is three times the inbound correction for the first minute of the
// outbound leg and once after that, for legs longer than a minute.
//
// Source: CNATRA P-871.
func TripleThenSingle() DriftRule {
	return DriftRule{
		About: About{
			Name: "triple, then single", Statement: "three times the inbound correction for the first minute, once after that",
			Source: "CNATRA P-871", Class: Published, Applies: "outbound legs above 1 minute", Needs: NeedsDrift,
		},
		Next: func(s Seen, p Plan) Plan {
			p.Correction, p.Then, p.Change = 0-3*s.Correction, 0-s.Correction, firstMinute
			return p
		},
	}
}

// firstMinute is how long the triple correction is held: CNATRA P-871.
const firstMinute = time.Minute

// BySide is two times the inbound correction where the wind blows from the non-holding
// side, three times where it blows from the holding side.
//
// Source: common practice.
func BySide() DriftRule {
	return DriftRule{
		About: About{
			Name: "2 or 3 by side", Statement: "twice the correction with wind from the non-holding side, three times from the holding side",
			Source: "common practice", Class: Practice, Applies: "legs of 1 minute", Needs: NeedsDrift | NeedsSide,
		},
		Next: func(s Seen, p Plan) Plan {
			m := abeam.Degrees(2)
			if s.Pattern.Turn().Apply(s.Correction) > 0 { // into a wind from the holding side
				m = 3
			}
			p.Correction = 0 - m*s.Correction
			return p
		},
	}
}

// ByTurns multiplies the inbound correction by [DriftMultiple] of the leg's time.
//
// Source: common practice; derived there.
func ByTurns() DriftRule {
	return DriftRule{
		About: About{
			Name: "turns multiple", Statement: "the correction times turns and outbound over outbound: 3, 2.33, 2 for 1, 1.5, 2 minutes",
			Source: "common practice", Class: Practice, Applies: "any leg", Needs: NeedsDrift,
		},
		Next: func(s Seen, p Plan) Plan {
			leg := s.Target().Seconds()
			p.Correction = 0 - abeam.Degrees((360/float64(s.Flight.Rate)+leg)/leg)*s.Correction
			return p
		},
	}
}

// AtLeast20 is another rule, but at least 20 degrees into the wind in a very strong
// crosswind. The source does not say how strong that is; from is the inbound correction
// from which it is taken to be.
//
// Source: CNATRA P-340 p155.
func AtLeast20(rule DriftRule, from abeam.Degrees) DriftRule {
	next := rule.Next
	rule.Name += ", at least 20 degrees"
	rule.Statement += ", but at least 20 degrees into a very strong crosswind"
	rule.Source += "; CNATRA P-340 p155"
	rule.Multiple = 0
	rule.Next = func(s Seen, p Plan) Plan {
		p = next(s, p)
		if s.Correction.Abs() >= from && p.Correction.Abs() < strongCrosswind {
			p.Correction = abeam.Degrees(math.Copysign(strongCrosswind, 0-float64(s.Correction)))
		}
		return p
	}
	return rule
}

const strongCrosswind = 20 // degrees, CNATRA P-340 p155

// ByOutbound multiplies the inbound correction by [DriftMultiple] of the outbound time that
// the timing rule has chosen, and never corrects by more than [MostOutbound]. The exact
// circuit has the sines in that ratio, with the time from wings level:
//
//	sin(outbound correction) = -(turns + outbound)/outbound x sin(inbound correction)
//
// since the outbound leg alone, across the course, makes up for the drift of the turns and
// its own.
//
// Source: derived here, from the rule of common practice for the leg's time, [ByTurns].
func ByOutbound() DriftRule {
	return DriftRule{
		About: About{
			Name: "drift by time", Statement: "the inbound correction times one and the turns over the outbound time, on the other side; at 3 deg/s one and two over the minutes outbound",
			Source: "derived here", Class: Derived, Applies: "any leg", Needs: NeedsDrift,
		},
		Next: func(s Seen, p Plan) Plan {
			turns, out := 360/float64(s.Flight.Rate), max(1, p.Outbound.Seconds())
			c := float64(s.Correction) * (turns + out) / out
			p.Correction = 0 - abeam.Degrees(min(MostOutbound, max(-MostOutbound, c)))
			return p
		},
	}
}

// MostOutbound is the largest outbound correction of [ByOutbound], in degrees. A short
// outbound leg would ask for any angle; near 90 the fix may never come abeam, where the clock
// starts. Of 45, 60, 75 and 90 it left the smallest errors of the inbound time in strong winds.
const MostOutbound = 60
