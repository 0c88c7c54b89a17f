package hold

import (
	"iter"

	"github.com/holdingfix/abeam/internal/noteset"
)

// Note is a remark on a result that is right as it stands but should be read with
// care.
type Note uint16

// The notes. Their values are bits of a [Notes].
const (
	// AbeamInTurn: the fix is passed abeam before the wings are level outbound, so
	// that the outbound clock starts at wings level.
	AbeamInTurn Note = 1 << iota
	// AbeamAfterOutbound: the fix is abeam only in the inbound turn, so that no
	// outbound time can be taken from it.
	AbeamAfterOutbound
	// OutboundPointsInbound: the outbound heading lies within 90 degrees of the
	// inbound course; the wind carries the aeroplane outbound, tail first.
	OutboundPointsInbound
	// NoOutboundLeg: the two turns join without a leg between them.
	NoOutboundLeg
	// BeyondFix: the inbound turn rolls out past the fix; the inbound time is
	// negative, the time since the fix was abeam.
	BeyondFix
	// NonHoldingSide: the roll-out lies on the non-holding side of the course.
	NonHoldingSide
	// ShortInbound: the inbound leg that follows from the outbound leg takes less than 30
	// seconds: ICAO Doc 8168 Vol II II-4-1-4, there of DME legs.
	ShortInbound
	// ShortDMELeg: from the fix to the DME limit is less than 1 minute of flight at the
	// true airspeed: ICAO Doc 8168 Vol II II-4-1-4.
	ShortDMELeg
	// LimitInTurn: the DME limit is passed before the wings are level outbound; the wind
	// brings the outbound leg back across it, and it ends where it comes to the limit again.
	// Of the legs that end on a reading only one toward the station can; a shorter leg of
	// another kind has no circuit.
	LimitInTurn
	// LimitingRadial: on a course away from the station, the outbound leg flown on the
	// reciprocal without correction for this wind never reaches the DME limit: it runs past
	// it on one side, and a radial is what would bound it. ICAO asks for a limiting radial
	// where the fix is close to the station and gives no figure (Doc 8168 Vol II II-4-1,
	// from memory); this one is ours.
	LimitingRadial
	// AboveSpeedLimit: the airspeed exceeds the limit of the rules at an altitude of the
	// lap.
	AboveSpeedLimit
	lastNote
)

// String says what the note means, for a reader.
func (n Note) String() string {
	switch n {
	case AbeamInTurn:
		return "abeam the fix is passed in the outbound turn: the clock starts wings level"
	case AbeamAfterOutbound:
		return "abeam the fix is passed only in the inbound turn: there is no outbound clock time"
	case OutboundPointsInbound:
		return "the outbound heading points less than 90 degrees from the inbound course"
	case NoOutboundLeg:
		return "the turns join without an outbound leg"
	case BeyondFix:
		return "the inbound turn rolls out beyond the fix"
	case NonHoldingSide:
		return "the inbound turn rolls out on the non-holding side"
	case ShortInbound:
		return "the inbound leg takes less than 30 s"
	case ShortDMELeg:
		return "the DME limit is less than 1 min of flight from the fix"
	case LimitInTurn:
		return "the limit of the outbound leg is passed in the turn, before wings level"
	case LimitingRadial:
		return "flown without correction for the wind the outbound leg misses the DME limit: a limiting radial bounds it"
	case AboveSpeedLimit:
		return "the airspeed exceeds the holding speed limit"
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
