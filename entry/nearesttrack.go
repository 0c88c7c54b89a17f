package entry

import "math"

// nearest closes a teardrop that solving for the inbound time led to no track from lo to hi
// degrees from the reciprocal: on the track there whose inbound time comes nearest. That
// time jumps where the turn at the fix, which goes the shorter way, changes sides. So the
// tracks are tried in steps of a degree, and halved between two that have the time between
// them.
func (fr *frame) nearest(pa *path, in, lo, hi float64) closing {
	steps := math.Ceil(hi - lo)
	best := fr.onTrack(pa, false, lo)
	best.limited = true
	before, from := best, lo
	for i := 1.0; i <= steps; i++ {
		track := min(lo+i, hi)
		c := fr.onTrack(pa, false, track)
		if before.ok && c.ok && (before.in > in) != (c.in > in) {
			if met := fr.between(pa, in, from, track, before.in > in); math.Abs(met.in-in) < onCourse {
				return met
			}
		}
		c.limited = i == steps
		if c.ok && !(math.Abs(best.in-in) <= math.Abs(c.in-in)+onCourse) {
			best = c
		}
		before, from = c, track
	}
	return best
}

// between halves the tracks from lo to hi, of which one gives more inbound time than in,
// and lo if falling, until they are neighbours.
func (fr *frame) between(pa *path, in, lo, hi float64, falling bool) closing {
	for {
		mid := (lo + hi) / 2
		c := fr.onTrack(pa, false, mid)
		if mid == lo || mid == hi {
			return c
		}
		if (c.in > in) == falling {
			lo = mid
		} else {
			hi = mid
		}
	}
}
