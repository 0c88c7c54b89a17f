package entry

import (
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
)

// Fly gives the entry as flown from over the fix, on a heading there, until the fix is
// reached again on the inbound course. Turns take the rate of the flight; rolls take no
// time; on the inbound course the heading makes the course good.
//
// At the fix: direct turns with the pattern to outbound, however far that is, from 250
// degrees at the edge on the non-holding side, past 180 from straight in, to 70 at the
// edge on the holding side; teardrop and parallel turn the shorter way to their leg, and
// from straight about, teardrop by the holding side and parallel by the other.
//
// AsPublished, the leg takes its time on the still-air heading: the reciprocal of the
// inbound course, a teardrop its angle from that, by heading or, where the rules want a
// track, by the heading that makes it good. Direct and teardrop turn back with the
// pattern, parallel against it. Where the turn does not end on the inbound course that is
// intercepted at the heading of the intercept angle: the turn ends early where the course
// is still ahead, and goes on past the inbound heading where it has been overshot.
//
// A parallel leg that the wind has carried across the course turns back the other way,
// towards the course: holding course 360, parallel on 180, a crosswind that pushes to the
// right, turn left instead (CNATRA P-801 p133).
//
// ForWind, the inbound course is regained with the inbound time of the plan.
//
//	direct    The two turns go the same way, so that whatever the outbound heading they
//	          turn through the same angle D and take up the same air. With h the heading
//	          at the fix, h_in the inbound heading and r the radius, the entry closes when
//
//	            V t u = E - w t,  E = -g t_in - r(sin h_in - sin h, cos h - cos h_in) - w D/rate
//
//	          a quadratic for the time t and, by its direction, the heading u: the
//	          closed form of [hold.Pattern.Outbound].
//	teardrop  The same where the turn at the fix goes with the pattern. Where it goes
//	          against it, E depends on the heading, and Newton's method finds the root of
//	          E x (u + w), with slope E . u'.
//	parallel  The leg is a track on the reciprocal of the course. What follows it, with an
//	          intercept on a track at the intercept angle, does not depend on how long it
//	          is, so its time is a quotient.
//
// From the inbound heading the direct entry is the lap of [hold.Pattern.Circuit]. Where
// the track of a direct entry's leg would lie more than 90 degrees from the reciprocal, where
// it gains no ground outbound, it is held there; the turn back still ends on the course, and
// the inbound time is what comes of it; see [AngleLimited]. The track of a teardrop lies from
// [MinTeardrop] to [MaxTeardrop] from the reciprocal; where none there meets the inbound
// time, it is the one that comes nearest, mostly a limit, to the degree elsewhere. A teardrop
// longer than its offset limit is closed by the outbound leg after it. A direct entry, or
// that outbound leg, that closes in no such way is flown as parallel, on the reciprocal.
// With a DME limit the legs are tracks, the reading ends them, and the course is intercepted.
//
// Source: AIM 5-3-8 j.3; ICAO Doc 8168 Vol I (secondary copies), Vol II I-4-3-4 and
// App C-15 (the DME limit); the intercept is common practice. Accuracy: rounding, 1e-9 NM
// and 1e-9 s for usual winds.
//
// Errors: [abeam.ErrInvalid] for a plan, pattern, flight, heading or manner out of range;
// [abeam.ErrUnflyable] for a wind as strong as the TAS, an intercept on which the wind
// carries the aeroplane away from the course, a direct entry that never comes abeam the
// fix, or a DME limit that is never read.
func (pl Plan) Fly(p hold.Pattern, f hold.Flight, heading abeam.Bearing, m Manner) (fl Flown, err error) {
	const op = "entry.Plan.Fly"
	if err := pl.validate(op); err != nil {
		return fl, err
	}
	if err := notZero(op, &p); err != nil {
		return fl, err
	}
	var fr frame
	if err := fr.set(op, &p, &f, heading); err != nil {
		return fl, err
	}
	pa := path{h: fr.at}
	fl.Entry, fl.Manner, fl.dme = pl.Entry, m, pl.DME.Limit
	switch m {
	case AsPublished:
		err = fl.published(op, &pl, &fr, &pa)
	case ForWind:
		err = fl.forWind(op, &pl, &fr, &pa)
	default:
		err = check.Invalid(op, "manner", uint8(m), "AsPublished (1) or ForWind (2)")
	}
	if err != nil {
		return Flown{}, err
	}
	inbound := -pa.x / fr.g
	if m == ForWind && !(math.Abs(inbound-pl.Inbound.Seconds()) <= onCourse) {
		fl.Notes |= Notes(InboundTimeMissed)
	}
	pa.h, pa.y = fr.in, 0
	pa.straight(&fr, InboundLeg, inbound)
	if !fl.fill(&p, &f, &fr, &pa) {
		return Flown{}, check.Unflyable(op, "wind speed", f.Wind.Speed, "far enough below the TAS of "+f.TAS.String()+" for the entry to end")
	}
	return fl, nil
}

func notZero(op string, p *hold.Pattern) error {
	if p.Leg() != (hold.Leg{}) {
		return nil
	}
	return check.Invalid(op, "pattern", "zero", "one that NewPattern gave")
}

// published flies the legs that the plan prints, and intercepts.
func (fl *Flown) published(op string, pl *Plan, fr *frame, pa *path) error {
	about := 1.0
	e := fr.flown(fl.basis(), 180)
	switch pl.Entry {
	case Teardrop:
		by := pl.TeardropBy
		if fl.Manner == ForWind {
			by = Track
		}
		e = fr.flown(by, 180-float64(pl.Teardrop))
	case Parallel:
		about = -1
	}
	sense, angle := shorter(fr.at, e, about)
	if pl.Entry == Direct {
		sense, angle = 1, through(fr.at, e, 1)
	}
	pa.turn(fr, FixTurn, e, sense, angle)
	if err := fl.out(op, pl, fr, pa); err != nil {
		return err
	}
	back := 1.0
	if pl.Entry == Parallel {
		if _, drift := fr.over(pa.h); drift > hair && pa.y > onCourse {
			fl.Notes |= Notes(BlownAcross)
		} else {
			back = -1
		}
	}
	return fl.regain(op, pl, fr, pa, back)
}

// basis says what the directions outbound and of the intercept are.
func (fl *Flown) basis() Basis {
	if fl.Manner == ForWind {
		return Track
	}
	return Heading
}

// out flies the entry leg, and what is left of it beyond the offset limit.
func (fl *Flown) out(op string, pl *Plan, fr *frame, pa *path) error {
	t, err := pl.until(op, fr, pa, pl.Leg.Seconds())
	if err != nil {
		return err
	}
	limit := pl.OffsetLimit.Seconds()
	if pl.Entry != Teardrop || limit == 0 || t <= limit {
		pa.straight(fr, EntryLeg, t)
		return nil
	}
	fl.Notes |= Notes(OffsetTimeLimited)
	pa.straight(fr, EntryLeg, limit)
	e := fr.flown(fl.basis(), 180)
	sense, angle := shorter(pa.h, e, 1)
	pa.turn(fr, OffsetTurn, e, sense, angle)
	if t, err = pl.until(op, fr, pa, t-limit); err == nil {
		pa.straight(fr, OutboundLeg, t)
	}
	return err
}

// until gives the time on a leg from its start to its end: the clock's time, after the
// fix comes abeam on a direct entry, or that of the DME reading.
func (pl *Plan) until(op string, fr *frame, pa *path, clock float64) (float64, error) {
	gx, gy := fr.over(pa.h)
	if pl.DME != (DME{}) {
		s, limit, growing := pl.DME.station()
		t, ok := reading(pa.x-s/fr.v, pa.y, gx, gy, limit/fr.v, growing)
		if !ok {
			return 0, check.Unflyable(op, "DME limit", pl.DME.Limit, "a reading that the leg comes to")
		}
		return t, nil
	}
	if pl.Entry != Direct || pa.x <= 0 {
		return clock, nil
	}
	if !(gx < 0) {
		return 0, check.Unflyable(op, "headwind", abeam.Knots(fr.wx*fr.v*3600), "weak enough outbound for the fix to come abeam")
	}
	return clock - pa.x/gx, nil
}

// regain flies the way back onto the course and notes what it is.
func (fl *Flown) regain(op string, pl *Plan, fr *frame, pa *path, sense float64) error {
	rc, ok := fr.regain(pa.y, pa.h, sense, float64(pl.Intercept), fl.basis())
	if !ok {
		return noIntercept(op, pl)
	}
	fl.back(fr, pa, &rc)
	return nil
}

func noIntercept(op string, pl *Plan) error {
	return check.Unflyable(op, "intercept angle", pl.Intercept, "one that reaches the inbound course in this wind")
}

func (fl *Flown) back(fr *frame, pa *path, rc *recovery) {
	if rc.onto != 0 {
		fl.Notes |= Notes(OffCourse)
	}
	pa.back(fr, rc)
}
