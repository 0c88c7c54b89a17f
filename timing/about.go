package timing

import "strings"

// Class says what stands behind a rule.
type Class uint8

// The classes, strongest first. The zero Class is a rule that says nothing about itself.
const (
	Unstated  Class = iota
	Published       // read in the named document
	Practice        // common practice: taught in many places, published with authority in none
	Derived         // follows from the exact circuit
	Fitted          // found by fitting, in this package; the doc comment says to what
	Memory          // from memory, not read in the document named
)

// String gives the label.
func (c Class) String() string {
	switch c {
	case Published:
		return "published"
	case Practice:
		return "common practice"
	case Derived:
		return "derived"
	case Fitted:
		return "fitted here"
	case Memory:
		return "from memory"
	}
	return "source not stated"
}

// Needs is what a pilot must know to use a rule, as a set.
type Needs uint8

// What a rule may need. The first lap is flown without an inbound time: a rule that
// needs one then flies the time of the leg.
const (
	NeedsInboundTime Needs = 1 << iota // of the lap before
	NeedsDrift                         // the correction that holds the inbound course
	NeedsWind                          // a wind, from a forecast or an instrument
	NeedsSide                          // whether the wind blows from the holding side
	NeedsAbeam                         // the moment at which the fix is abeam
	NeedsComputer                      // a solution that nobody does in the head
)

// String lists them in words.
func (n Needs) String() string {
	words := [...]string{"an inbound time", "the drift", "the wind", "the side of the wind", "abeam the fix", "a computer"}
	var all []string
	for i, w := range words {
		if n&(1<<i) != 0 {
			all = append(all, w)
		}
	}
	if all == nil {
		return "nothing"
	}
	return strings.Join(all, ", ")
}

// About is what is known of a rule.
type About struct {
	Name      string // short, for tables and plots
	Statement string // the rule as a pilot would say it
	Source    string // document and paragraph, or where it comes from
	Class     Class
	Applies   string // where it is meant to be used
	Needs     Needs
}

// Finding is a remark on a plan: what follows from it, or what to do, with what stands behind
// it.
type Finding struct {
	Text   string
	Source string
	Class  Class
}
