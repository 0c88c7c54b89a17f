package timing

import (
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
)

// Convergence is what a timing rule does to a small error of the inbound time from lap to
// lap, at one outbound heading.
type Convergence struct {
	// Sensitivity is how many seconds the inbound time grows for a second more outbound.
	Sensitivity float64
	// Multiplier is what a lap makes of an error: the next error over the last.
	Multiplier float64
}

// Settles reports whether the error goes to nothing: a multiplier between -1 and 1.
func (c Convergence) Settles() bool { return math.Abs(c.Multiplier) < 1 }

// Oscillates reports whether the error changes its sign from lap to lap: a multiplier below 0.
func (c Convergence) Oscillates() bool { return c.Multiplier < 0 }

// Laps is how many laps bring an error down to a share of itself, 0 < share < 1; false if none
// do.
func (c Convergence) Laps(share float64) (int, bool) {
	if !c.Settles() || !(share > 0 && share < 1) {
		return 0, false
	}
	if c.Multiplier == 0 {
		return 1, true
	}
	laps := math.Log(share) / math.Log(math.Abs(c.Multiplier))
	if laps > math.MaxInt32 {
		return 0, false
	}
	return max(1, int(math.Ceil(laps))), true
}

// Settle derives what a rule of the form next = last - k (inbound - target) does on an
// outbound heading that it does not change, with the inbound heading held to the fix.
//
// Another second outbound moves the whole rest of the lap by the velocity over the ground on
// the outbound heading; the inbound turn then rolls out so much farther along, and the
// inbound leg covers it at its groundspeed. So the inbound time is a straight line in the
// outbound time, of the slope
//
//	s = d inbound/d outbound = -(V cos(out) + w_x)/g
//
// the outbound groundspeed along the course over the inbound one, and the error e of a lap
// becomes
//
//	e' = (1 - k s) e
//
// exactly, however large, as long as the rule is not stopped by an outbound time of 0. It
// settles for 0 < k s < 2, without changing sign up to k s = 1, in one lap at k = 1/s. With
// a wind w straight down the course s is (V + w)/(V - w) in a headwind inbound: the full
// discrepancy (k = 1) settles below V/3, the half discrepancy below 0.6 V.
//
// Errors: [abeam.ErrInvalid] for a pattern or flight out of range, or a heading or k that is
// not finite; [abeam.ErrUnflyable] for a wind as strong as the TAS.
func Settle(p hold.Pattern, f hold.Flight, outbound abeam.Bearing, k float64) (Convergence, error) {
	const op = "timing.Settle"
	if err := check.Finite(op, "gain", k); err != nil {
		return Convergence{}, err
	}
	s, err := sensitivity(op, p, f, outbound)
	if err != nil {
		return Convergence{}, err
	}
	// The product is rounded (float64 forbids to fuse it with the difference), so that a
	// rule on an edge, such as k s = 1, is on it on every machine.
	c := Convergence{Sensitivity: s, Multiplier: 1 - float64(k*s)}
	if math.IsInf(c.Multiplier, 0) {
		return Convergence{}, check.Invalid(op, "gain", k, "small enough for a finite multiplier")
	}
	return c, nil
}

// SettleInProportion is [Settle] for next = last target/inbound, which is not linear: for
// errors so small that the error of a lap is in proportion to the last. At the outbound time
// that gives the target,
//
//	e' = (1 - s outbound/target) e
//
// which is inbound/target with the inbound time that would come of no outbound leg at all.
//
// The outbound time is the one, by the clock, at which the inbound time is the target: 0 to
// [hold.MaxLeg]. Errors as for Settle.
func SettleInProportion(p hold.Pattern, f hold.Flight, outbound abeam.Bearing, steady time.Duration) (Convergence, error) {
	const op = "timing.SettleInProportion"
	if !(steady >= 0 && steady <= hold.MaxLeg) {
		return Convergence{}, check.Invalid(op, "outbound time", steady, "from 0s to "+hold.MaxLeg.String())
	}
	s, err := sensitivity(op, p, f, outbound)
	if err != nil {
		return Convergence{}, err
	}
	target := p.Leg().Inbound()
	if target <= 0 {
		return Convergence{}, check.Invalid(op, "leg", p.Leg(), "timed inbound")
	}
	return Convergence{Sensitivity: s, Multiplier: 1 - s*steady.Seconds()/target.Seconds()}, nil
}

// Sensitivity is how many seconds the inbound time grows for a second more on an outbound
// heading: see [Settle]. It is negative where the wind carries the aeroplane inbound on that
// heading.
//
// Errors: as for Settle.
func Sensitivity(p hold.Pattern, f hold.Flight, outbound abeam.Bearing) (float64, error) {
	return sensitivity("timing.Sensitivity", p, f, outbound)
}

func sensitivity(op string, p hold.Pattern, f hold.Flight, outbound abeam.Bearing) (float64, error) {
	if err := check.Finite(op, "outbound heading", outbound); err != nil {
		return 0, err
	}
	var a air
	if err := a.set(op, p, f, f.Rate, f.Rate); err != nil {
		return 0, err
	}
	_, cos := sincos(float64(outbound - p.Inbound()))
	s := -(float64(a.v*cos) + a.wx) / a.g // rounded, as in Settle
	if math.IsInf(s, 0) {
		return 0, check.Unflyable(op, "wind speed", f.Wind.Speed, "far enough below the TAS of "+f.TAS.String())
	}
	return s, nil
}
