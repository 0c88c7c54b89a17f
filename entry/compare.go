package entry

import (
	"cmp"
	"errors"
	"slices"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
)

// Candidate is one of the entries that may be flown.
type Candidate struct {
	Entry  Kind
	Called bool // it is the one that the sectors call for
	Flown  Flown
	Err    error // why it cannot be flown in this wind; Flown is then zero
}

// Compare flies every entry that the rules permit from a heading at the fix, and gives
// the one that strays least to the non-holding side first; of two that stray alike, the
// one that goes less far beyond the fix, then the one sooner established. Those that
// cannot be flown come last. Each is flown by [Rules.Plan] of the leg time.
//
// Errors: as [Rules.ChooseInWind]; [abeam.ErrInvalid] for a leg time, manner or pattern
// that [Plan.Fly] rejects.
func (r Rules) Compare(p hold.Pattern, f hold.Flight, heading abeam.Bearing, leg time.Duration, m Manner) ([]Candidate, error) {
	d, err := r.ChooseInWind(p, f, heading)
	if err != nil {
		return nil, err
	}
	var all []Candidate
	for k := range d.Permitted() {
		c := Candidate{Entry: k, Called: k == d.Entry}
		c.Flown, c.Err = r.Plan(k, leg).Fly(p, f, heading, m)
		if errors.Is(c.Err, abeam.ErrInvalid) {
			return nil, c.Err
		}
		all = append(all, c)
	}
	slices.SortStableFunc(all, func(a, b Candidate) int {
		if (a.Err != nil) != (b.Err != nil) {
			if a.Err != nil {
				return 1
			}
			return -1
		}
		return cmp.Or(
			cmp.Compare(a.Flown.Extent.Astray, b.Flown.Extent.Astray),
			cmp.Compare(a.Flown.Extent.Beyond, b.Flown.Extent.Beyond),
			cmp.Compare(a.Flown.ToEstablish, b.Flown.ToEstablish),
		)
	})
	return all, nil
}
