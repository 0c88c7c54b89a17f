package tolerance

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/wind"
)

// WindEstimate is the wind that a flight was flown in, with the TAS, as the groundspeed
// over the track shows them through the turns. What is stated for the uncertainty holds
// in 95 of 100 cases, as far as the errors of the log are random.
type WindEstimate struct {
	Wind wind.Wind // from true north
	TAS  abeam.Knots
	// The half widths of the 95 % intervals, each for itself. The direction of a wind that
	// may be calm is anything: 180.
	SpeedError     abeam.Knots
	DirectionError abeam.Degrees
	TASError       abeam.Knots
	Samples        int
	// Independent is how many samples count, after what neighbours have in common.
	Independent float64
	// RMS is the root mean square of the residuals: how far the flight departs from one
	// wind and one TAS.
	RMS abeam.Knots

	east, north float64 // where the wind goes
	cov         [3]float64
}

// fitted is how many samples at most are fitted, spread evenly: beyond it they add
// nothing but time.
const fitted = 4000

// EstimateWind fits wind and TAS to the velocities over the ground between two times.
// In a turn at one TAS these lie on a circle: its centre is where the wind goes, its
// radius the TAS. The fit is that of least squares of the distances from the circle,
//
//	sum (|v - w| - V)^2 -> min
//
// by Gauss and Newton from the algebraic fit. The covariance is s^2 (J'J)^-1, s^2 from
// the residuals, widened by what neighbouring residuals have in common; quantiles are
// those of F and t.
//
// Heading and airspeed are not used, so that an instrument's error does not enter.
//
// Magnetic tracks cross to true by the variation.
//
// Errors: [abeam.ErrInvalid] for a log of fewer than 10 samples in between, tracks that
// span less than 120 degrees, or a variation outside -180 to 180; [abeam.ErrNoConvergence]
// if the fit finds no end; [abeam.ErrUnflyable] for a wind that comes out stronger than the
// TAS.
func EstimateWind(l Log, during Span, variation abeam.Variation) (WindEstimate, error) {
	const op = "tolerance.EstimateWind"
	if err := l.validate(op); err != nil {
		return WindEstimate{}, err
	}
	if err := check.Within(op, "variation", variation, -180, 180); err != nil {
		return WindEstimate{}, err
	}
	m := &motion{log: &l, magVar: variation, has: l.Has()}
	var first, last int
	for first = 0; first < len(l.Samples) && l.Samples[first].Time < during.From; first++ {
	}
	for last = first; last < len(l.Samples) && l.Samples[last].Time <= during.To; last++ {
	}
	stride := max(1, (last-first+fitted-1)/fitted)
	var e, n []float64
	for i := first; i < last; i += stride {
		if ve, vn, ok := m.velocity(i); ok && math.Hypot(ve, vn) > 1 {
			e, n = append(e, ve), append(n, vn)
		}
	}
	if len(e) < 10 {
		return WindEstimate{}, check.Invalid(op, "samples", len(e), "at least 10 that move")
	}
	if s := spanned(e, n); s < 120 {
		return WindEstimate{}, check.Invalid(op, "tracks", abeam.Degrees(s), "spread over 120 degrees or more")
	}
	return fitCircle(op, e, n)
}

// spanned is the angle that the directions take up: a circle less the widest gap of 10
// degrees of them.
func spanned(e, n []float64) float64 {
	var seen [36]bool
	for i := range e {
		seen[int(float64(abeam.NewBearing(angle.Atan2(e[i], n[i])))/10)%36] = true
	}
	widest, run := 0, 0
	for i := range 72 {
		if run++; seen[i%36] {
			run = 0
		}
		widest = max(widest, min(run, 36))
	}
	return float64(36-widest) * 10
}

// normal are the normal equations of a linear least-squares problem in three unknowns.
// Directions that span 120 degrees keep their condition below 1,000, so that squaring it
// costs a few digits of sixteen, where the orthogonal way costs memory by the square of
// the samples.
type normal struct {
	a *mat.SymDense
	b *mat.VecDense
}

func newNormal() normal { return normal{mat.NewSymDense(3, nil), mat.NewVecDense(3, nil)} }

// add takes one equation: row . x = y.
func (n normal) add(row [3]float64, y float64) {
	for i, x := range row {
		for k := i; k < 3; k++ {
			n.a.SetSym(i, k, n.a.At(i, k)+x*row[k])
		}
		n.b.SetVec(i, n.b.AtVec(i)+x*y)
	}
}

func (n normal) solve() (x [3]float64, chol mat.Cholesky, ok bool) {
	var v mat.VecDense
	if !chol.Factorize(n.a) || chol.SolveVecTo(&v, n.b) != nil {
		return x, chol, false
	}
	return [3]float64{v.AtVec(0), v.AtVec(1), v.AtVec(2)}, chol, true
}

// algebraic is the circle of the linear fit, v.v = 2 w.v + (V^2 - w.w): exact where all lie
// on one, and near enough otherwise to begin at.
func algebraic(e, n []float64) (we, wn, v float64, ok bool) {
	sum := newNormal()
	for i := range e {
		sum.add([3]float64{2 * e[i], 2 * n[i], 1}, e[i]*e[i]+n[i]*n[i])
	}
	x, _, ok := sum.solve()
	return x[0], x[1], math.Sqrt(x[2] + x[0]*x[0] + x[1]*x[1]), ok
}

// fitCircle works in units of the mean speed, so that all columns are of one size.
func fitCircle(op string, e, n []float64) (WindEstimate, error) {
	count := len(e)
	failed := func() (WindEstimate, error) {
		return WindEstimate{}, check.NoConvergence(op, "velocities", count, "on a circle")
	}
	unit := 0.0
	for i := range e {
		unit += math.Hypot(e[i], n[i]) / float64(count)
	}
	for i := range e {
		e[i], n[i] = e[i]/unit, n[i]/unit
	}
	we, wn, v, ok := algebraic(e, n)
	if !ok {
		return failed()
	}
	residuals := make([]float64, count)
	for range 30 {
		if !(v > 0 && v < 1e6) {
			return failed()
		}
		step := newNormal()
		for i := range e {
			de, dn := e[i]-we, n[i]-wn
			d := math.Max(math.Hypot(de, dn), 1e-9)
			residuals[i] = d - v
			step.add([3]float64{de / d, dn / d, 1}, d-v)
		}
		x, chol, ok := step.solve()
		if !ok {
			return failed()
		}
		we, wn, v = we+x[0], wn+x[1], v+x[2]
		if max(math.Abs(x[0]), math.Abs(x[1]), math.Abs(x[2])) < 1e-10 {
			return stateWind(op, we, wn, v, unit, chol, residuals)
		}
	}
	return failed()
}

// stateWind puts the answer with its uncertainty, back in knots.
func stateWind(op string, we, wn, v, unit float64, chol mat.Cholesky, residuals []float64) (WindEstimate, error) {
	count := len(residuals)
	var inv mat.SymDense
	if chol.InverseTo(&inv) != nil {
		return WindEstimate{}, check.NoConvergence(op, "tracks", count, "spread enough to tell wind from airspeed")
	}
	we, wn, v = we*unit, wn*unit, v*unit
	ss := 0.0
	for _, r := range residuals {
		ss += r * r * unit * unit
	}
	// Six are left at least: where the flight departs in its own way from one wind and one
	// TAS, the size of the residuals says more than their kinship.
	independent := max(6, float64(count)/inCommon(residuals))
	s2 := ss / float64(count-3) * float64(count) / independent
	est := WindEstimate{
		TAS: abeam.Knots(v), Samples: count, Independent: independent, RMS: abeam.Knots(math.Sqrt(ss / float64(count))),
		east: we, north: wn, cov: [3]float64{s2 * inv.At(0, 0), s2 * inv.At(0, 1), s2 * inv.At(1, 1)},
	}
	speed := math.Hypot(we, wn)
	if !(speed < v && v <= float64(wind.MaxTAS) && speed <= float64(wind.MaxSpeed)) {
		return WindEstimate{}, check.Unflyable(op, "wind speed", abeam.Knots(speed), "below the TAS of "+abeam.Knots(v).String())
	}
	est.Wind = wind.Wind{From: abeam.NewBearing(angle.Atan2(we, wn)).Reciprocal(), Speed: abeam.Knots(speed)}
	t := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: independent - 3}.Quantile(0.975)
	est.TASError = abeam.Knots(t * math.Sqrt(s2*inv.At(2, 2)))
	est.SpeedError, est.DirectionError = est.errors(t, speed)
	return est, nil
}

// errors are the half widths for speed and direction, from the covariance turned into
// along and across the wind.
func (w *WindEstimate) errors(t, speed float64) (abeam.Knots, abeam.Degrees) {
	if speed < 1e-9 {
		return abeam.Knots(t * math.Sqrt(max(w.cov[0], w.cov[2]))), 180
	}
	ue, un := w.east/speed, w.north/speed
	along := t * math.Sqrt(max(0, ue*ue*w.cov[0]+2*ue*un*w.cov[1]+un*un*w.cov[2]))
	across := t * math.Sqrt(max(0, un*un*w.cov[0]-2*ue*un*w.cov[1]+ue*ue*w.cov[2]))
	if across >= speed {
		return abeam.Knots(along), 180
	}
	return abeam.Knots(along), abeam.Degrees(angle.Asin(across / speed))
}

// Covers reports whether a wind lies within the 95 % region of the estimate, an ellipse
// around it: the quantile of F with 2 and n - 3 degrees of freedom.
func (w WindEstimate) Covers(other wind.Wind) bool {
	s, c := angle.Sincos(float64(other.From))
	de, dn := -float64(other.Speed)*s-w.east, -float64(other.Speed)*c-w.north
	det := w.cov[0]*w.cov[2] - w.cov[1]*w.cov[1]
	distance := (de*de*w.cov[2] - 2*de*dn*w.cov[1] + dn*dn*w.cov[0]) / det
	// For 2 degrees of freedom the quantile is a power: 2F = nu (0.05^(-2/nu) - 1).
	nu := w.Independent - 3
	return distance <= nu*(math.Pow(0.05, -2/nu)-1)
}

// inCommon is by how much the neighbourhood of residuals lessens their number: 1 plus
// twice the sum of their correlations, up to the first lag at which there is none. What
// chance makes of independent figures errs to the safe side, by some hundredths.
func inCommon(r []float64) float64 {
	zero := 0.0
	for _, x := range r {
		zero += x * x
	}
	if zero == 0 {
		return 1
	}
	sum := 1.0
	for lag := 1; lag < len(r)/4; lag++ {
		c := 0.0
		for i := lag; i < len(r); i++ {
			c += r[i] * r[i-lag]
		}
		if c <= 0 {
			break
		}
		sum += 2 * c / zero
	}
	return sum
}

// In is the estimate's wind in another north.
func (w WindEstimate) In(variation abeam.Variation) wind.Wind {
	return wind.Wind{From: variation.Magnetic(w.Wind.From), Speed: w.Wind.Speed}
}

// All is a span that every log lies within.
func All() Span { return Span{0, math.MaxInt64} }
