package entry

// Phase is the part of an entry that a leg or a sample belongs to.
type Phase uint8

// The phases, in the order in which they are flown from the fix. Not every entry has all
// of them. A sample at a corner belongs to the phase that begins there.
const (
	FixTurn      Phase = iota // at the fix, to the entry leg
	EntryLeg                  // the outbound leg of a direct entry
	OffsetTurn                // from a teardrop's offset track to outbound
	OutboundLeg               // after it
	ReturnTurn                // back towards the inbound course
	InterceptLeg              // where the turn did not end on the course
	CourseTurn                // from it onto the course
	InboundLeg                // wings level on the course to the fix
)

// String names the phase.
func (p Phase) String() string {
	switch p {
	case FixTurn:
		return "turn at the fix"
	case EntryLeg:
		return "entry leg"
	case OffsetTurn:
		return "turn to outbound"
	case OutboundLeg:
		return "outbound leg"
	case ReturnTurn:
		return "return turn"
	case InterceptLeg:
		return "intercept"
	case CourseTurn:
		return "turn onto the course"
	case InboundLeg:
		return "inbound leg"
	}
	return "not a phase"
}
