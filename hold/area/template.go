package area

import (
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/convex"
)

// Template is the ICAO holding template: its values, and the curve drawn from them.
type Template struct {
	Lines Lines
	// Hold protects the holding from overhead the fix: the wind circles about the points of
	// the template, the spirals between them and their tangents.
	Hold Area
	// Entries is Hold and the point E of entries from any direction ([Lines.XE], [Lines.YE]),
	// joined by tangents. That the tangents are drawn so is our reading of the book. E is of
	// direct entries; what teardrop and parallel entries need, which the book draws by turning
	// the template about the fix, is in [Envelope].
	Entries Area
}

// Template draws the holding template of the design: circles of the radii of [Lines] about
// its points, the spirals that envelop those of a turn, and their common tangents. What the
// book draws point by point, at every 45 degrees of a turn, is drawn here for every degree.
//
// Source: ICAO Doc 8168 Vol II I-4-3 Appendix C, its construction from memory.
//
// Errors: as [Design.Lines].
func (d Design) Template() (Template, error) {
	d, err := d.Filled()
	if err != nil {
		return Template{}, err
	}
	l, err := d.Lines()
	if err != nil {
		return Template{}, err
	}
	r, heading := float64(l.Radius), d.aside()
	// turn is a turn to the right about a centre, from a heading through so many degrees, that
	// begins where the aeroplane is in a wind circle of a radius.
	turn := func(x, y, heading, degrees, circle float64) convex.Region {
		return convex.Sum(convex.Disc(x, y, circle), convex.Arc(r, heading-90, heading-90+degrees, l.E))
	}
	b, c := float64(l.AB), float64(l.AC)
	regions := []convex.Region{
		convex.Point(0, 0),
		convex.Disc(b, 0, float64(l.Wb)), convex.Disc(c, 0, float64(l.Wc)),
		turn(c, r, 0, 180, float64(l.Wc)), // c to g
		turn(b, r, 0, 270, float64(l.Wb)), // b to p
	}
	sin, cos := angle.Sincos(heading)
	for _, i := range [2]struct{ length, circle float64 }{
		{float64(l.GI1), float64(l.Wi1)},
		{float64(l.GI2), float64(l.Wi2)},
	} {
		aside := i.length * sin
		for _, y := range [2]float64{r - aside, r + aside} {
			regions = append(regions, turn(c-i.length*cos, y, outbound, 180, i.circle)) // i to n
		}
	}
	t := Template{Lines: l, Hold: Area{convex.Hull(regions...)}}
	t.Entries = Area{convex.Hull(t.Hold.region, convex.Point(-float64(l.XE), float64(l.YE)))}
	return t, nil
}
