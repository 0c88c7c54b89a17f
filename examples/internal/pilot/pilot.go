// Package pilot is the pilot whose errors the programs fly with.
package pilot

import (
	"time"

	"github.com/holdingfix/abeam/timing"
)

// Errors are the precision of one who is neither tired nor perfect: an assumption, not a
// measurement.
func Errors() timing.Scatter {
	return timing.Scatter{Timing: 2 * time.Second, Heading: 3, Airspeed: 3, Bank: 2, WindChange: 2, WindKnown: 8}
}
