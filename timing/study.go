package timing

import (
	"context"
	"errors"
	"runtime"
	"sync"
	"sync/atomic"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// Study measures strategies over a grid: every one is flown for the same number of laps in
// every cell, with the same errors.
type Study struct {
	Grid       Grid
	Strategies []Strategy
	Laps       int   // 1 to MaxLaps
	Start      Start // of the outbound clock
	Intercept  Intercept
	Scatter    Scatter
	Seed       uint64 // of the errors; each cell has its own from it
	Workers    int    // 0: as many as there are processors to use
	// Progress, if any, is told now and then how many of the cells are done. It is called
	// by one goroutine at a time.
	Progress func(done, total int)
}

// Results are the outcomes of a study, in the order of its strategies.
type Results struct {
	Grid     string
	Cells    int // of the grid
	LeftOut  int // of them, for want of an outbound leg
	Outcomes []Outcome
}

// chunk is how many cells a worker takes at a time.
const chunk = 64

// Run flies the study. All that is summed is whole numbers, and the errors of a cell depend
// on seed and cell alone: the results do not depend on the number of workers, and are the
// same to the bit on one platform. Memory depends on strategies, laps and workers, not on
// the grid.
//
// A strategy that fails in a cell is counted and the first failure kept in its [Outcome]; the
// run goes on.
//
// Errors: [abeam.ErrInvalid] for an empty grid, no strategies, or a value out of range; the
// error of the context if it ends first. The results are then zero.
func (s Study) Run(ctx context.Context) (Results, error) {
	const op = "timing.Study.Run"
	if err := s.validate(op); err != nil {
		return Results{}, err
	}
	total := s.Grid.Len()
	parts := make([]Results, s.workers(total))
	var next, done atomic.Int64
	var told sync.Mutex
	var wait sync.WaitGroup
	for w := range parts {
		wait.Go(func() {
			part := Results{Outcomes: s.outcomes()} // its own, away from the others' cache lines
			defer func() { parts[w] = part }()
			laps := make([]Lap, 0, s.Laps)
			for ctx.Err() == nil {
				from := int(next.Add(chunk)) - chunk
				if from >= total {
					return
				}
				to := min(total, from+chunk)
				for i := from; i < to; i++ {
					s.cell(i, &part, laps)
				}
				now := done.Add(int64(to - from))
				if s.Progress != nil && told.TryLock() {
					s.Progress(int(now), total)
					told.Unlock()
				}
			}
		})
	}
	wait.Wait()
	if err := ctx.Err(); err != nil {
		return Results{}, err
	}
	if s.Progress != nil {
		s.Progress(total, total)
	}
	all := Results{Grid: s.Grid.Name, Cells: total, Outcomes: s.outcomes()}
	for i := range parts {
		all.LeftOut += parts[i].LeftOut
		for k := range all.Outcomes {
			all.Outcomes[k].merge(&parts[i].Outcomes[k])
		}
	}
	return all, nil
}

// workers is how many share so many pieces of work.
func (s *Study) workers(pieces int) int {
	n := s.Workers
	if n == 0 {
		n = runtime.GOMAXPROCS(0)
	}
	return min(n, pieces)
}

func (s *Study) validate(op string) error {
	if err := s.Grid.validate(op); err != nil {
		return err
	}
	if len(s.Strategies) == 0 {
		return check.Invalid(op, "strategies", len(s.Strategies), "at least one")
	}
	if s.Workers < 0 {
		return check.Invalid(op, "workers", s.Workers, "at least 0")
	}
	first, err := s.Grid.pattern(s.Grid.Cases[0]) // the grid has checked them all
	if err != nil {
		return err
	}
	for i := range s.Strategies {
		t := s.trial(0, &Cell{Pattern: first}, i)
		if err := t.validate(op, s.Laps); err != nil {
			return err
		}
	}
	return nil
}

func (s *Study) outcomes() []Outcome {
	all := make([]Outcome, len(s.Strategies))
	for i := range all {
		all[i] = newOutcome(s.Strategies[i].Name, s.Laps)
	}
	return all
}

func (s *Study) trial(number int, c *Cell, strategy int) Trial {
	return Trial{
		Pattern: c.Pattern, Flight: c.Flight, Strategy: s.Strategies[strategy], Start: s.Start, Intercept: s.Intercept,
		Scatter: s.Scatter, Seed: mix(s.Seed, uint64(number)),
	}
}

// cell flies all strategies in one cell.
func (s *Study) cell(number int, into *Results, laps []Lap) {
	c, err := s.Grid.Cell(number)
	if errors.Is(err, abeam.ErrUnflyable) {
		into.LeftOut++
		return
	}
	for i := range into.Outcomes {
		flown, err := s.trial(number, &c, i).AppendLaps(laps, s.Laps)
		into.Outcomes[i].add(number, &c, flown, err)
	}
}

// mix makes the seed of a cell: a step of SplitMix64, so that neighbours have nothing in
// common.
//
// Source: Steele, Lea and Flood, Fast splittable pseudorandom number generators, OOPSLA 2014
// (from memory).
func mix(seed, n uint64) uint64 {
	z := seed + (n+1)*0x9e3779b97f4a7c15
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}
