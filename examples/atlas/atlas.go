package main

import (
	"context"
	"errors"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/timing"
)

// atlas is everything that was measured.
type atlas struct {
	study  timing.Study
	grid   timing.Grid // of wide
	wide   timing.Results
	sets   []timing.Results // light aircraft and jets, in any wind and in usual ones
	fits   []fitted
	took   time.Duration
	flown  uint64 // laps
	failed []error
}

// fitted is a rule found by fitting, beside what it is compared with on the cells that the
// fit never saw.
type fitted struct {
	grid, what string
	names      []string
	fit        timing.Fit
	against    []compared
}

type compared struct {
	name  string
	score timing.Score
}

// heldOut is the share of a grid that a fit does not see.
const heldOut = 0.3

func newAtlas(ctx context.Context, study timing.Study, coarse bool, bar *bar) (*atlas, error) {
	start := time.Now()
	a := &atlas{study: study}
	thin := func(g timing.Grid) timing.Grid {
		if coarse {
			g.Cases, g.Shares, g.Angles = every(g.Cases, 7), every(g.Shares, 4), every(g.Angles, 3)
		}
		return g
	}
	measure := func(g timing.Grid) (timing.Results, error) {
		s := study
		s.Grid, s.Progress = g, bar.show
		bar.part = g.Name
		r, err := s.Run(ctx)
		for _, o := range r.Outcomes {
			for _, l := range o.Laps {
				a.flown += l.Inbound.N()
			}
			if o.Failure != nil {
				a.failed = append(a.failed, o.Failure)
			}
		}
		return r, err
	}
	var err error
	a.grid = thin(timing.WideGrid())
	if a.wide, err = measure(a.grid); err != nil {
		return nil, err
	}
	for _, g := range []timing.Grid{timing.LightGrid(60), timing.LightGrid(30), timing.JetGrid(60), timing.JetGrid(30)} {
		r, err := measure(thin(g))
		if err != nil {
			return nil, err
		}
		a.sets = append(a.sets, r)
	}
	if err := a.fit(ctx, thin, bar); err != nil {
		return nil, err
	}
	a.took = time.Since(start)
	return a, nil
}

// fit finds the numbers of the simple rules anew and holds them against the published ones.
func (a *atlas) fit(ctx context.Context, thin func(timing.Grid) timing.Grid, bar *bar) error {
	triple := timing.ThreeTimes()
	for _, g := range []timing.Grid{timing.LightGrid(30), timing.JetGrid(30)} {
		s := a.study
		s.Grid, s.Laps = thin(g), 4
		bar.part = "fitting: " + g.Name
		for i, job := range []struct {
			what    string
			family  timing.Family
			loss    timing.Loss
			against []timing.Strategy
		}{
			{
				"inbound error, laps 2 to 4, s", timing.GainFamily(triple), timing.InboundLoss(2, 4),
				[]timing.Strategy{timing.Compose("", timing.ByHalf(), triple), timing.Compose("", timing.ByFull(), triple)},
			},
			{
				"inbound error, laps 2 to 4, s", timing.LopsidedFamily(triple), timing.InboundLoss(2, 4),
				[]timing.Strategy{timing.Compose("", timing.Lopsided(), triple), timing.Compose("", timing.ByHalf(), triple), timing.Compose("", timing.ByFull(), triple), timing.Compose("", timing.InProportion(), triple)},
			},
			{
				"inbound error, lap 1, s", timing.TenthsFamily(triple), timing.InboundLoss(1, 1),
				[]timing.Strategy{timing.Compose("", timing.Tenths(), triple), timing.Compose("", timing.BySecondsPerKnot(), triple), timing.Compose("", timing.BySecondsPerKnotPerMinute(), triple)},
			},
			{
				"across the course, laps 1 to 4, s of flight", timing.MultipleFamily(timing.Lopsided()), timing.AcrossLoss(1, 4),
				[]timing.Strategy{timing.Compose("", timing.Lopsided(), triple), timing.Compose("", timing.Lopsided(), timing.DoubleDrift()), timing.Compose("", timing.Lopsided(), timing.ByOutbound())},
			},
		} {
			bar.show(i, 4)
			f, err := s.Fit(ctx, job.family, job.loss, heldOut)
			if errors.Is(err, abeam.ErrNoConvergence) {
				a.failed = append(a.failed, err)
				continue
			}
			if err != nil {
				return err
			}
			one := fitted{grid: g.Name, what: job.what, names: job.family.Parameters, fit: f}
			for _, c := range job.against {
				score, err := s.Score(ctx, c, job.loss, heldOut, true)
				if err != nil {
					return err
				}
				one.against = append(one.against, compared{c.Name, score})
			}
			a.fits = append(a.fits, one)
		}
	}
	return nil
}

// every keeps each nth element, the first among them.
func every[T any](all []T, n int) []T {
	var some []T
	for i := 0; i < len(all); i += n {
		some = append(some, all[i])
	}
	return some
}
