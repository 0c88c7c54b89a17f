package tolerance

import (
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// The entry alone passes nobody, and fails where it is wrong.
func TestOverallOfTheEntryAlone(t *testing.T) {
	plan := testPlan(t, hold.Right, wind.Wind{})
	s := FAAInstrument()
	s.Heading = Limit[abeam.Degrees]{}
	bare := func(c *Clearance) { *c = Clearance{Pattern: c.Pattern} }
	if j := judged(t, plan, s, bare); j.Overall != NotJudged || j.Standard.Words(j.Overall) != "not judged" || j.Item(EntryItem).Verdict != Within {
		t.Errorf("%v", j.Overall)
	}
	plan.Arrival, plan.Entry, plan.EntryHeading, plan.EntryTime = plan.Pattern.Inbound().Add(150), entry.Parallel, plan.Pattern.Outward(), time.Minute
	if j := judged(t, plan, s, bare); j.Overall != Beyond {
		t.Errorf("%v", j.Overall)
	}
}

// The entry is judged by the sector rule, with the flexible zone.
func TestEntryJudged(t *testing.T) {
	for _, c := range []struct {
		angle abeam.Degrees
		flown entry.Kind
		want  Verdict
	}{
		{150, entry.Teardrop, Within}, {20, entry.Direct, Within}, {-120, entry.Parallel, Within},
		{150, entry.Parallel, Beyond}, {-120, entry.Teardrop, Beyond}, {-177, entry.Teardrop, Within}, {177, entry.Parallel, Within},
	} {
		plan := testPlan(t, hold.Right, wind.Wind{})
		plan.Arrival = plan.Pattern.Inbound().Add(c.angle)
		plan.Entry, plan.EntryTime = c.flown, time.Minute
		plan.EntryHeading = plan.Pattern.Outward()
		if c.flown == entry.Teardrop {
			plan.EntryHeading = plan.EntryHeading.Add(-30)
		}
		j := judged(t, plan, FAAInstrument(), nil)
		if r := j.Item(EntryItem); r.Verdict != c.want {
			t.Errorf("%v at %v: %+v", c.flown, c.angle, r)
		}
	}
}
