package entry

import (
	"iter"
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
)

// Edge is one edge of a sector.
type Edge struct {
	At     abeam.Bearing // the direction at the fix that lies on the edge
	Margin abeam.Degrees // from the direction decided on, 0 to 360
	Beyond Kind          // the entry on the other side
}

// Decision is the entry that a direction at the fix calls for.
type Decision struct {
	Entry Kind
	// Direction is what was decided on: a heading or a track, as Basis says.
	Direction abeam.Bearing
	Basis     Basis
	// Angle is from the inbound course to the direction at the fix, positive to the
	// holding side: to the right for right turns, to the left for left turns.
	Angle abeam.Degrees
	// Low and High are the edges of the sector, at the lesser and the greater angle.
	Low, High Edge
	// Margin is the angle to the nearer edge, 0 or more.
	Margin abeam.Degrees
	// Alternative is the entry beyond the nearer edge where the direction lies within
	// the flexible zone, the edge of the zone included, and may be flown as well; None
	// elsewhere.
	Alternative Kind
	// Choice is an entry that the rules leave to the pilot here, whatever the sector:
	// the teardrop of [AirForce]; None elsewhere.
	Choice Kind
}

// Permitted gives the entries that may be flown: Entry, then Alternative and Choice
// where there are any.
func (d Decision) Permitted() iter.Seq[Kind] {
	return func(yield func(Kind) bool) {
		for _, k := range [...]Kind{d.Entry, d.Alternative, d.Choice} {
			if k != None && !yield(k) {
				return
			}
		}
	}
}

// Choose gives the entry for a direction at the fix, in the north of the pattern: the
// heading or the track there, whichever the Basis of the rules asks for.
// [Rules.ChooseInWind] takes the heading and works the track out.
//
// With right turns and d = direction - inbound course, by [FAA] and [ICAO]: direct from
// -70 to 110 degrees, teardrop from 110 to 180, parallel from 180 to 290 (-70); left
// turns are the mirror image. By [AirForce]: direct from -70 to 180, else parallel.
//
// The decision is taken on d rounded to [abeam.Quantum]. No source names a winner at an
// exact edge, where both are acceptable; this package gives the edges of the direct
// sector to direct, which turns least, and the reciprocal of the course to teardrop,
// which stays on the holding side, and names the other as the alternative.
//
// Errors: [abeam.ErrInvalid] for the zero Rules, a zero pattern or a direction that is not finite.
func (r Rules) Choose(p hold.Pattern, direction abeam.Bearing) (d Decision, err error) {
	err = r.decide("entry.Rules.Choose", &p, direction, &d)
	return d, err
}

// ChooseInWind gives the entry for a heading at the fix in the wind of the flight: by
// the heading itself or by the track it makes good, as the rules say. With
// c = wind's components on the heading,
//
//	track = heading - atan2(c.Cross, TAS - c.Head)
//
// Errors: as [Rules.Choose]; [abeam.ErrInvalid] for a flight out of range and
// [abeam.ErrUnflyable] for a wind as strong as the TAS, both from
// [hold.Flight.Validate].
func (r Rules) ChooseInWind(p hold.Pattern, f hold.Flight, heading abeam.Bearing) (d Decision, err error) {
	if err := f.Validate(); err != nil {
		return d, err
	}
	direction := heading
	if r.basis == Track && heading-heading == 0 {
		c := f.Wind.Components(heading)
		direction = heading.Add(abeam.Degrees(0 - angle.Atan2(float64(c.Cross), float64(f.TAS-c.Head))))
	}
	err = r.decide("entry.Rules.ChooseInWind", &p, direction, &d)
	return d, err
}

// decide fills the decision, and nothing on an error.
func (r *Rules) decide(op string, p *hold.Pattern, direction abeam.Bearing, dec *Decision) error {
	turn, inbound := p.Turn(), p.Inbound()
	if r.line == 0 || !(direction-direction == 0) || p.Leg() == (hold.Leg{}) {
		return r.reject(op, p, direction)
	}
	d := turn.Apply(direction.Sub(inbound)).Rounded()
	dec.Angle, dec.Direction, dec.Basis = d, abeam.NewBearing(float64(direction)), r.basis
	var low, high abeam.Degrees
	switch {
	case d > r.far:
		dec.Entry = Teardrop
		low, dec.Low.Beyond, high, dec.High.Beyond = r.far, Direct, 180, Parallel
	case d >= -r.line:
		dec.Entry = Direct
		low, dec.Low.Beyond, high, dec.High.Beyond = -r.line, Parallel, r.far, Teardrop
		if r.far == 180 {
			dec.High.Beyond = Parallel
		}
	default:
		dec.Entry = Parallel
		low, dec.Low.Beyond, high, dec.High.Beyond = -180, Teardrop, -r.line, Direct
		if r.far == 180 {
			dec.Low.Beyond = Direct
		}
	}
	dec.Low.At, dec.High.At = inbound.Add(turn.Apply(low)), inbound.Add(turn.Apply(high))
	// Not Rounded, which reduces: the Air Force's direct sector is 250 degrees wide.
	dec.Low.Margin, dec.High.Margin = quantum(d-low), quantum(high-d)
	dec.Margin = min(dec.Low.Margin, dec.High.Margin)
	switch { // a sector is wider than both its zones
	case dec.Low.Margin <= r.zone:
		dec.Alternative = dec.Low.Beyond
	case dec.High.Margin <= r.zone:
		dec.Alternative = dec.High.Beyond
	}
	if r.choice > 0 && r.mayChoose(d) {
		dec.Choice = Teardrop
	}
	return nil
}

func (r *Rules) reject(op string, p *hold.Pattern, direction abeam.Bearing) error {
	if err := r.validate(op); err != nil {
		return err
	}
	if err := check.Finite(op, r.basis.String(), direction); err != nil {
		return err
	}
	return notZero(op, p)
}

// quantum rounds as [abeam.Degrees.Rounded] does, without reducing.
func quantum(d abeam.Degrees) abeam.Degrees {
	return abeam.Degrees(math.Round(float64(d)*1e9) / 1e9)
}
