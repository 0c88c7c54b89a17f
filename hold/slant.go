package hold

import (
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// SlantRange is what a DME reads at a ground distance from the station and a height
// above it:
//
//	slant = sqrt(ground² + height²)
//
// The earth is flat and the DME exact: the real one is good to 0.5 NM or 3 %, whichever
// is greater (AIM 1-1-7, secondary copies).
//
// Ground distance is 0 to [MaxLength]; the height, above or below, at most the range of
// altitudes.
//
// Errors: [abeam.ErrInvalid] for input out of range.
func SlantRange(ground abeam.NM, height abeam.Feet) (abeam.NM, error) {
	const op = "hold.SlantRange"
	if err := checkSlant(op, "ground distance", ground, height); err != nil {
		return 0, err
	}
	h := height.NM()
	return abeam.NM(math.Sqrt(float64(ground*ground + h*h))), nil
}

// GroundDistance is the inverse of [SlantRange]:
//
//	ground = sqrt(slant² - height²)
//
// Errors: [abeam.ErrInvalid] for input out of range; [abeam.ErrUnflyable] for a reading
// smaller than the height.
func GroundDistance(slant abeam.NM, height abeam.Feet) (abeam.NM, error) {
	const op = "hold.GroundDistance"
	if err := checkSlant(op, "slant range", slant, height); err != nil {
		return 0, err
	}
	h := abeam.NM(math.Abs(float64(height.NM())))
	if !(slant >= h) {
		return 0, belowHeight(op, "slant range", slant, h)
	}
	return abeam.NM(math.Sqrt(float64((slant - h) * (slant + h)))), nil
}

func checkSlant(op, field string, d abeam.NM, height abeam.Feet) error {
	if err := check.Within(op, field, d, 0, MaxLength); err != nil {
		return err
	}
	const most = MaxAltitude - MinAltitude
	return check.Within(op, "height", height, -most, most)
}

func belowHeight(op, field string, reading, height abeam.NM) error {
	return check.Unflyable(op, field, reading, "at least the height of "+height.String()+" above the station")
}
