package wind

import (
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
)

// MaxGroundspeed is the largest groundspeed accepted: the fastest aeroplane in the
// strongest tailwind.
const MaxGroundspeed = MaxTAS + MaxSpeed

// SolveWind finds the wind from the track and groundspeed made good on a heading at
// a TAS. With c = heading - track:
//
//	headwind on the track  = TAS cos(c) - groundspeed
//	crosswind on the track = TAS sin(c)
//
// Source: the vector difference of air and ground; any navigation manual, e.g. USAF
// AFPAM 11-216 (1 Mar 2001) ch. 4. Exact to rounding, which is that of the
// airspeed: a wind of a few knots keeps fewer digits, and the direction of one lost
// in rounding means nothing. No wind is the zero [Wind].
//
// Track and heading are any finite bearings, TAS is above 0 and at most [MaxTAS],
// the groundspeed above 0 and at most [MaxGroundspeed].
//
// Errors: [abeam.ErrInvalid] for input out of range, or that makes a wind stronger
// than [MaxSpeed].
func SolveWind(track abeam.Bearing, groundspeed abeam.Knots, heading abeam.Bearing, tas abeam.Knots) (Triangle, error) {
	const op = "wind.SolveWind"
	if err := check.Finite(op, "track", track); err != nil {
		return Triangle{}, err
	}
	if err := check.Above(op, "groundspeed", groundspeed, 0, MaxGroundspeed); err != nil {
		return Triangle{}, err
	}
	if err := validateTriangle(op, "heading", heading, tas, Wind{}); err != nil {
		return Triangle{}, err
	}
	track, heading = abeam.NewBearing(float64(track)), abeam.NewBearing(float64(heading))
	correction := heading.Sub(track)
	s, c := angle.Sincos(float64(correction))
	w, err := found(op, fromComponents(track, Components{
		Head:  tas*abeam.Knots(c) - groundspeed,
		Cross: tas * abeam.Knots(s),
	}))
	if err != nil {
		return Triangle{}, err
	}
	return Triangle{
		Track: track, Heading: heading, Correction: correction,
		TAS: tas, Groundspeed: groundspeed, Wind: w,
	}, nil
}

// Misclosure is how far a triangle misses closing: the length of air vector + wind
// - ground vector, in knots. A solved triangle misses by its rounding alone.
//
// Six quantities and two equations: four quantities settle the triangle, and a
// fifth that was read as well can only agree or not. Solve from the four that are
// trusted most, then put what was read into the answer and look at the misclosure:
// a degree of heading or track at 120 kt makes 2 kt.
//
// Correction does not enter. A triangle with a wind, bearing or speed that is not
// valid gives NaN or nonsense; the Solve functions return none such.
func (t Triangle) Misclosure() abeam.Knots {
	s, c := angle.Sincos(float64(t.Heading - t.Track))
	w := t.Wind.Components(t.Track)
	along := float64(t.TAS)*c - float64(w.Head+t.Groundspeed)
	across := float64(t.TAS)*s - float64(w.Cross)
	return abeam.Knots(math.Sqrt(along*along + across*across))
}
