package area

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// settled is by how much the reach may still grow, in NM, when [Design.Slower] stops.
const settled = 1e-4

// Slower is the envelope of every airspeed from the slowest to that of the design: the
// smallest convex area around their envelopes. An area drawn for its highest airspeed does
// not contain every slower flight, since the wind is the same and carries a slower
// aeroplane, which makes no correction, farther in proportion to its pattern.
//
// It is sought on airspeeds at equal steps that are halved until no reach grows by more
// than 1e-4 NM; the number of airspeeds it took is returned with it.
//
// Errors: [abeam.ErrInvalid] as for [Design.Lines], and for a slowest airspeed not above
// 0 or beyond that of the design; [abeam.ErrNoConvergence] where 1025 airspeeds do not settle
// it.
func (d Design) Slower(slowest abeam.Knots) (Envelope, int, error) {
	const op = "area.Design.Slower"
	if _, _, _, err := d.filled(op); err != nil {
		return Envelope{}, 0, err
	}
	if err := check.Above(op, "slowest airspeed", slowest, 0, d.IAS); err != nil {
		return Envelope{}, 0, err
	}
	all, err := d.Envelope()
	if err != nil {
		return Envelope{}, 0, err
	}
	fastest := d.IAS
	add := func(share float64) error {
		d.IAS = slowest + (fastest-slowest)*abeam.Knots(share)
		e, err := d.Envelope()
		all = Envelope{
			Hold: all.Hold.With(e.Hold), Direct: all.Direct.With(e.Direct),
			Teardrop: all.Teardrop.With(e.Teardrop), Parallel: all.Parallel.With(e.Parallel),
		}
		return err
	}
	if err := add(0); err != nil {
		return Envelope{}, 0, err
	}
	for n := 1; n <= 512; n *= 2 {
		before := all
		for i := range n {
			if err := add((float64(i) + 0.5) / float64(n)); err != nil {
				return Envelope{}, 0, err
			}
		}
		grown := before.growth(all)
		if n >= 4 && grown <= settled {
			return all, 2*n + 1, nil
		}
	}
	return Envelope{}, 0, check.NoConvergence(op, "slowest airspeed", slowest, "an envelope that settles within 1025 airspeeds")
}

// growth is how far any part of b reaches beyond that of e.
func (e Envelope) growth(b Envelope) abeam.NM {
	most := abeam.NM(0)
	for _, pair := range [4][2]Area{{e.Hold, b.Hold}, {e.Direct, b.Direct}, {e.Teardrop, b.Teardrop}, {e.Parallel, b.Parallel}} {
		by, _ := pair[0].Beyond(pair[1])
		most = max(most, by)
	}
	return most
}
