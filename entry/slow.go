package entry

import (
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/internal/clock"
)

// The decelerations accepted, in knots per second.
const (
	MinDeceleration abeam.Knots = 0.01
	MaxDeceleration abeam.Knots = 10
)

// Approaching is an aeroplane on its way to the fix, faster than it may hold. The two
// speeds are airspeeds of one kind; where they are true airspeeds the distances are
// those over the ground.
type Approaching struct {
	Present      abeam.Knots // above 0 and at most 800 kt
	Limit        abeam.Knots // above 0 and at most 800 kt
	Deceleration abeam.Knots // per second, MinDeceleration to MaxDeceleration
	Tailwind     abeam.Knots // on the way to the fix, negative for a headwind
	// ToFix is the time to the fix at the present speed, above 0 and at most 24 hours.
	ToFix time.Duration
	// Notice: the hold was announced in advance, and the limit is to be kept from
	// hold.SlowWithin before the fix.
	Notice bool
}

// SlowStart is a moment to start slowing down.
type SlowStart struct {
	In       time.Duration // from now; negative if it has passed
	Distance abeam.NM      // from the fix
	Arrival  time.Duration // from now to the fix, slowed down from there
}

// Slowing is when to slow down.
type Slowing struct {
	Needed bool          // the present speed is above the limit; else only OverFix is set
	Takes  time.Duration // the reduction
	Covers abeam.NM      // over the ground
	// Earliest is hold.SlowWithin before the fix; with notice of the hold, now. Latest
	// reaches the limit just over the fix; with notice, hold.SlowWithin before it.
	Earliest, Latest SlowStart
	// TooFast: the reduction does not fit between the earliest start, or now if that has
	// passed, and where the limit is to be kept: start at once and tell air traffic
	// control. OverFix is the airspeed there, the limit or above it.
	TooFast bool
	OverFix abeam.Knots
}

// Slow gives when to start slowing down for the hold. At a deceleration a from the
// groundspeed V1 to V2,
//
//	takes (V1 - V2)/a, covers (V1 + V2)/2 (V1 - V2)/a
//
// Source: AIM 5-3-8 d: start when 3 minutes or less from the fix, cross it at or below
// the limit; j.8(a): with advance notice be at or below the limit at least 3 minutes
// before it. Unable, tell air traffic control. Uniform deceleration and wind assumed.
//
// Errors: [abeam.ErrInvalid] for a field out of range; [abeam.ErrUnflyable] for a
// headwind as strong as the limit or the present speed.
func (a Approaching) Slow() (Slowing, error) {
	const op = "entry.Approaching.Slow"
	if err := a.validate(op); err != nil {
		return Slowing{}, err
	}
	if a.Present <= a.Limit {
		return Slowing{OverFix: a.Present}, nil
	}
	v1, v2 := float64(a.Present+a.Tailwind)/3600, float64(a.Limit+a.Tailwind)/3600 // NM/s
	within := hold.SlowWithin.Seconds()
	way := v1 * a.ToFix.Seconds()
	takes := float64((a.Present - a.Limit) / a.Deceleration)
	covers := (v1 + v2) / 2 * takes
	keep, earliest := 0.0, v1*within // how far from the fix the limit is kept
	if a.Notice {
		keep, earliest = v2*within, way
	}
	s := Slowing{Needed: true, Covers: abeam.NM(covers), OverFix: a.Limit}
	var ok [3]bool
	s.Takes, ok[0] = clock.Duration(takes)
	start := func(d float64) (st SlowStart, ok bool) {
		in := (way - d) / v1
		var both [2]bool
		st.In, both[0] = clock.Duration(in)
		st.Arrival, both[1] = clock.Duration(in + takes + (d-covers)/v2)
		st.Distance = abeam.NM(d)
		return st, both == [2]bool{true, true}
	}
	s.Earliest, ok[1] = start(earliest)
	s.Latest, ok[2] = start(keep + covers)
	if ok != [3]bool{true, true, true} {
		return Slowing{}, a.headwind(op)
	}
	if room := min(earliest, way) - keep; room < covers {
		s.TooFast = true
		// From V1 t - a t2/2 over the room there is.
		decel := float64(a.Deceleration) / 3600
		s.OverFix = a.Present - a.Deceleration*abeam.Knots((v1-math.Sqrt(v1*v1-2*decel*max(0, room)))/decel)
	}
	return s, nil
}

func (a *Approaching) validate(op string) error {
	const fastest, strongest abeam.Knots = 800, 400 // as package wind has them
	if err := check.Above(op, "present speed", a.Present, 0, fastest); err != nil {
		return err
	}
	if err := check.Above(op, "speed limit", a.Limit, 0, fastest); err != nil {
		return err
	}
	if err := check.Within(op, "deceleration", a.Deceleration, MinDeceleration, MaxDeceleration); err != nil {
		return err
	}
	if err := check.Within(op, "tailwind", a.Tailwind, -strongest, strongest); err != nil {
		return err
	}
	if day := 24 * time.Hour; !(a.ToFix > 0 && a.ToFix <= day) {
		return check.Invalid(op, "time to the fix", a.ToFix, "above 0s and at most "+day.String())
	}
	if !(min(a.Present, a.Limit)+a.Tailwind > 0) {
		return a.headwind(op)
	}
	return nil
}

func (a *Approaching) headwind(op string) error {
	return check.Unflyable(op, "headwind", 0-a.Tailwind, "well below the airspeed of "+min(a.Present, a.Limit).String())
}
