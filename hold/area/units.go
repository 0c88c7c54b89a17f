package area

import "github.com/holdingfix/abeam/internal/check"

// Units are the units of a calculation.
type Units uint8

// The two columns of the book.
const (
	NonSI Units = iota // kt, NM, thousands of ft
	SI                 // km/h, km, thousands of m
)

// String gives "kt, NM, ft" or "km/h, km, m".
func (u Units) String() string {
	switch u {
	case NonSI:
		return "kt, NM, ft"
	case SI:
		return "km/h, km, m"
	}
	return "not units"
}

// column is what differs between the units.
type column struct {
	speed, length, thousand string
	perNM                   float64 // units of length in a nautical mile
	perFoot                 float64 // units of height in a foot
	turn                    float64 // of the rate of turn
	slope, base0            float64 // of the wind by height
	row                     float64 // of the table of K, m
}

func (u Units) column(op string) (column, error) {
	switch u {
	case NonSI:
		return column{"kt", "NM", "1000 ft", 1, 1, 3431, 2, 47, 304.8}, nil
	case SI:
		return column{"km/h", "km", "1000 m", 1.852, 0.3048, 6355, 12, 87, 500}, nil
	}
	return column{}, check.Invalid(op, "units", uint8(u), "NonSI (0) or SI (1)")
}
