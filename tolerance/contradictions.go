package tolerance

import (
	"math"
	"slices"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
)

// suspects are what the ratio of the speed from positions to the recorded one is where
// the unit is another than the header says.
var suspects = []struct {
	ratio float64
	says  string
}{
	{3600.0 / abeam.MetresPerNM, "the figures look like m/s read as knots"},
	{abeam.MetresPerNM / 3600.0, "the figures look like knots read as m/s"},
	{1000.0 / abeam.MetresPerNM, "the figures look like km/h read as knots"},
	{abeam.MetresPerNM / 1000.0, "the figures look like knots read as km/h"},
	{1609.344 / abeam.MetresPerNM, "the figures look like mph read as knots"},
	{1000.0 / 3600, "the figures look like km/h read as m/s"},
	{180 / math.Pi, "the positions look like degrees where they are read as radians"},
	{math.Pi / 180, "the positions look like radians where they are read as degrees"},
}

// contradictions compares what is recorded with what the positions say.
func (l *Log) contradictions() {
	const look = 4000
	n := len(l.Samples)
	stride := max(1, n/look)
	limit := l.gapAfter().Seconds() + 60
	var ratios, turns []float64
	for i := 1; i < n; i += stride {
		a, b := &l.Samples[i-1], &l.Samples[i]
		// Far enough apart that the rounding of positions does not matter.
		for j := i; apart(a, b) < 0.1 && j+1 < n && j < i+60; j++ {
			b = &l.Samples[j+1]
		}
		dt := (b.Time - a.Time).Seconds()
		e, nn := local{a.Lat, a.Lon}.to(b.Lat, b.Lon)
		d := math.Hypot(e, nn)
		if dt > limit || d < 0.02 {
			continue
		}
		if a.Has.Has(Groundspeed) && b.Has.Has(Groundspeed) {
			if mean := float64(a.Groundspeed+b.Groundspeed) / 2; mean > 1 {
				ratios = append(ratios, d/dt*3600/mean)
			}
		}
		if a.Has.Has(Track) && b.Has.Has(Track) {
			mean := a.Track.Add(b.Track.Sub(a.Track) / 2)
			turns = append(turns, float64(mean.Sub(abeam.NewBearing(angle.Atan2(e, nn)))))
		}
	}
	const enough = 20
	if len(ratios) >= enough {
		slices.Sort(ratios)
		l.speedContradicts(ratios[len(ratios)/2])
	}
	if len(turns) >= enough {
		slices.Sort(turns)
		if off := turns[len(turns)/2]; math.Abs(off) > 4 {
			l.find(Finding{Kind: WrongUnit}, "the track lies %.0f degrees from the direction in which the positions move: another north, or a heading", off)
		}
	}
}

func (l *Log) speedContradicts(ratio float64) {
	if ratio > 0.85 && ratio < 1.15 {
		return
	}
	says, nearest := "a unit of one of them is wrong", 0.04
	for _, s := range suspects {
		if off := math.Abs(ratio/s.ratio - 1); off < nearest {
			says, nearest = s.says, off
		}
	}
	l.find(Finding{Kind: WrongUnit}, "the positions move at %.3g times the recorded groundspeed: %s", ratio, says)
}
