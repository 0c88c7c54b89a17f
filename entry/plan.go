package entry

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
)

// Plan is what an entry is flown by. Take one from [Rules.Plan] and change what differs;
// the zero Plan is rejected. Plans compare with ==.
type Plan struct {
	Entry Kind
	// Leg is the time on the entry leg, the outbound leg of a direct entry: above 0 and
	// at most hold.MaxLeg. The clock starts wings level on the leg; for direct, wings
	// level or abeam the fix, whichever is later. Only AsPublished uses it.
	Leg time.Duration
	// Inbound is the time intended from wings level on the inbound course to the fix:
	// above 0 and at most hold.MaxLeg. Only ForWind uses it.
	Inbound time.Duration
	// Teardrop is the angle of the teardrop from the reciprocal of the inbound course,
	// MinTeardrop to MaxTeardrop; TeardropBy says whether of its heading or its track.
	Teardrop   abeam.Degrees
	TeardropBy Basis
	// KeepAngle holds a teardrop flown ForWind on a track at the angle of Teardrop, and
	// gives up the inbound time for it.
	KeepAngle bool
	// OffsetLimit is the longest time on the teardrop's angle, at most hold.MaxLeg; what
	// is left of a longer leg is flown parallel to the outbound. 0 does not limit.
	OffsetLimit time.Duration
	// Intercept is the angle at which the inbound course is intercepted where the turn
	// back does not end on it, MinIntercept to MaxIntercept: of the heading AsPublished,
	// of the track ForWind.
	Intercept abeam.Degrees
	// DME ends the leg on a reading of the DME, not on its time; the zero DME does not.
	DME DME
}

// The angles of intercept: the one that [Rules.Plan] gives (common practice), and the
// range that is accepted.
const (
	InterceptAngle abeam.Degrees = 45
	MinIntercept   abeam.Degrees = 10
	MaxIntercept   abeam.Degrees = 90
)

// Plan gives the entry as the rules have it flown: the leg and the inbound leg of the
// given time, a teardrop of [TeardropAngle], an intercept at [InterceptAngle]. It checks
// nothing; [Plan.Fly] does.
func (r Rules) Plan(kind Kind, leg time.Duration) Plan {
	return Plan{
		Entry: kind, Leg: leg, Inbound: leg,
		Teardrop: TeardropAngle, TeardropBy: r.teardrop, OffsetLimit: r.offset,
		Intercept: InterceptAngle,
	}
}

// Validate reports a field out of range as [abeam.ErrInvalid].
func (pl Plan) Validate() error { return pl.validate("entry.Plan.Validate") }

func (pl *Plan) validate(op string) error {
	if !(pl.Entry >= Direct && pl.Entry <= Parallel) {
		return check.Invalid(op, "entry", pl.Entry, "direct, teardrop or parallel")
	}
	if !(pl.Leg > 0 && pl.Leg <= hold.MaxLeg) {
		return check.Invalid(op, "leg time", pl.Leg, "above 0s and at most "+hold.MaxLeg.String())
	}
	if !(pl.Inbound > 0 && pl.Inbound <= hold.MaxLeg) {
		return check.Invalid(op, "inbound time", pl.Inbound, "above 0s and at most "+hold.MaxLeg.String())
	}
	if err := check.Within(op, "teardrop angle", pl.Teardrop, MinTeardrop, MaxTeardrop); err != nil {
		return err
	}
	if err := pl.TeardropBy.validate(op, "teardrop basis"); err != nil {
		return err
	}
	if !(pl.OffsetLimit >= 0 && pl.OffsetLimit <= hold.MaxLeg) {
		return check.Invalid(op, "offset limit", pl.OffsetLimit, "from 0s to "+hold.MaxLeg.String())
	}
	if err := check.Within(op, "intercept angle", pl.Intercept, MinIntercept, MaxIntercept); err != nil {
		return err
	}
	return pl.DME.validate(op)
}
