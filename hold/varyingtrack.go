package hold

import (
	"iter"
	"time"

	"github.com/holdingfix/abeam/internal/check"
)

// varyingTrack is what it takes to fly a varying circuit again.
type varyingTrack struct {
	pattern Pattern
	varying Varying
	times   [3]float64
	inbound float64
}

// Track gives the circuit as moments at 0, step, 2 step and so on from over the fix, with
// the phase of each, and the end of the lap exactly once as the last. The sequence can be
// ranged over again.
//
// Errors: [abeam.ErrInvalid] for a step below [MinStep] or a zero VaryingCircuit.
func (c VaryingCircuit) Track(step time.Duration) (iter.Seq2[Phase, Moment], error) {
	const op = "hold.VaryingCircuit.Track"
	if step < MinStep {
		return nil, check.Invalid(op, "step", step, "at least "+MinStep.String())
	}
	if c.Lap <= 0 {
		return nil, check.Invalid(op, "circuit", "zero", "one that VaryingCircuit gave")
	}
	return func(yield func(Phase, Moment) bool) {
		q := c.lap.again()
		walk := varyingWalk{q: q, p: &c.lap.pattern, m: q.pieces[0].start}
		for at := time.Duration(0); at < c.Lap; at += step {
			if !yield(walk.to(at)) {
				return
			}
		}
		yield(InboundLeg, c.End)
	}, nil
}

// again lays the lap anew.
func (t *varyingTrack) again() *varyingLap {
	q := newVaryingLap(&t.pattern, &t.varying, 1, nil, nil)
	q.flyHome(&t.times)
	return &q
}

// varyingWalk follows a lap forward in time.
type varyingWalk struct {
	q *varyingLap
	p *Pattern
	i int // the piece
	t float64
	m motion
}

// to flies on to a time since over the fix.
func (w *varyingWalk) to(at time.Duration) (Phase, Moment) {
	t := at.Seconds()
	for w.i < w.q.n && t >= w.q.pieces[w.i].t1 {
		if w.i++; w.i < w.q.n {
			w.t, w.m = w.q.pieces[w.i].t0, w.q.pieces[w.i].start
		} else {
			w.t, w.m = w.q.level.t, w.q.level.m
		}
	}
	phase := InboundLeg
	if w.i < w.q.n {
		piece := &w.q.pieces[w.i]
		phase = piece.phase
		w.q.advance(piece, &w.m, w.t, t)
	} else {
		w.q.alongside(&w.m, w.t, t)
	}
	w.t = t
	return phase, w.q.moment(w.p, at, corner{t, w.m})
}
