package wind

import (
	"fmt"
	"time"
)

// DayTime is a day of the month and a time of that day, UTC, as reports and
// forecasts have it. The zero DayTime, with no day, is not said.
type DayTime struct {
	Day   int           // 1 to 31
	Clock time.Duration // since midnight
}

// String gives the form of a report, "310600Z", or "not said".
func (d DayTime) String() string {
	if d.Day == 0 {
		return "not said"
	}
	return fmt.Sprintf("%02d%02d%02dZ", d.Day, int(d.Clock.Hours()), int(d.Clock.Minutes())%60)
}

// parseDayTime reads ddhhmm.
func parseDayTime(s string) (DayTime, bool) {
	day, ok := twoDigits(s, 0)
	if !ok || !(day >= 1 && day <= 31) {
		return DayTime{}, false
	}
	clock, ok := parseClock(s[2:])
	return DayTime{Day: day, Clock: clock}, ok
}

// parseClock reads hhmm.
func parseClock(s string) (time.Duration, bool) {
	hour, ok1 := twoDigits(s, 0)
	minute, ok2 := twoDigits(s, 2)
	if !ok1 || !ok2 || len(s) != 4 || hour > 23 || minute > 59 {
		return 0, false
	}
	return time.Duration(hour)*time.Hour + time.Duration(minute)*time.Minute, true
}
