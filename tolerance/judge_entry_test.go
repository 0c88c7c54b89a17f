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

// A wrong entry that is direct is of the first lap, any other of none.
func TestLapOfAWrongEntry(t *testing.T) {
	for kind, lap := range map[entry.Kind]int{entry.Direct: 1, entry.Teardrop: 0, entry.Parallel: 0} {
		log, f := levelFlight(t, hold.TimedInbound(time.Minute), 121, 10*time.Second, 110*time.Second)
		// Inbound on the course only a direct entry is right, 150 degrees off it a direct one is not.
		f.Entry = FlownEntry{Kind: kind, Heading: f.Pattern.Inbound(), Span: Span{10 * time.Second, 70 * time.Second}}
		if kind == entry.Direct {
			f.Entry.Heading = f.Pattern.Inbound().Add(150)
		}
		j, err := Judge(log, f, FAAInstrument(), Clearance{Pattern: f.Pattern})
		want := Excursion{Item: EntryItem, Span: f.Entry.Span, Samples: 1, Worst: 1, At: 70 * time.Second, Lap: lap, Phase: hold.OutboundTurn}
		if err != nil || len(j.Excursions) != 1 || j.Excursions[0] != want {
			t.Errorf("%v: %+v, %v", kind, j.Excursions, err)
		}
	}
}
