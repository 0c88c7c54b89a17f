package timing

import (
	"strconv"
	"time"

	"github.com/holdingfix/abeam/internal/clock"
)

// LegTime flies the time of the leg on every lap, whatever comes of it. It is how every
// rule that needs an inbound time flies the first lap.
//
// Source: AIM 5-3-8 j.4 for the first lap.
func LegTime() TimingRule {
	return TimingRule{
		About: About{
			Name: "leg's time", Statement: "fly the time of the leg outbound",
			Source: "AIM 5-3-8 j.4, first lap", Class: Published, Applies: "the first lap",
		},
		Next: func(s Seen) Plan { return Plan{Outbound: within(s.Target())} },
	}
}

// ByFull corrects by the whole error of the inbound time, as [FullDiscrepancy].
func ByFull() TimingRule {
	return byGain(1, About{
		Name: "full discrepancy", Statement: "take all of the error off the outbound time",
		Source: "CNATRA P-871 p77, P-801 p135", Class: Published, Applies: "every lap after the first",
	})
}

// ByHalf corrects by half the error of the inbound time, as [HalfDiscrepancy].
func ByHalf() TimingRule {
	return byGain(0.5, About{
		Name: "half discrepancy", Statement: "take half of the error off the outbound time",
		Source: "common practice", Class: Practice, Applies: "every lap after the first",
	})
}

// ByGain corrects by k times the error of the inbound time, k of your choosing:
//
//	next = last - k (inbound - target), never below 0
//
// [Settle] tells in which winds it settles. A k that is not finite makes it a rule that
// is reported when it is flown.
func ByGain(k float64) TimingRule {
	return byGain(k, About{
		Name: strconv.FormatFloat(k, 'f', -1, 64) + " of the discrepancy", Statement: "take that share of the error off the outbound time",
		Source: "next = last - k (inbound - target)", Class: Derived, Applies: "every lap after the first",
	})
}

func byGain(k float64, about About) TimingRule {
	about.Needs = NeedsInboundTime
	return TimingRule{About: about, Gain: k, Next: func(s Seen) Plan {
		return afterFirst(s, s.Last.Outbound.Seconds()-k*(observed(s)-s.Target().Seconds()))
	}}
}

// InProportion scales the outbound time as [Proportional].
func InProportion() TimingRule {
	return TimingRule{
		About: About{
			Name: "proportional", Statement: "outbound times target over inbound",
			Source: "common practice", Class: Practice, Applies: "every lap after the first", Needs: NeedsInboundTime,
		},
		Next: func(s Seen) Plan {
			// Rolled out at the fix or beyond it there is nothing to divide by.
			return afterFirst(s, s.Last.Outbound.Seconds()*s.Target().Seconds()/max(1, observed(s)))
		},
	}
}

// observed is the inbound time on a pilot's clock, which does not run backwards.
func observed(s Seen) float64 { return max(0, s.Inbound.Seconds()) }

// afterFirst is the corrected time, in seconds, on every lap but the first.
func afterFirst(s Seen, corrected float64) Plan {
	if s.Laps == 0 {
		return Plan{Outbound: within(s.Target())}
	}
	return seconds(corrected)
}

// seconds is the plan of an outbound time. What is no time stays what it is, for the
// strategy to be told of it: a plan may not be negative.
func seconds(t float64) Plan {
	d, ok := clock.Duration(t)
	if !ok {
		return Plan{Outbound: -1}
	}
	return Plan{Outbound: within(d)}
}

// BySecondsPerKnot is a second a knot of head- or tailwind on the outbound leg, as
// [SecondsPerKnot], on every lap.
func BySecondsPerKnot() TimingRule {
	return fromWind("1 s/kt", "a second longer for each knot of outbound headwind, shorter for tailwind", SecondsPerKnot)
}

// BySecondsPerKnotPerMinute is a second a knot and minute of headwind on the outbound
// leg, half of that for tailwind, as [SecondsPerKnotPerMinute], on every lap.
func BySecondsPerKnotPerMinute() TimingRule {
	return fromWind("1 s/kt/min",
		"a second a knot and minute longer for outbound headwind, half of that shorter for tailwind", SecondsPerKnotPerMinute)
}

func fromWind(name, statement string, law windLaw) TimingRule {
	return TimingRule{
		About: About{
			Name: name, Statement: statement,
			Source: "common practice", Class: Practice, Applies: "the wind known", Needs: NeedsWind,
		},
		Next: func(s Seen) Plan {
			d, err := law(s.Target(), s.OutboundHeadwind())
			if err != nil {
				return Plan{Outbound: -1}
			}
			return Plan{Outbound: d}
		},
	}
}

// TwiceAbeam starts a watch over the fix and begins the inbound turn when it reads twice
// what it read abeam. In still air that is the time of one turn outbound.
//
// Source: common practice (United Kingdom type of training).
func TwiceAbeam() TimingRule {
	return TimingRule{
		About: About{
			Name: "twice abeam", Statement: "from over the fix, turn in at twice the time at which the fix was abeam",
			Source: "common practice", Class: Practice, Applies: "legs as long as a turn", Needs: NeedsAbeam,
		},
		Next: func(Seen) Plan { return Plan{Abeams: 2} },
	}
}

// AtLeast30 is another rule, but never below [FirstMinimum] on the first correction; after
// that the outbound time may reach zero.
//
// Source: CNATRA P-871 p79.
func AtLeast30(rule TimingRule) TimingRule {
	next := rule.Next
	rule.Name += ", at least 30 s"
	rule.Statement += ", but not below 30 s on the first correction"
	rule.Source += "; CNATRA P-871 p79"
	rule.Next = func(s Seen) Plan {
		p := next(s)
		if s.Laps <= 1 && p.Abeams == 0 && p.Outbound >= 0 {
			p.Outbound = max(FirstMinimum, p.Outbound)
		}
		return p
	}
	return rule
}

// FirstMinimum is the least outbound time on the first correction.
//
// Source: CNATRA P-871 p79.
const FirstMinimum = 30 * time.Second

// FirstThen flies the first lap by one rule and the others by another: a wind to begin
// with, say, and inbound times after that.
func FirstThen(first, then TimingRule) TimingRule {
	rule := then
	rule.Name = first.Name + ", then " + then.Name
	rule.Statement = "first " + first.Statement + "; then " + then.Statement
	rule.Needs |= first.Needs
	if first.Source != then.Source {
		rule.Source = first.Source + "; " + then.Source
	}
	rule.Next = func(s Seen) Plan {
		if s.Laps == 0 {
			return first.Next(s)
		}
		return then.Next(s)
	}
	return rule
}
