// Package clock is the one crossing between float64 seconds, in which the kernels
// work, and time.Duration, which the exported functions take and give.
package clock

import (
	"math"
	"time"
)

// most keeps a second of room below the largest Duration (292 years).
const most = float64(math.MaxInt64)/1e9 - 1

// Duration rounds s seconds to the nearest nanosecond. It is false for NaN and
// for what a Duration cannot hold.
//
// Truncating the product with 1e9, as a plain conversion does, misplaces one
// millisecond value in sixty by a nanosecond; rounding it is right while the product
// is exact to a tenth. Beyond that, whole seconds and the rest are converted apart.
func Duration(s float64) (time.Duration, bool) {
	if math.Abs(s) < 1e5 {
		return time.Duration(math.RoundToEven(s * 1e9)), true
	}
	return long(s)
}

func long(s float64) (time.Duration, bool) {
	if !(math.Abs(s) <= most) {
		return 0, false
	}
	whole := math.Trunc(s)
	return time.Duration(whole)*time.Second + time.Duration(math.Round((s-whole)*1e9)), true
}

// Ceil is Duration rounded up: the first Duration that, in float64 seconds, is not
// below s. A decimal such as 1.118 is thus its own ceiling, although the float64 next
// to it lies a little above.
//
// The division is one rounding as long as the nanoseconds are exact (104 days);
// [time.Duration.Seconds] rounds twice and fell below s for 396 of the first million
// milliseconds.
func Ceil(s float64) (time.Duration, bool) {
	d, ok := Duration(s)
	if ok && float64(d)/1e9 < s {
		d++
	}
	return d, ok
}
