package wind

import (
	"math"

	"github.com/holdingfix/abeam"
)

// The standard atmosphere.
//
// Source: ISO 2533:1975 table 1 and section 2, the same in ICAO Doc 7488 (from
// memory; checked against the reference tables). Lengths in metres of geopotential
// altitude, temperatures in kelvin.
const (
	seaLevelTemperature = 288.15
	seaLevelPressure    = 1013.25 // hPa
	seaLevelDensity     = 1.225   // kg/m³
	lapse               = 0.0065  // K/m, up to the tropopause
	tropopause          = 11_000
	gravity             = 9.80665   // m/s²
	gasConstant         = 287.05287 // J/(kg K), dry air
	heatRatio           = 1.4

	tropopauseTheta  = (seaLevelTemperature - lapse*tropopause) / seaLevelTemperature
	pressureExponent = gravity / (gasConstant * lapse)
	// scaleHeight is the climb over which the pressure of the isothermal layer
	// falls to 1/e.
	scaleHeight = gasConstant * tropopauseTheta * seaLevelTemperature / gravity
)

var (
	tropopauseDelta = math.Pow(tropopauseTheta, pressureExponent)
	// soundAtSeaLevel is 340.294 m/s in knots: the speed at which calibrated
	// airspeed leaves its subsonic formula.
	soundAtSeaLevel = abeam.Knots(math.Sqrt(heatRatio*gasConstant*seaLevelTemperature) * 3600 / abeam.MetresPerNM)
)

// standard gives the temperature and the pressure of the standard atmosphere as
// shares of their sea-level values, h metres up:
//
//	to 11 km: theta = 1 - 0.0065 h / 288.15, delta = theta^5.2559
//	above:    theta = 0.75187,               delta = 0.22336 exp(-(h - 11000) / 6341.6)
func standard(h float64) (theta, delta float64) {
	if h <= tropopause {
		theta = 1 - h*(lapse/seaLevelTemperature)
		return theta, math.Pow(theta, pressureExponent)
	}
	return tropopauseTheta, tropopauseDelta * math.Exp((tropopause-h)/scaleHeight)
}
