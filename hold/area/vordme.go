package area

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
)

// The accuracies of a VOR: of the radial that is tracked, and of one that crosses it.
//
// Source: ICAO Doc 8168 Vol II I-2-2 (from memory).
const (
	VORTracking abeam.Degrees = 5.2
	VORCrossing abeam.Degrees = 4.5
)

// DMETolerance is that of a DME reading: 0.25 NM and 1.25 % of it.
//
// Source: ICAO Doc 8168 Vol II (2006) I-4-3-App C-14, published.
//
// Errors: [abeam.ErrInvalid] for a reading outside 0 to [hold.MaxLength].
func DMETolerance(reading abeam.NM) (abeam.NM, error) {
	if err := check.Within("area.DMETolerance", "DME reading", reading, 0, hold.MaxLength); err != nil {
		return 0, err
	}
	return dmeTolerance(reading), nil
}

func dmeTolerance(reading abeam.NM) abeam.NM { return 0.25 + 0.0125*reading }

// VORDME is the tolerance of a fix on a radial at a DME reading, where the inbound course
// leads along the radial: the ground distances of readings off by [DMETolerance], and
// [VORTracking] to either side. The arc at the far end is squared off and the near one
// cut straight between its corners, which encloses every such place.
//
// Source: published for the distance, from memory for the angle.
//
// Errors: [abeam.ErrInvalid] for a station that is not valid, an altitude outside
// [hold.MinAltitude] to [hold.MaxAltitude], or a reading that with its tolerance leaves 0 to
// [hold.MaxLength]; [abeam.ErrUnflyable] for one that, less its tolerance, is smaller than
// the height above the station.
func VORDME(s hold.Station, altitude abeam.Feet) (FixTolerance, error) {
	if err := s.Validate(); err != nil {
		return FixTolerance{}, err
	}
	if err := check.Within("area.VORDME", "altitude", altitude, hold.MinAltitude, hold.MaxAltitude); err != nil {
		return FixTolerance{}, err
	}
	tolerance := dmeTolerance(s.Fix)
	var ground [3]abeam.NM
	for i, reading := range []abeam.NM{s.Fix - tolerance, s.Fix, s.Fix + tolerance} {
		var err error
		if ground[i], err = hold.GroundDistance(reading, altitude-s.Elevation); err != nil {
			return FixTolerance{}, err
		}
	}
	sin, cos := angle.Sincos(float64(VORTracking))
	near, halfNear := ground[0]*abeam.NM(cos), ground[0]*abeam.NM(sin)
	far, halfFar := ground[2], ground[2]*abeam.NM(sin/cos)
	if s.Course == hold.Away {
		return quadrilateral(near-ground[1], halfNear, far-ground[1], halfFar), nil
	}
	return quadrilateral(ground[1]-far, halfFar, ground[1]-near, halfNear), nil
}
