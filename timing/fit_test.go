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

// Losses of laps with known errors, worked by hand: means over the laps asked for, of sizes, no
// lap above a minute; where there is no such lap there is nothing to lose.
func TestLossesByHand(t *testing.T) {
	var laps []Lap
	for _, l := range []struct {
		error   time.Duration
		abreast abeam.NM
		tas     abeam.Knots
	}{{10 * time.Second, 0.5, 90}, {20 * time.Second, -1, 120}, {-40 * time.Second, 0, 90}, {100 * time.Second, -3, 90}} {
		laps = append(laps, Lap{Error: l.error, RollOut: hold.Point{Abreast: l.abreast}, tas: l.tas})
	}
	for _, tc := range []struct {
		first, last     int
		inbound, across float64
	}{
		{1, 1, 10, 20}, // half a mile at 90 kt takes 20 s
		{2, 2, 20, 30},
		{2, 3, 30, 15},
		{3, 4, 50, 30}, // 100 s and 120 s count as 60
		{1, 4, 32.5, 27.5},
		{1, 9, 32.5, 27.5},
		{0, 1, 10, 20},
		{5, 6, 0, 0},
	} {
		if in, x := InboundLoss(tc.first, tc.last)(laps), AcrossLoss(tc.first, tc.last)(laps); math.Abs(in-tc.inbound) > 1e-9 || math.Abs(x-tc.across) > 1e-9 {
			t.Errorf("laps %d to %d: %v and %v, want %v and %v", tc.first, tc.last, in, x, tc.inbound, tc.across)
		}
	}
}

// The cells fitted to and those held out are parts of the grid without overlap, in the share
// asked for, drawn by the seed.
func TestHeldOutCells(t *testing.T) {
	s := study(Exact())
	cells := func(s Study, share float64, heldOut bool) int {
		score, err := s.Score(context.Background(), Exact(), InboundLoss(1, 1), share, heldOut)
		if err != nil {
			t.Fatal(err)
		}
		return score.Cells
	}
	r, err := s.Run(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	for _, share := range []float64{0.05, 0.3, 0.9} {
		out, in := cells(s, share, true), cells(s, share, false)
		n := float64(r.Cells - r.LeftOut)
		// Four standard deviations of as many draws.
		if float64(out+in) != n || math.Abs(float64(out)-share*n) > 4*math.Sqrt(share*(1-share)*n) {
			t.Errorf("share %v: %d held out and %d fitted of %v", share, out, in, n)
		}
	}
	differ := 0
	other := s
	other.Seed++
	for i := range 1000 {
		if s.heldOut(i, 0.5) != other.heldOut(i, 0.5) {
			differ++
		}
	}
	if math.Abs(float64(differ)-500) > 4*math.Sqrt(250) { // of 1,000 tosses of a coin
		t.Errorf("another seed holds out others in %d of 1000", differ)
	}
}

// A failed trial counts a minute, as the worst lap does.
func TestFailedTrialsCountAMinute(t *testing.T) {
	s := study(Exact())
	failing := Strategy{Name: "fails", Next: func(Seen) Plan { return Plan{Outbound: -1} }}
	score, err := s.Score(context.Background(), failing, InboundLoss(1, 1), 0.3, false)
	if err != nil || score.Loss != 60 || score.Cells == 0 {
		t.Errorf("%+v, %v", score, err)
	}
}

// A score is of one strategy over a part of the study's grid: what is wrong with either is
// named.
func TestScoreErrors(t *testing.T) {
	for name, tc := range map[string]struct {
		change   func(*Study)
		strategy Strategy
		loss     Loss
		field    string
	}{
		"no loss":     {func(*Study) {}, Exact(), nil, "loss"},
		"no strategy": {func(*Study) {}, Strategy{}, InboundLoss(1, 1), "strategy"},
		"no laps":     {func(s *Study) { s.Laps = 0 }, Exact(), InboundLoss(1, 1), "laps"},
		"no grid":     {func(s *Study) { s.Grid = Grid{} }, Exact(), InboundLoss(1, 1), "grid"},
		"workers":     {func(s *Study) { s.Workers = -1 }, Exact(), InboundLoss(1, 1), "workers"},
		"no finite":   {func(*Study) {}, Exact(), func([]Lap) float64 { return math.Inf(1) }, "loss"},
	} {
		s := study(Exact())
		tc.change(&s)
		score, err := s.Score(context.Background(), tc.strategy, tc.loss, 0.3, true)
		var e *abeam.FieldError
		if !errors.As(err, &e) || !errors.Is(err, abeam.ErrInvalid) || e.Op != "timing.Study.Score" || e.Field != tc.field || score != (Score{}) {
			t.Errorf("%s: %v, %v", name, score, err)
		}
	}
	if _, err := study(Exact()).Fit(context.Background(), GainFamily(ThreeTimes()), InboundLoss(1, 1), 0.04); !errors.Is(err, abeam.ErrInvalid) {
		t.Error(err)
	}
}
