package entry

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// Rules are how an authority has the entry chosen and flown. Take one from its
// constructor; the zero Rules say nothing and are rejected, there is no default. Rules
// compare with ==.
type Rules struct {
	name   string
	source string
	basis  Basis // what the sectors are counted by
	// line is the angle from the inbound course to the edge of the direct sector on the
	// non-holding side, far to the one on the holding side; zone is the width of the
	// flexible zone on each side of an edge.
	line, far, zone abeam.Degrees
	// choice is the widest teardrop that a pilot may choose outside any sector, aligned
	// how far the heading may lie from it; 0 where the sectors alone decide.
	choice, aligned abeam.Degrees
	teardrop        Basis // what its angle is of
	offset          time.Duration
}

// The sectors of 180, 70 and 110 degrees, that all but the Air Force's share.
const (
	seventy  abeam.Degrees = 70
	flexible abeam.Degrees = 5
)

// FAA are the sectors of the FAA by the heading at the fix: a line through the fix at 70
// degrees to the inbound course parts direct (180 degrees wide) from teardrop (70) and
// parallel (110); within 5 degrees of an edge either neighbour may be flown. The teardrop
// is a heading 30 degrees from the reciprocal of the inbound course.
//
// Source: AIM 5-3-8 j.3 and j.8(d); sectors of 180, 70 and 110 degrees in CNATRA P-801
// p131.
func FAA() Rules {
	return Rules{
		name: "FAA", source: "AIM 5-3-8 j.3, j.8(d)", basis: Heading,
		line: seventy, far: 180 - seventy, zone: flexible, teardrop: Heading,
	}
}

// FAARNAV are the sectors of [FAA] by the ground track at the fix, as many RNAV systems
// take them; the teardrop is a track as well.
//
// Source: AIM 5-3-8 j.7; that such a system flies the teardrop as a track is common
// practice.
func FAARNAV() Rules {
	r := FAA()
	r.name, r.source = "FAA, RNAV system", "AIM 5-3-8 j.7"
	r.basis, r.teardrop = Track, Track
	return r
}

// ICAO are the sectors of ICAO by the heading at the fix, the same as those of [FAA]. The
// teardrop, there the offset entry, is a track 30 degrees from the reciprocal of the
// inbound course, flown for at most 1 minute 30; what is left of a longer leg is flown
// parallel to the outbound.
//
// Source: ICAO Doc 8168 Vol I (secondary copies); the zone of 5 degrees in it from
// memory. The limit of 1 minute 30: Doc 8168 Vol II I-4-3-4, given there for the offset
// entry to a racetrack.
func ICAO() Rules {
	return Rules{
		name: "ICAO", source: "ICAO Doc 8168 Vol I (secondary copies)", basis: Heading,
		line: seventy, far: 180 - seventy, zone: flexible, teardrop: Track,
		offset: 90 * time.Second,
	}
}

// AirForce is the 70 degree method of the USAF. With the heading within 70 degrees of
// the inbound course, turn outbound on the holding side: direct. Otherwise turn the
// shorter way to the outbound heading: on the holding side that is direct, on the other
// parallel. A teardrop of at most 45 degrees may be chosen instead where the heading lies
// within 45 degrees of such a track. There is no flexible zone.
//
// Source: AFMAN 11-217 Vol 1 (secondary copy); the 45 degrees of alignment from memory.
func AirForce() Rules {
	return Rules{
		name: "USAF 70 degree method", source: "AFMAN 11-217 Vol 1 (secondary copy)", basis: Heading,
		line: seventy, far: 180, choice: 45, aligned: 45, teardrop: Track,
	}
}

// String names the rules.
func (r Rules) String() string {
	if r.name == "" {
		return "no rules"
	}
	return r.name
}

// Source is where the rules are published.
func (r Rules) Source() string { return r.source }

// Basis says whether the sectors are counted by heading or by track: what
// [Rules.Choose] is to be given.
func (r Rules) Basis() Basis { return r.basis }

// TeardropBasis says whether the angle of the teardrop is that of a heading or of a
// track.
func (r Rules) TeardropBasis() Basis { return r.teardrop }

// OffsetLimit is the longest time on the teardrop's offset track, 0 where there is none.
func (r Rules) OffsetLimit() time.Duration { return r.offset }

func (r *Rules) validate(op string) error {
	if r.line != 0 {
		return nil
	}
	return check.Invalid(op, "rules", r.String(), "those of FAA, FAARNAV, ICAO or AirForce")
}

// mayChoose reports whether a teardrop of 0 to choice degrees lies within reach, which
// goes on across the reciprocal.
func (r *Rules) mayChoose(d abeam.Degrees) bool {
	return d >= 180-r.choice-r.aligned || d <= r.aligned-180
}
