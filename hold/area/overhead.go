package area

import (
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
)

// Overhead is how well an aeroplane knows that it is over a station, in whose cone of
// silence there is no bearing. Take one from [OverheadVOR] or [OverheadNDB]; every angle is
// above 0 and at most [MaxCone], or [MaxHeading] for Entry and Tracking.
type Overhead struct {
	Cone     abeam.Degrees // half angle, from the vertical
	Entry    abeam.Degrees // where the cone is entered, either side of the course
	Tracking abeam.Degrees // through the cone, either side of the course
}

// MaxCone is the widest cone accepted, as half its angle.
const MaxCone abeam.Degrees = 80

// OverheadVOR is a cone of 50 degrees from the vertical, entered and tracked through within
// 5 degrees.
//
// Source: ICAO Doc 8168 Vol II I-2-2-4, published.
func OverheadVOR() Overhead { return Overhead{Cone: 50, Entry: 5, Tracking: 5} }

// OverheadNDB is a cone of 40 degrees from the vertical, entered within 15 degrees and
// tracked through within 5.
//
// Source: ICAO Doc 8168 Vol II I-2-2-4, published.
func OverheadNDB() Overhead { return Overhead{Cone: 40, Entry: 15, Tracking: 5} }

// Radius is that of the cone at a height above the station:
//
//	z = 0.164 h tan(cone)   NM, h in thousands of feet
//
// Source: ICAO Doc 8168 Vol II I-2-2-4, published. Its 0.164 is 1000 ft in NM cut off; in
// full, 0.16458, z would be 0.35 % more.
//
// The height is above 0 and at most the range of altitudes of package hold.
//
// Errors: [abeam.ErrInvalid] for an angle or a height out of range.
func (o Overhead) Radius(height abeam.Feet) (abeam.NM, error) {
	return o.radius("area.Overhead.Radius", height)
}

func (o Overhead) radius(op string, height abeam.Feet) (abeam.NM, error) {
	if err := check.Above(op, "cone", o.Cone, 0, MaxCone); err != nil {
		return 0, err
	}
	if err := check.Above(op, "entry accuracy", o.Entry, 0, MaxHeading); err != nil {
		return 0, err
	}
	if err := check.Above(op, "tracking accuracy", o.Tracking, 0, MaxHeading); err != nil {
		return 0, err
	}
	if err := check.Above(op, "height", height, 0, hold.MaxAltitude-hold.MinAltitude); err != nil {
		return 0, err
	}
	return abeam.NM(0.164 * float64(height) / 1000 * tanDegrees(o.Cone)), nil
}

// OnCourse is the tolerance of an arrival along the inbound course. The cone is entered on its
// edge, within Entry of the course as seen from the station, and crossed on a track within Tracking of
// the course; the station is believed passed anywhere in it. So the sides run from the entry
// point z sin(Entry) off the course outwards at the Tracking, and the ends are square to the
// course where the cone begins and ends:
//
//	half width at the near end  z (sin Entry - (1 - cos Entry) tan Tracking)
//	half width at the far end   z (sin Entry + (1 + cos Entry) tan Tracking)
//
// The angles are published. The construction is our reading: the smallest quadrilateral
// of that kind around every such path; corners put on the circle of the cone instead would
// leave out slivers at the ends.
//
// Errors: as [Overhead.Radius].
func (o Overhead) OnCourse(height abeam.Feet) (FixTolerance, error) {
	z, err := o.radius("area.Overhead.OnCourse", height)
	if err != nil {
		return FixTolerance{}, err
	}
	sin, cos := angle.Sincos(float64(o.Entry))
	aside := tanDegrees(o.Tracking)
	return quadrilateral(-z, z*abeam.NM(sin-(1-cos)*aside), z, z*abeam.NM(sin+(1+cos)*aside)), nil
}

// AnyDirection is the tolerance of arrivals from everywhere: the whole cone, a disc of the
// radius of [Overhead.Radius] (our reading; no path of [Overhead.OnCourse] leaves it).
//
// Errors: as [Overhead.Radius].
func (o Overhead) AnyDirection(height abeam.Feet) (FixTolerance, error) {
	z, err := o.radius("area.Overhead.AnyDirection", height)
	if err != nil {
		return FixTolerance{}, err
	}
	return FixTolerance{radius: z}, nil
}

func tanDegrees(a abeam.Degrees) float64 { return math.Tan(float64(a) * math.Pi / 180) }
