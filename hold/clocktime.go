package hold

import (
	"fmt"
	"time"

	"github.com/holdingfix/abeam/internal/check"
)

// ClockTime is a time of day in UTC to the minute, as a clearance gives it: four
// figures without a date. The zero ClockTime is not given. Times compare with ==.
type ClockTime struct {
	minute int16 // of the day, and one: 0 is not given
}

// NewClockTime gives the time of an hour from 0 to 23 and a minute from 0 to 59.
//
// Errors: [abeam.ErrInvalid] for anything else.
func NewClockTime(hour, minute int) (ClockTime, error) {
	if hour >= 0 && hour < 24 && minute >= 0 && minute < 60 {
		return ClockTime{int16(60*hour + minute + 1)}, nil
	}
	return ClockTime{}, check.Invalid("hold.NewClockTime", "time", fmt.Sprintf("%02d:%02d", hour, minute), "from 00:00 to 23:59")
}

// Given reports whether there is a time.
func (c ClockTime) Given() bool { return c.minute != 0 }

// Clock gives hour and minute; 0, 0 if not given, as at midnight.
func (c ClockTime) Clock() (hour, minute int) {
	if !c.Given() {
		return 0, 0
	}
	return int(c.minute-1) / 60, int(c.minute-1) % 60
}

// Near gives the instant with this time of day that is nearest to now, in UTC: less
// than twelve hours before it or at most twelve after. A clearance is for the hours
// ahead, so that a time a little before now is one that has passed. If not given, Near
// is the zero [time.Time].
func (c ClockTime) Near(now time.Time) time.Time {
	if !c.Given() {
		return time.Time{}
	}
	now = now.UTC()
	hour, minute := c.Clock()
	at := time.Date(now.Year(), now.Month(), now.Day(), hour, minute, 0, 0, time.UTC)
	switch ahead := at.Sub(now); {
	case ahead > 12*time.Hour:
		return at.AddDate(0, 0, -1)
	case ahead <= -12*time.Hour:
		return at.AddDate(0, 0, 1)
	}
	return at
}

// String gives four figures, "1835", or "not given".
func (c ClockTime) String() string {
	if !c.Given() {
		return "not given"
	}
	hour, minute := c.Clock()
	return fmt.Sprintf("%02d%02d", hour, minute)
}
