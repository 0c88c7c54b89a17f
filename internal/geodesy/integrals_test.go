package geodesy_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"github.com/holdingfix/abeam/internal/geodesy"
	"github.com/holdingfix/abeam/internal/near"
)

// geodesic is one by its angle at the equator, alpha0, as Bessel has it: a point lies at
// sigma on the auxiliary sphere, from where the line crosses the equator northbound.
//
//	s = b ∫ sqrt(1 + k² sin² sigma) d sigma                       k = e' cos(alpha0)
//	longitude = omega - f sin(alpha0) ∫ (2 - f) / (1 + (1 - f) sqrt(1 + k² sin² sigma)) d sigma
//
// Source: C. F. F. Karney, "Algorithms for geodesics", Journal of Geodesy 87 (2013), eq. (7)
// and (8) (from memory). The integrals are exact, where Vincenty's series are cut off; the
// quadrature, in 80 points over two thirds of the way round at the most, is exact to rounding.
type geodesic struct{ alpha0 float64 }

func (g geodesic) k2() float64 {
	c := math.Cos(g.alpha0)
	return e2 / (1 - e2) * c * c
}

// integral is from 0 to sigma; both integrands are even.
func (g geodesic) integral(sigma float64, f func(root float64) float64) float64 {
	return math.Copysign(quad.Fixed(func(sigma float64) float64 {
		s := math.Sin(sigma)
		return f(math.Sqrt(1 + g.k2()*s*s))
	}, 0, math.Abs(sigma), 80, nil, 0), sigma)
}

func (g geodesic) metres(sigma float64) float64 {
	return geodesy.A * (1 - geodesy.F) * g.integral(sigma, func(root float64) float64 { return root })
}

// at gives latitude, longitude from the crossing of the equator, and azimuth, in degrees.
func (g geodesic) at(sigma float64) (lat, lon, azimuth float64) {
	const f = geodesy.F
	s0, c0 := math.Sincos(g.alpha0)
	s, c := math.Sincos(sigma)
	lat = math.Atan2(c0*s, (1-f)*math.Hypot(c0*c, s0))
	omega := math.Atan2(s0*s, c) + 2*math.Pi*math.Round(sigma/(2*math.Pi))
	lon = omega - f*s0*g.integral(sigma, func(root float64) float64 { return (2 - f) / (1 + (1-f)*root) })
	return lat * 180 / math.Pi, lon * 180 / math.Pi, math.Atan2(s0, c0*c) * 180 / math.Pi
}

// Against the exact integrals, along geodesics of every inclination and from everywhere on
// them, as far as a third of the way round; 0.1 mm by Vincenty's own estimate.
func TestAgainstTheIntegrals(t *testing.T) {
	worst := 0.0
	for _, alpha0 := range []float64{0.02, 0.3, 0.8, 1.2, 1.5, 1.9, 2.6, 3.1} {
		g := geodesic{alpha0: alpha0}
		for _, from := range []float64{-1.5, -0.9, -0.2, 0, 0.4, 1.1, 1.5} {
			lat1, lon1, azimuth1 := g.at(from)
			for _, along := range []float64{1e-4, 0.01, 0.15, 0.9, 2.1} {
				lat2, lon2, azimuth2 := g.at(from + along)
				metres := g.metres(from+along) - g.metres(from)
				lat, lon, azimuth := geodesy.Direct(lat1, lon1, azimuth1, metres)
				miss := apart(lat, lon, lat2, lon2)
				if worst = math.Max(worst, miss); !(miss <= 1e-4) || !near.Angle(azimuth, azimuth2, 1e-9) && math.Abs(lat2) < 85 {
					t.Errorf("%v m from %v on %v: %v, %v on %v, want %v, %v on %v, %g m off",
						metres, lat1, azimuth1, lat, lon, azimuth, lat2, lon2, azimuth2, miss)
				}
				if metres > geodesy.Reach {
					continue
				}
				az, d, ok := geodesy.Inverse(lat1, lon1, lat2, lon2)
				if !ok || !near.Equal(d, metres, 2e-5) || math.Abs(math.Remainder(az-azimuth1, 360))*math.Pi/180*metres > 2e-5 {
					t.Errorf("from %v, %v to %v, %v: %v m on %v, want %v m on %v", lat1, lon1, lat2, lon2, d, az, metres, azimuth1)
				}
			}
		}
	}
	t.Logf("Direct misses by %g m at most", worst)
}
