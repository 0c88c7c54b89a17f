package wind

import (
	"fmt"
	"slices"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// Level is the wind at an altitude. Altitudes of a profile are all of one kind, for
// the caller to say which; forecasts mix pressure and true altitude and nobody
// minds.
type Level struct {
	Altitude abeam.Feet
	Wind     Wind
}

// Profile is the wind at several levels, in one north. The zero Profile has no
// level and knows no wind.
type Profile struct {
	levels []Level // ascending
}

// NewProfile makes a profile of at least one level, in any order. It keeps a copy.
//
// Errors: [abeam.ErrInvalid] without a level, for a wind that is not valid, an
// altitude outside [MinPressureAltitude] to [MaxPressureAltitude], or two levels at
// one altitude.
func NewProfile(levels ...Level) (Profile, error) {
	const op = "wind.NewProfile"
	if len(levels) == 0 {
		return Profile{}, check.Invalid(op, "levels", 0, "at least one")
	}
	p := Profile{levels: slices.Clone(levels)}
	for _, l := range p.levels {
		if err := check.Within(op, "altitude", l.Altitude, MinPressureAltitude, MaxPressureAltitude); err != nil {
			return Profile{}, err
		}
		if err := l.Wind.validate(op); err != nil {
			return Profile{}, err
		}
	}
	slices.SortFunc(p.levels, func(a, b Level) int { return compareAltitude(a, b.Altitude) })
	for i, l := range p.levels[1:] {
		if l.Altitude == p.levels[i].Altitude {
			return Profile{}, check.Invalid(op, "altitude", l.Altitude, "given once")
		}
	}
	return p, nil
}

// At is the wind at an altitude: at a level as given, between two levels each
// component interpolated in proportion to altitude, so that a wind that veers with
// height turns through the directions between, and two opposite winds pass through
// calm.
//
// Interpolation by components is common practice; it says nothing of what lies
// between the levels. There is no extrapolation.
//
// Errors: [abeam.ErrInvalid] for an altitude below the lowest or above the highest
// level.
func (p Profile) At(altitude abeam.Feet) (Wind, error) {
	const op = "wind.Profile.At"
	if len(p.levels) == 0 {
		return Wind{}, check.Invalid(op, "altitude", altitude, "within a profile that has levels")
	}
	lowest, highest := p.levels[0].Altitude, p.levels[len(p.levels)-1].Altitude
	if !(altitude >= lowest && altitude <= highest) {
		return Wind{}, check.Invalid(op, "altitude", altitude, fmt.Sprintf("from the lowest level %v to the highest %v", lowest, highest))
	}
	i, exact := slices.BinarySearchFunc(p.levels, altitude, compareAltitude)
	if exact {
		return p.levels[i].Wind, nil
	}
	below, above := p.levels[i-1], p.levels[i]
	share := abeam.Knots((altitude - below.Altitude) / (above.Altitude - below.Altitude))
	a, b := below.Wind.Components(0), above.Wind.Components(0)
	return found(op, fromComponents(0, Components{
		Head:  a.Head + share*(b.Head-a.Head),
		Cross: a.Cross + share*(b.Cross-a.Cross),
	}))
}

// Levels gives a copy of the levels, ascending.
func (p Profile) Levels() []Level { return slices.Clone(p.levels) }

func compareAltitude(l Level, altitude abeam.Feet) int {
	switch {
	case l.Altitude < altitude:
		return -1
	case l.Altitude > altitude:
		return 1
	}
	return 0
}
