package entry

import (
	"errors"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
)

// 450 kt are 1/8 NM/s and 225 kt 1/16, so that every figure is exact: at 1.125 kt/s the reduction
// takes 200 s and 18.75 NM. It fits between the present and the fix 150 s from it, and, where the
// limit is kept for the last 180 s and 11.25 NM, 240 s from it; a nanosecond less and it does not.
func TestSlowFitsExactly(t *testing.T) {
	for notice, toFix := range map[bool]time.Duration{false: 150 * time.Second, true: 240 * time.Second} {
		a := Approaching{Present: 450, Limit: 225, Deceleration: 1.125, ToFix: toFix, Notice: notice}
		s, err := a.Slow()
		if err != nil || s.TooFast || s.OverFix != 225 || s.Covers != 18.75 || s.Takes != 200*time.Second || s.Latest.In != 0 {
			t.Errorf("notice %v: %+v, %v", notice, s, err)
		}
		a.ToFix--
		if s, err = a.Slow(); err != nil || !s.TooFast || s.OverFix < 225 || s.OverFix > 225.001 {
			t.Errorf("notice %v, a nanosecond less: %+v, %v", notice, s, err)
		}
	}
}

// A headwind of the present speed, below the limit as it is, makes no ground; a tailwind does,
// however strong. The error says what the headwind is.
func TestSlowAgainstTheWind(t *testing.T) {
	a := Approaching{Present: 150, Limit: 200, Deceleration: 2, ToFix: time.Minute, Tailwind: -150}
	for _, headwind := range []abeam.Knots{150, 160, 199} {
		a.Tailwind = -headwind
		s, err := a.Slow()
		var field *abeam.FieldError
		if !errors.As(err, &field) || !errors.Is(err, abeam.ErrUnflyable) || field.Field != "headwind" || field.Value != headwind || s != (Slowing{}) {
			t.Errorf("headwind %v: %+v, %v", headwind, s, err)
		}
	}
	for _, tailwind := range []abeam.Knots{-149, 0, 150, 160} {
		a.Tailwind = tailwind
		if s, err := a.Slow(); err != nil || s != (Slowing{OverFix: 150}) {
			t.Errorf("tailwind %v: %+v, %v", tailwind, s, err)
		}
	}
}
