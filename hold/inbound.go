package hold

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// Setting is what a clearance leaves to the chart, the rules and the clock.
type Setting struct {
	Fix Fix // the fix of the clearance, where it lies
	// AtStation says that the fix is the station whose radials are spoken of, so that
	// the pattern can only lie on the radial. Away from the station it lies on either
	// side of the fix, and the direction of holding tells on which.
	AtStation bool
	// Station is the DME whose reading ends a leg in miles; its course may be left out
	// where the line is a radial, which tells it. With the zero Station a leg in miles is
	// counted along the track, as RNAV does.
	Station  Station
	Rules    Rules
	Altitude abeam.Feet
	Now      time.Time // the zero Time leaves out what depends on it
}

// InboundCourse derives the inbound course, in the north of the line:
//
//	fix over the station                        the reciprocal of the radial
//	fix between the station and the pattern     the reciprocal of the radial
//	pattern between the station and the fix     the radial
//	course, bearing or track                    along it, against the direction of holding
//
// The direction of holding is where the pattern lies from the fix, not from the station:
// of a line and its reciprocal, the pattern lies on the one nearer to it, and the other
// is the inbound course. It need not lie in the octant that was said, which is a finding
// and no error; but a direction more than 67.5 degrees from both decides nothing. At the
// station the radial alone decides. AtStation is all that is used of the setting.
//
// Source: AIM 5-3-8 i, figures 5-3-5 and 5-3-6; checked on 7,783 published holds.
//
// Errors: [abeam.ErrInvalid] for a clearance that is not valid, a line that is missing
// or is an airway or a route, whose course stands on the chart, or a direction of
// holding that is missing or does not decide.
func (c Clearance) InboundCourse(s Setting) (abeam.Bearing, error) {
	const op = "hold.Clearance.InboundCourse"
	if err := c.validate(op); err != nil {
		return 0, err
	}
	return c.inbound(op, s.AtStation)
}

func (c Clearance) inbound(op string, atStation bool) (abeam.Bearing, error) {
	if !c.Line.Kind.numbered() {
		return 0, check.Invalid(op, "line", c.Line.Kind, "a radial, course, bearing or track; the course of an airway or route stands on the chart")
	}
	if atStation && c.Line.Kind == Radial {
		return c.Line.Bearing.Reciprocal(), nil
	}
	if c.Direction == 0 {
		return 0, check.Invalid(op, "direction of holding", c.Direction, "given: the line alone does not tell on which side of the fix the pattern lies")
	}
	const decides = 90 - halfOctant
	for _, out := range [...]abeam.Bearing{c.Line.Bearing, c.Line.Bearing.Reciprocal()} {
		if out.Sub(c.Direction.Bearing()).Rounded().Abs() <= decides {
			return out.Reciprocal(), nil
		}
	}
	return 0, check.Invalid(op, "direction of holding", c.Direction, "along the "+c.Line.Kind.String()+" "+c.Line.Bearing.ThreeFigures()+", not across it")
}

// fits reports whether the direction of holding lies in the octant of the line or of a
// reciprocal along which the pattern may lie.
func (c Clearance) fits(atStation bool) bool {
	return c.Direction.Contains(c.Line.Bearing) ||
		c.Direction.Contains(c.Line.Bearing.Reciprocal()) && !(atStation && c.Line.Kind == Radial)
}

// Pattern is the pattern of the clearance at the fix of the setting: its inbound course
// as [Clearance.InboundCourse] derives it, its turns, and its leg.
//
// A leg time, or else the one of the altitude, is of the leg that the rules count:
// [Rules.TimedLeg]. A leg in miles is the outbound leg, which ends on the reading of the
// station or along the track: AIM 5-3-8 j.5.
//
// Errors: as InboundCourse, [NewPattern], [Rules.LegTime] and [Station.Limit];
// [abeam.ErrInvalid] for a pattern as published, which stands on the chart. A clearance
// without instructions, where nothing is charted, is for [StandardPattern].
func (c Clearance) Pattern(s Setting) (Pattern, error) {
	const op = "hold.Clearance.Pattern"
	if err := c.validate(op); err != nil {
		return Pattern{}, err
	}
	if c.AsPublished {
		return Pattern{}, check.Invalid(op, "pattern", "as published", "taken from the chart")
	}
	inbound, err := c.inbound(op, s.AtStation)
	if err != nil {
		return Pattern{}, err
	}
	leg, err := c.leg(s, inbound)
	if err != nil {
		return Pattern{}, err
	}
	return NewPattern(s.Fix, inbound, c.Turn, leg)
}

func (c Clearance) leg(s Setting, inbound abeam.Bearing) (Leg, error) {
	miles, far := c.DistanceLeg()
	switch {
	case far && s.Station == (Station{}):
		return LengthOutbound(miles), nil
	case far:
		if s.Station.Course == 0 && c.Line.Kind == Radial {
			s.Station.Course = Away
			if inbound == c.Line.Bearing.Reciprocal() {
				s.Station.Course = Toward
			}
		}
		limit, err := s.Station.Limit(miles)
		return DMELimit(s.Station, limit), err
	case c.LegTime > 0:
		return s.Rules.TimedLeg(c.LegTime), nil
	}
	band, err := s.Rules.LegTime(s.Altitude)
	return s.Rules.TimedLeg(band.Time), err
}

// StandardPattern is what is flown where nothing is charted and holding instructions,
// asked for before the fix, could not be had: right turns on the course of arrival at
// the fix, which is given in the north of the fix's variation, with the leg time of the
// altitude. Further clearance is then asked for as soon as possible.
//
// Source: AIM 5-3-8 c.
//
// Errors: as [NewPattern] and [Rules.LegTime].
func StandardPattern(s Setting, arrival abeam.Bearing) (Pattern, error) {
	leg, err := Clearance{}.leg(s, arrival)
	if err != nil {
		return Pattern{}, err
	}
	return NewPattern(s.Fix, arrival, Right, leg)
}
