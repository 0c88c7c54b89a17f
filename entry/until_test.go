package entry

import (
	"errors"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
)

// The clock of a direct entry starts abeam the fix. A wind of the airspeed, 120 kt, holds the
// aeroplane where it is on the reciprocal: abeam already the clock runs, short of it never.
func TestNeverAbeam(t *testing.T) {
	pl := FAA().Plan(Direct, time.Minute)
	fr := frame{wx: 1, v: 120.0 / 3600}
	if got, err := pl.until("op", &fr, &path{h: direction(180)}, 60); err != nil || got != 60 {
		t.Errorf("abeam: %v, %v", got, err)
	}
	_, err := pl.until("op", &fr, &path{x: 1, h: direction(180)}, 60)
	var field *abeam.FieldError
	if !errors.As(err, &field) || !errors.Is(err, abeam.ErrUnflyable) || field.Field != "headwind" || field.Value != abeam.Knots(120) {
		t.Errorf("beyond: %v", err)
	}
	// At half the speed it takes 2 s to where it comes abeam.
	fr.wx = 0.5
	if got, err := pl.until("op", &fr, &path{x: 1, h: direction(180)}, 60); err != nil || got != 62 {
		t.Errorf("against the wind: %v, %v", got, err)
	}
}
