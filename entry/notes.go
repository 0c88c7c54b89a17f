package entry

import (
	"iter"

	"github.com/holdingfix/abeam/internal/noteset"
)

// Note is a remark on an entry that is right as it stands but should be read with care.
type Note uint16

// The notes. Their values are bits of a [Notes].
const (
	// OffCourse: the turn back does not end on the inbound course, which is then
	// intercepted.
	OffCourse Note = 1 << iota
	// InboundTimeMissed: the entry does not give the inbound time intended.
	InboundTimeMissed
	// AngleLimited: the track of the entry leg is held at its limit, which costs the
	// inbound time.
	AngleLimited
	// BeyondFix: the course is reached only past the fix; the inbound time is negative,
	// the time since the fix was abeam.
	BeyondFix
	// BlownAcross: the wind carries the leg of a parallel entry across the course, so
	// that the turn back goes the other way, towards the course.
	BlownAcross
	// OffsetTimeLimited: the time on the offset track ends at its limit, and the rest is
	// flown outbound.
	OffsetTimeLimited
	// OnlyDirect: entry here is direct, along the radial; parallel and offset entries are
	// not authorised.
	OnlyDirect
	lastNote
)

// String says what the note means, for a reader.
func (n Note) String() string {
	switch n {
	case OffCourse:
		return "the turn back does not end on the inbound course, which is intercepted"
	case InboundTimeMissed:
		return "the inbound leg does not take the time intended"
	case AngleLimited:
		return "the track of the entry leg is held at its limit, not where the inbound time asks for"
	case BeyondFix:
		return "the inbound course is reached beyond the fix"
	case BlownAcross:
		return "the wind carries the entry leg across the course: the turn back goes towards the course"
	case OffsetTimeLimited:
		return "the offset track ends at its time limit, the rest is flown outbound"
	case OnlyDirect:
		return "direct along the radial only: parallel and offset entries are not authorised"
	}
	return "not a note"
}

// Notes is a set of notes. The zero Notes is empty.
type Notes uint16

// Has reports whether the note is in the set.
func (ns Notes) Has(n Note) bool { return ns&Notes(n) != 0 }

// All gives the notes in the order of their declaration.
func (ns Notes) All() iter.Seq[Note] { return noteset.All(uint16(ns), lastNote) }

// String joins the notes with semicolons.
func (ns Notes) String() string { return noteset.Join(uint16(ns), lastNote) }
