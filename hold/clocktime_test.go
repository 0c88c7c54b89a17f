package hold

import (
	"errors"
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
)

func TestClockTime(t *testing.T) {
	for hour := range 24 {
		for minute := range 60 {
			c := clockTime(t, hour, minute)
			if h, m := c.Clock(); h != hour || m != minute || !c.Given() || c.String() != fmt.Sprintf("%02d%02d", hour, minute) {
				t.Fatalf("%02d:%02d: %v", hour, minute, c)
			}
		}
	}
	for _, bad := range [][2]int{{24, 0}, {-1, 0}, {0, 60}, {0, -1}, {math.MaxInt, math.MaxInt}} {
		if c, err := NewClockTime(bad[0], bad[1]); !errors.Is(err, abeam.ErrInvalid) || c.Given() {
			t.Errorf("%v: %v, %v", bad, c, err)
		}
	}
	var none ClockTime
	if h, m := none.Clock(); none.Given() || h != 0 || m != 0 || !none.Near(time.Now()).IsZero() || none.String() != "not given" {
		t.Error("the zero time is given")
	}
	zone := time.FixedZone("", -8*3600)
	for _, tc := range []struct {
		now          time.Time
		hour, minute int
		ahead        time.Duration
	}{
		{time.Date(2026, 12, 31, 23, 50, 0, 0, time.UTC), 0, 10, 20 * time.Minute},
		{time.Date(2026, 1, 1, 0, 10, 0, 0, time.UTC), 23, 50, -20 * time.Minute},
		{time.Date(2026, 1, 1, 6, 0, 0, 0, time.UTC), 18, 0, 12 * time.Hour},
		{time.Date(2026, 1, 1, 18, 0, 0, 0, time.UTC), 6, 0, 12 * time.Hour},
		{time.Date(2026, 1, 1, 18, 0, 1, 0, time.UTC), 6, 0, 12*time.Hour - time.Second},
		{time.Date(2026, 1, 1, 18, 0, 0, 0, zone), 2, 30, 30 * time.Minute},
	} {
		if got := clockTime(t, tc.hour, tc.minute).Near(tc.now).Sub(tc.now); got != tc.ahead {
			t.Errorf("%02d%02d at %v: %v ahead, want %v", tc.hour, tc.minute, tc.now, got, tc.ahead)
		}
	}
}
