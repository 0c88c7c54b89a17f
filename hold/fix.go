package hold

import (
	"math"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// Fix is the point that is held over. The zero Fix has no name, lies at 0N 0E and
// counts its courses from true north; where it lies matters to positions only,
// never to the circuit.
type Fix struct {
	Ident    string
	Position s2.LatLng // WGS-84
	// Variation takes the north of the pattern's courses to true north, east
	// positive; zero where the courses are true.
	Variation abeam.Variation
}

func (f Fix) validate(op string) error {
	if !f.Position.IsValid() {
		return check.Invalid(op, "fix position", f.Position.String(), "a latitude from -90 to 90 and a longitude from -180 to 180")
	}
	if math.Abs(float64(f.Position.Lat)) == math.Pi/2 {
		return check.Invalid(op, "fix position", f.Position.String(), "off the poles, where a course has no direction")
	}
	return check.Within(op, "variation", float64(f.Variation), -180, 180)
}
