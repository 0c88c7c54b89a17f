package area

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// BufferWidth is how far the buffer reaches beyond the edge of the holding area.
//
// Source: ICAO Doc 8168 Vol II I-4-3 (secondary copies; in part from memory).
const BufferWidth abeam.NM = 5

// MOC is a minimum obstacle clearance: the least height of the holding level above an
// obstacle.
type MOC struct {
	Metres float64
	Feet   abeam.Feet // the same, unrounded
}

// ObstacleClearance is the minimum obstacle clearance at a distance beyond the edge of the
// holding area, zero or negative inside: 300 m inside and to 1 NM beyond, then 150, 120, 90
// and 60 m in the next miles, and none beyond the buffer of [BufferWidth]. In mountainous areas
// and over high terrain it is 600 m inside. At the end of a mile the greater one holds.
//
// Source: ICAO Doc 8168 Vol II I-4-3 (secondary copies; in part from memory).
//
// Errors: [abeam.ErrInvalid] for a distance that is not finite.
func ObstacleClearance(beyond abeam.NM, mountainous bool) (MOC, error) {
	if err := check.Finite("area.ObstacleClearance", "distance", beyond); err != nil {
		return MOC{}, err
	}
	metres := 0.0
	switch {
	case beyond <= 0 && mountainous:
		metres = 600
	case beyond <= 1:
		metres = 300
	case beyond <= 2:
		metres = 150
	case beyond <= 3:
		metres = 120
	case beyond <= 4:
		metres = 90
	case beyond <= BufferWidth:
		metres = 60
	}
	return MOC{Metres: metres, Feet: abeam.Feet(metres / 0.3048)}, nil
}
