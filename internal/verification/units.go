package verification

import "github.com/holdingfix/abeam"

var unitFigures = map[string]Figure{
	"units: feet in nautical miles": func(in *Reader) (Value, error) {
		return number(abeam.Feet(in.Num("feet")).NM()), nil
	},
}
