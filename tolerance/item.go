package tolerance

import (
	"time"

	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
)

// Item is one thing that is judged.
type Item uint8

// The items, in the order in which they are reported. Deviations are in the unit named.
const (
	AirspeedItem    Item = iota // kt, positive fast
	AltitudeItem                // ft, positive high
	HeadingItem                 // degrees, positive right of the mean of the outbound leg
	CourseItem                  // shares of full scale, positive on the holding side
	HoldingSideItem             // NM on the non-holding side
	LegTimeItem                 // s, positive long
	LegLengthItem               // NM, positive long
	ArrivalItem                 // s, positive late
	EntryItem                   // 1 for an entry that the sectors do not call for
	items           = iota
)

// String names the item.
func (i Item) String() string {
	names := [items]string{"airspeed", "altitude", "outbound heading", "inbound course", "holding side", "inbound time",
		"inbound length", "time of leaving", "entry"}
	if int(i) >= len(names) {
		return "not an item"
	}
	return names[i]
}

// Unit is the unit of the item's deviations.
func (i Item) Unit() string {
	units := [items]string{"kt", "ft", "deg", "of full scale", "NM", "s", "NM", "s", ""}
	if int(i) >= len(units) {
		return ""
	}
	return units[i]
}

// MarshalText gives the form of [Item.String]; it fails on what is not an item.
func (i Item) MarshalText() ([]byte, error) {
	if i >= items {
		return nil, check.Invalid("tolerance.Item.MarshalText", "item", uint8(i), "an item")
	}
	return []byte(i.String()), nil
}

// UnmarshalText reads the form of [Item.String].
func (i *Item) UnmarshalText(text []byte) error {
	for v := range Item(items) {
		if v.String() == string(text) {
			*i = v
			return nil
		}
	}
	return check.Invalid("tolerance.Item.UnmarshalText", "item", string(text), "the name of an item")
}

// Verdict is the outcome for an item or the whole.
type Verdict uint8

// The verdicts. The zero Verdict is not judged.
const (
	NotJudged Verdict = iota
	Within
	Beyond
)

// String gives "not judged", "within" or "beyond".
func (v Verdict) String() string {
	switch v {
	case NotJudged:
		return "not judged"
	case Within:
		return "within"
	case Beyond:
		return "beyond"
	}
	return "not a verdict"
}

// MarshalText gives the form of [Verdict.String].
func (v Verdict) MarshalText() ([]byte, error) { return []byte(v.String()), nil }

// UnmarshalText reads the form of [Verdict.String].
func (v *Verdict) UnmarshalText(text []byte) error {
	for _, known := range []Verdict{NotJudged, Within, Beyond} {
		if known.String() == string(text) {
			*v = known
			return nil
		}
	}
	return check.Invalid("tolerance.Verdict.UnmarshalText", "verdict", string(text), "within, beyond or not judged")
}

// Words gives a verdict in the standard's own terms.
func (s Standard) Words(v Verdict) string {
	switch v {
	case Within:
		return s.Met
	case Beyond:
		return s.NotMet
	}
	return v.String()
}

// Excursion is a time beyond a limit, from the first sample beyond it to the first that
// is not; of an item that is judged once a lap, the leg in question.
type Excursion struct {
	Item    Item
	Span    Span
	Samples int
	Worst   float64       // deviation, in the unit of the item
	At      time.Duration // when
	Limit   float64       // on that side, with the sign of the deviation
	Lap     int           // from 1; 0 in an entry that is not direct
	Phase   hold.Phase    // where it begins
}

// ItemResult is the judgement on one item.
type ItemResult struct {
	Item    Item
	Verdict Verdict
	// Why says why it is not judged.
	Why         string
	Under, Over float64 // the limits, in the unit of the item
	Source      string
	// Judged is how long it could be judged, Inside how much of that was within. An item
	// judged once a lap counts the legs' own time.
	Judged, Inside time.Duration
	Excursions     int
	// Lowest and Highest are the extreme deviations met; both 0 where nothing was measured.
	Lowest, Highest float64
}

// Share is the share of the time judged that was within, 0 where none was judged.
func (r ItemResult) Share() float64 {
	if r.Judged <= 0 {
		return 0
	}
	return float64(r.Inside) / float64(r.Judged)
}
