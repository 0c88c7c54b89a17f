package timing

import (
	"time"

	"github.com/holdingfix/abeam/internal/check"
)

// LostCommunications is a clearance limit that is held at when the communications have
// failed, in instrument conditions; in visual ones the flight goes on under visual rules and
// lands as soon as practicable (14 CFR 91.185(b), from memory). Zero times are not known.
type LostCommunications struct {
	// ApproachFix: an approach begins at the fix.
	ApproachFix bool
	Arrival     time.Time // over the fix; must be given
	EFC         time.Time // expect further clearance
	ETA         time.Time // at the destination, from the time en route filed or as amended
}

// LeavePlan is when to leave a fix, and why.
type LeavePlan struct {
	Leave    time.Time
	Findings []Finding
}

const lostSource = "14 CFR 91.185(c)(3)"

// Leave gives when to leave the fix:
//
//   - where an approach begins at the fix: as near as possible at the EFC; without one, at the
//     ETA;
//   - elsewhere: at the EFC; without one, on arrival, to go to a fix where an approach begins.
//
// A time before the arrival is the arrival. The result is for the rules of the United States;
// others differ.
//
// Source: 14 CFR 91.185(c)(3).
//
// Errors: [abeam.ErrInvalid] without an arrival, or at an approach fix without EFC and ETA.
func (l LostCommunications) Leave() (LeavePlan, error) {
	const op = "timing.LostCommunications.Leave"
	if l.Arrival.IsZero() {
		return LeavePlan{}, check.Invalid(op, "arrival", "none", "given")
	}
	var p LeavePlan
	say := func(class Class, source, text string) {
		p.Findings = append(p.Findings, Finding{Text: text, Source: source, Class: class})
	}
	switch {
	case !l.EFC.IsZero():
		p.Leave = l.EFC
		if l.ApproachFix {
			say(Published, lostSource+"(i)", "an approach begins at the fix: begin descent and approach as near as possible at the time to expect further clearance")
		} else {
			say(Published, lostSource+"(ii)", "no approach begins at the fix: leave at the time to expect further clearance, for a fix where one begins")
		}
	case l.ApproachFix:
		if l.ETA.IsZero() {
			return LeavePlan{}, check.Invalid(op, "ETA", "none", "given where an approach begins at the fix and there is no EFC")
		}
		p.Leave = l.ETA
		say(Published, lostSource+"(i)", "no time to expect further clearance was received: begin descent and approach as near as possible at the estimated time of arrival")
	default:
		p.Leave = l.Arrival
		say(Published, lostSource+"(ii)", "no time to expect further clearance was received: do not hold, leave on arrival for a fix where an approach begins")
	}
	if p.Leave.Before(l.Arrival) {
		p.Leave = l.Arrival
		say(Derived, "arrival after that time", "the time has passed on arrival: do not hold")
	}
	if l.EFC.IsZero() {
		say(Practice, "common practice", "ask for a time to expect further clearance with every holding clearance")
	}
	return p, nil
}
