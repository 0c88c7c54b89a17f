package hold

import (
	"iter"
	"math"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/internal/geodesy"
	"github.com/holdingfix/abeam/internal/kinematics"
)

// Phase is the part of a circuit that a sample belongs to.
type Phase uint8

// The phases, in the order in which they are flown from the fix. A sample at a
// corner belongs to the phase that begins there.
const (
	OutboundTurn Phase = iota
	OutboundLeg
	InboundTurn
	InboundLeg
)

// String names the phase.
func (p Phase) String() string {
	switch p {
	case OutboundTurn:
		return "outbound turn"
	case OutboundLeg:
		return "outbound leg"
	case InboundTurn:
		return "inbound turn"
	case InboundLeg:
		return "inbound leg"
	}
	return "not a phase"
}

// Sample is a moment of a circuit.
type Sample struct {
	Time    time.Duration // since over the fix
	At      Point
	Heading abeam.Bearing
	Phase   Phase
}

// MinStep is the shortest step between samples.
const MinStep = time.Millisecond

// Track gives the circuit as samples at 0, step, 2 step and so on from over the fix,
// and the end of the lap exactly once as the last. The sequence can be ranged over
// again; each time it starts anew and gives the same samples.
//
// Errors: [abeam.ErrInvalid] for a step below [MinStep] or a zero Circuit.
func (c Circuit) Track(step time.Duration) (iter.Seq[Sample], error) {
	const op = "hold.Circuit.Track"
	if err := c.checkStep(op, step); err != nil {
		return nil, err
	}
	segments := c.segments()
	return func(yield func(Sample) bool) {
		for at := time.Duration(0); at < c.Lap; at += step { // integers: no drift
			if !yield(c.sample(&segments, at)) {
				return
			}
		}
		yield(c.sample(&segments, c.Lap))
	}, nil
}

// AppendTrack appends the samples of [Circuit.Track] to dst. It allocates nothing where
// dst has room.
//
// Errors: as for Track; dst is then returned as it was.
func (c Circuit) AppendTrack(dst []Sample, step time.Duration) ([]Sample, error) {
	if err := c.checkStep("hold.Circuit.AppendTrack", step); err != nil {
		return dst, err
	}
	segments := c.segments()
	for at := time.Duration(0); at < c.Lap; at += step {
		dst = append(dst, c.sample(&segments, at))
	}
	return append(dst, c.sample(&segments, c.Lap)), nil
}

// Positions gives the samples of [Circuit.Track] with their places on WGS-84, for a
// circuit flown at the fix. A point lies at its distance from the fix, in the
// direction of the geodesic that leaves the fix at the point's angle from the course:
// distances and directions from the fix are exact.
//
// The variation of the fix takes the pattern's courses to true north.
//
// Errors: [abeam.ErrInvalid] as for Track, or for a fix at a pole or off the globe.
func (c Circuit) Positions(fix Fix, step time.Duration) (iter.Seq2[Sample, s2.LatLng], error) {
	const op = "hold.Circuit.Positions"
	if err := c.checkStep(op, step); err != nil {
		return nil, err
	}
	if err := fix.validate(op); err != nil {
		return nil, err
	}
	track, err := c.Track(step)
	if err != nil {
		return nil, err
	}
	course := fix.Variation.True(c.inbound)
	return func(yield func(Sample, s2.LatLng) bool) {
		for s := range track {
			if !yield(s, place(fix, course, c.turn, s.At)) {
				return
			}
		}
	}, nil
}

// place puts a point of the course frame on the ellipsoid.
func place(fix Fix, course abeam.Bearing, turn Turn, at Point) s2.LatLng {
	along, right := float64(at.Along), float64(at.Abreast)
	if turn == Left {
		right = -right
	}
	d := abeam.NM(math.Hypot(along, right))
	lat, lon, _ := geodesy.Direct(fix.Position.Lat.Degrees(), fix.Position.Lng.Degrees(),
		float64(course)+angle.Atan2(right, along), d.Metres())
	return s2.LatLngFromDegrees(lat, lon)
}

func (c *Circuit) checkStep(op string, step time.Duration) error {
	if step < MinStep {
		return check.Invalid(op, "step", step, "at least "+MinStep.String())
	}
	if c.Lap <= 0 {
		return check.Invalid(op, "circuit", "zero", "one that Circuit or Fly gave")
	}
	return nil
}

// segments lays the four pieces end to end from the fix.
func (c *Circuit) segments() [4]kinematics.Segment {
	l := &c.legs
	s := kinematics.Segment{Heading: l.in, Rate: l.rate, Speed: l.v, WX: l.wx, WY: l.wy, Duration: l.t1}
	place := func(at Point, heading, rate, duration float64) kinematics.Segment {
		s := s
		s.X, s.Y = float64(at.Along), float64(at.Abreast)
		s.Heading, s.Rate, s.Duration = heading, rate, duration
		return s
	}
	return [4]kinematics.Segment{
		s,
		place(c.RollOut, l.out, 0, l.t2),
		place(c.TurnIn, l.out, l.rate, l.t3),
		place(c.Established, l.in, 0, l.t4),
	}
}

func (c *Circuit) sample(segments *[4]kinematics.Segment, at time.Duration) Sample {
	phase, since := OutboundTurn, at
	for _, leg := range [3]time.Duration{c.OutboundTurn.Time, c.Straight, c.InboundTurn.Time} {
		if since < leg {
			break
		}
		since -= leg
		phase++
	}
	s := &segments[phase]
	// The durations are rounded to the nanosecond, the segments are not.
	state := s.At(math.Min(since.Seconds(), s.Duration))
	heading := state.Heading
	if c.turn == Left {
		heading = -heading
	}
	return Sample{
		Time: at, Phase: phase,
		At:      Point{abeam.NM(state.X), abeam.NM(state.Y)},
		Heading: abeam.NewBearing(float64(c.inbound) + heading),
	}
}
