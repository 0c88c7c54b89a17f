package wind

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// OmnidirectionalWind is the ICAO standard wind for which a holding area is drawn,
// from whatever direction is worst: w = 2 h + 47 kt, h in thousands of feet.
//
// Source: ICAO Doc 8168 Vol II (2006), I-4-3-7.
//
// Altitude is from [MinPressureAltitude] to [MaxPressureAltitude].
//
// Errors: [abeam.ErrInvalid] for an altitude out of range.
func OmnidirectionalWind(altitude abeam.Feet) (abeam.Knots, error) {
	const op = "wind.OmnidirectionalWind"
	if err := check.Within(op, "altitude", altitude, MinPressureAltitude, MaxPressureAltitude); err != nil {
		return 0, err
	}
	return abeam.Knots(2*float64(altitude)/1000 + 47), nil
}

// OmnidirectionalWindSI is [OmnidirectionalWind] for a procedure drawn in metric
// units, w = 12 h + 87 km/h, h in thousands of metres. It is weaker by 0.02 kt at
// sea level and by 0.52 kt at 20,000 ft.
//
// Source: ICAO Doc 8168 Vol II (2006), I-4-3-7.
//
// Range and errors as there.
func OmnidirectionalWindSI(altitude abeam.Feet) (abeam.Knots, error) {
	const op = "wind.OmnidirectionalWindSI"
	if err := check.Within(op, "altitude", altitude, MinPressureAltitude, MaxPressureAltitude); err != nil {
		return 0, err
	}
	kmh := 12*altitude.Metres()/1000 + 87
	return abeam.Knots(kmh * 1000 / abeam.MetresPerNM), nil
}
