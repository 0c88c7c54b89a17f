package tolerance

import (
	"math"
	"testing"

	"github.com/holdingfix/abeam/internal/geodesy"
)

// The flat frame against points placed by the geodesic.
func TestLocalAgainstTheGeodesic(t *testing.T) {
	worst, n := 0.0, 0
	for lat := -75.0; lat <= 75; lat += 12.5 {
		for _, lon := range []float64{-179.9, -74.3, 0, 139, 180} {
			for azimuth := 0.0; azimuth < 360; azimuth += 22.5 {
				for _, nm := range []float64{0.1, 5, 20, 60} {
					la, lo, _ := geodesy.Direct(lat, lon, azimuth, nm*1852)
					e, nn := local{lat, lon}.to(la, lo)
					s, c := math.Sincos(azimuth * math.Pi / 180)
					worst = math.Max(worst, math.Hypot(e-nm*s, nn-nm*c)*1852)
					n++
				}
			}
		}
	}
	t.Logf("%d points, worst %.3f m", n, worst)
	if worst > 0.1 {
		t.Errorf("worst %.3f m", worst)
	}
}
