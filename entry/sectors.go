package entry

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
)

// Sectors is a rule for choosing the entry. Take one from its constructor; the zero
// Sectors says nothing and is rejected, there is no default.
type Sectors struct {
	name   string
	source string
	// line is the angle from the inbound course to the line that parts the direct
	// sector from the others, on the non-holding side for the parallel sector; zone is
	// the width of the flexible zone on each side of an edge.
	line, zone abeam.Degrees
}

// SeventyDegreeLine is the rule that the FAA and ICAO share: a line through the fix at
// 70 degrees to the inbound course parts direct (180 degrees wide) from teardrop (70)
// and parallel (110); within 5 degrees of an edge either neighbour may be flown.
//
// Source: AIM 5-3-8 j.3 and j.8(d); sectors of 180, 70 and 110 degrees in CNATRA P-801
// p131; ICAO Doc 8168 Vol I (secondary copies).
func SeventyDegreeLine() Sectors {
	return Sectors{name: "70 degree line", source: "AIM 5-3-8 j.3, j.8(d)", line: 70, zone: 5}
}

// String names the rule.
func (s Sectors) String() string {
	if s.name == "" {
		return "no rule"
	}
	return s.name
}

// Source is where the rule is published.
func (s Sectors) Source() string { return s.source }

// Decision is the entry that a heading calls for.
type Decision struct {
	Entry Kind
	// Angle is from the inbound course to the heading at the fix, positive to the
	// holding side: to the right for right turns, to the left for left turns.
	Angle abeam.Degrees
	// Margin is the angle to the nearest edge of the sector, 0 or more.
	Margin abeam.Degrees
	// Alternative is the entry beyond that edge where the heading lies within the
	// flexible zone, the edge of the zone included, and may be flown as well; None
	// elsewhere.
	Alternative Kind
}

// Choose gives the entry for a heading at the fix, in the north of the pattern.
//
// With right turns and d = heading - inbound course: direct from -70 to 110 degrees,
// teardrop from 110 to 180, parallel from 180 to 290 (-70); left turns are the mirror
// image. The decision is taken on d rounded to [abeam.Quantum]. No source names a
// winner at an exact edge, where both are acceptable; this package gives the edges of
// the direct sector to direct, which turns least, and the reciprocal of the course to
// teardrop, which stays on the holding side, and names the other as the alternative.
//
// Errors: [abeam.ErrInvalid] for the zero Sectors or a heading that is not finite.
func (s Sectors) Choose(p hold.Pattern, heading abeam.Bearing) (Decision, error) {
	const op = "entry.Sectors.Choose"
	if s.line == 0 {
		return Decision{}, check.Invalid(op, "sectors", s.String(), "a rule such as SeventyDegreeLine")
	}
	if err := check.Finite(op, "heading", heading); err != nil {
		return Decision{}, err
	}
	d := p.Turn().Apply(heading.Sub(p.Inbound())).Rounded()
	dec := Decision{Angle: d}
	far := 180 - s.line // the edge of the direct sector on the holding side
	// The two edges of the sector and what lies beyond them.
	var low, high abeam.Degrees
	var beyondLow, beyondHigh Kind
	switch {
	case d >= -s.line && d <= far:
		dec.Entry = Direct
		low, beyondLow, high, beyondHigh = -s.line, Parallel, far, Teardrop
	case d > far:
		dec.Entry = Teardrop
		low, beyondLow, high, beyondHigh = far, Direct, 180, Parallel
	default:
		dec.Entry = Parallel
		low, beyondLow, high, beyondHigh = -180, Teardrop, -s.line, Direct
	}
	beyond := beyondLow
	if dec.Margin = d - low; high-d < dec.Margin {
		dec.Margin, beyond = high-d, beyondHigh
	}
	dec.Margin = dec.Margin.Rounded()
	if dec.Margin <= s.zone {
		dec.Alternative = beyond
	}
	return dec, nil
}
