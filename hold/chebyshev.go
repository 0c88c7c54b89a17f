package hold

import "math"

// curveTerms is how many coefficients a curve has.
const curveTerms = 14

// curve is a smooth function on an interval as a Chebyshev series, for what is wanted
// thousands of times and costs a power and a logarithm each. The true airspeed at a
// constant calibrated one, from 2,000 ft below the sea to the tropopause or from there to
// the top, has its nearest singularity at the height where the lapse would reach 0 K, 44
// km: the terms err by 1e-13 of it.
type curve struct {
	middle, half float64
	c            [curveTerms]float64
}

// cosines of the multiples of pi/28, all that the coefficients need.
var cosines = func() (c [4 * curveTerms]float64) {
	for i := range c {
		c[i] = math.Cos(float64(i) * math.Pi / (2 * curveTerms))
	}
	return c
}()

// fit interpolates f at the Chebyshev points of [lo, hi].
func (s *curve) fit(lo, hi float64, f func(float64) float64) {
	s.middle, s.half = (lo+hi)/2, (hi-lo)/2
	var y [curveTerms]float64
	for j := range y {
		y[j] = f(s.middle + s.half*cosines[2*j+1])
	}
	for k := range s.c {
		sum := 0.0
		for j, v := range y {
			sum += v * cosines[k*(2*j+1)%len(cosines)]
		}
		s.c[k] = sum * (2.0 / curveTerms)
	}
	s.c[0] /= 2
}

// at sums the series by Clenshaw's recurrence.
func (s *curve) at(x float64) float64 {
	u := (x - s.middle) / s.half
	var b, before float64
	for k := curveTerms - 1; k > 0; k-- {
		b, before = s.c[k]+2*u*b-before, b
	}
	return s.c[0] + u*b - before
}
