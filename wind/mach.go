package wind

import "strconv"

// Mach is a true airspeed in units of the local speed of sound. The module's
// airspeeds are subsonic: 0 to below 1.
type Mach float64

// String gives m exactly: "M0.83".
func (m Mach) String() string { return "M" + strconv.FormatFloat(float64(m), 'f', -1, 64) }
