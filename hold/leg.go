package hold

import (
	"time"

	"github.com/holdingfix/abeam/internal/check"
)

// MaxLeg is the longest leg accepted.
const MaxLeg = time.Hour

// Leg is what ends the outbound leg. The zero Leg is none and is rejected.
type Leg struct {
	inbound time.Duration
}

// TimedInbound is the leg whose inbound part, from wings level to the fix, takes
// the given time, above 0 and at most [MaxLeg]. It is what the FAA's leg time
// means: AIM 5-3-8 j.4.
func TimedInbound(d time.Duration) Leg { return Leg{inbound: d} }

// Inbound is the time of the inbound leg.
func (l Leg) Inbound() time.Duration { return l.inbound }

func (l Leg) ok() bool { return l.inbound > 0 && l.inbound <= MaxLeg }

func (l Leg) validate(op string) error {
	if l.ok() {
		return nil
	}
	return check.Invalid(op, "inbound leg", l.inbound, "above 0s and at most "+MaxLeg.String())
}
