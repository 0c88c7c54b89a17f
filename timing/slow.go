package timing

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
)

// SlowWithin is [hold.SlowWithin].
const SlowWithin = hold.SlowWithin

// SlowAt gives the distance from the fix that the groundspeed covers in [SlowWithin]:
// the reduction starts there or later (AIM 5-3-8 d). The groundspeed is above 0 and at most 1,200 kt.
//
// Errors: [abeam.ErrInvalid] for a groundspeed out of range.
func SlowAt(groundspeed abeam.Knots) (abeam.NM, error) {
	if err := check.Above("timing.SlowAt", "groundspeed", groundspeed, 0, 1200); err != nil {
		return 0, err
	}
	return groundspeed.In(SlowWithin), nil
}
