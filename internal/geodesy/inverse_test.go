package geodesy_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/internal/geodesy"
	"github.com/holdingfix/abeam/internal/near"
)

// The inverse of Direct, whatever the start: the distance comes back, and the azimuth
// found leads to the same end.
func TestInverseOfDirect(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat, lon, azimuth, _ := positions(t)
		metres := rapid.OneOf(draw.Uniform(0, 50), draw.Uniform(0, 50_000), draw.Uniform(0, geodesy.Reach-1)).Draw(t, "metres")
		lat2, lon2, _ := geodesy.Direct(lat, lon, azimuth, metres)
		az, d, ok := geodesy.Inverse(lat, lon, lat2, lon2)
		if !ok || !near.Equal(d, metres, 2e-5) {
			t.Fatalf("%v m to %v, %v: back as %v m, %v", metres, lat2, lon2, d, ok)
		}
		lat3, lon3, _ := geodesy.Direct(lat, lon, az, d)
		if miss := apart(lat2, lon2, lat3, lon3); !(miss <= 2e-5) {
			t.Fatalf("%v for %v m misses the end by %g m", az, d, miss)
		}
		if !(az > -180 && az <= 180) {
			t.Fatalf("azimuth %v", az)
		}
	})
}

// The same line read from its other end is as long, and arrives on its reciprocal.
func TestInverseBothWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat, lon, azimuth, _ := positions(t)
		metres := draw.Uniform(1000, 900_000).Draw(t, "metres")
		lat2, lon2, end := geodesy.Direct(lat, lon, azimuth, metres)
		back, d, ok := geodesy.Inverse(lat2, lon2, lat, lon)
		if !ok || !near.Equal(d, metres, 2e-5) {
			t.Fatalf("%v m, read back %v m, %v", metres, d, ok)
		}
		if !near.Angle(back, end+180, 2e-6) && math.Abs(lat) < 89.9 && math.Abs(lat2) < 89.9 {
			t.Fatalf("arrives on %v, leaves on %v", end, back)
		}
	})
}

func TestInverseBeyondReach(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, p := range [][4]float64{
		{0, 0, 0, 180}, {0, 0, 0.5, 179.7}, {30, 10, -30, -170}, {-90, 0, 90, 0}, {0, 0, 0, 9}, {52, 5, 61.1, 5},
		{nan, 0, 0, 0}, {0, nan, 0, 0}, {0, 0, nan, 0}, {0, 0, 0, nan}, {inf, 0, 0, 0}, {0, -inf, 0, 0}, {0, 0, 0, inf}, {91, 0, 90, 0},
	} {
		if az, d, ok := geodesy.Inverse(p[0], p[1], p[2], p[3]); ok || az != 0 || d != 0 {
			t.Errorf("from %v, %v to %v, %v: %v m on %v", p[0], p[1], p[2], p[3], d, az)
		}
	}
	for _, p := range [][4]float64{{52, 5, 52, 5}, {52, 180, 52, -180}, {90, 0, 90, 0}, {0, 0, 0, 0}} {
		if az, d, ok := geodesy.Inverse(p[0], p[1], p[2], p[3]); !ok || d > 1e-9 || az != 0 && p[0] != 90 {
			t.Errorf("from %v to itself: %v m on %v, %v", p, d, az, ok)
		}
	}
	// To the edge of the reach, along a meridian and along the equator.
	for _, azimuth := range []float64{0, 90, -135} {
		lat, lon, _ := geodesy.Direct(0, 179, azimuth, geodesy.Reach-0.001)
		if _, d, ok := geodesy.Inverse(0, 179, lat, lon); !ok || !near.Equal(d, geodesy.Reach, 0.002) {
			t.Errorf("at the edge on %v: %v m, %v", azimuth, d, ok)
		}
		lat, lon, _ = geodesy.Direct(0, 179, azimuth, geodesy.Reach+0.001)
		if _, d, ok := geodesy.Inverse(0, 179, lat, lon); ok {
			t.Errorf("beyond the edge on %v: %v m", azimuth, d)
		}
	}
}

func TestInverseAllocatesNothing(t *testing.T) {
	if n := testing.AllocsPerRun(100, func() { _, _, _ = geodesy.Inverse(52, 5, 52.3, 5.2) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}
