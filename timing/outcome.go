package timing

import (
	"math"
	"time"

	"github.com/holdingfix/abeam"
)

// Outcome is how one strategy did over a grid.
type Outcome struct {
	Strategy string
	Trials   uint64 // begun
	// Failed trials ended early: the strategy gave no plan that can be flown, or the errors
	// of the wind stopped the aeroplane. The laps flown until then are counted.
	Failed uint64
	// Failure is the first of them by number of the cell, nil if there is none: a
	// *StrategyError names the strategy, the lap and what it was told.
	Failure error
	Laps    []LapOutcome // one a lap
	// Within5 and Within10 count the trials that were not failed by the first lap from
	// which on the inbound time stayed within 5 and 10 s of the target: index 0 is lap 1;
	// the last, one beyond the laps, is never.
	Within5, Within10 []uint64
	Behaviours        [Behaviours]uint64
	Map               Map

	failedAt int
}

// LapOutcome is how one lap of a strategy came out over a grid.
type LapOutcome struct {
	Inbound Spread // s, inbound time less target
	Across  Spread // NM, at roll-out, positive on the holding side
	Astray  uint64 // laps that rolled out on the non-holding side, by more than AstrayBy
}

// AstrayBy is how far beyond the course counts as the non-holding side: far below what is
// flown, far above rounding.
const AstrayBy abeam.NM = 0.01

// Behaviour is what a strategy does with its error over the laps of a trial.
type Behaviour uint8

// The behaviours.
const (
	Settling    Behaviour = iota // within 5 s of the target at the end
	Standing                     // an error stays, of one sign
	Oscillating                  // an error stays whose sign changed on the last two laps
	Growing                      // the error at the end is larger than on the lap before, and than on the first
	Behaviours  = 4              // how many there are
)

// String names the behaviour.
func (b Behaviour) String() string {
	switch b {
	case Settling:
		return "settles"
	case Standing:
		return "error stays"
	case Oscillating:
		return "oscillates"
	case Growing:
		return "grows"
	}
	return "not a behaviour"
}

// behaviour judges the errors of a trial.
func behaviour(laps []Lap) Behaviour {
	n := len(laps)
	last := laps[n-1].Error
	switch {
	case last.Abs() <= 5*time.Second:
		return Settling
	case n >= 2 && last.Abs() > laps[n-2].Error.Abs()+time.Second && last.Abs() > laps[0].Error.Abs()+time.Second:
		return Growing
	case n >= 3 && (last > 0) != (laps[n-2].Error > 0) && (last > 0) == (laps[n-3].Error > 0):
		return Oscillating
	}
	return Standing
}

// settledFrom is the index of the first lap from which on all errors are within the limit;
// the number of laps if there is none.
func settledFrom(laps []Lap, limit time.Duration) int {
	from := len(laps)
	for from > 0 && laps[from-1].Error.Abs() <= limit {
		from--
	}
	return from
}

// The raster of a [Map].
const (
	MapAngles  = 36 // by 10 degrees
	MapShares  = 25 // by 2.5 % of the airspeed
	MapAngle   = 10 // degrees
	MapShareBy = 0.025
)

// Map holds the mean errors on the last lap by wind angle and strength, on a raster that does
// not grow with the grid. Sums are kept in whole microseconds and millionths of a mile, so
// that the order of adding does not show.
type Map struct {
	tiles [MapAngles][MapShares]tile
}

type tile struct{ n, inbound, across uint64 }

// tileOf gives the tile of a wind: the nearest of the raster.
func (m *Map) tileOf(angle abeam.Degrees, share float64) *tile {
	a := int(math.Round(float64(abeam.NewBearing(float64(angle)))/MapAngle)) % MapAngles
	s := min(MapShares-1, int(math.Round(share/MapShareBy)))
	return &m.tiles[a][s]
}

// At gives the mean size of the inbound error in seconds, and of the error across the course
// at roll-out, in the wind of an angle (from, less inbound course; positive from the
// holding side) and a share of the airspeed; n is how many laps stand behind them, and
// both are 0 where there is none. Angle and share are taken to the nearest of the raster.
func (m *Map) At(angle abeam.Degrees, share float64) (inbound float64, across abeam.NM, n uint64) {
	if angle-angle != 0 || !(share >= 0 && share <= 1) {
		return 0, 0, 0
	}
	t := m.tileOf(angle, share)
	if t.n == 0 {
		return 0, 0, 0
	}
	return float64(t.inbound) / float64(t.n) / 1e6, abeam.NM(float64(t.across) / float64(t.n) / 1e6), t.n
}

func newOutcome(name string, laps int) Outcome {
	o := Outcome{Strategy: name, Laps: make([]LapOutcome, laps), Within5: make([]uint64, laps+1), Within10: make([]uint64, laps+1), failedAt: math.MaxInt}
	for i := range o.Laps {
		o.Laps[i] = LapOutcome{Inbound: newSpread(0.1, 300), Across: newSpread(0.01, 10)}
	}
	return o
}

// add counts a trial: its laps, and why it ended early if it did.
func (o *Outcome) add(number int, c *Cell, laps []Lap, err error) {
	o.Trials++
	for i := range laps {
		l, at := &laps[i], &o.Laps[i]
		at.Inbound.add(l.Error.Seconds())
		at.Across.add(float64(l.RollOut.Abreast))
		if l.Astray() > AstrayBy {
			at.Astray++
		}
	}
	if err != nil {
		o.Failed++
		if number < o.failedAt {
			o.failedAt, o.Failure = number, err
		}
		return
	}
	o.Within5[settledFrom(laps, 5*time.Second)]++
	o.Within10[settledFrom(laps, 10*time.Second)]++
	o.Behaviours[behaviour(laps)]++
	last := &laps[len(laps)-1]
	t := o.Map.tileOf(c.Angle, c.Share)
	t.n++
	t.inbound += uint64(last.Error.Abs().Microseconds())
	t.across += uint64(math.Min(1e12, math.Round(math.Abs(float64(last.RollOut.Abreast))*1e6)))
}

func (o *Outcome) merge(p *Outcome) {
	o.Trials += p.Trials
	o.Failed += p.Failed
	if p.failedAt < o.failedAt {
		o.failedAt, o.Failure = p.failedAt, p.Failure
	}
	for i := range o.Laps {
		o.Laps[i].Inbound.merge(&p.Laps[i].Inbound)
		o.Laps[i].Across.merge(&p.Laps[i].Across)
		o.Laps[i].Astray += p.Laps[i].Astray
	}
	for i := range o.Within5 {
		o.Within5[i] += p.Within5[i]
		o.Within10[i] += p.Within10[i]
	}
	for i := range o.Behaviours {
		o.Behaviours[i] += p.Behaviours[i]
	}
	for a := range o.Map.tiles {
		for s := range o.Map.tiles[a] {
			t, u := &o.Map.tiles[a][s], &p.Map.tiles[a][s]
			t.n, t.inbound, t.across = t.n+u.n, t.inbound+u.inbound, t.across+u.across
		}
	}
}
