package timing

import (
	"time"

	"github.com/holdingfix/abeam/hold"
)

// TimingRule chooses the next outbound time. Next gives a plan in which only the time is
// settled: Outbound, Start or Abeams.
type TimingRule struct {
	About
	// Gain is the share k of the error by which the rule changes the outbound time,
	// where it is of the form next = last - k (inbound - target); else 0. See [Settle].
	Gain float64
	Next func(Seen) Plan
}

// DriftRule chooses the next outbound heading. Next is given the plan of the timing rule
// and gives it back with Correction, and where the heading changes on the way Then and
// Change.
type DriftRule struct {
	About
	// Multiple is the constant by which the rule multiplies the inbound correction, on
	// the other side; 0 where it is no constant.
	Multiple float64
	Next     func(Seen, Plan) Plan
}

// TimingRules are the timing rules that are published or in common use, each as taught.
func TimingRules() []TimingRule {
	return []TimingRule{
		LegTime(), ByFull(), ByHalf(), InProportion(), BySecondsPerKnot(), BySecondsPerKnotPerMinute(), TwiceAbeam(),
	}
}

// DriftRules are the drift rules that are published or in common use, each as taught.
func DriftRules() []DriftRule {
	return []DriftRule{NoDrift(), SingleDrift(), DoubleDrift(), ThreeTimes(), TripleThenSingle(), BySide(), ByTurns()}
}

// within brings a time into the range of a plan.
func within(d time.Duration) time.Duration { return min(max(0, d), hold.MaxLeg) }
