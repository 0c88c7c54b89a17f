package tolerance

import (
	"cmp"
	"math"
	"slices"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
)

func invalidFlight(op, field, limit string) error {
	return check.Invalid(op, "flight's "+field, "otherwise", limit)
}

// tally is the running state of one item.
type tally struct {
	why         string // not judged because
	under, over float64
	source      string

	judged, inside time.Duration
	excursions     int
	lowest, most   float64
	measured       bool
	open           bool
	current        Excursion
}

func (t *tally) note(deviation float64) {
	if !t.measured {
		t.measured, t.lowest, t.most = true, deviation, deviation
	}
	t.lowest, t.most = min(t.lowest, deviation), max(t.most, deviation)
}

// beyond reports which limit a deviation passes; the limit itself is within.
func (t *tally) beyond(deviation float64) (limit float64, beyond bool) {
	switch {
	case !(deviation <= t.over):
		return t.over, true
	case !(deviation >= -t.under):
		return -t.under, true
	}
	return 0, false
}

// judge runs over the samples of a log once.
type judge struct {
	log       *Log
	flown     *Flown
	standard  *Standard
	clearance *Clearance
	frame     courseFrame
	side      float64
	gap       time.Duration
	has       Quantities

	first, last int // samples
	lap         int // index of the lap; -1 before the first
	phase       hold.Phase

	items      [items]tally
	excursions []Excursion
	summaries  []LapSummary
}

func newJudge(l *Log, f *Flown, s *Standard, c *Clearance) *judge {
	fix := f.Pattern.Fix()
	j := &judge{
		log: l, flown: f, standard: s, clearance: c, side: sideOf(f.Pattern.Turn()), lap: -1,
		gap: l.gapAfter(), has: l.Has(), summaries: make([]LapSummary, len(f.Laps)),
	}
	j.frame = localAt(fix.Position).along(float64(fix.Variation.True(f.Pattern.Inbound())), j.side)
	span := f.Span()
	for j.first < len(l.Samples) && l.Samples[j.first].Time < span.From {
		j.first++
	}
	for j.last = j.first; j.last < len(l.Samples) && l.Samples[j.last].Time < span.To; j.last++ {
	}
	j.limits()
	return j
}

// limits sets each item's limits, or why it is not judged.
func (j *judge) limits() {
	s, c := j.standard, j.clearance
	set := func(i Item, under, over float64, source string, given bool, target bool, has bool) {
		t := &j.items[i]
		t.under, t.over, t.source = under, over, source
		switch {
		case !given:
			t.why = "the standard gives no figure"
		case !target:
			t.why = "the clearance gives no target"
		case !has:
			t.why = "it is not recorded"
		}
	}
	set(AirspeedItem, float64(s.Airspeed.Under), float64(s.Airspeed.Over), s.Airspeed.Source, s.Airspeed.Set(), c.IAS > 0, j.has.Has(IAS))
	set(AltitudeItem, float64(s.Altitude.Under), float64(s.Altitude.Over), s.Altitude.Source, s.Altitude.Set(), c.Altitude != 0, j.has.Has(Altitude))
	set(HeadingItem, float64(s.Heading.Under), float64(s.Heading.Over), s.Heading.Source, s.Heading.Set(), true, j.flown.ByHeading)
	scale := s.Course.of(c.Guidance)
	set(CourseItem, scale, scale, s.Course.Source, scale > 0, c.Guidance != (Guidance{}) || j.has.Has(CDI), true)
	set(HoldingSideItem, math.Inf(1), float64(s.HoldingSide.Over), s.HoldingSide.Source, s.HoldingSide.Set(), true, true)
	set(LegTimeItem, s.LegTime.Under.Seconds(), s.LegTime.Over.Seconds(), s.LegTime.Source, s.LegTime.Set(), c.Pattern.Leg().Inbound() > 0, true)
	set(LegLengthItem, float64(s.LegLength.Under), float64(s.LegLength.Over), s.LegLength.Source, s.LegLength.Set(), c.LegLength > 0, true)
	set(ArrivalItem, s.Arrival.Under.Seconds(), s.Arrival.Over.Seconds(), s.Arrival.Source, s.Arrival.Set(), c.Leave > 0, true)
}

// locate moves lap and phase on to a sample's time.
func (j *judge) locate(t time.Duration) {
	for j.lap+1 < len(j.flown.Laps) && t >= j.flown.Laps[j.lap+1].Legs[hold.OutboundTurn].From {
		j.lap++
		j.phase = hold.OutboundTurn
	}
	if j.lap < 0 {
		return
	}
	for j.phase < hold.InboundLeg && t >= j.flown.Laps[j.lap].Legs[j.phase].To {
		j.phase++
	}
}

// rolls is how long after and before a turn the heading is not judged.
const rolls = 3 * time.Second

// sample judges one sample. It allocates nothing, but for the list of excursions to grow.
func (j *judge) sample(i int) {
	s := &j.log.Samples[i]
	j.locate(s.Time)
	var dt time.Duration // to the next sample; unknown over a gap
	if i+1 < len(j.log.Samples) {
		dt = j.log.Samples[i+1].Time - s.Time
	}
	if dt <= j.gap {
		j.take(s, dt)
		return
	}
	j.take(s, 0)
	j.close()
}

// take judges a sample that stands for a time.
func (j *judge) take(s *Sample, dt time.Duration) {
	var leg *LegSummary
	if j.lap >= 0 {
		leg = &j.summaries[j.lap].Legs[j.phase]
	}
	if s.Has.Has(IAS) {
		if leg != nil {
			leg.IAS.add(float64(s.IAS))
		}
		if j.clearance.IAS > 0 {
			j.measure(AirspeedItem, float64(s.IAS-j.clearance.IAS), s.Time, dt, leg)
		}
	}
	if s.Has.Has(Altitude) {
		if leg != nil {
			leg.Altitude.add(float64(s.Altitude))
		}
		if j.clearance.Altitude != 0 {
			j.measure(AltitudeItem, float64(s.Altitude-j.clearance.Altitude), s.Time, dt, leg)
		}
	}
	if leg == nil {
		return
	}
	along, abreast := j.frame.point(s.Lat, s.Lon)
	j.measure(HoldingSideItem, math.Max(0, -abreast), s.Time, dt, nil)
	lap := &j.flown.Laps[j.lap]
	switch j.phase {
	case hold.OutboundLeg:
		span := lap.Legs[hold.OutboundLeg]
		if j.flown.ByHeading && s.Has.Has(Heading) && s.Time >= span.From+rolls && s.Time < span.To-rolls {
			d := float64(j.headingOf(s).Sub(lap.OutboundCourse))
			leg.Heading.add(d)
			j.measure(HeadingItem, d, s.Time, dt, leg)
			return
		}
	case hold.InboundLeg:
		d, ok := s.CDI*j.side, s.Has.Has(CDI)
		if !ok && j.clearance.Guidance != (Guidance{}) {
			d, ok = j.clearance.Guidance.deviation(along, abreast)
		}
		if ok {
			leg.Course.add(d)
			j.measure(CourseItem, d, s.Time, dt, leg)
			j.shut(HeadingItem, s.Time)
			return
		}
	}
	// What is not measured here ends.
	j.shut(HeadingItem, s.Time)
	j.shut(CourseItem, s.Time)
}

// headingOf is a sample's heading in the north of the pattern.
func (j *judge) headingOf(s *Sample) abeam.Bearing {
	if j.log.HeadingNorth == abeam.True {
		return j.flown.Pattern.Fix().Variation.Magnetic(s.Heading)
	}
	return s.Heading
}

// measure takes one deviation that stands for the time to the next sample.
func (j *judge) measure(item Item, deviation float64, now, dt time.Duration, leg *LegSummary) {
	t := &j.items[item]
	t.note(deviation)
	if t.why != "" {
		return
	}
	t.judged += dt
	limit, beyond := t.beyond(deviation)
	if leg != nil {
		leg.Judged += dt
		if !beyond {
			leg.Inside += dt
		}
	}
	if !beyond {
		t.inside += dt
		j.shut(item, now)
		return
	}
	if t.open && limit != t.current.Limit { // over one limit and under the other
		j.shut(item, now)
	}
	if !t.open {
		t.open = true
		t.current = Excursion{Item: item, Span: Span{now, now}, Limit: limit, Worst: deviation, At: now, Lap: j.lap + 1, Phase: j.phase}
	}
	e := &t.current
	e.Samples++
	e.Span.To = now + dt
	if math.Abs(deviation) > math.Abs(e.Worst) {
		e.Worst, e.At = deviation, now
	}
}

// shut ends an excursion of an item.
func (j *judge) shut(item Item, now time.Duration) {
	t := &j.items[item]
	if !t.open {
		return
	}
	t.open = false
	t.current.Span.To = min(t.current.Span.To, max(now, t.current.Span.From))
	t.excursions++
	j.excursions = append(j.excursions, t.current)
}

// close ends what is open at the end of the samples, or at a gap.
func (j *judge) close() {
	for i := range j.items {
		j.shut(Item(i), j.items[i].current.Span.To)
	}
}

func (j *judge) judgement() Judgement {
	out := Judgement{Standard: *j.standard, Clearance: *j.clearance, Laps: j.summaries, Excursions: j.excursions}
	for i := range j.items {
		t := &j.items[i]
		r := ItemResult{
			Item: Item(i), Why: t.why, Under: t.under, Over: t.over, Source: t.source,
			Judged: t.judged, Inside: t.inside, Excursions: t.excursions, Lowest: t.lowest, Highest: t.most,
		}
		if math.IsInf(r.Under, 1) {
			r.Under = 0
		}
		switch {
		case t.why != "":
		case t.judged == 0 && !t.measured:
			r.Why = "there was nothing to measure"
		case t.excursions > 0:
			r.Verdict = Beyond
		default:
			r.Verdict = Within
		}
		// An entry alone, which no standard's figure judges, makes no flight pass.
		if Item(i) != EntryItem || r.Verdict == Beyond {
			out.Overall = max(out.Overall, r.Verdict)
		}
		out.Items = append(out.Items, r)
	}
	slices.SortStableFunc(out.Excursions, func(a, b Excursion) int { return cmp.Compare(a.Span.From, b.Span.From) })
	return out
}
