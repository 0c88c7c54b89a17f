package tolerance

import (
	"math"
	"strings"

	"github.com/holdingfix/abeam"
)

// dimension is what a unit measures.
type dimension uint8

const (
	noDimension dimension = iota
	clockTime             // s
	civilTime             // a date and time in UTC
	plane                 // degrees
	height                // ft
	speed                 // kt
	scale                 // shares of full scale
)

// unit takes a number into the unit the package works in.
type unit struct {
	dimension dimension
	factor    float64
}

// units by their token in a header or behind a number.
var units = map[string]unit{
	"s": {clockTime, 1}, "sec": {clockTime, 1}, "seconds": {clockTime, 1}, "ms": {clockTime, 1e-3}, "min": {clockTime, 60},
	"utc": {civilTime, 1}, "z": {civilTime, 1},
	"deg": {plane, 1}, "degrees": {plane, 1}, "rad": {plane, 180 / math.Pi},
	"ft": {height, 1}, "feet": {height, 1}, "m": {height, 1 / 0.3048}, "fl": {height, 100},
	"kt": {speed, 1}, "kts": {speed, 1}, "knots": {speed, 1}, "mps": {speed, 3600.0 / abeam.MetresPerNM},
	"kmh": {speed, 1000.0 / abeam.MetresPerNM}, "kph": {speed, 1000.0 / abeam.MetresPerNM}, "mph": {speed, 1609.344 / abeam.MetresPerNM},
	"fullscale": {scale, 1}, "pct": {scale, 0.01}, "percent": {scale, 0.01},
}

// spelled are the units written with signs, as the tokens that the table knows.
var spelled = strings.NewReplacer("m/s", "mps", "km/h", "kmh", "°", " deg ", "%", " pct ", "full scale", "fullscale", "full_scale", "fullscale")

func (q Quantity) dimension() dimension {
	switch q {
	case Time:
		return clockTime
	case Latitude, Longitude, Heading, Track:
		return plane
	case Altitude:
		return height
	case IAS, Groundspeed:
		return speed
	case CDI:
		return scale
	}
	return noDimension
}

// bounds is what a quantity can be: beyond it a unit is wrong, or the cell.
func (q Quantity) bounds() (lo, hi float64) {
	switch q {
	case Time:
		return 0, 4e9 // Unix seconds of this century
	case Latitude:
		return -90, 90
	case Longitude:
		return -180, 180
	case Altitude:
		return -2000, 65617
	case IAS:
		return 0, 800
	case Heading, Track:
		return 0, 360
	case Groundspeed:
		return 0, 1200
	case CDI:
		return -10, 10
	}
	return 0, 0
}

// set puts a value into its field.
func (s *Sample) set(q Quantity, x float64) {
	switch q {
	case Latitude:
		s.Lat = x
	case Longitude:
		s.Lon = x
	case Altitude:
		s.Altitude = abeam.Feet(x)
	case IAS:
		s.IAS = abeam.Knots(x)
	case Heading:
		s.Heading = abeam.NewBearing(x)
	case Groundspeed:
		s.Groundspeed = abeam.Knots(x)
	case Track:
		s.Track = abeam.NewBearing(x)
	case CDI:
		s.CDI = x
	}
	s.Has |= Quantities(q)
}
