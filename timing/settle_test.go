package timing

import (
	"context"
	"errors"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/wind"
)

// A rule of gain k multiplies the error of every lap by what Settle derives, whatever the
// wind and the heading, as long as it is not stopped at zero.
func TestGainConvergesAsDerived(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, f := drawHold(t, 0.4)
		correction := abeam.Degrees(draw.Uniform(-40, 40).Draw(t, "correction"))
		k := draw.Uniform(-0.5, 2.5).Draw(t, "gain")
		want, err := Settle(p, f, p.Outward().Add(correction), k)
		if err != nil {
			t.Fatal(err)
		}
		constant := DriftRule{Next: func(_ Seen, p Plan) Plan { p.Correction, p.Start = correction, AtTurnComplete; return p }}
		laps, err := Trial{Pattern: p, Flight: f, Start: AtTurnComplete, Strategy: Compose("gain", ByGain(k), constant)}.AppendLaps(nil, 8)
		if err != nil {
			t.Fatal(err)
		}
		for i := 1; i < len(laps); i++ {
			last, next := laps[i-1], laps[i]
			if next.Plan.Outbound == 0 || next.Plan.Outbound == hold.MaxLeg || last.Inbound < 0 || next.Inbound < 0 {
				return // stopped at a limit, or rolled out beyond the fix
			}
			if e := next.Error.Seconds() - want.Multiplier*last.Error.Seconds(); math.Abs(e) > 1e-6*(1+last.Error.Abs().Seconds()) {
				t.Fatalf("lap %d: error %v after %v, derived multiplier %v", i+1, next.Error, last.Error, want.Multiplier)
			}
		}
	})
}

// The words of a Convergence agree with what laps do: a rule that is said to settle settles,
// within the laps it is said to take.
func TestSettlesAsSaid(t *testing.T) {
	p := pattern(t, 0, hold.Right, time.Minute)
	for _, share := range []float64{0, 0.1, 0.2, 0.3, 0.32, 0.35, 0.4, 0.5, 0.55} {
		f := hold.Flight{TAS: 100, Rate: 3, Wind: wind.Wind{From: 180, Speed: abeam.Knots(100 * share)}} // tailwind inbound
		for _, k := range []float64{0.2, 0.5, 1, 1.5, 2, 3, 5} {
			c, err := Settle(p, f, p.Outward(), k)
			if err != nil {
				t.Fatal(err)
			}
			if s := (1 - share) / (1 + share); math.Abs(c.Sensitivity-s) > 1e-12 || c.Oscillates() != (k*s > 1) || c.Settles() != (k*s < 2) {
				t.Fatalf("share %v, gain %v: %+v, want a sensitivity of %v", share, k, c, s)
			}
			n, ok := c.Laps(0.01)
			if ok != c.Settles() {
				t.Fatalf("%+v: %v", c, ok)
			}
			if !ok || n > 400 {
				continue
			}
			start := Strategy{Name: "near", Next: func(s Seen) Plan {
				if s.Laps == 0 { // begin 1 s off the steady time, so that nothing stops at zero
					exact := Exact().Next(s)
					return Plan{Outbound: exact.Outbound + time.Second, Start: AtTurnComplete}
				}
				plan := ByGain(k).Next(s)
				plan.Start = AtTurnComplete
				return plan
			}}
			laps, err := Trial{Pattern: p, Flight: f, Start: AtTurnComplete, Strategy: start}.AppendLaps(nil, n+1)
			if err != nil {
				t.Fatal(err)
			}
			if first, last := laps[0].Error.Seconds(), laps[n].Error.Seconds(); math.Abs(last) > 0.0101*math.Abs(first)+1e-6 {
				t.Errorf("share %v, gain %v: error %v after %d laps from %v", share, k, last, n, first)
			}
		}
	}
}

// Near the steady outbound time the rule in proportion multiplies small errors as derived.
func TestProportionConvergesAsDerived(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, f := drawHold(t, 0.3)
		exact, err := p.Circuit(f)
		if err != nil || exact.Straight < time.Second {
			t.Skip("next to no outbound leg")
		}
		want, err := SettleInProportion(p, f, exact.OutboundHeading, exact.Straight)
		if err != nil {
			t.Fatal(err)
		}
		near := Strategy{Name: "near", Next: func(s Seen) Plan {
			plan := Plan{Outbound: exact.Straight + 10*time.Millisecond}
			if s.Laps > 0 {
				plan = InProportion().Next(s)
			}
			plan.Correction, plan.Start = exact.OutboundCorrection, AtTurnComplete
			return plan
		}}
		laps, err := Trial{Pattern: p, Flight: f, Start: AtTurnComplete, Strategy: near}.AppendLaps(nil, 2)
		if err != nil {
			t.Fatal(err)
		}
		e0, e1 := laps[0].Error.Seconds(), laps[1].Error.Seconds()
		// The next term of the series: e^2 s outbound/target^2 at most, with e some 0.01 s.
		if bound := 2*e0*e0*(1+want.Sensitivity*exact.Straight.Seconds()/p.Leg().Inbound().Seconds())/p.Leg().Inbound().Seconds() + 1e-7; math.Abs(e1-want.Multiplier*e0) > bound {
			t.Fatalf("%v after %v, derived %v (bound %v)", e1, e0, want.Multiplier, bound)
		}
	})
}

// The lopsided rule settles in a headwind below 13/37 of the airspeed and not above, as its
// documentation derives.
func TestLopsidedLimit(t *testing.T) {
	p := pattern(t, 0, hold.Right, 10*time.Minute) // long legs, so that nothing stops at zero
	for _, tc := range []struct {
		share  float64
		settle bool
	}{{13./37 - 0.005, true}, {13./37 + 0.005, false}, {0.1, true}, {0.3, true}} {
		f := hold.Flight{TAS: 100, Rate: 3, Wind: wind.Wind{From: 0, Speed: abeam.Knots(100 * tc.share)}}
		laps, err := Trial{Pattern: p, Flight: f, Start: AtTurnComplete, Strategy: Strategy{Name: "lopsided", Next: func(s Seen) Plan {
			if s.Laps == 0 {
				plan := Exact().Next(s)
				plan.Outbound += time.Second
				return plan
			}
			plan := Lopsided().Next(s)
			plan.Start = AtTurnComplete
			return plan
		}}}.AppendLaps(nil, 201)
		if err != nil {
			t.Fatal(err)
		}
		first, last := laps[0].Error.Abs(), laps[200].Error.Abs()
		if (last < first/2) != tc.settle {
			t.Errorf("headwind %.3f of TAS: %v after 200 laps from %v", tc.share, last, first)
		}
	}
}

func TestSettleErrors(t *testing.T) {
	p := pattern(t, 0, hold.Right, time.Minute)
	f := hold.Flight{TAS: 100, Rate: 3}
	nan := math.NaN()
	for name, call := range map[string]func() error{
		"gain":         func() error { _, err := Settle(p, f, 0, nan); return err },
		"infinite":     func() error { _, err := Settle(p, f, 0, math.Inf(1)); return err },
		"heading":      func() error { _, err := Sensitivity(p, f, abeam.Bearing(nan)); return err },
		"flight":       func() error { _, err := Sensitivity(p, hold.Flight{}, 0); return err },
		"outbound":     func() error { _, err := SettleInProportion(p, f, 0, -1); return err },
		"no leg":       func() error { _, err := SettleInProportion(hold.Pattern{}, f, 0, time.Minute); return err },
		"heading prop": func() error { _, err := SettleInProportion(p, f, abeam.Bearing(nan), time.Minute); return err },
	} {
		if err := call(); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := Sensitivity(p, hold.Flight{TAS: 100, Rate: 3, Wind: wind.Wind{Speed: 100}}, 0); !errors.Is(err, abeam.ErrUnflyable) {
		t.Error(err)
	}
	for _, c := range []Convergence{{Multiplier: 1}, {Multiplier: -1}, {Multiplier: 2}, {Multiplier: nan}} {
		if n, ok := c.Laps(0.1); ok || n != 0 || c.Settles() {
			t.Errorf("%+v: %d laps", c, n)
		}
	}
	for _, share := range []float64{0, 1, -1, nan} {
		if _, ok := (Convergence{Multiplier: 0.5}).Laps(share); ok {
			t.Errorf("share %v", share)
		}
	}
	if n, ok := (Convergence{}).Laps(0); n != 0 || ok {
		t.Error("no number of laps is asked for nothing")
	}
	// A multiplier a hair below 1 takes more laps than any counter holds.
	if n, ok := (Convergence{Multiplier: math.Nextafter(1, 0)}).Laps(0.1); n != 0 || ok {
		t.Error(n)
	}
	if n, ok := (Convergence{}).Laps(0.1); n != 1 || !ok {
		t.Error("one lap is enough at 1/s")
	}
	if n, ok := (Convergence{Multiplier: 0.5}).Laps(0.1); n != 4 || !ok { // 1/16 is the first below a tenth
		t.Error(n)
	}
}

// A fit finds the gain that is known: straight down the course with w = V/5 the sensitivity is
// 1.5, so 2/3 of the discrepancy leaves nothing after one lap.
func TestFitFindsTheKnownGain(t *testing.T) {
	g := Grid{Name: "headwind of a fifth", Shares: []float64{0.2}, Angles: []abeam.Degrees{0}}
	for tas := abeam.Knots(80); tas < 280; tas += 2 {
		g.Cases = append(g.Cases, Case{TAS: tas, Rate: 3, Leg: 2 * time.Minute})
	}
	s := Study{Grid: g, Laps: 2, Start: AtTurnComplete, Seed: 3}
	fit, err := s.Fit(context.Background(), GainFamily(NoDrift()), InboundLoss(2, 2), 0.3)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(fit.Parameters[0]-2./3) > 1e-4 || fit.HeldOut.Loss > 0.01 || fit.Fitted.Loss > 0.01 || fit.HeldOut.Cells+fit.Fitted.Cells != 100 || fit.HeldOut.Cells < 15 {
		t.Errorf("%+v", fit)
	}
}
