package hold

import (
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// LineKind says what kind of line a pattern is held on. The zero LineKind is none.
type LineKind uint8

// The kinds. A radial leads away from its station; of a course, a bearing or a track
// the clearance does not say which way along it the aeroplane holds, and the direction
// of holding tells.
const (
	_ LineKind = iota
	Radial
	Course
	BearingLine
	TrackLine
	Airway
	Route
)

// String gives "radial", "course", "bearing", "track", "airway", "route" or "none".
func (k LineKind) String() string {
	if !k.known() {
		return "none"
	}
	return [...]string{"radial", "course", "bearing", "track", "airway", "route"}[k-1]
}

func (k LineKind) known() bool { return k >= Radial && k <= Route }

// numbered reports whether lines of the kind are given in degrees.
func (k LineKind) numbered() bool { return k >= Radial && k <= TrackLine }

// Line is the radial, course, bearing, track, airway or route on which a pattern is
// held. The zero Line is none; lines compare with ==.
type Line struct {
	Kind LineKind
	// Bearing of a radial, course, bearing or track in whole degrees, in the north of
	// the pattern: magnetic as it is spoken.
	Bearing abeam.Bearing
	// Name of the airway or route, or of the station that the radial or bearing is of,
	// if it is said.
	Name string
}

func (l Line) validate(op string) error {
	if l.Kind > Route {
		return check.Invalid(op, "kind of line", uint8(l.Kind), "radial (1) to route (6), or none (0)")
	}
	if b := float64(l.Bearing); !(b >= 0 && b < 360 && b == math.Trunc(b)) || b != 0 && !l.Kind.numbered() {
		return check.Invalid(op, "bearing of the line", l.Bearing, "whole degrees from 0 to 359, of a radial, course, bearing or track")
	}
	if l.Kind == Airway && !isAirway(l.Name) {
		return check.Invalid(op, "airway", clip(l.Name), "one or two letters and up to four figures: V123")
	}
	if l.Kind == Route && l.Name == "" {
		return check.Invalid(op, "route", "none", "named")
	}
	if l.Kind == 0 && l != (Line{}) {
		return check.Invalid(op, "kind of line", l.Kind, "given, if the line is")
	}
	if l.Kind != Airway {
		return validName(op, "name of the line", l.Name)
	}
	return nil
}
