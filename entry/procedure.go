package entry

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
)

// The angle of the teardrop from the reciprocal of the inbound course, into the holding
// side: as published, and the range that is accepted.
//
// Source: 30 degrees AIM 5-3-8 j.3(b); 45 degrees AFMAN 11-217 Vol 1 (secondary copy);
// below 10 degrees there is no teardrop to speak of (common practice).
const (
	TeardropAngle abeam.Degrees = 30
	MinTeardrop   abeam.Degrees = 10
	MaxTeardrop   abeam.Degrees = 45
)

// Procedure is an entry as published, for still air: at the fix, turn to a heading,
// hold it for a time, turn to the inbound course.
type Procedure struct {
	Entry   Kind
	First   hold.Turn     // the turn at the fix: with the pattern for direct, else the shorter way, and with it where there is no turn
	Through abeam.Degrees // how far: 0 to 360 for direct, else 0 to 180
	Heading abeam.Bearing
	Time    time.Duration // on Heading; for direct it is the outbound leg of the first lap
	Return  hold.Turn     // the turn back to the inbound course
}

// Published gives the entry as published, from the heading at the fix:
//
//	direct    turn in the direction of the pattern to the outbound heading
//	teardrop  30 degrees into the holding side from the reciprocal, then turn with the pattern
//	parallel  the reciprocal of the inbound course on the non-holding side, then turn
//	          against the pattern, towards the holding side, through more than 180
//
// The legs take the leg time of the altitude, 1 minute or 1.5. [Plan.Fly] flies an entry
// through the wind.
//
// Source: AIM 5-3-8 j.3; above 14,000 ft legs of 1.5 minutes, CNATRA P-1215.
//
// Errors: [abeam.ErrInvalid] for a zero pattern, a kind that is no entry, a heading that is not finite
// or a time that is not above 0 and at most [hold.MaxLeg].
func Published(p hold.Pattern, kind Kind, heading abeam.Bearing, leg time.Duration) (Procedure, error) {
	const op = "entry.Published"
	if err := notZero(op, &p); err != nil {
		return Procedure{}, err
	}
	if err := check.Finite(op, "heading", heading); err != nil {
		return Procedure{}, err
	}
	if !(leg > 0 && leg <= hold.MaxLeg) {
		return Procedure{}, check.Invalid(op, "leg time", leg, "above 0s and at most "+hold.MaxLeg.String())
	}
	pr := Procedure{Entry: kind, Time: leg, Heading: p.Outward(), Return: p.Turn(), First: p.Turn()}
	switch kind {
	case Direct:
		pr.Through = p.Turn().Apply(pr.Heading.Sub(heading))
		if pr.Through < 0 { // with the pattern, however far that is
			pr.Through += 360
		}
		return pr, nil
	case Teardrop:
		pr.Heading = pr.Heading.Add(-p.Turn().Apply(TeardropAngle))
	case Parallel:
		pr.Return = p.Turn().Opposite()
	default:
		return Procedure{}, check.Invalid(op, "entry", kind, "direct, teardrop or parallel")
	}
	turn := p.Turn().Apply(pr.Heading.Sub(heading))
	pr.Through = turn.Abs()
	// Straight about to a parallel, neither way is shorter: by the non-holding side.
	if turn < 0 || kind == Parallel && turn == 180 {
		pr.First = p.Turn().Opposite()
	}
	return pr, nil
}
