package entry

import "math"

// recovery is the way from the end of the last outbound piece onto the inbound course.
type recovery struct {
	sense   float64 // of the turn back
	to      dir     // the heading that it ends on
	through float64
	leg     float64 // time on the intercept
	onto    float64 // sense of the turn onto the course, 0 where there is none
	last    float64 // angle of that turn
	dx      float64 // ground gained along the course by all of it
}

// onCourse is how far off the course, in what the airspeed covers in a second, a turn
// back still ends on it: a tenth of a millimetre at 200 kt.
const onCourse = 1e-6

// regain plans the way back onto the course from abreast y on the heading h, with a
// first turn in the given sense. Turned right back to the inbound heading, the aeroplane
// is at y1:
//
//	on the course           that is all;
//	not yet at the course   the turn ends early, on the intercept heading towards the
//	                        course, and goes on where that has brought it near enough;
//	past the course         the turn goes on through the inbound heading to the intercept
//	                        heading on the other side, and back; if less than the whole
//	                        angle of intercept is needed, no leg lies between the two.
//
// It is false where the wind carries the aeroplane away from the course on the intercept
// heading.
func (fr *frame) regain(y float64, h dir, sense, angle float64, by Basis) (rc recovery, ok bool) {
	rc.sense = sense
	direct := through(h, fr.in, sense)
	dx, dy := fr.turned(h, fr.in, sense, direct)
	off := sense * (y + dy) // towards where the turn comes from
	switch {
	case math.Abs(off) <= onCourse:
		rc.to, rc.through, rc.dx = fr.in, direct, dx
		return rc, true
	case off > 0:
		rc.to, rc.onto = fr.flown(by, -sense*angle), sense
		rc.through = through(h, rc.to, sense)
	default:
		rc.to, rc.onto = fr.flown(by, sense*angle), -sense
		rc.through = direct + through(fr.in, rc.to, sense)
	}
	gx, gy := fr.over(rc.to)
	if !(gy*rc.onto < 0) {
		return recovery{}, false
	}
	rc.last = through(rc.to, fr.in, rc.onto)
	x1, y1 := fr.turned(h, rc.to, sense, rc.through)
	x2, y2 := fr.turned(rc.to, fr.in, rc.onto, rc.last)
	if rc.leg = -(y + y1 + y2) / gy; rc.leg >= 0 {
		rc.dx = x1 + gx*rc.leg + x2
		return rc, true
	}
	if rc.onto == sense { // the last outbound heading already points in between
		return recovery{}, false
	}
	rc.leg = 0
	fr.weave(&rc, h, direct, y+dy)
	return rc, true
}

// weave finds how far past the inbound heading the turn goes, if it is turned back at
// once and ends on the course, from off the course by y at the inbound heading. For a
// turn with the pattern, of which the other is the mirror image:
//
//	y + 2 r (cos(in) - cos(in + a)) + 2 wy a/rate = 0
//
// It grows throughout, so that Newton's method in a bracket has one root to find: 3 or 4
// steps from where it would be by the slope's own slope, and at most 8 in half a million tried.
func (fr *frame) weave(rc *recovery, h dir, direct, y float64) {
	s := rc.sense
	y, wy := s*y, s*fr.wy
	lo, hi := 0.0, rc.last
	a := min(hi, math.Sqrt(math.Abs(y)/(fr.r*fr.in.cos))*(180/math.Pi))
	var to dir
	for range 20 {
		to = direction(fr.in.deg + s*a)
		f := y + 2*fr.r*(fr.in.cos-to.cos) + 2*wy*a*fr.perRate
		if math.Abs(f) < 1e-12 {
			break
		}
		if f > 0 {
			hi = a
		} else {
			lo = a
		}
		a -= f / (2 * (s*to.sin + wy) * fr.perRate)
		if a != max(lo, min(hi, a)) {
			a = (lo + hi) / 2
		}
	}
	rc.to, rc.through, rc.last = to, direct+a, a
	x1, _ := fr.turned(h, to, s, rc.through)
	x2, _ := fr.turned(to, fr.in, -s, a)
	rc.dx = x1 + x2
}

// back flies a recovery and the inbound leg.
func (pa *path) back(fr *frame, rc *recovery) {
	pa.turn(fr, ReturnTurn, rc.to, rc.sense, rc.through)
	if rc.onto != 0 {
		if rc.leg > 0 {
			pa.straight(fr, InterceptLeg, rc.leg)
		}
		pa.turn(fr, CourseTurn, fr.in, rc.onto, rc.last)
	}
}
