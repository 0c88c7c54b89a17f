package wind

import (
	"fmt"
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// DensityAltitude is the altitude in the standard atmosphere at which the density
// is the same; on a standard day it is the pressure altitude.
//
//	to 11 km: sigma = theta^4.2559, solved for theta and so for the altitude
//	above:    sigma = 0.29708 exp(-(h - 11000) / 6341.6), solved for h
//
// Source: the formulas of ISO 2533:1975, inverted. Exact to rounding. In air far
// colder than standard it may lie below [MinPressureAltitude]; the lower layer's
// law is carried on.
//
// Errors: [abeam.ErrInvalid] for the zero Air, and where the density is below that
// of [MaxPressureAltitude].
func (a Air) DensityAltitude() (abeam.Feet, error) {
	const op = "wind.Air.DensityAltitude"
	if err := a.validate(op); err != nil {
		return 0, err
	}
	var h float64
	if tropopauseSigma := tropopauseDelta / tropopauseTheta; a.sigma >= tropopauseSigma {
		theta := math.Pow(a.sigma, 1/(pressureExponent-1))
		h = (1 - theta) * (seaLevelTemperature / lapse)
	} else {
		h = tropopause - scaleHeight*math.Log(a.sigma/tropopauseSigma)
	}
	feet := abeam.Feet(h / metresPerFoot)
	if !(feet <= MaxPressureAltitude+roundingFeet) {
		return 0, check.Invalid(op, "density altitude", feet, fmt.Sprintf("at most %v", MaxPressureAltitude))
	}
	return min(feet, MaxPressureAltitude), nil
}

const (
	metresPerFoot = 0.3048
	// roundingFeet lets the standard air at the very top have its own altitude.
	roundingFeet abeam.Feet = 1e-6
)
