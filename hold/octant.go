package hold

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// Octant is one of the eight points by which the direction of holding is given: where
// the pattern lies from the fix (AIM 5-3-8 i). The zero Octant is none.
type Octant uint8

// The eight points.
const (
	_ Octant = iota
	North
	Northeast
	East
	Southeast
	South
	Southwest
	West
	Northwest
)

// OctantOf gives the point nearest to a direction. Halfway between two points, at 22.5
// degrees say, it gives the one clockwise; [Octant.Contains] takes both. NaN and
// infinities give none.
func OctantOf(b abeam.Bearing) Octant {
	for o := North; o <= Northwest; o++ {
		if d := b.Sub(o.Bearing()).Rounded(); d >= -halfOctant && d < halfOctant {
			return o
		}
	}
	return 0
}

const halfOctant abeam.Degrees = 22.5

// Bearing is the direction of the point itself, from 0 for north in steps of 45; none
// gives north.
func (o Octant) Bearing() abeam.Bearing { return abeam.NewBearing(45 * (float64(o) - 1)) }

// Contains reports whether a direction lies within 22.5 degrees of the point, both ends
// included.
func (o Octant) Contains(b abeam.Bearing) bool {
	return o.known() && b.Sub(o.Bearing()).Rounded().Abs() <= halfOctant
}

func (o Octant) known() bool { return o >= North && o <= Northwest }

// String gives "north", "northeast" and so on, or "none".
func (o Octant) String() string {
	if !o.known() {
		return "none"
	}
	return [...]string{"north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest"}[o-1]
}

func (o Octant) validate(op string) error {
	if o <= Northwest {
		return nil
	}
	return check.Invalid(op, "direction of holding", uint8(o), "one of the eight points (1 to 8), or none (0)")
}
