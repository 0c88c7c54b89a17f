package entry

import (
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// MaxDME is the longest DME reading accepted.
const MaxDME abeam.NM = 500

// DME ends a leg on a reading. The station lies on the line of the inbound course: ahead
// of the fix where Limit is the greater reading, so that inbound leads toward it; behind
// where it is the lesser, and inbound leads away. The zero DME is none.
type DME struct {
	Fix    abeam.NM   // reading over the fix, 0 to MaxDME
	Limit  abeam.NM   // reading that ends the leg, above 0 and at most MaxDME
	Height abeam.Feet // above the station, 0 to 65,617 ft; readings are slant ranges
}

func (d *DME) validate(op string) error {
	if *d == (DME{}) {
		return nil
	}
	if err := check.Within(op, "fix DME", d.Fix, 0, MaxDME); err != nil {
		return err
	}
	if err := check.Above(op, "DME limit", d.Limit, 0, MaxDME); err != nil {
		return err
	}
	if err := check.Within(op, "height above the station", d.Height, 0, 65617); err != nil {
		return err
	}
	if h := d.Height.NM(); d.Fix < h || d.Limit < h {
		return check.Unflyable(op, "DME reading", min(d.Fix, d.Limit), "at least the height of "+h.String()+" above the station")
	}
	if d.Limit == d.Fix {
		return check.Invalid(op, "DME limit", d.Limit, "other than the reading over the fix")
	}
	return nil
}

// station gives where the station lies on the course, along it from the fix, the distance
// over the ground at which the limit is read, in NM, and whether the leg leads away to it.
func (d *DME) station() (along, limit float64, growing bool) {
	h := float64(d.Height.NM())
	ground := func(reading abeam.NM) float64 {
		return math.Sqrt((float64(reading) - h) * (float64(reading) + h))
	}
	along = ground(d.Fix)
	if growing = d.Limit > d.Fix; !growing {
		along = -along
	}
	return along, ground(d.Limit), growing
}

// reading is the time until the distance from the station, at the origin, comes to the
// limit: growing to it, or shrinking to it.
//
//	|q + g t| = limit
//
// False if it never does. A limit already passed is read at once.
func reading(x, y, gx, gy, limit float64, growing bool) (t float64, ok bool) {
	left := x*x + y*y - limit*limit // times the sum of the two: what is left to the limit
	if growing == (left >= 0) {
		return 0, true
	}
	g2, qg := gx*gx+gy*gy, x*gx+y*gy
	under := qg*qg - g2*left
	if growing { // one root each side of now
		return (math.Sqrt(under) - qg) / g2, g2 > 0
	}
	if !(qg < 0 && under >= 0) {
		return 0, false
	}
	return left / (math.Sqrt(under) - qg), true
}
