package area

import (
	"iter"
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
)

// Excursion is what a track does with respect to an area.
type Excursion struct {
	Points  int // of the track
	Outside int // how many of them are outside
	// Farthest is the greatest [Area.Distance] of the track: how far it goes out, or, negative,
	// the margin that it leaves. At is the first point that is as far, the Index-th from 0.
	Farthest abeam.NM
	At       hold.Point
	Index    int
}

// Inside tells whether no point is outside.
func (e Excursion) Inside() bool { return e.Outside == 0 }

// Follow measures a track against the area: a flown log's places ([hold.Pattern.Locate]), the
// samples of a circuit or an entry. Of a track without points Farthest is -Inf. Points that
// are not finite are outside; they do not count for Farthest.
func (a Area) Follow(track iter.Seq[hold.Point]) Excursion {
	e := Excursion{Farthest: abeam.NM(math.Inf(-1))}
	for p := range track {
		d := a.Distance(p)
		if !(d <= 0) {
			e.Outside++
		}
		if d > e.Farthest && !math.IsInf(float64(d), 1) {
			e.Farthest, e.At, e.Index = d, p, e.Points
		}
		e.Points++
	}
	return e
}
