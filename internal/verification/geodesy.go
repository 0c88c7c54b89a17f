package verification

import (
	"errors"

	"github.com/holdingfix/abeam/internal/geodesy"
)

var geodesyFigures = map[string]Figure{
	"geodesic: latitude": func(in *Reader) (Value, error) {
		lat, _, _ := in.direct()
		return number(lat), nil
	},
	"geodesic: longitude": func(in *Reader) (Value, error) {
		_, lon, _ := in.direct()
		return number(lon), nil
	},
	"geodesic: azimuth": func(in *Reader) (Value, error) {
		_, _, azimuth := in.direct()
		return number(azimuth), nil
	},
	"geodesic: distance between": func(in *Reader) (Value, error) {
		_, metres, err := in.inverse()
		return number(metres), err
	},
	"geodesic: azimuth between": func(in *Reader) (Value, error) {
		azimuth, _, err := in.inverse()
		return number(azimuth), err
	},
}

func (r *Reader) direct() (lat, lon, azimuth float64) {
	return geodesy.Direct(r.Num("lat"), r.Num("lon"), r.Num("azimuth"), r.Num("metres"))
}

func (r *Reader) inverse() (azimuth, metres float64, err error) {
	azimuth, metres, ok := geodesy.Inverse(r.Num("lat"), r.Num("lon"), r.Num("lat2"), r.Num("lon2"))
	if !ok {
		err = errors.New("the points are too far apart")
	}
	return azimuth, metres, err
}
