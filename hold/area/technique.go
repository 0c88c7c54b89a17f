package area

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// Technique decides what is flown outbound: a heading, and a time from wings level to the
// start of the inbound turn. It is given the pattern and the flight in the wind that the
// pilot believes in, which need not be the one that blows. Where it has no answer (an error)
// the lap counts as not flown.
type Technique func(p hold.Pattern, f hold.Flight) (heading abeam.Bearing, outbound time.Duration, err error)

// Uncorrected flies the reciprocal of the inbound course for a time, as the areas of
// procedure design assume.
func Uncorrected(outbound time.Duration) Technique {
	return func(p hold.Pattern, _ hold.Flight) (abeam.Bearing, time.Duration, error) {
		return p.Inbound().Reciprocal(), outbound, nil
	}
}

// TripleDrift flies for a time on the heading that is three times the inbound drift
// correction off the reciprocal, on the other side: FAA AIM 5-3-8 j.8(c).
func TripleDrift(outbound time.Duration) Technique {
	return func(p hold.Pattern, f hold.Flight) (abeam.Bearing, time.Duration, error) {
		inbound, err := wind.SolveHeading(p.Inbound(), f.TAS, f.Wind)
		if err != nil {
			return 0, 0, err
		}
		return p.Inbound().Reciprocal().Add(-3 * inbound.Correction), outbound, nil
	}
}

// Exact flies what closes the circuit exactly in the wind that the pilot believes in.
func Exact() Technique {
	return func(p hold.Pattern, f hold.Flight) (abeam.Bearing, time.Duration, error) {
		return p.Outbound(f)
	}
}
