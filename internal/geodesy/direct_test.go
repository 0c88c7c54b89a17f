package geodesy_test

import (
	"math"
	"testing"
	"time"

	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"

	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/internal/geodesy"
	"github.com/holdingfix/abeam/internal/near"
)

const (
	e2    = geodesy.F * (2 - geodesy.F) // eccentricity squared
	metre = 180 / (math.Pi * geodesy.A) // about a metre, in degrees of latitude
)

// meridian is the length in metres of the meridian from the equator to a latitude:
// the integral of its radius of curvature a(1-e²)/(1 - e² sin²)^(3/2). Gauss-Legendre
// in 40 points is exact to rounding for an integrand so smooth.
func meridian(lat float64) float64 {
	length := quad.Fixed(func(phi float64) float64 {
		s := math.Sin(phi)
		return geodesy.A * (1 - e2) / math.Pow(1-e2*s*s, 1.5)
	}, 0, math.Abs(lat)*math.Pi/180, 40, nil, 0)
	return math.Copysign(length, lat)
}

// apart is the distance through the ellipsoid in metres between two positions, by
// their Cartesian coordinates: it needs no case for the poles or the antimeridian.
func apart(lat1, lon1, lat2, lon2 float64) float64 {
	at := func(lat, lon float64) (x, y, z float64) {
		sp, cp := math.Sincos(lat * math.Pi / 180)
		sl, cl := math.Sincos(lon * math.Pi / 180)
		n := geodesy.A / math.Sqrt(1-e2*sp*sp)
		return n * cp * cl, n * cp * sl, n * (1 - e2) * sp
	}
	x1, y1, z1 := at(lat1, lon1)
	x2, y2, z2 := at(lat2, lon2)
	return math.Hypot(math.Hypot(x2-x1, y2-y1), z2-z1)
}

// Along the meridian, against its length by quadrature.
func TestMeridian(t *testing.T) {
	for _, from := range []float64{-90, -80, -45, -0.5, 0, 30, 89} {
		for _, to := range []float64{-90, -60, 0, 0.25, 45, 89.9, 90} {
			if from == to {
				continue
			}
			north := to > from
			azimuth := 180.0
			if north {
				azimuth = 0
			}
			lat, lon, end := geodesy.Direct(from, 12, azimuth, math.Abs(meridian(to)-meridian(from)))
			if math.Abs(lat-to) > 1e-4*metre {
				t.Errorf("from %v on %v: latitude %v, want %v", from, azimuth, lat, to)
			}
			if math.Abs(to) == 90 {
				continue // the longitude of a pole is anything
			}
			if lon != 12 || end != azimuth {
				t.Errorf("from %v on %v to %v: longitude %v, azimuth %v", from, azimuth, to, lon, end)
			}
		}
	}
}

// Along the equator a degree of longitude is an arc of the circle of radius A.
func TestEquator(t *testing.T) {
	for _, azimuth := range []float64{90, 270, -90} {
		for _, deg := range []float64{0.01, 1, 30, 90, 170} {
			metres := deg * math.Pi / 180 * geodesy.A
			lat, lon, end := geodesy.Direct(0, 5, azimuth, metres)
			want, wantEnd := 5+deg, 90.0
			if azimuth != 90 {
				want, wantEnd = 5-deg, -90
			}
			if lat != 0 || !near.Angle(lon, want, 1e-4*metre) || end != wantEnd {
				t.Errorf("%v degrees on %v: latitude %v, longitude %v, azimuth %v", deg, azimuth, lat, lon, end)
			}
		}
	}
}

func TestOverThePole(t *testing.T) {
	toPole := meridian(90) - meridian(89)
	for _, side := range []float64{1, -1} { // north, then its mirror image
		azimuth := 90 - 90*side
		lat, lon, end := geodesy.Direct(89*side, 12, azimuth, 2*toPole)
		if !near.Equal(lat, 89*side, 1e-4*metre) || lon != -168 || end != 180-azimuth {
			t.Errorf("across the pole from %v: %v, %v, azimuth %v", 89*side, lat, lon, end)
		}
	}
	// From the pole the azimuth chooses the meridian, counted from the one given.
	for azimuth := -179.0; azimuth <= 180; azimuth++ {
		lat, lon, end := geodesy.Direct(90, 12, azimuth, toPole)
		if !near.Equal(lat, 89, 1e-4*metre) || !near.Angle(lon, 12+180-azimuth, 1e-12) || end != 180 {
			t.Errorf("from the north pole on %v: %v, %v, azimuth %v", azimuth, lat, lon, end)
		}
		lat, lon, end = geodesy.Direct(-90, 12, azimuth, toPole)
		if !near.Equal(lat, -89, 1e-4*metre) || !near.Angle(lon, 12+azimuth, 1e-12) || math.Abs(end) > 1e-100 {
			t.Errorf("from the south pole on %v: %v, %v, azimuth %v", azimuth, lat, lon, end)
		}
	}
}

func TestAntimeridian(t *testing.T) {
	const d = 20_000.0
	_, east, _ := geodesy.Direct(52, 0, 90, d)
	for _, c := range []struct{ lon, azimuth, want float64 }{
		{179.9, 90, 179.9 + east - 360}, {-179.9, 270, -179.9 - east + 360}, {180, 90, east - 180}, {-180, 90, east - 180},
		{180, 270, 180 - east}, {-180, 270, 180 - east}, {540, 90, east - 180},
	} {
		if _, lon, _ := geodesy.Direct(52, c.lon, c.azimuth, d); !near.Equal(lon, c.want, 1e-12) {
			t.Errorf("from %v on %v: longitude %v, want %v", c.lon, c.azimuth, lon, c.want)
		}
	}
	for _, lon := range []float64{180, -180, 540} {
		for _, azimuth := range []float64{0, 180} {
			if _, got, _ := geodesy.Direct(10, lon, azimuth, d); got != -180 {
				t.Errorf("along the antimeridian %v on %v: longitude %v, want -180", lon, azimuth, got)
			}
		}
	}
}

func TestNoDistance(t *testing.T) {
	for _, lat := range []float64{-90, -33.3, 0, 52.25, 90} {
		for azimuth := -170.0; azimuth <= 180; azimuth += 10 {
			lat2, lon2, end := geodesy.Direct(lat, 4.75, azimuth, 0)
			if !near.Equal(lat2, lat, 2e-14) || lon2 != 4.75 || !near.Angle(end, azimuth, 1e-13) {
				t.Errorf("nowhere from %v on %v: %v, %v, azimuth %v", lat, azimuth, lat2, lon2, end)
			}
		}
	}
}

// positions draws a start with the poles and the antimeridian among them, an azimuth
// and a distance: that of a hold, or a third of the way round the world.
func positions(t *rapid.T) (lat, lon, azimuth, metres float64) {
	lat = rapid.OneOf(draw.Uniform(-90, 90), draw.Uniform(89.9, 90), draw.Uniform(-90, -89.9),
		rapid.SampledFrom([]float64{0, 90, -90})).Draw(t, "lat")
	lon = rapid.OneOf(draw.Uniform(-180, 180), rapid.SampledFrom([]float64{0, 180, -180, 179.999})).Draw(t, "lon")
	azimuth = float64(draw.Bearing().Draw(t, "azimuth"))
	metres = rapid.OneOf(draw.Uniform(0, 200_000), draw.Uniform(0, 13e6)).Draw(t, "metres")
	return lat, lon, azimuth, metres
}

func TestThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat, lon, azimuth, metres := positions(t)
		lat2, lon2, end := geodesy.Direct(lat, lon, azimuth, metres)
		if !(lat2 >= -90 && lat2 <= 90 && lon2 >= -180 && lon2 < 180 && end > -180 && end <= 180) {
			t.Fatalf("out of range: %v, %v, azimuth %v", lat2, lon2, end)
		}
		lat3, lon3, _ := geodesy.Direct(lat2, lon2, end+180, metres)
		if d := apart(lat, lon, lat3, lon3); !(d <= 1e-4) {
			t.Fatalf("back at %v, %v, %g m from the start", lat3, lon3, d)
		}
		// Backwards along the same azimuth is forwards along the other.
		lat4, lon4, _ := geodesy.Direct(lat2, lon2, end, -metres)
		if d := apart(lat3, lon3, lat4, lon4); !(d <= 1e-6) {
			t.Fatalf("a negative distance ends %g m from the reciprocal", d)
		}
	})
}

// A short geodesic is hardly longer than the straight line: the chord of an arc d on a
// radius R falls short by d³/24R², and R is from 6,335 km (along the meridian at the
// equator) to 6,400 km (at a pole). The positions are good to some 1e-9 m.
func TestLengthOfAShortLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat, lon, azimuth, _ := positions(t)
		metres := draw.Uniform(0, 20_000).Draw(t, "short")
		lat2, lon2, _ := geodesy.Direct(lat, lon, azimuth, metres)
		shortfall := metres - apart(lat, lon, lat2, lon2)
		least := metres * metres * metres / 24 / (6400e3 * 6400e3)
		most := metres * metres * metres / 24 / (6335e3 * 6335e3)
		if !(shortfall > least-2e-8 && shortfall < most+2e-8) {
			t.Fatalf("the chord of %v m falls short by %v m, want %v to %v", metres, shortfall, least, most)
		}
	})
}

// Clairaut: the distance from the axis times the sine of the azimuth stays the same
// along a geodesic.
func TestClairaut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat, lon, azimuth, metres := positions(t)
		lat2, _, end := geodesy.Direct(lat, lon, azimuth, metres)
		moment := func(lat, azimuth float64) float64 {
			sp, cp := math.Sincos(lat * math.Pi / 180)
			return geodesy.A * cp / math.Sqrt(1-e2*sp*sp) * math.Sin(azimuth*math.Pi/180)
		}
		if a, b := moment(lat, azimuth), moment(lat2, end); math.Abs(a-b) > 1e-6 {
			t.Fatalf("the moment goes from %v m to %v m", a, b)
		}
	})
}

// The mirror images of a geodesic in the equator and in its meridian are geodesics.
func TestMirrorImages(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat, _, azimuth, metres := positions(t)
		lat2, lon2, end := geodesy.Direct(lat, 0, azimuth, metres)
		south, lon3, end3 := geodesy.Direct(-lat, 0, 180-azimuth, metres)
		if d := apart(-lat2, lon2, south, lon3); !(d <= 1e-7) || !near.Angle(end3, 180-end, 1e-9) && math.Abs(lat2) < 89.9 {
			t.Fatalf("in the equator: %v, %v, azimuth %v", south, lon3, end3)
		}
		west, lon4, end4 := geodesy.Direct(lat, 0, -azimuth, metres)
		if d := apart(lat2, -lon2, west, lon4); !(d <= 1e-7) || !near.Angle(end4, -end, 1e-9) && math.Abs(lat2) < 89.9 {
			t.Fatalf("in the meridian: %v, %v, azimuth %v", west, lon4, end4)
		}
	})
}

// The iteration is bounded: what is not finite comes back at once, as NaN.
func TestNotFinite(t *testing.T) {
	bad := []float64{math.NaN(), math.Inf(1), math.Inf(-1)}
	done := make(chan struct{})
	go func() {
		defer close(done)
		for _, x := range bad {
			for i, in := range [][4]float64{{x, 0, 10, 1000}, {10, x, 10, 1000}, {10, 0, x, 1000}, {10, 0, 10, x}} {
				lat, lon, end := geodesy.Direct(in[0], in[1], in[2], in[3])
				if !math.IsNaN(lon) || i != 1 && (!math.IsNaN(lat) || !math.IsNaN(end)) {
					t.Errorf("Direct%v = %v, %v, %v, want NaN", in, lat, lon, end)
				}
			}
		}
		for _, metres := range []float64{1e12, -1e12, 1e300, math.MaxFloat64} {
			lat, lon, end := geodesy.Direct(10, 0, 10, metres)
			if !(lat >= -90 && lat <= 90 && lon >= -180 && lon < 180 && end > -180 && end <= 180) {
				t.Errorf("%g m end at %v, %v, %v", metres, lat, lon, end)
			}
		}
	}()
	select {
	case <-done:
	case <-time.After(10 * time.Second):
		t.Fatal("no end to the iteration")
	}
}
