package timing

import (
	"context"
	"errors"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
)

// An outcome is what comes of flying every cell and adding up in the plainest way.
func TestOutcomeAgainstItsLaps(t *testing.T) {
	half := Compose("", ByHalf(), ThreeTimes())
	failing := Strategy{Name: "fails in headwinds", Next: func(s Seen) Plan {
		plan := half.Next(s)
		if s.Laps == 2 && s.OutboundHeadwind() > 0 {
			plan.Outbound = -1
		}
		return plan
	}}
	s := study(half, failing, Compose("", TwiceAbeam(), NoDrift()))
	s.Scatter = Scatter{Timing: 2 * time.Second, Bank: 2, WindChange: 2}
	r, err := s.Run(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	for k, o := range r.Outcomes {
		type tile struct{ inbound, across, n float64 }
		tiles := map[[2]int]tile{}
		var trials, failed uint64
		var first error
		n, astray := make([]uint64, s.Laps), make([]uint64, s.Laps)
		within := map[time.Duration][]uint64{5 * time.Second: make([]uint64, s.Laps+1), 10 * time.Second: make([]uint64, s.Laps+1)}
		for i := range s.Grid.Len() {
			c, err := s.Grid.Cell(i)
			if err != nil {
				continue
			}
			laps, err := Trial{
				Pattern: c.Pattern, Flight: c.Flight, Strategy: s.Strategies[k], Start: s.Start, Intercept: s.Intercept, Scatter: s.Scatter, Seed: mix(s.Seed, uint64(i)),
			}.AppendLaps(nil, s.Laps)
			trials++
			for j, l := range laps {
				n[j]++
				if l.RollOut.Abreast < -AstrayBy {
					astray[j]++
				}
			}
			if err != nil {
				if failed++; first == nil {
					first = err
				}
				continue
			}
			for limit, counts := range within {
				from := 0
				for j, l := range laps {
					if l.Error < -limit || l.Error > limit {
						from = j + 1
					}
				}
				counts[from]++
			}
			last := laps[len(laps)-1]
			at := [2]int{int(c.Angle), int(math.Round(1000 * c.Share))}
			sum := tiles[at]
			tiles[at] = tile{sum.inbound + math.Abs(last.Error.Seconds()), sum.across + math.Abs(float64(last.RollOut.Abreast)), sum.n + 1}
		}
		if o.Trials != trials || o.Failed != failed || (o.Failure == nil) != (first == nil) || first != nil && o.Failure.Error() != first.Error() {
			t.Errorf("%s: %d trials, %d failed, %v; want %d, %d, %v", o.Strategy, o.Trials, o.Failed, o.Failure, trials, failed, first)
		}
		for j, l := range o.Laps {
			if l.Inbound.N() != n[j] || l.Across.N() != n[j] || l.Astray != astray[j] {
				t.Errorf("%s, lap %d: %d laps, %d astray, want %d and %d", o.Strategy, j+1, l.Inbound.N(), l.Astray, n[j], astray[j])
			}
		}
		var behaviours uint64
		for _, b := range o.Behaviours {
			behaviours += b
		}
		for j := range within[5*time.Second] {
			if o.Within5[j] != within[5*time.Second][j] || o.Within10[j] != within[10*time.Second][j] {
				t.Errorf("%s: within from lap %d in %d and %d, want %d and %d", o.Strategy, j+1, o.Within5[j], o.Within10[j], within[5*time.Second][j], within[10*time.Second][j])
			}
		}
		if behaviours != trials-failed || k == 1 && failed == 0 {
			t.Errorf("%s: %d behaviours of %d trials, %d failed", o.Strategy, behaviours, trials, failed)
		}
		for at, want := range tiles {
			in, x, count := o.Map.At(abeam.Degrees(at[0]), float64(at[1])/1000)
			// Whole microseconds and millionths of a mile.
			if float64(count) != want.n || math.Abs(in-want.inbound/want.n) > 1e-6 || math.Abs(float64(x)-want.across/want.n) > 1e-6 {
				t.Errorf("%s at %v: %v s, %v NM of %d, want %+v", o.Strategy, at, in, x, count, want)
			}
		}
	}
}

// A hundredth of a mile beyond the course is not astray, what is more is; the raster has the
// calm and the airspeed itself.
func TestEdgesOfAnOutcome(t *testing.T) {
	o := newOutcome("x", 1)
	for i, abreast := range []abeam.NM{-0.01, -0.010001, 5, -2} {
		o.add(i, &Cell{Angle: 180, Share: float64(i % 2)}, []Lap{{RollOut: hold.Point{Abreast: abreast}}}, nil)
	}
	if o.Laps[0].Astray != 2 {
		t.Errorf("%d astray", o.Laps[0].Astray)
	}
	for _, share := range []float64{0, 1} {
		if _, _, n := o.Map.At(-180, share); n != 2 {
			t.Errorf("%d at %v of the airspeed", n, share)
		}
	}
	for _, share := range []float64{math.Nextafter(0, -1), math.Nextafter(1, 2)} {
		if _, _, n := o.Map.At(-180, share); n != 0 {
			t.Errorf("%d at %v of the airspeed", n, share)
		}
	}
}

// A leg of just the shortest inbound time is flown in a grid, one of a nanosecond less is left out.
func TestCellsAtTheShortestLeg(t *testing.T) {
	g := Grid{Cases: []Case{{TAS: 100, Rate: 3, Leg: time.Minute}}, Shares: []float64{0.2}, Angles: []abeam.Degrees{180}}
	c, err := g.Cell(0)
	if err != nil {
		t.Fatal(err)
	}
	c.Flight.Wind.From = 0 // headwind inbound
	shortest, err := c.Pattern.ShortestInbound(c.Flight)
	if err != nil || shortest != 30*time.Second { // 2 minutes of drift at 20 kt, made good at 80
		t.Fatal(shortest, err)
	}
	g.Angles[0], g.Cases[0].Leg = 0, shortest
	if _, err := g.Cell(0); err != nil {
		t.Error(err)
	}
	g.Cases[0].Leg--
	var e *abeam.FieldError
	if c, err := g.Cell(0); !errors.Is(err, abeam.ErrUnflyable) || !errors.As(err, &e) || e.Field != "inbound leg" || c != (Cell{}) {
		t.Error(err)
	}
}
