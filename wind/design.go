package wind

import (
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// DesignFactor is the factor K by which procedure design turns an indicated into a
// true airspeed, at an altitude and a temperature deviation VAR:
//
//	K = 171233 sqrt(288 + VAR - 0.006496 H) / (288 - 0.006496 H)^2.628    H in m
//
// Source: ICAO Doc 8168 Vol II, part I, conversion of IAS to TAS (formula from
// memory; it gives the published factors to 0.0001). It is the root of the density
// ratio with rounded constants: no compressibility, and the lapse of the
// troposphere at every height, so that above 36,000 ft it is a convention of the
// drawing office and no longer an atmosphere. For what an aeroplane does use
// [Air.TASFromCAS].
//
// Altitude is from [MinPressureAltitude] to [MaxPressureAltitude], the deviation at
// most [MaxDeviation] either way.
//
// Errors: [abeam.ErrInvalid] for input out of range.
func DesignFactor(altitude abeam.Feet, deviation Deviation) (float64, error) {
	return designFactor("wind.DesignFactor", altitude, deviation)
}

// DesignTAS is the indicated airspeed times [DesignFactor]: the true airspeed for
// which a holding area is drawn.
//
// IAS is above 0 and at most [MaxTAS]. Errors: [abeam.ErrInvalid] for input out of
// range.
func DesignTAS(ias abeam.Knots, altitude abeam.Feet, deviation Deviation) (abeam.Knots, error) {
	const op = "wind.DesignTAS"
	if err := check.Above(op, "IAS", ias, 0, MaxTAS); err != nil {
		return 0, err
	}
	k, err := designFactor(op, altitude, deviation)
	return ias * abeam.Knots(k), err
}

func designFactor(op string, altitude abeam.Feet, deviation Deviation) (float64, error) {
	if err := check.Within(op, "altitude", altitude, MinPressureAltitude, MaxPressureAltitude); err != nil {
		return 0, err
	}
	if err := check.Within(op, "deviation", deviation, -MaxDeviation, MaxDeviation); err != nil {
		return 0, err
	}
	t := 288 - 0.006496*altitude.Metres()
	return 171233 * math.Sqrt(t+float64(deviation)) / math.Pow(t, 2.628), nil
}
