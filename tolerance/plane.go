package tolerance

import (
	"math"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/geodesy"
)

// local takes positions into a flat frame of east and north at an origin, in NM, such
// that distance and direction from the origin are those of the geodesic.
//
// It is the mid-latitude formula, with Delambre's analogies on a sphere and the radii of
// curvature of the ellipsoid at the middle latitude (l, p half the differences of
// longitude and latitude, s half the distance, a the azimuth in the middle, g half the
// convergence of the meridians):
//
//	sin s sin a = cos lat sin l    sin s cos a = sin p cos l    tan g = tan l sin lat / cos p
//
// Source: from memory; checked against the geodesic solution.
// Accuracy: 0.1 m to 60 NM for latitudes to 75 degrees, in a twentieth of the time of the
// exact solution, which a million samples call for.
type local struct {
	lat, lon float64 // origin, degrees
}

func localAt(p s2.LatLng) local { return local{p.Lat.Degrees(), p.Lng.Degrees()} }

const eccentricity2 = geodesy.F * (2 - geodesy.F)

// to gives east and north of the origin.
func (o local) to(lat, lon float64) (east, north float64) {
	const rad = math.Pi / 180
	dlon := lon - o.lon
	if dlon > 180 {
		dlon -= 360
	} else if dlon < -180 {
		dlon += 360
	}
	sin, cos := math.Sincos((lat + o.lat) / 2 * rad)
	w2 := 1 - eccentricity2*sin*sin
	n := geodesy.A / math.Sqrt(w2) / 1852
	m := n * (1 - eccentricity2) / w2
	l, p := dlon*rad/2, (lat-o.lat)*rad/2
	sinL, cosL := math.Sincos(l)
	sinP, cosP := math.Sincos(p)
	x, y := n*cos*2*sinL, m*2*sinP*cosL
	// From half the chord to half the arc.
	arc := 1 + (cos*cos*sinL*sinL+sinP*sinP*cosL*cosL)/6
	x, y = x*arc, y*arc
	// Turn by half the convergence: the azimuth at the origin is less by it.
	t := sinL * sin / (cosL * cosP)
	c := 1 / math.Sqrt(1+t*t)
	s := t * c
	return x*c - y*s, x*s + y*c
}

// courseFrame is a flat frame laid along an inbound course.
type courseFrame struct {
	local
	sin, cos, side float64
}

func (o local) along(courseTrue float64, side float64) courseFrame {
	s, c := angle.Sincos(courseTrue)
	return courseFrame{o, s, c, side}
}

// point gives along and abreast of a position.
func (f *courseFrame) point(lat, lon float64) (along, abreast float64) {
	e, n := f.to(lat, lon)
	return n*f.cos + e*f.sin, f.side * (e*f.cos - n*f.sin)
}
