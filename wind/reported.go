package wind

import (
	"github.com/holdingfix/abeam"
)

// Reported is a wind as it came from outside: with the north it is counted from.
// The zero Reported has no north and is rejected.
type Reported struct {
	Wind  Wind
	North abeam.North
}

// In gives the wind in the north of the computation.
//
// Errors: [abeam.ErrInvalid] for a wind, north or variation that is not valid.
func (r Reported) In(north abeam.North, v abeam.Variation) (Wind, error) {
	if err := r.Wind.validate("wind.Reported.In"); err != nil {
		return Wind{}, err
	}
	from, err := v.Cross(r.Wind.From, r.North, north)
	if err != nil {
		return Wind{}, err
	}
	return Wind{From: from, Speed: r.Wind.Speed}, nil
}
