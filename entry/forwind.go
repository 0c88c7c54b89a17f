package entry

import "math"

// forWind flies the entry that regains the course in the inbound time.
func (fl *Flown) forWind(op string, pl *Plan, fr *frame, pa *path) error {
	if pl.DME != (DME{}) {
		return fl.published(op, pl, fr, pa)
	}
	in := pl.Inbound.Seconds()
	lo, hi := -square, square
	keep := pl.KeepAngle && pl.Entry == Teardrop
	switch {
	case pl.Entry == Parallel:
		e := fr.making(-1, 0)
		sense, angle := shorter(fr.at, e, -1)
		pa.turn(fr, FixTurn, e, sense, angle)
		return fl.onReciprocal(op, pl, fr, pa, EntryLeg, -1)
	case keep:
		lo, hi = float64(pl.Teardrop), float64(pl.Teardrop)
	case pl.Entry == Teardrop:
		lo, hi = float64(MinTeardrop), float64(MaxTeardrop)
	}
	c := fr.close(pa, pl.Entry == Direct, in, lo, hi)
	if pl.Entry == Teardrop && (c.limited || !c.ok) {
		c = fr.nearest(pa, in, lo, hi)
	}
	limit := pl.OffsetLimit.Seconds()
	if pl.Entry == Teardrop && limit > 0 && c.t > limit {
		return fl.offset(op, pl, fr, pa)
	}
	if !c.ok && pl.Entry == Direct {
		e := fr.making(-1, 0)
		pa.turn(fr, FixTurn, e, 1, through(fr.at, e, 1))
		return fl.onReciprocal(op, pl, fr, pa, EntryLeg, 1)
	}
	pa.turn(fr, FixTurn, c.to, c.sense, c.first)
	pa.straight(fr, EntryLeg, c.t)
	if c.limited && !keep {
		fl.Notes |= Notes(AngleLimited)
	}
	if !c.ok {
		return fl.regain(op, pl, fr, pa, 1)
	}
	fl.back(fr, pa, &recovery{sense: 1, to: fr.in, through: c.back})
	return nil
}

// square is how far from the reciprocal the track of an outbound leg may lie: beyond it
// the leg gains no ground outbound.
const square = 90.0

// offset flies the teardrop's track to its time limit, and closes by the leg after it.
func (fl *Flown) offset(op string, pl *Plan, fr *frame, pa *path) error {
	fl.Notes |= Notes(OffsetTimeLimited)
	e := fr.flown(Track, 180-float64(pl.Teardrop))
	sense, angle := shorter(fr.at, e, 1)
	pa.turn(fr, FixTurn, e, sense, angle)
	pa.straight(fr, EntryLeg, pl.OffsetLimit.Seconds())
	c := fr.close(pa, false, pl.Inbound.Seconds(), -square, square)
	if !c.ok {
		e = fr.making(-1, 0)
		sense, angle = shorter(pa.h, e, 1)
		pa.turn(fr, OffsetTurn, e, sense, angle)
		return fl.onReciprocal(op, pl, fr, pa, OutboundLeg, 1)
	}
	if c.limited {
		fl.Notes |= Notes(AngleLimited)
	}
	pa.turn(fr, OffsetTurn, c.to, c.sense, c.first)
	pa.straight(fr, OutboundLeg, c.t)
	fl.back(fr, pa, &recovery{sense: 1, to: fr.in, through: c.back})
	return nil
}

// onReciprocal flies a leg along the course, on the reciprocal, for as long as the
// inbound time asks for, and the way back, which does not depend on it.
func (fl *Flown) onReciprocal(op string, pl *Plan, fr *frame, pa *path, phase Phase, sense float64) error {
	rc, ok := fr.regain(pa.y, pa.h, sense, float64(pl.Intercept), Track)
	if !ok {
		return noIntercept(op, pl)
	}
	gx, _ := fr.over(pa.h)
	pa.straight(fr, phase, max(0, (-fr.g*pl.Inbound.Seconds()-pa.x-rc.dx)/gx))
	fl.back(fr, pa, &rc)
	return nil
}

// closing is a leg between two turns that ends on the course.
type closing struct {
	to                 dir
	sense, first, back float64 // of the turn to it, its angle, that of the turn back
	t                  float64
	in                 float64 // the inbound time, of a leg on a given track
	limited            bool    // the track is at a limit
	ok                 bool    // the turn back ends on the course
}

// close finds the leg after which a turn with the pattern ends on the course, the
// inbound time before the fix, its track between lo and hi degrees from the reciprocal;
// at the limit where it would lie beyond. The turn to the leg goes with the pattern, or
// the shorter way where it need not. See [Plan.Fly].
func (fr *frame) close(pa *path, with bool, in, lo, hi float64) closing {
	c := closing{sense: 1}
	total := through(pa.h, fr.in, 1)
	if with {
		total = 360 + fr.in.deg - pa.h.deg
	}
	dx, dy := fr.turned(pa.h, fr.in, 1, total)
	ex, ey := -fr.g*in-pa.x-dx, -pa.y-dy
	ew, e2 := ex*fr.wx+ey*fr.wy, ex*ex+ey*ey
	w2 := fr.wx*fr.wx + fr.wy*fr.wy
	if e2 == 0 {
		return c // no leg at all, on no track
	}
	c.t = e2 / (ew + math.Sqrt(ew*ew+(1-w2)*e2))
	c.to = along(ex-fr.wx*c.t, ey-fr.wy*c.t)
	c.first, c.back = through(pa.h, c.to, 1), through(c.to, fr.in, 1)
	c.ok = math.Abs(c.first+c.back-total) < 1e-6
	if !with && c.first > 180 {
		ex, ey = fr.closeAgainst(pa, &c, in, total, ex, ey)
	}
	track := along(-ex, ey).deg
	held := max(lo, min(hi, track))
	if !c.ok || held == track {
		return c
	}
	c = fr.onTrack(pa, with, held)
	c.limited = true
	c.ok = c.ok && (!with || math.Abs(c.first+c.back-total) < 1e-6)
	return c
}

// onTrack closes on the course by a leg on a given track from the reciprocal, whatever
// the inbound time. Where none does, the leg takes no time.
func (fr *frame) onTrack(pa *path, with bool, track float64) (c closing) {
	c.to = fr.flown(Track, 180-track)
	c.sense, c.first = shorter(pa.h, c.to, 1)
	if with {
		c.sense, c.first = 1, through(pa.h, c.to, 1)
	}
	c.back = through(c.to, fr.in, 1)
	x1, y1 := fr.turned(pa.h, c.to, c.sense, c.first)
	x2, y2 := fr.turned(c.to, fr.in, 1, c.back)
	gx, gy := fr.over(c.to)
	c.t = -(pa.y + y1 + y2) / gy
	c.in = -(pa.x + x1 + gx*c.t + x2) / fr.g
	if c.ok = c.t >= -1e-9 && c.t <= longest; !c.ok {
		c.t, c.in = 0, math.NaN()
	}
	c.t = max(0, c.t) // where no leg is asked for, rounding makes less of it
	return c
}

// longest is the longest leg that closing gives, in seconds: hold.MaxLeg and no more.
const longest = 3600

// closeAgainst closes where the turn to the leg goes against the pattern. The turns then
// do not cancel: with a the angle of the first and E what is left for the leg to cover, E
// shrinks by 2 r (u + w) per radian of a, so that the slope of E x (u + w) is -E . u alone.
// It gives E, or what it was given where nothing closes within half a turn.
func (fr *frame) closeAgainst(pa *path, c *closing, in, total, ex0, ey0 float64) (ex, ey float64) {
	c.sense, c.ok = -1, false
	a := min(360-c.first, 180)
	for range 30 {
		to := direction(pa.h.deg - a)
		x1, y1 := fr.turned(pa.h, to, -1, a)
		x2, y2 := fr.turned(to, fr.in, 1, total+a)
		ex, ey = -fr.g*in-pa.x-x1-x2, -pa.y-y1-y2
		gx, gy := fr.over(to)
		step := (ex*gy - ey*gx) / (ex*to.cos + ey*to.sin) * (180 / math.Pi)
		if math.Abs(step) < 1e-11 {
			c.to, c.first, c.back = to, a, total+a
			c.t = (ex*gx + ey*gy) / (gx*gx + gy*gy)
			if c.ok = c.t >= 0; c.ok {
				return ex, ey
			}
			break
		}
		next := max(0, min(180, a+step))
		if next == a || math.IsNaN(next) {
			break
		}
		a = next
	}
	return ex0, ey0
}
