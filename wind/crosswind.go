package wind

import (
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// The rules below estimate the crosswind in the head. Each takes the angle from -
// course, in degrees, positive to the right, and gives the crosswind as a share of
// the wind, -1 to 1, positive from the right. A wind from behind counts by its angle
// to the reciprocal. Times [MaxDriftRule] the share is the drift to correct. Exact
// is the sine of the angle: [Wind.Components].

// ClockCode reads the angle off a clock face: 15, 30, 45 and 60 degrees, like
// minutes of an hour, are a quarter, half, three quarters and all of the wind, and
// so is anything beyond. The angle is taken to the nearest of those steps.
//
// Source: common practice. Its worst error is 0.21 of the wind, at 53 degrees; in
// the drift 5.5 degrees, for a TAS of 80 to 300 kt and a wind of up to 0.4 of it.
//
// Errors: [abeam.ErrInvalid] for an angle that is not finite.
func ClockCode(angle abeam.Degrees) (float64, error) {
	return stepped("wind.ClockCode", angle, 15, 4)
}

// Sixths is a sixth of the wind for every 10 degrees of angle, all of it from 60
// degrees. The angle is taken to the nearest ten.
//
// Source: common practice. Its worst error is 0.19 of the wind, at 55 degrees; in
// the drift 4.9 degrees, for a TAS of 80 to 300 kt and a wind of up to 0.4 of it.
//
// Errors: [abeam.ErrInvalid] for an angle that is not finite.
func Sixths(angle abeam.Degrees) (float64, error) {
	return stepped("wind.Sixths", angle, 10, 6)
}

// AnglePlus20 is the angle and 20 as a percentage of the wind, at most all of it:
// 30 degrees make half, 80 and more make all.
//
// Source: common practice. It is taught for 20 to 90 degrees between the wind and
// the course or its reciprocal, and given for no less. Its worst error is 0.07 of
// the wind; in the drift 1.8 degrees, for a TAS of 80 to 300 kt and a wind of up to
// 0.4 of it.
//
// Errors: [abeam.ErrInvalid] for an angle that is not finite, or less than 20
// degrees from the course or its reciprocal.
func AnglePlus20(angle abeam.Degrees) (float64, error) {
	const op = "wind.AnglePlus20"
	acute, side, err := foldAngle(op, angle)
	if err != nil {
		return 0, err
	}
	if !(acute >= 20) {
		return 0, check.Invalid(op, "angle", angle, "20 degrees or more from the course and its reciprocal")
	}
	return side * math.Min((acute+20)/100, 1), nil
}

func stepped(op string, angle abeam.Degrees, step, steps float64) (float64, error) {
	acute, side, err := foldAngle(op, angle)
	if err != nil {
		return 0, err
	}
	return side*math.Min(math.Round(acute/step)/steps, 1) + 0, nil // + 0: no negative zero
}

// foldAngle brings an angle to 0 to 90 degrees from the line of the course, and
// tells the side the wind is from: 1 right, -1 left.
func foldAngle(op string, angle abeam.Degrees) (acute, side float64, err error) {
	if err := check.Finite(op, "angle", angle); err != nil {
		return 0, 0, err
	}
	d := abeam.NewDegrees(float64(angle)).Rounded()
	side = 1
	if d < 0 {
		side = -1
	}
	acute = float64(d.Abs())
	return math.Min(acute, 180-acute), side, nil
}
