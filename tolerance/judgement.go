package tolerance

import (
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/hold"
)

// Judgement is a flown hold against a standard.
type Judgement struct {
	Standard  Standard
	Clearance Clearance
	// Overall is beyond where an item is, within where all that were judged are, and not
	// judged where none was but the entry.
	Overall    Verdict
	Items      []ItemResult // one for every item, in order
	Excursions []Excursion  // in the order of time
	Laps       []LapSummary // one for every lap of the flight
}

// Item is the result of one item.
func (j Judgement) Item(i Item) ItemResult {
	if int(i) >= len(j.Items) {
		return ItemResult{}
	}
	return j.Items[i]
}

// Range is the least, greatest and mean value of something measured; all 0 where N is.
type Range struct {
	Least, Most, Mean float64
	N                 int
}

// With is the range of both.
func (e Range) With(other Range) Range {
	switch {
	case other.N == 0:
		return e
	case e.N == 0:
		return other
	}
	n := e.N + other.N
	return Range{
		Least: min(e.Least, other.Least), Most: max(e.Most, other.Most), N: n,
		Mean: e.Mean + (other.Mean-e.Mean)*float64(other.N)/float64(n),
	}
}

func (e *Range) add(x float64) {
	if e.N == 0 {
		e.Least, e.Most = x, x
	}
	e.Least, e.Most = min(e.Least, x), max(e.Most, x)
	e.N++
	e.Mean += (x - e.Mean) / float64(e.N)
}

// LegSummary is one leg of a lap.
type LegSummary struct {
	Altitude Range // ft
	IAS      Range // kt
	Heading  Range // deviation, degrees; outbound leg only
	Course   Range // deviation, shares of full scale; inbound leg only
	// Judged and Inside add up the times of airspeed, altitude, heading and course.
	Judged, Inside time.Duration
}

// LapSummary is one lap, leg by leg.
type LapSummary struct {
	Legs      [4]LegSummary // by hold.Phase
	Inbound   time.Duration // of the inbound leg
	OffTarget time.Duration // inbound less target; 0 where the clearance gives no time or no leg was flown
}

// Judge holds a flight against a standard, from the first passage of the fix to the
// last.
//
// Airspeed and altitude are judged throughout, the heading on the outbound legs without
// their first and last 3 s, against the leg's own mean, where headings are recorded; the
// course on the inbound legs, from wings level to the fix, by the deviation in the log
// or else by the guidance; the holding side on the laps. The time from a sample to the
// next counts as the sample is; a gap counts for nothing and ends an excursion.
//
// The entry is judged by the heading at the fix and the sectors of [entry.FAA], whatever
// the standard; in the flexible zone either entry will do.
//
// Errors: [abeam.ErrInvalid] for a standard or clearance out of range, a clearance of
// another pattern than that of the flight, or a flight without two passages.
func Judge(l Log, f Flown, s Standard, c Clearance) (Judgement, error) {
	const op = "tolerance.Judge"
	if err := s.validate(op); err != nil {
		return Judgement{}, err
	}
	if err := c.validate(op); err != nil {
		return Judgement{}, err
	}
	if err := l.validate(op); err != nil {
		return Judgement{}, err
	}
	if err := f.validate(op, c); err != nil {
		return Judgement{}, err
	}
	j := newJudge(&l, &f, &s, &c)
	for i := j.first; i < j.last; i++ {
		j.sample(i)
	}
	j.close()
	j.legs()
	if err := j.entry(); err != nil {
		return Judgement{}, err
	}
	return j.judgement(), nil
}

// legs judges what is judged once a lap.
func (j *judge) legs() {
	target := j.clearance.Pattern.Leg().Inbound()
	for i := range j.flown.Laps {
		lap := &j.flown.Laps[i]
		summary := &j.summaries[i]
		summary.Inbound = lap.Inbound
		if lap.Inbound <= 0 {
			continue
		}
		leg := lap.Legs[hold.InboundLeg]
		if target > 0 {
			summary.OffTarget = lap.Inbound - target
			j.once(LegTimeItem, summary.OffTarget.Seconds(), leg, i+1, hold.InboundLeg)
		}
		if j.clearance.LegLength > 0 {
			j.once(LegLengthItem, float64(-lap.Established.Along-j.clearance.LegLength), leg, i+1, hold.InboundLeg)
		}
	}
	if j.clearance.Leave > 0 {
		left := j.flown.Span().To
		late := (left - j.clearance.Leave).Seconds()
		j.once(ArrivalItem, late, Span{min(left, j.clearance.Leave), max(left, j.clearance.Leave)}, len(j.flown.Laps), hold.InboundLeg)
	}
}

// once judges one figure that stands for a span.
func (j *judge) once(item Item, deviation float64, span Span, lap int, phase hold.Phase) {
	t := &j.items[item]
	t.note(deviation)
	if t.why != "" {
		return
	}
	t.judged += span.Length()
	limit, beyond := t.beyond(deviation)
	if !beyond {
		t.inside += span.Length()
		return
	}
	t.excursions++
	j.excursions = append(j.excursions, Excursion{
		Item: item, Span: span, Samples: 1, Worst: deviation, At: span.To, Limit: limit, Lap: lap, Phase: phase,
	})
}

func (j *judge) entry() error {
	t := &j.items[EntryItem]
	e := j.flown.Entry
	if e.Kind == entry.None {
		t.why = "the log begins in the hold"
		return nil
	}
	d, err := entry.FAA().Choose(j.flown.Pattern, e.Heading)
	if err != nil {
		return err
	}
	t.why = ""
	t.source = entry.FAA().Source()
	wrong := 1.0
	if e.Kind == d.Entry || e.Kind == d.Alternative {
		wrong = 0
	}
	lap := 0
	if e.Kind == entry.Direct {
		lap = 1
	}
	j.once(EntryItem, wrong, e.Span, lap, hold.OutboundTurn)
	return nil
}

func (f *Flown) validate(op string, c Clearance) error {
	if f.Pattern != c.Pattern {
		return invalidFlight(op, "pattern", "that of the clearance")
	}
	if len(f.Passages) < 2 {
		return invalidFlight(op, "passages", "at least 2, as Cut gives")
	}
	for _, l := range f.Laps {
		for _, s := range l.Legs {
			if s.To < s.From {
				return invalidFlight(op, "legs", "in the order of time, as Cut gives")
			}
		}
		for _, b := range []abeam.Bearing{l.OutboundCourse, l.InboundCourse} {
			if math.IsNaN(float64(b)) || math.IsInf(float64(b), 0) {
				return invalidFlight(op, "courses", "finite, as Cut gives")
			}
		}
	}
	return nil
}
