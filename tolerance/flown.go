package tolerance

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/hold"
)

// Span is a part of a log, from a time up to another.
type Span struct {
	From, To time.Duration
}

// Length is how long it takes.
func (s Span) Length() time.Duration { return s.To - s.From }

// Passage is the fix passed: over it or abeam, in the inbound direction but for the
// first time.
type Passage struct {
	Time time.Duration
	// Abreast is how far off the fix, positive on the holding side; for the first passage
	// the distance itself.
	Abreast abeam.NM
}

// FlownEntry is the entry as flown.
type FlownEntry struct {
	Kind    entry.Kind    // None where the log begins in the hold
	Heading abeam.Bearing // at the fix, the track where headings are not recorded; north of the pattern
	Span    Span          // to the next passage; for a direct entry the first lap
}

// FlownLap is one lap, from over or abeam the fix to the next time.
type FlownLap struct {
	Legs [4]Span // by hold.Phase
	// Orbit: no outbound leg was flown, one turn goes round.
	Orbit bool
	// Outbound is the time of the outbound leg by the clock, from wings level or abeam,
	// whichever is later, to the inbound turn.
	Outbound time.Duration
	// Inbound is the time from wings level inbound to the fix, 0 where the wings were not
	// level before it.
	Inbound time.Duration
	// OutboundCourse and InboundCourse are the mean headings of the legs, tracks where
	// headings are not recorded, in the north of the pattern; zero where there is no leg.
	OutboundCourse abeam.Bearing
	InboundCourse  abeam.Bearing
	Established    hold.Point // wings level inbound
	Widest         abeam.NM   // to the holding side
	Astray         abeam.NM   // to the non-holding side, as a positive distance
	Longest        abeam.NM   // in the outbound direction
}

// Span is the whole lap.
func (l FlownLap) Span() Span {
	return Span{l.Legs[hold.OutboundTurn].From, l.Legs[hold.InboundLeg].To}
}

// Flown is a hold as it was flown.
type Flown struct {
	Pattern  hold.Pattern
	Passages []Passage // the first begins the hold
	Entry    FlownEntry
	Laps     []FlownLap
	// ByHeading: headings were recorded; the courses of the laps and the rate of turn are
	// those of headings, otherwise of tracks.
	ByHeading bool
	// Rate is the mean rate of turn, a circle over the time of both turns; 0 if no lap
	// has two.
	Rate hold.Rate
}

// Span is from the first passage to the last.
func (f Flown) Span() Span {
	if len(f.Passages) == 0 {
		return Span{}
	}
	return Span{f.Passages[0].Time, f.Passages[len(f.Passages)-1].Time}
}
