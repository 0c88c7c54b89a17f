package hold

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// StationCourse says where the inbound leg leads: toward the station or away from it. The
// zero StationCourse is not said and is rejected.
type StationCourse uint8

// The two courses.
const (
	_ StationCourse = iota
	// Toward the station: it lies ahead of the fix on the inbound course, and the pattern
	// lies beyond the fix.
	Toward
	// Away from the station: it lies behind the fix, and the pattern between the two.
	Away
)

// String gives "toward the station" or "away from the station".
func (c StationCourse) String() string {
	switch c {
	case Toward:
		return "toward the station"
	case Away:
		return "away from the station"
	}
	return "not said"
}

// Station is the DME station of a hold whose outbound leg ends on a reading. It lies on
// the inbound course, ahead of the fix or behind it.
type Station struct {
	Course    StationCourse
	Fix       abeam.NM   // what the DME reads over the fix, 0 to MaxLength
	Elevation abeam.Feet // MinAltitude to MaxAltitude
}

// Limit is the reading that ends an outbound leg of a stated length: the reading over
// the fix plus the length on a course toward the station, minus it on a course away.
//
// Source: AIM 5-3-8 j.5 with FIG 5-3-5 (toward: fix 10 DME, 5 NM leg, turn at 15) and FIG
// 5-3-6 (away: fix 28 DME, 8 NM leg, turn at 20).
//
// Errors: [abeam.ErrInvalid] for a station that is not valid, a length out of range, or
// one that reaches the station and beyond.
func (s Station) Limit(length abeam.NM) (abeam.NM, error) {
	const op = "hold.Station.Limit"
	if err := s.validate(op); err != nil {
		return 0, err
	}
	if err := check.Above(op, "outbound leg", length, 0, MaxLength); err != nil {
		return 0, err
	}
	limit := s.Fix + length
	if s.Course == Away {
		limit = s.Fix - length
	}
	leg := DMELimit(s, limit)
	if !leg.ok() {
		return 0, check.Invalid(op, "DME limit", limit, s.limitRange())
	}
	return limit, nil
}

// Validate reports a field out of range as [abeam.ErrInvalid].
func (s Station) Validate() error { return s.validate("hold.Station.Validate") }

func (s *Station) ok() bool {
	return (s.Course == Toward || s.Course == Away) && s.Fix >= 0 && s.Fix <= MaxLength &&
		s.Elevation >= MinAltitude && s.Elevation <= MaxAltitude
}

func (s *Station) validate(op string) error {
	if s.Course != Toward && s.Course != Away {
		return check.Invalid(op, "station course", uint8(s.Course), "toward the station (1) or away from it (2)")
	}
	if err := check.Within(op, "fix DME", s.Fix, 0, MaxLength); err != nil {
		return err
	}
	return check.Within(op, "station elevation", s.Elevation, MinAltitude, MaxAltitude)
}

// limitRange says on which side of the fix the limit must lie.
func (s *Station) limitRange() string {
	if s.Course == Away {
		return "above 0 NM and below the " + s.Fix.String() + " of the fix: inbound away from the station"
	}
	return "above the " + s.Fix.String() + " of the fix and at most " + MaxLength.String() + ": inbound toward the station"
}
