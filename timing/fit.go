package timing

import (
	"context"
	"errors"
	"fmt"
	"math"
	"sync"
	"sync/atomic"
	"time"

	"gonum.org/v1/gonum/optimize"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// Family is a rule with numbers left open, for [Study.Fit] to find.
type Family struct {
	Name       string
	Parameters []string  // what the numbers are
	Start      []float64 // where the search begins: the published values, say
	Make       func(parameters []float64) Strategy
}

// Loss is what a fit makes small: the badness of a trial, 0 for a perfect one.
type Loss func(laps []Lap) float64

// InboundLoss is the mean size of the inbound error over the laps first to last, counted from
// 1, in seconds; no lap counts more than a minute, so that winds in which every rule fails do
// not decide.
func InboundLoss(first, last int) Loss {
	return func(laps []Lap) float64 {
		return meanOver(laps, first, last, func(l *Lap) float64 { return min(60, l.Error.Abs().Seconds()) })
	}
}

// AcrossLoss is the mean size of the error across the course at roll-out over the laps first
// to last, counted from 1, as the time in seconds that it takes at the groundspeed of still
// air: radii differ, so miles would let the fastest decide. No lap counts more than a minute.
func AcrossLoss(first, last int) Loss {
	return func(laps []Lap) float64 {
		return meanOver(laps, first, last, func(l *Lap) float64 { return min(60, l.across()) })
	}
}

func meanOver(laps []Lap, first, last int, of func(*Lap) float64) float64 {
	sum, n := 0.0, 0
	for i := max(0, first-1); i < min(last, len(laps)); i++ {
		sum += of(&laps[i])
		n++
	}
	return sum / float64(max(1, n))
}

// Fit is what was found.
type Fit struct {
	Family     string
	Parameters []float64
	Fitted     Score // on the part of the grid that was fitted to
	HeldOut    Score // on the part that the search never saw
}

// Score is a mean loss over a part of a grid.
type Score struct {
	Loss  float64
	Cells int
}

// failedLoss is the loss of a trial that a strategy failed in: a minute, the most any loss of
// this package gives.
const failedLoss = 60

// evaluations bounds a search.
const evaluations = 400

// Fit finds the numbers of a family that make the mean loss over the grid smallest, by the
// simplex method of Nelder and Mead, on a part of the cells; heldOut, from 0.05 to 0.9, is the
// share kept out of the search. Which cells those are is drawn from the seed of the study.
// The strategies of the study are not used.
//
// Errors: [abeam.ErrInvalid] as for [Study.Run], for a share out of range, a family without
// numbers or without Make, or a loss that is not finite or panics; [abeam.ErrNoConvergence] if the
// search finds no minimum; the error of the context if it ends first.
func (s Study) Fit(ctx context.Context, f Family, loss Loss, heldOut float64) (fit Fit, err error) {
	const op = "timing.Study.Fit"
	defer func() {
		if err != nil {
			fit = Fit{}
		}
	}()
	defer recovered(op, &err)
	if len(f.Start) == 0 || f.Make == nil || loss == nil {
		return Fit{}, check.Invalid(op, "family", f.Name, "one with numbers to start from, a Make and a loss")
	}
	if err := check.Within(op, "share held out", heldOut, 0.05, 0.9); err != nil {
		return Fit{}, err
	}
	s.Strategies = []Strategy{f.Make(f.Start)}
	if err := s.validate(op); err != nil {
		return Fit{}, err
	}
	p := optimize.Problem{Func: func(x []float64) float64 {
		score, err := s.score(ctx, f.Make(x), loss, heldOut, false)
		if err != nil {
			return math.Inf(1)
		}
		return score.Loss
	}}
	settings := &optimize.Settings{
		FuncEvaluations: evaluations,
		Converger:       &optimize.FunctionConverge{Absolute: 1e-4, Iterations: 20},
	}
	found, err := optimize.Minimize(p, f.Start, settings, &optimize.NelderMead{})
	if ctx.Err() != nil {
		return Fit{}, ctx.Err()
	}
	if err != nil || found == nil || math.IsInf(found.F, 0) || math.IsNaN(found.F) {
		return Fit{}, check.NoConvergence(op, "family", f.Name, "one whose loss has a minimum")
	}
	fit = Fit{Family: f.Name, Parameters: found.X}
	best := f.Make(found.X)
	if fit.Fitted, err = s.score(ctx, best, loss, heldOut, false); err != nil {
		return Fit{}, err
	}
	if fit.HeldOut, err = s.score(ctx, best, loss, heldOut, true); err != nil {
		return Fit{}, err
	}
	return fit, nil
}

// Score gives the mean loss of a strategy on the part of the grid that [Study.Fit] with the
// same seed and share fits to, or on the part that it holds out.
//
// Errors: as for Fit.
func (s Study) Score(ctx context.Context, strategy Strategy, loss Loss, share float64, heldOut bool) (Score, error) {
	const op = "timing.Study.Score"
	if err := check.Within(op, "share held out", share, 0.05, 0.9); err != nil {
		return Score{}, err
	}
	if loss == nil {
		return Score{}, check.Invalid(op, "loss", "none", "given")
	}
	s.Strategies = []Strategy{strategy}
	if err := s.validate(op); err != nil {
		return Score{}, err
	}
	return s.score(ctx, strategy, loss, share, heldOut)
}

// strips is into how many parts a grid is cut for a score: each is summed by itself and the
// sums are added in order, so that the rounding does not depend on the number of workers.
const strips = 128

func (s *Study) score(ctx context.Context, strategy Strategy, loss Loss, share float64, heldOut bool) (Score, error) {
	var sums [strips]float64
	var cells [strips]int
	var errs [strips]error
	var next atomic.Int64
	var wait sync.WaitGroup
	for range s.workers(strips) {
		wait.Go(func() {
			laps := make([]Lap, 0, s.Laps)
			for k := int(next.Add(1)) - 1; k < strips && ctx.Err() == nil; k = int(next.Add(1)) - 1 {
				sums[k], cells[k], errs[k] = s.scoreStrip(k, laps, strategy, loss, share, heldOut)
			}
		})
	}
	wait.Wait()
	if err := errors.Join(ctx.Err(), errors.Join(errs[:]...)); err != nil {
		return Score{}, err
	}
	var score Score
	sum := 0.0
	for k := range sums {
		sum += sums[k]
		score.Cells += cells[k]
	}
	if score.Loss = sum / float64(max(1, score.Cells)); math.IsNaN(score.Loss) || math.IsInf(score.Loss, 0) {
		return Score{}, check.Invalid("timing.Study.Score", "loss", score.Loss, "finite")
	}
	return score, nil
}

func (s *Study) scoreStrip(k int, laps []Lap, strategy Strategy, loss Loss, share float64, heldOut bool) (sum float64, cells int, err error) {
	defer recovered("timing.Study.Score", &err)
	total := s.Grid.Len()
	for i := k * total / strips; i < (k+1)*total/strips; i++ {
		if s.heldOut(i, share) != heldOut {
			continue
		}
		c, err := s.Grid.Cell(i)
		if errors.Is(err, abeam.ErrUnflyable) {
			continue
		}
		t := s.trial(i, &c, 0)
		t.Strategy = strategy
		flown, err := t.AppendLaps(laps, s.Laps)
		if err != nil {
			sum += failedLoss
		} else {
			sum += loss(flown)
		}
		cells++
	}
	return sum, cells, nil
}

// recovered turns a panic of the caller's loss or family, which are his code, into an error.
func recovered(op string, err *error) {
	if r := recover(); r != nil {
		*err = check.Invalid(op, "loss or family", fmt.Sprintf("a panic: %v", r), "ones that do not panic")
	}
}

// heldOut draws whether a cell is kept out of the search.
func (s *Study) heldOut(cell int, share float64) bool {
	return float64(mix(^s.Seed, uint64(cell))>>11)/(1<<53) < share
}

// across is the across-course error as the time to cover it at the true airspeed.
func (l *Lap) across() float64 {
	return math.Abs(float64(l.RollOut.Abreast)) / float64(l.tas) * time.Hour.Seconds()
}
