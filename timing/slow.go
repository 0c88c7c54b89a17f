package timing

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// SlowWithin is how long before the fix the reduction to the holding speed starts: at 3
// minutes or less. With an advance notice of the hold be at or below the limit by then.
//
// Source: AIM 5-3-8 d; j.8(a) for the advance notice.
const SlowWithin = 3 * time.Minute

// SlowAt gives the distance from the fix that the groundspeed covers in [SlowWithin]:
// do not begin to slow before it. The groundspeed is above 0 and at most 1,200 kt.
//
// Errors: [abeam.ErrInvalid] for a groundspeed out of range.
func SlowAt(groundspeed abeam.Knots) (abeam.NM, error) {
	if err := check.Above("timing.SlowAt", "groundspeed", groundspeed, 0, 1200); err != nil {
		return 0, err
	}
	return groundspeed.In(SlowWithin), nil
}
