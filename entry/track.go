package entry

import (
	"iter"
	"math"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/internal/kinematics"
)

// Sample is a moment of an entry.
type Sample struct {
	Time    time.Duration // since over the fix
	At      hold.Point
	Heading abeam.Bearing
	Phase   Phase
}

// Track gives the entry as samples at 0, step, 2 step and so on from over the fix, and
// its end exactly once as the last. The sequence can be ranged over again; each time it
// starts anew and gives the same samples.
//
// Errors: [abeam.ErrInvalid] for a step below [hold.MinStep] or a zero Flown.
func (fl Flown) Track(step time.Duration) (iter.Seq[Sample], error) {
	if err := fl.checkStep("entry.Flown.Track", step); err != nil {
		return nil, err
	}
	return fl.samples(step), nil
}

func (fl Flown) samples(step time.Duration) iter.Seq[Sample] {
	return func(yield func(Sample) bool) {
		i := 0
		for at := time.Duration(0); at < fl.Total; at += step { // integers: no drift
			if !yield(fl.sample(&i, at)) {
				return
			}
		}
		yield(fl.sample(&i, fl.Total))
	}
}

// AppendTrack appends the samples of [Flown.Track] to dst. It allocates nothing where
// dst has room.
//
// Errors: as for Track; dst is then returned as it was.
func (fl Flown) AppendTrack(dst []Sample, step time.Duration) ([]Sample, error) {
	if err := fl.checkStep("entry.Flown.AppendTrack", step); err != nil {
		return dst, err
	}
	i := 0
	for at := time.Duration(0); at < fl.Total; at += step {
		dst = append(dst, fl.sample(&i, at))
	}
	return append(dst, fl.sample(&i, fl.Total)), nil
}

// Positions gives the samples of [Flown.Track] with their places on WGS-84, for an entry
// to the pattern; see [hold.Pattern.Place].
//
// Errors: [abeam.ErrInvalid] as for Track, for another pattern than the one entered, or
// for an entry that reaches farther than a point can be placed.
func (fl Flown) Positions(p hold.Pattern, step time.Duration) (iter.Seq2[Sample, s2.LatLng], error) {
	const op = "entry.Flown.Positions"
	if err := fl.checkStep(op, step); err != nil {
		return nil, err
	}
	if err := fl.entered(op, &p); err != nil {
		return nil, err
	}
	// Every point lies within the square of the farthest.
	e := fl.Extent
	far := hold.Point{Along: max(e.Beyond, e.Outbound), Abreast: max(e.Widest, e.Astray)}
	if _, err := p.Place(far); err != nil {
		return nil, err
	}
	return func(yield func(Sample, s2.LatLng) bool) {
		for s := range fl.samples(step) {
			at, err := p.Place(s.At)
			if err != nil || !yield(s, at) {
				return
			}
		}
	}, nil
}

func (fl *Flown) checkStep(op string, step time.Duration) error {
	if step < hold.MinStep {
		return check.Invalid(op, "step", step, "at least "+hold.MinStep.String())
	}
	return fl.notZero(op)
}

func (fl *Flown) notZero(op string) error {
	if fl.n > 0 {
		return nil
	}
	return check.Invalid(op, "entry", "zero", "one that Fly gave")
}

// entered rejects another pattern than the one that the entry was flown to.
func (fl *Flown) entered(op string, p *hold.Pattern) error {
	if err := fl.notZero(op); err != nil {
		return err
	}
	if p.Inbound() != fl.inbound || p.Turn() != fl.turn {
		return check.Invalid(op, "pattern", p.Inbound().String()+" "+p.Turn().String(), "the one that is entered")
	}
	return nil
}

// sample gives the moment at, which lies on the piece *i or a later one.
func (fl *Flown) sample(i *int, at time.Duration) Sample {
	for *i < fl.n-1 && at >= fl.path[*i].start+fl.path[*i].time {
		*i++
	}
	s := &fl.path[*i]
	segment := kinematics.Segment{
		X: s.x * fl.v, Y: s.y * fl.v, Heading: s.from, Rate: float64(s.sense) * fl.rate,
		Speed: fl.v, WX: fl.wx, WY: fl.wy, Duration: s.t,
	}
	// The durations are rounded to the nanosecond, the pieces are not.
	state := segment.At(math.Min((at - s.start).Seconds(), s.t))
	if s.phase == InboundLeg { // on the course, to the fix, and not a rounding beside it
		if state.Y = 0; at == fl.Total {
			state.X = 0
		}
	}
	return Sample{
		Time: at, Phase: s.phase, Heading: fl.compass(state.Heading),
		At: hold.Point{Along: abeam.NM(state.X), Abreast: abeam.NM(state.Y)},
	}
}
