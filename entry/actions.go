package entry

import (
	"cmp"
	"fmt"
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
)

// Action is one of the five things to do over the fix.
type Action struct {
	Name string // turn, time, twist, throttle or talk
	Do   string
}

// Crossing is what the actions at the fix take from outside the entry.
type Crossing struct {
	Limit    hold.SpeedLimit // the zero limit is none
	Altitude abeam.Feet      // hold.MinAltitude to hold.MaxAltitude
	Over     time.Time       // when the fix is reached; the zero time is left out
}

// Actions gives the five things to do over the fix, in their order and with the numbers
// of this entry: turn, time, twist, throttle, talk. Where the plan had a DME limit, that
// ends the leg, and the time is what it takes.
//
// Source: the five are common practice; distances in lieu of times AIM 5-3-8 j.5; the report of time and altitude on reaching the
// fix is AIM 5-3-8 f and 5-3-3.
//
// Errors: [abeam.ErrInvalid] for a zero Flown, for another pattern than the one entered,
// or an altitude out of range.
func (fl Flown) Actions(p hold.Pattern, c Crossing) ([5]Action, error) {
	const op = "entry.Flown.Actions"
	if err := fl.entered(op, &p); err != nil {
		return [5]Action{}, err
	}
	if err := check.Within(op, "altitude", c.Altitude, hold.MinAltitude, hold.MaxAltitude); err != nil {
		return [5]Action{}, err
	}
	heading := fl.EntryHeading.ThreeFigures()
	turn := "none, keep heading " + heading
	if math.Round(float64(fl.Through)) > 0 {
		turn = fmt.Sprintf("%v through %.0f degrees to heading %s", fl.FixTurn, fl.Through, heading)
	}
	start := "wings level"
	if fl.Entry == Direct {
		start = "wings level or abeam the fix, whichever is later"
	}
	until := ""
	if fl.dme != 0 {
		until = fmt.Sprintf("to %g DME, about ", float64(fl.dme))
	}
	throttle := "holding speed"
	if c.Limit != (hold.SpeedLimit{}) {
		throttle += ", at most " + c.Limit.String()
	}
	fix := cmp.Or(p.Fix().Ident, "the fix")
	talk := fmt.Sprintf("%s, %.0f ft, entering the hold", fix, c.Altitude)
	if !c.Over.IsZero() {
		talk = fmt.Sprintf("%s at %s, %.0f ft, entering the hold", fix, c.Over.Format("15:04"), c.Altitude)
	}
	return [5]Action{
		{"turn", turn},
		{"time", fmt.Sprintf("%s%.0f s, from %s; then turn %v", until, fl.Clock.Seconds(), start, fl.Return)},
		{"twist", "inbound course " + p.Inbound().ThreeFigures()},
		{"throttle", throttle},
		{"talk", talk},
	}, nil
}
