package area

import (
	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/convex"
)

// Area is the tolerance as an area; of an exact fix, the point of the fix.
func (f FixTolerance) Area() Area {
	if len(f.corners) == 0 {
		return Area{convex.Disc(0, 0, float64(f.radius))}
	}
	corners := make([]convex.Region, len(f.corners))
	for i, c := range f.corners {
		corners[i] = convex.Point(float64(c.Along), float64(c.Abreast))
	}
	return Area{convex.Hull(corners...)}
}

// Over is the area for a fix that is known within a tolerance: the area, drawn from overhead
// the fix, laid with its fix on every point where the aeroplane may be. Of a template that is
// the basic area.
//
// Source: ICAO Doc 8168 Vol II I-4-3 Appendix C, where the template is laid on the corners
// of the tolerance and their envelope drawn (from memory).
func (a Area) Over(f FixTolerance) Area {
	return Area{convex.Sum(a.region, f.Area().region)}
}

// Rectangle is a rectangle along the inbound course.
type Rectangle struct {
	Inbound, Outbound   abeam.NM // beyond the fix in the inbound direction, and outbound
	Holding, NonHolding abeam.NM // to the holding side, and to the other
}

// Rectangle is the smallest rectangle along the course around the area, for a check by hand:
// exact, and valid wherever the area is. The book has a simplified method for racetracks
// whose rectangle, by linear equations, encloses the area drawn in full or exceeds it a
// little (from memory); its coefficients were not at hand and are not reproduced.
func (a Area) Rectangle() Rectangle {
	return Rectangle{Inbound: a.Reach(0), Outbound: a.Reach(180), Holding: a.Reach(90), NonHolding: a.Reach(-90)}
}
