package tolerance

import (
	"math"
	"testing"
)

// Units in those of the package, from what defines them: 1 NM is 1,852 m, 1 ft 0.3048 m and a
// statute mile 1,609.344 m; a circle is 2 pi radians.
func TestUnits(t *testing.T) {
	want := map[string]unit{
		"s": {clockTime, 1}, "sec": {clockTime, 1}, "seconds": {clockTime, 1}, "ms": {clockTime, 0.001}, "min": {clockTime, 60},
		"utc": {civilTime, 1}, "z": {civilTime, 1}, "deg": {plane, 1}, "degrees": {plane, 1}, "rad": {plane, 57.29577951308232},
		"ft": {height, 1}, "feet": {height, 1}, "m": {height, 3.280839895013123}, "fl": {height, 100},
		"kt": {speed, 1}, "kts": {speed, 1}, "knots": {speed, 1}, "mps": {speed, 1.9438444924406048},
		"kmh": {speed, 0.5399568034557235}, "kph": {speed, 0.5399568034557235}, "mph": {speed, 0.8689762419006479},
		"fullscale": {scale, 1}, "pct": {scale, 0.01}, "percent": {scale, 0.01},
	}
	for token, w := range want {
		if got := units[token]; got.dimension != w.dimension || math.Abs(got.factor/w.factor-1) > 1e-12 {
			t.Errorf("%s: %+v, want %+v", token, got, w)
		}
	}
	for token := range units {
		if _, ok := want[token]; !ok {
			t.Errorf("%s is not among them", token)
		}
	}
}
