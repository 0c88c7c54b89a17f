package area

import (
	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
)

// OnGround is the outline of the area on WGS-84, where the pattern has it: the points of
// [Area.Outline], each at its distance and direction from the fix ([hold.Pattern.Place]), and
// the polygon that they make on the sphere of the s2 geometry. The latter is for maps and
// for asking many areas at once; that of one place see [hold.Pattern.Locate] and
// [Area.Distance], which are exact. The sides of the polygon are arcs of great circles of a
// sphere, which depart from geodesics by some metres over the length of an area, and from
// the edge by the sag.
//
// The antimeridian needs no care: a polygon of the s2 geometry has none.
//
// Errors: [abeam.ErrInvalid] as for [Area.Outline] and [hold.Pattern.Place]; a point of the
// area that is out of the range of Place fails too, and so does an area whose outline has
// fewer than three points.
func (a Area) OnGround(p hold.Pattern, sag abeam.NM) ([]s2.LatLng, *s2.Polygon, error) {
	const op = "area.OnGround"
	outline, err := a.Outline(sag)
	if err != nil {
		return nil, nil, err
	}
	var places []s2.LatLng
	var points []s2.Point
	for at := range outline {
		place, err := p.Place(at)
		if err != nil {
			return nil, nil, err
		}
		places = append(places, place)
		points = append(points, s2.PointFromLatLng(place))
	}
	if len(points) < 3 {
		return nil, nil, check.Invalid(op, "area", len(points), "an outline of 3 points or more")
	}
	// The outline runs from inbound to the holding side: clockwise in a right-hand pattern,
	// where s2 has the inside on the left.
	loop := s2.LoopFromPoints(points)
	loop.Normalize()
	return places, s2.PolygonFromLoops([]*s2.Loop{loop}), nil
}
