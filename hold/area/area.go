package area

import (
	"iter"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/internal/convex"
)

// Area is a protected area, or any convex part of one, in the course frame of its
// pattern: origin at the fix, Along positive inbound, Abreast positive to the holding
// side. Its edge is made of arcs, spirals and their common tangents and does not cross
// itself. The zero value holds no point.
type Area struct {
	region convex.Region
}

// Around is the smallest convex area around the points of a track, or of many. Points that
// are not finite are left out.
func Around(points iter.Seq[hold.Point]) Area {
	const most = 1024 // of a part: a track of any length takes no more room than that
	var corners []convex.Region
	for p := range points {
		if len(corners) == most {
			corners = append(corners[:0], convex.Hull(corners...))
		}
		x, y := float64(p.Along), float64(p.Abreast)
		if d := x - x + y - y; d == 0 { // NaN and infinities give NaN
			corners = append(corners, convex.Point(x, y))
		}
	}
	return Area{convex.Hull(corners...)}
}

// Distance is how far a place is outside the edge, negative inside: the distance to the
// nearest point of the edge. Of an area that holds no point it is +Inf.
//
// Accuracy: 1e-9 NM. A place that is not finite gives NaN or +Inf and is in no area.
func (a Area) Distance(p hold.Point) abeam.NM {
	return abeam.NM(a.region.Distance(float64(p.Along), float64(p.Abreast)))
}

// Contains tells whether a place is in the area; the edge is.
func (a Area) Contains(p hold.Point) bool { return a.Distance(p) <= 0 }

// Reach is how far the area reaches from the fix in a direction of the course frame:
// degrees from the inbound course towards the holding side, 180 being outbound. It is
// -Inf for an area that holds no point, and NaN in a direction that is not finite.
func (a Area) Reach(direction abeam.Degrees) abeam.NM {
	return abeam.NM(a.region.Reach(float64(direction)))
}

// Edge is the point of the edge that is farthest in a direction of the course frame, in NM;
// not a finite one for an area that holds no point, or a direction that is not finite.
func (a Area) Edge(direction abeam.Degrees) hold.Point {
	x, y := a.region.Edge(float64(direction))
	return hold.Point{Along: abeam.NM(x), Abreast: abeam.NM(y)}
}

// Size is in square nautical miles; 0 for an area that holds no more than a line.
func (a Area) Size() float64 { return a.region.Size() }

// MinSag and MaxSag are the limits of how closely [Area.Outline] follows the edge.
const (
	MinSag abeam.NM = 1e-6
	MaxSag abeam.NM = 1
)

// Outline walks once round the edge, from the point that is farthest inbound towards the
// holding side. The points are on the edge, and the chords between them stay within sag
// of it. The first point is not repeated.
//
// Errors: [abeam.ErrInvalid] for a sag outside [MinSag] to [MaxSag].
func (a Area) Outline(sag abeam.NM) (iter.Seq[hold.Point], error) {
	if err := check.Within("area.Outline", "sag", sag, MinSag, MaxSag); err != nil {
		return nil, err
	}
	return func(yield func(hold.Point) bool) {
		for x, y := range a.region.Outline(float64(sag)) {
			if !yield(hold.Point{Along: abeam.NM(x), Abreast: abeam.NM(y)}) {
				return
			}
		}
	}, nil
}

// MaxGrowth is the most an area can be grown by.
const MaxGrowth abeam.NM = 100

// Grown is the area and everything within a distance of it, as a buffer is drawn.
//
// Errors: [abeam.ErrInvalid] for a distance outside 0 to [MaxGrowth].
func (a Area) Grown(by abeam.NM) (Area, error) {
	if err := check.Within("area.Grown", "distance", by, 0, MaxGrowth); err != nil {
		return Area{}, err
	}
	return Area{convex.Sum(a.region, convex.Disc(0, 0, float64(by)))}, nil
}

// With is the smallest convex area around both.
func (a Area) With(b Area) Area { return Area{convex.Hull(a.region, b.region)} }

// Beyond is how far b reaches beyond a at the most, and in which direction of the course
// frame, from -180 to 180; not above 0 where a contains b. It is -Inf where b holds no
// point, and +Inf where only a holds none.
//
// Accuracy: 1e-9 NM.
func (a Area) Beyond(b Area) (farthest abeam.NM, direction abeam.Degrees) {
	most, at := convex.Beyond(a.region, b.region)
	return abeam.NM(most), abeam.NewDegrees(at)
}
