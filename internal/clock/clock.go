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
// Whole seconds and the rest are converted apart: a single product with 1e9
// misplaces one millisecond value in sixty by a nanosecond.
func Duration(s float64) (time.Duration, bool) {
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
