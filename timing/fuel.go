package timing

import (
	"math"
	"time"

	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/internal/clock"
)

// Fuel is what holding is limited by. All three are in one unit of your choice, mass or
// volume. The zero Fuel has no flow and is rejected.
type Fuel struct {
	OnBoard float64 // now; at least 0
	PerHour float64 // flow in the hold; above 0
	// Reserve is what must be left on leaving the fix: for the flight from there to the
	// destination and the alternate, and the final reserve. At least 0.
	Reserve float64
}

// FuelPlan is how long the fuel lets an aeroplane hold.
type FuelPlan struct {
	Latest time.Time     // to leave the fix
	Hold   time.Duration // from now until then, rounded down to the second; at most MaxWait
	Laps   int           // whole laps until then
	// Short is how long before the EFC the latest time is; 0 if it is not.
	Short    time.Duration
	Findings []Finding
}

// LatestLeave gives the latest time to leave the fix:
//
//	latest = now + (on board - reserve)/flow
//
// and the findings when the time to expect further clearance lies beyond it, or is zero
// because none was given. A fuel at or below the reserve is to leave now. The lap is that of
// the pattern, above 0.
//
// Errors: [abeam.ErrInvalid] for a quantity that is negative or not finite, a flow that is not
// above 0, a lap that is not above 0, or no time for now.
func (f Fuel) LatestLeave(now, efc time.Time, lap time.Duration) (FuelPlan, error) {
	const op = "timing.Fuel.LatestLeave"
	for _, v := range [...]struct {
		field string
		v     float64
	}{{"fuel on board", f.OnBoard}, {"fuel flow", f.PerHour}, {"reserve", f.Reserve}} {
		if err := check.Within(op, v.field, v.v, 0, math.MaxFloat64); err != nil {
			return FuelPlan{}, err
		}
	}
	if !(f.PerHour > 0) {
		return FuelPlan{}, check.Invalid(op, "fuel flow", f.PerHour, "above 0")
	}
	if lap <= 0 {
		return FuelPlan{}, check.Invalid(op, "lap", lap, "above 0s")
	}
	if now.IsZero() {
		return FuelPlan{}, check.Invalid(op, "now", "none", "given")
	}
	var p FuelPlan
	if spare := f.OnBoard - f.Reserve; spare > 0 {
		hold, _ := clock.Duration(math.Floor(min(MaxWait.Seconds(), spare/f.PerHour*3600)))
		p.Hold = hold
	}
	p.Latest = now.Add(p.Hold)
	p.Laps = int(p.Hold / lap)
	say := func(class Class, source, text string) {
		p.Findings = append(p.Findings, Finding{Text: text, Source: source, Class: class})
	}
	switch {
	case p.Hold == 0:
		say(Derived, "fuel less reserve", "the fuel is down to the reserve: ask for a clearance to leave now, and declare an emergency where none comes in time")
	case p.Laps == 0:
		say(Derived, "fuel less reserve", "the fuel does not last for another lap")
	}
	switch {
	case efc.IsZero():
		say(Practice, "common practice", "no time to expect further clearance was given: ask for one, and give "+p.Latest.Format("15:04")+" as the latest time to leave")
	case efc.After(p.Latest):
		p.Short = efc.Sub(p.Latest)
		say(Derived, "fuel less reserve", "the time to expect further clearance is "+p.Short.Round(time.Second).String()+" beyond the latest time to leave, "+p.Latest.Format("15:04"))
		say(Practice, "common practice", "tell air traffic control now: ask for an earlier time, or for the alternate while the fuel reaches it")
		say(Memory, "AIM 5-5-15 (from memory)", "advise minimum fuel when any undue delay would bring the fuel below the reserve; that gives no priority: where the fuel calls for it, declare an emergency")
	}
	return p, nil
}
