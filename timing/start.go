package timing

import (
	"time"

	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
)

// Start says where the outbound clock starts. There is no default: the zero Start is
// rejected.
type Start uint8

// The published starts.
const (
	_ Start = iota
	// AtAbeam: over or abeam the fix, whichever is later. AIM 5-3-8 j.4(b).
	AtAbeam
	// AtTurnComplete: when the outbound turn is complete, where abeam cannot be
	// determined. AIM 5-3-8 j.4(b).
	AtTurnComplete
	// AtWingsLevelOrAbeam: wings level on the outbound heading or abeam the fix,
	// whichever is later. CNATRA P-801; TC AIM RAC 10 (secondary copies).
	AtWingsLevelOrAbeam
)

const startNames = "AtAbeam, AtTurnComplete or AtWingsLevelOrAbeam"

// String gives the rule in words.
func (s Start) String() string {
	switch s {
	case AtAbeam:
		return "over or abeam the fix, whichever is later"
	case AtTurnComplete:
		return "when the outbound turn is complete"
	case AtWingsLevelOrAbeam:
		return "wings level or abeam the fix, whichever is later"
	}
	return "no start"
}

// After gives when the clock starts on a circuit, from wings level outbound; before
// wings level it is negative.
//
// Errors: [abeam.ErrInvalid] for a start that is none of the published ones.
func (s Start) After(c hold.Circuit) (time.Duration, error) {
	switch s {
	case AtAbeam:
		return c.ToAbeam, nil
	case AtTurnComplete:
		return 0, nil
	case AtWingsLevelOrAbeam:
		return max(0, c.ToAbeam), nil
	}
	return 0, check.Invalid("timing.Start.After", "start", uint8(s), startNames)
}

// Outbound gives what the clock reads when the inbound turn begins, 0 if it would not
// have started by then.
//
// Errors: as [Start.After].
func (s Start) Outbound(c hold.Circuit) (time.Duration, error) {
	after, err := s.After(c)
	if err != nil {
		return 0, err
	}
	return max(0, c.Straight-after), nil
}
