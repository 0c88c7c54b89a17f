// Package oracle solves the holding circuit the general way, by quadrature of the
// ground velocity and root finding, in north and east, with nothing of the closed
// form in it. It is the independent check of that form, and what its speed is compared
// with.
package oracle

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/integrate"
	"gonum.org/v1/gonum/mat"
)

// Hold is a problem: degrees, knots, deg/s, seconds.
type Hold struct {
	Course, TAS, Rate   float64
	WindFrom, WindSpeed float64
	Inbound             float64
	Left                bool
}

// Answer is what closes it.
type Answer struct {
	InboundHeading float64 // degrees, not reduced
	Turn           float64 // angle of the outbound turn
	Straight       float64 // s
}

// OutboundHeading is the compass heading after the outbound turn, not reduced.
func (h Hold) OutboundHeading(a Answer) float64 { return a.InboundHeading + h.side()*a.Turn }

func (h Hold) side() float64 {
	if h.Left {
		return -1
	}
	return 1
}

// intervals of the quadrature for each leg; Simpson's rule over half a turn errs by
// (pi/intervals)^4 pi/180, here 4e-10 of the radius.
const intervals = 256

// displacement integrates the ground velocity over a piece of constant rate of turn.
func (h Hold) displacement(heading, rate, duration float64) (north, east float64) {
	var all [3][intervals + 1]float64
	n := intervals
	if rate == 0 {
		n = 2 // a constant
	}
	share, vn, ve := all[0][:n+1], all[1][:n+1], all[2][:n+1]
	wind := h.WindFrom * math.Pi / 180
	for i := range share {
		share[i] = float64(i) / float64(n)
		psi := (heading + rate*duration*share[i]) * math.Pi / 180
		vn[i] = (h.TAS*math.Cos(psi) - h.WindSpeed*math.Cos(wind)) / 3600
		ve[i] = (h.TAS*math.Sin(psi) - h.WindSpeed*math.Sin(wind)) / 3600
	}
	// Over shares of the duration, which root finding may take through zero.
	return duration * integrate.Simpsons(share, vn), duration * integrate.Simpsons(share, ve)
}

// Piece is a leg of the circuit: where it starts, its heading there, rate of turn
// and duration.
type Piece struct {
	North, East, Heading, Rate, Duration float64
}

// Pieces lays the four legs end to end from the fix.
func (h Hold) Pieces(a Answer) [4]Piece {
	rate := h.side() * h.Rate
	out := h.OutboundHeading(a)
	p := [4]Piece{
		{Heading: a.InboundHeading, Rate: rate, Duration: a.Turn / h.Rate},
		{Heading: out, Duration: a.Straight},
		{Heading: out, Rate: rate, Duration: (360 - a.Turn) / h.Rate},
		{Heading: a.InboundHeading, Duration: h.Inbound},
	}
	for i := 1; i < len(p); i++ {
		dn, de := h.displacement(p[i-1].Heading, p[i-1].Rate, p[i-1].Duration)
		p[i].North, p[i].East = p[i-1].North+dn, p[i-1].East+de
	}
	return p
}

// At is the place t seconds into a piece.
func (h Hold) At(p Piece, t float64) (north, east float64) {
	dn, de := h.displacement(p.Heading, p.Rate, t)
	return p.North + dn, p.East + de
}

// miss is how far from the fix the circuit ends.
func (h Hold) miss(a Answer) (north, east float64) {
	p := h.Pieces(a)
	return h.At(p[3], h.Inbound)
}

// ErrNoConvergence reports that Newton's method found no circuit.
var ErrNoConvergence = errors.New("oracle: no convergence")

// Solve finds the inbound heading by Newton's method on the across-course velocity,
// then the angle of the outbound turn and the outbound time by Newton's method with
// a difference Jacobian on the miss at the end. The wind is brought up from calm in
// steps of a twentieth of the airspeed, each from the answer before: from still air a
// strong wind is too far away for Newton's method.
func (h Hold) Solve() (Answer, error) {
	a := Answer{InboundHeading: h.Course, Turn: 180, Straight: h.Inbound}
	steps := math.Ceil(20*h.WindSpeed/h.TAS) + 1
	for i := 1.0; i <= steps; i++ {
		partial := h
		partial.WindSpeed = h.WindSpeed * (i / steps)
		var err error
		if a, err = partial.newton(a); err != nil {
			return Answer{}, err
		}
	}
	return a, nil
}

func (h Hold) newton(a Answer) (Answer, error) {
	var err error
	if a.InboundHeading, err = h.crab(a.InboundHeading); err != nil {
		return Answer{}, err
	}
	for range 30 {
		n, e := h.miss(a)
		const d = 1e-3
		jac := mat.NewDense(2, 2, nil)
		for col, shift := range []Answer{{Turn: d}, {Straight: d}} {
			up, down := a, a
			up.Turn, down.Turn = a.Turn+shift.Turn, a.Turn-shift.Turn
			up.Straight, down.Straight = a.Straight+shift.Straight, a.Straight-shift.Straight
			un, ue := h.miss(up)
			dn, de := h.miss(down)
			jac.Set(0, col, (un-dn)/(2*d))
			jac.Set(1, col, (ue-de)/(2*d))
		}
		var step mat.VecDense
		if err := step.SolveVec(jac, mat.NewVecDense(2, []float64{n, e})); err != nil {
			return Answer{}, err
		}
		a.Turn -= step.AtVec(0)
		a.Straight -= step.AtVec(1)
		if math.Abs(step.AtVec(0)) < 1e-9 && math.Abs(step.AtVec(1)) < 1e-9 {
			return a, nil
		}
	}
	return Answer{}, ErrNoConvergence
}
