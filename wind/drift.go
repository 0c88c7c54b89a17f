package wind

import (
	"fmt"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
)

// MaxDrift is the largest drift, and the largest wind correction angle, that a wind
// of a speed can cause at a TAS: asin(w / TAS), with the wind square to the track.
//
// Source: the law of sines of the wind triangle. Exact to rounding.
//
// TAS is above 0 and at most [MaxTAS], the wind from 0 to [MaxSpeed].
//
// Errors: [abeam.ErrInvalid] for input out of range; [abeam.ErrUnflyable] for a wind
// stronger than the TAS, in which any drift can be seen.
func MaxDrift(tas, speed abeam.Knots) (abeam.Degrees, error) {
	const op = "wind.MaxDrift"
	if err := validateDrift(op, tas, speed); err != nil {
		return 0, err
	}
	return abeam.Degrees(angle.Asin(float64(speed / tas))), nil
}

// MaxDriftRule is [MaxDrift] as it is done in the head: 60 w / TAS degrees. With the
// crosswind in the place of the wind it is the wind correction angle.
//
// Source: common practice; 60 for the 57.3 degrees of a radian. Its worst error is
// 0.55 degrees, too much, for a wind of up to 0.4 of the TAS.
//
// Range and errors as [MaxDrift].
func MaxDriftRule(tas, speed abeam.Knots) (abeam.Degrees, error) {
	const op = "wind.MaxDriftRule"
	if err := validateDrift(op, tas, speed); err != nil {
		return 0, err
	}
	return abeam.Degrees(60 * (speed / tas)), nil
}

func validateDrift(op string, tas, speed abeam.Knots) error {
	if err := check.Above(op, "TAS", tas, 0, MaxTAS); err != nil {
		return err
	}
	if err := check.Within(op, "wind speed", speed, 0, MaxSpeed); err != nil {
		return err
	}
	if !(speed <= tas) {
		return check.Unflyable(op, "wind speed", speed, fmt.Sprintf("at most the TAS of %v", tas))
	}
	return nil
}

// OneInSixty is the angle of a track that lies abreast of the course by a distance
// off after a distance flown along it: 60 off / along degrees, with the sign of off.
//
// Source: common practice, the one-in-sixty rule; exact is atan(off / along). Its
// worst error, too much, is 0.54 degrees for answers up to 10 degrees and 1.57 up to
// 20.
//
// Along is above 0 and at most 10,000 NM, off at most as far either way.
//
// Errors: [abeam.ErrInvalid] for input out of range.
func OneInSixty(off, along abeam.NM) (abeam.Degrees, error) {
	const op = "wind.OneInSixty"
	if err := check.Above(op, "distance along", along, 0, 10_000); err != nil {
		return 0, err
	}
	if err := check.Within(op, "distance off", off, -along, along); err != nil {
		return 0, err
	}
	return abeam.Degrees(60 * (off / along)), nil
}
