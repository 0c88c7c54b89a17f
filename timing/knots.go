package timing

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/internal/clock"
	"github.com/holdingfix/abeam/wind"
)

// windLaw gives an outbound time from the leg's time and the headwind outbound.
type windLaw func(target time.Duration, headwind abeam.Knots) (time.Duration, error)

// SecondsPerKnot gives the outbound time from the leg's time and the headwind on the
// outbound leg (negative: tailwind):
//
//	outbound = target + 1 s x headwind, never below 0
//
// 20 kt of headwind on a minute ask for 1:20, 20 kt of tailwind for 0:40.
//
// The exact circuit, in light wind, with legs of 1 minute at 3 deg/s and the clock from
// abeam, asks for 180 s/TAS a knot of headwind and 240 s/TAS a knot of tailwind, TAS in
// knots: the rule is right at 180 and 240 kt and gives half of what is needed near 100. See
// [Tenths].
//
// Source: common practice. The target is above 0 and at most [hold.MaxLeg], the headwind
// within [wind.MaxSpeed].
//
// Errors: [abeam.ErrInvalid] for input out of range.
func SecondsPerKnot(target time.Duration, headwind abeam.Knots) (time.Duration, error) {
	return perKnot("timing.SecondsPerKnot", target, headwind, 1, 1)
}

// SecondsPerKnotPerMinute gives the outbound time as [SecondsPerKnot] does, but a second
// for each minute of the leg, and half of it for tailwind:
//
//	outbound = target + 1 s x headwind x target/1 min     (headwind outbound)
//	outbound = target - 0.5 s x tailwind x target/1 min   (tailwind outbound), never below 0
//
// Source: common practice. Ranges and errors as [SecondsPerKnot].
func SecondsPerKnotPerMinute(target time.Duration, headwind abeam.Knots) (time.Duration, error) {
	minutes := target.Minutes()
	return perKnot("timing.SecondsPerKnotPerMinute", target, headwind, minutes, minutes/2)
}

func perKnot(op string, target time.Duration, headwind abeam.Knots, against, with float64) (time.Duration, error) {
	if !(target > 0 && target <= hold.MaxLeg) {
		return 0, check.Invalid(op, "target", target, "above 0s and at most "+hold.MaxLeg.String())
	}
	if err := check.Within(op, "headwind", headwind, -wind.MaxSpeed, wind.MaxSpeed); err != nil {
		return 0, err
	}
	share := against
	if headwind < 0 {
		share = with
	}
	d, _ := clock.Duration(share * float64(headwind)) // at most 60 x 400 s
	return within(target + d), nil
}
