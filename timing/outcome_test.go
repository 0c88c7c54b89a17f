package timing

import (
	"errors"
	"math"
	"reflect"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"gonum.org/v1/gonum/stat"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/draw"
)

// A Spread gives the quantiles of what was put in, to half a bin, in any order and in parts.
func TestSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SliceOfN(draw.Uniform(-50, 50), 1, 200).Draw(t, "values")
		whole, a, b := newSpread(0.1, 60), newSpread(0.1, 60), newSpread(0.1, 60)
		for i, v := range x {
			whole.add(v)
			if i%3 == 0 {
				a.add(v)
			} else {
				b.add(v)
			}
		}
		b.merge(&a)
		if !reflect.DeepEqual(b, whole) || whole.N() != uint64(len(x)) {
			t.Fatal("parts do not make the whole")
		}
		abs := make([]float64, len(x))
		for i := range x {
			abs[i] = math.Abs(x[i])
		}
		slices.Sort(x)
		slices.Sort(abs)
		for _, p := range []float64{0, 0.05, 0.5, 0.95, 1} {
			if got, want := whole.Quantile(p), stat.Quantile(p, stat.Empirical, x, nil); math.Abs(got-want) > 0.0500001 {
				t.Fatalf("quantile %v: %v, want %v", p, got, want)
			}
			if got, want := whole.AbsQuantile(p), stat.Quantile(p, stat.Empirical, abs, nil); math.Abs(got-want) > 0.0500001 {
				t.Fatalf("quantile %v of sizes: %v, want %v", p, got, want)
			}
		}
	})
	s := newSpread(0.1, 60)
	if s.Quantile(0.5) != 0 || (Spread{}).Quantile(0.5) != 0 || s.Reach() != 60 {
		t.Error("empty")
	}
	s.add(1e300)
	s.add(math.Inf(-1))
	if s.Quantile(1) != 60 || s.Quantile(0) != -60 || s.AbsQuantile(0) != 60 || s.AbsQuantile(1) != 60 || s.Quantile(math.NaN()) != 0 || s.Quantile(1.1) != 0 {
		t.Errorf("beyond the reach: %v, %v", s.Quantile(1), s.Quantile(0))
	}
}

func TestBehaviour(t *testing.T) {
	laps := func(errors ...float64) []Lap {
		var l []Lap
		for _, e := range errors {
			l = append(l, Lap{Error: time.Duration(e * 1e9)})
		}
		return l
	}
	for _, tc := range []struct {
		errors []float64
		want   Behaviour
		five   int
	}{
		{[]float64{30, 10, 4, 1}, Settling, 2}, {[]float64{30, 30, 30, 30}, Standing, 4}, {[]float64{30, -25, 20, -15}, Oscillating, 4},
		{[]float64{10, -20, 40, -80}, Growing, 4}, {[]float64{1, 2, 10, 3}, Settling, 3}, {[]float64{20}, Standing, 1}, {[]float64{-5}, Settling, 0},
		{[]float64{10, 20}, Growing, 2}, {[]float64{20, -20, 20}, Oscillating, 3},
		// By more than a second than the lap before, and than the first.
		{[]float64{20, 30, 31}, Standing, 3}, {[]float64{20, 30, 31.001}, Growing, 3}, {[]float64{20, 30, 29.5}, Standing, 3},
		{[]float64{30, 20, 31}, Standing, 3}, {[]float64{30, 20, 31.001}, Growing, 3}, {[]float64{30, 20, 29.5}, Standing, 3},
		// Twice a change of sign; no error counts as too short.
		{[]float64{20, 20, -20}, Standing, 3}, {[]float64{20, -20, -20}, Standing, 3}, {[]float64{-20, 20, 0, 20}, Oscillating, 4},
		{[]float64{-20, 0, -20}, Standing, 3}, {[]float64{0, -20, 20}, Standing, 3}, {[]float64{-40, 0, -20, 20}, Standing, 4}, {[]float64{-40, 20, 0, 20}, Oscillating, 4},
	} {
		l := laps(tc.errors...)
		if got := behaviour(l); got != tc.want || settledFrom(l, 5*time.Second) != tc.five {
			t.Errorf("%v: %v, settled from %d", tc.errors, got, settledFrom(l, 5*time.Second))
		}
	}
	names := map[string]bool{}
	for b := range Behaviour(Behaviours) {
		names[b.String()] = true
	}
	if len(names) != Behaviours || Behaviour(9).String() != "not a behaviour" {
		t.Error(names)
	}
}

func TestMap(t *testing.T) {
	o := newOutcome("x", 1)
	for _, e := range []time.Duration{-4 * time.Second, 8 * time.Second} {
		o.add(0, &Cell{Angle: -90, Share: 0.25}, []Lap{{Error: e, RollOut: hold.Point{Abreast: -0.5}}}, nil)
	}
	for _, at := range []abeam.Degrees{-90, 270, -94.9, -85.1} {
		if in, x, n := o.Map.At(at, 0.25); in != 6 || x != 0.5 || n != 2 {
			t.Errorf("at %v: %v s, %v NM, %d", at, in, x, n)
		}
	}
	for _, nowhere := range []struct {
		angle abeam.Degrees
		share float64
	}{{90, 0.25}, {-90, 0.3}, {abeam.Degrees(math.NaN()), 0}, {abeam.Degrees(math.Inf(1)), 0}, {0, -1}, {0, math.NaN()}, {0, 2}} {
		if in, x, n := o.Map.At(nowhere.angle, nowhere.share); in != 0 || x != 0 || n != 0 {
			t.Errorf("%+v: %v, %v, %d", nowhere, in, x, n)
		}
	}
}

// The grids are what their documentation says.
func TestGrids(t *testing.T) {
	for _, tc := range []struct {
		grid  Grid
		cells int
		least abeam.Knots
		most  abeam.Knots
	}{
		// 24 airspeeds and 3 legs; ICAO's rate differs from the FAA's where 25 degrees is less
		// than 3 deg/s takes, from 170 kt (169.8, which ICAO Doc 8168 Vol II rounds) to 300.
		{WideGrid(), (24 + 14) * 3 * 25 * 36, 70, 300},
		{LightGrid(60), 7 * 25 * 36, 90, 120},
		{LightGrid(30), 7 * 13 * 36, 90, 120},
		{JetGrid(30), 6 * 13 * 36, 200, 400},
		{LightGrid(0), 7 * 36, 90, 120},
	} {
		if tc.grid.Len() != tc.cells {
			t.Errorf("%s: %d cells, want %d", tc.grid.Name, tc.grid.Len(), tc.cells)
		}
		if err := tc.grid.validate("test"); err != nil {
			t.Error(err)
		}
		for _, c := range tc.grid.Cases {
			if c.TAS < tc.least || c.TAS > tc.most || !(c.Rate > 0 && c.Rate <= 3) {
				t.Errorf("%s: %+v", tc.grid.Name, c)
			}
		}
	}
	g := LightGrid(60)
	for _, i := range []int{-1, g.Len()} {
		if c, err := g.Cell(i); !errors.Is(err, abeam.ErrInvalid) || c != (Cell{}) {
			t.Errorf("cell %d: %v", i, err)
		}
	}
	// A wind from the holding side comes from the right in a right-hand pattern.
	for _, turn := range []hold.Turn{hold.Right, hold.Left} {
		g := Grid{Cases: []Case{{TAS: 100, Rate: 3, Leg: time.Minute}}, Shares: []float64{0.2}, Angles: []abeam.Degrees{90}, Turn: turn}
		c, err := g.Cell(0)
		if err != nil {
			t.Fatal(err)
		}
		if want := c.Pattern.Inbound().Add(turn.Apply(90)); c.Flight.Wind.From != want || math.Abs(float64(c.Flight.Wind.Speed)-20) > 1e-12 {
			t.Errorf("%v turns: %+v", turn, c.Flight.Wind)
		}
	}
}
