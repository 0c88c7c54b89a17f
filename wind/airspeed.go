package wind

import (
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// The conversions between calibrated, equivalent and true airspeed and Mach number
// all pass through the Mach number, by the isentropic flow of a gas with a ratio of
// specific heats of 1.4:
//
//	qc/p0 = (1 + 0.2 (CAS/a0)²)^3.5 - 1       a0 = 661.479 kt
//	qc/p  = (1 + 0.2 M²)^3.5 - 1              p/p0 = delta
//	TAS   = M a0 sqrt(theta)
//	EAS   = M a0 sqrt(delta) = TAS sqrt(sigma)
//
// Source: any text of compressible flow, e.g. Anderson, Fundamentals of
// Aerodynamics, ch. 8 (from memory; checked against the reference tables).

// TASFromCAS gives the true airspeed for a calibrated airspeed: indicated airspeed
// corrected for the errors of instrument and position.
//
// CAS is from 0 to below the 661.48 kt of sound at sea level, the flow subsonic.
// Compressibility is included. Relative accuracy 1e-14; no singularity, 0 gives 0.
//
// Errors: [abeam.ErrInvalid] for the zero Air, a speed out of range or a Mach
// number of 1 and above. So it is for all the conversions of [Air].
func (a Air) TASFromCAS(cas abeam.Knots) (abeam.Knots, error) {
	m, err := a.machOfCAS("wind.Air.TASFromCAS", cas)
	return a.tas(m), err
}

// TASFromEAS gives the true airspeed for an equivalent airspeed: EAS / sqrt(sigma).
// Range, accuracy and errors as [Air.TASFromCAS].
func (a Air) TASFromEAS(eas abeam.Knots) (abeam.Knots, error) {
	m, err := a.machOfEAS("wind.Air.TASFromEAS", eas)
	return a.tas(m), err
}

// TASFromMach gives the true airspeed for a Mach number: M times the speed of
// sound. Range, accuracy and errors as [Air.TASFromCAS].
func (a Air) TASFromMach(m Mach) (abeam.Knots, error) {
	m, err := a.machOfMach("wind.Air.TASFromMach", m)
	return a.tas(m), err
}

// CASFromTAS gives the calibrated airspeed for a true airspeed, the inverse of
// [Air.TASFromCAS]. Range, accuracy and errors as there.
func (a Air) CASFromTAS(tas abeam.Knots) (abeam.Knots, error) {
	const op = "wind.Air.CASFromTAS"
	m, err := a.machOfTAS(op, tas)
	if err != nil {
		return 0, err
	}
	return a.cas(op, m)
}

// CASFromEAS gives the calibrated airspeed for an equivalent airspeed. Range,
// accuracy and errors as [Air.TASFromCAS].
func (a Air) CASFromEAS(eas abeam.Knots) (abeam.Knots, error) {
	const op = "wind.Air.CASFromEAS"
	m, err := a.machOfEAS(op, eas)
	if err != nil {
		return 0, err
	}
	return a.cas(op, m)
}

// CASFromMach gives the calibrated airspeed for a Mach number. Range, accuracy and
// errors as [Air.TASFromCAS].
func (a Air) CASFromMach(m Mach) (abeam.Knots, error) {
	const op = "wind.Air.CASFromMach"
	m, err := a.machOfMach(op, m)
	if err != nil {
		return 0, err
	}
	return a.cas(op, m)
}

// EASFromCAS gives the equivalent airspeed for a calibrated airspeed: it is lower
// by the correction for compressibility, nothing at sea level. Range, accuracy and
// errors as [Air.TASFromCAS].
func (a Air) EASFromCAS(cas abeam.Knots) (abeam.Knots, error) {
	m, err := a.machOfCAS("wind.Air.EASFromCAS", cas)
	return a.eas(m), err
}

// EASFromTAS gives the equivalent airspeed for a true airspeed: TAS sqrt(sigma).
// Range, accuracy and errors as [Air.TASFromCAS].
func (a Air) EASFromTAS(tas abeam.Knots) (abeam.Knots, error) {
	m, err := a.machOfTAS("wind.Air.EASFromTAS", tas)
	return a.eas(m), err
}

// EASFromMach gives the equivalent airspeed for a Mach number. Range, accuracy and
// errors as [Air.TASFromCAS].
func (a Air) EASFromMach(m Mach) (abeam.Knots, error) {
	m, err := a.machOfMach("wind.Air.EASFromMach", m)
	return a.eas(m), err
}

// MachFromCAS gives the Mach number for a calibrated airspeed; the temperature does
// not enter. Range, accuracy and errors as [Air.TASFromCAS].
func (a Air) MachFromCAS(cas abeam.Knots) (Mach, error) {
	return a.machOfCAS("wind.Air.MachFromCAS", cas)
}

// MachFromTAS gives the Mach number for a true airspeed. Range, accuracy and errors
// as [Air.TASFromCAS].
func (a Air) MachFromTAS(tas abeam.Knots) (Mach, error) {
	return a.machOfTAS("wind.Air.MachFromTAS", tas)
}

// MachFromEAS gives the Mach number for an equivalent airspeed. Range, accuracy and
// errors as [Air.TASFromCAS].
func (a Air) MachFromEAS(eas abeam.Knots) (Mach, error) {
	return a.machOfEAS("wind.Air.MachFromEAS", eas)
}

// The four ways in. A failure gives Mach 0, and so 0 of every speed.

func (a Air) machOfCAS(op string, cas abeam.Knots) (Mach, error) {
	if !(cas >= 0 && cas < soundAtSeaLevel) {
		return 0, check.Invalid(op, "CAS", cas, "from 0 to below the 661.48 kt of sound at sea level")
	}
	return subsonic(a, op, "CAS", cas, machAt(impact(float64(cas/soundAtSeaLevel))/a.delta))
}

func (a Air) machOfEAS(op string, eas abeam.Knots) (Mach, error) {
	return subsonic(a, op, "EAS", eas, float64(eas/soundAtSeaLevel)/a.rootDelta)
}

func (a Air) machOfTAS(op string, tas abeam.Knots) (Mach, error) {
	return subsonic(a, op, "TAS", tas, float64(tas/soundAtSeaLevel)/a.rootTheta)
}

func (a Air) machOfMach(op string, m Mach) (Mach, error) {
	return subsonic(a, op, "Mach number", m, float64(m))
}

func subsonic[T ~float64](a Air, op, field string, given T, m float64) (Mach, error) {
	if err := a.validate(op); err != nil {
		return 0, err
	}
	if !(m >= 0 && m < 1) {
		return 0, check.Invalid(op, field, given, "from 0 to below Mach 1")
	}
	return Mach(m), nil
}

// The ways out.

func (a Air) tas(m Mach) abeam.Knots {
	return abeam.Knots(m) * soundAtSeaLevel * abeam.Knots(a.rootTheta)
}

func (a Air) eas(m Mach) abeam.Knots {
	return abeam.Knots(m) * soundAtSeaLevel * abeam.Knots(a.rootDelta)
}

// cas can fail: below sea level, a Mach number just below 1 has an impact pressure
// above that of sound at sea level, where the subsonic formula of CAS ends.
func (a Air) cas(op string, m Mach) (abeam.Knots, error) {
	share := machAt(impact(float64(m)) * a.delta)
	if !(share < 1) {
		return 0, check.Invalid(op, "CAS", abeam.Knots(share)*soundAtSeaLevel, "below the 661.48 kt of sound at sea level")
	}
	return abeam.Knots(share) * soundAtSeaLevel, nil
}

// impact is the impact pressure as a share of the static pressure at a Mach number,
// (1 + 0.2 M²)^3.5 - 1. With s the root of the bracket it is s⁷ - 1, which divides
// by s - 1 = 0.2 M² / (s + 1): no power to take and nothing lost at low speed.
func impact(m float64) float64 {
	x := 0.2 * m * m
	s := math.Sqrt(1 + x)
	return x / (s + 1) * (1 + s*(1+s*(1+s*(1+s*(1+s*(1+s))))))
}

// machAt is the inverse of impact: sqrt(5 ((1 + q)^(2/7) - 1)).
func machAt(q float64) float64 {
	return math.Sqrt(5 * math.Expm1(math.Log1p(q)*(2.0/7)))
}
