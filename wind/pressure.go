package wind

import "strconv"

// Hectopascals is a pressure in hectopascals, which are millibars.
type Hectopascals float64

// String gives p exactly, with its unit: "1013.25 hPa".
func (p Hectopascals) String() string { return strconv.FormatFloat(float64(p), 'f', -1, 64) + " hPa" }
