package verification

import "github.com/holdingfix/abeam/internal/geodesy"

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
}

func (r *Reader) direct() (lat, lon, azimuth float64) {
	return geodesy.Direct(r.Num("lat"), r.Num("lon"), r.Num("azimuth"), r.Num("metres"))
}
