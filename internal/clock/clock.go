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
	if !(s >= -most && s <= most) {
		return 0, false
	}
	whole := math.Trunc(s)
	return time.Duration(whole)*time.Second + time.Duration(math.Round((s-whole)*1e9)), true
}

// Ceil is Duration rounded up: the first Duration not below s.
func Ceil(s float64) (time.Duration, bool) {
	d, ok := Duration(s)
	if ok && d.Seconds() < s {
		d++
	}
	return d, ok
}
