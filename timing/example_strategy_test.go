package timing_test

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/timing"
	"github.com/holdingfix/abeam/wind"
)

// A hold of the examples: inbound 075, right turns, 1 minute, 26 kt from 131.
func example() (hold.Pattern, hold.Flight) {
	p, err := hold.NewPattern(hold.Fix{}, 75, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		panic(err)
	}
	return p, hold.Flight{TAS: 118, Rate: hold.StandardRate, Wind: wind.Wind{From: 131, Speed: 26}}
}

// A strategy of your own in ten lines, flown for four laps.
func ExampleTrial_AppendLaps() {
	mine := timing.Strategy{Name: "two thirds", Next: func(s timing.Seen) timing.Plan {
		plan := timing.Plan{Outbound: s.Target(), Correction: -2.5 * s.Correction}
		if s.Laps > 0 {
			plan.Outbound = max(0, s.Last.Outbound-(s.Inbound-s.Target())*2/3)
		}
		return plan
	}}
	p, f := example()
	trial := timing.Trial{Pattern: p, Flight: f, Strategy: mine, Start: timing.AtWingsLevelOrAbeam, Intercept: timing.StandardIntercept()}
	laps, err := trial.AppendLaps(nil, 4)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, lap := range laps {
		fmt.Printf("lap %d: %2.0f s out, inbound %2.0f s, rolled out %.2f NM astray\n", i+1, lap.Outbound.Seconds(), lap.Inbound.Seconds(), float64(lap.Astray()))
	}
	// Output:
	// lap 1: 60 s out, inbound 91 s, rolled out 0.21 NM astray
	// lap 2: 39 s out, inbound 70 s, rolled out 0.38 NM astray
	// lap 3: 33 s out, inbound 63 s, rolled out 0.44 NM astray
	// lap 4: 31 s out, inbound 61 s, rolled out 0.45 NM astray
}

// A strategy that fails is reported by name, with the lap and what it was told.
func ExampleStrategyError() {
	p, f := example()
	broken := timing.Strategy{Name: "divides by nothing", Next: func(s timing.Seen) timing.Plan {
		return timing.Plan{Outbound: time.Minute, Correction: s.Correction / abeam.Degrees(s.Inbound)}
	}}
	laps, err := timing.Trial{Pattern: p, Flight: f, Strategy: broken, Start: timing.AtAbeam}.AppendLaps(nil, 4)
	var failed *timing.StrategyError
	fmt.Println(len(laps), errors.As(err, &failed), errors.Is(err, abeam.ErrInvalid))
	fmt.Printf("%q, lap %d\n%v\n", failed.Strategy, failed.Lap, err)
	// Output:
	// 0 true true
	// "divides by nothing", lap 1
	// strategy "divides by nothing", lap 1: it asked for an outbound heading that is not finite (TAS 118 kt, wind from 131° at 26 kt, inbound course 075°, target 1m0s; seen: correction 10.5°, last outbound 0s, inbound 0s, rolled out 0.00 NM abreast)
}

// Rules put together, and what they say of themselves.
func ExampleCompose() {
	clock, drift := timing.AtLeast30(timing.ByHalf()), timing.ThreeTimes()
	fmt.Println(timing.Compose("", clock, drift).Name)
	for _, r := range []timing.About{clock.About, drift.About, timing.Lopsided().About, timing.Tenths().About} {
		fmt.Printf("%s: %v; needs %v\n", r.Name, r.Class, r.Needs)
	}
	// Output:
	// half discrepancy, at least 30 s + triple drift
	// half discrepancy, at least 30 s: common practice; needs an inbound time
	// triple drift: published; needs the drift
	// lopsided: fitted here; needs an inbound time
	// seconds per tenth: fitted here; needs the wind
}

// The published rules and those found here, side by side over light aircraft in winds of up to
// 30 % of the airspeed: the errors that one lap in twenty exceeds, on the third lap.
func ExampleStudy_Run() {
	triple := timing.ThreeTimes()
	study := timing.Study{
		Grid: timing.LightGrid(30), Laps: 3, Start: timing.AtWingsLevelOrAbeam, Intercept: timing.StandardIntercept(),
		Strategies: []timing.Strategy{
			timing.Compose("", timing.ByHalf(), triple),
			timing.Compose("", timing.ByFull(), triple),
			timing.Compose("", timing.Lopsided(), triple),
			timing.Compose("", timing.ByQuotient(), timing.ByOutbound()),
			timing.Exact(),
		},
	}
	results, err := study.Run(context.Background())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, o := range results.Outcomes {
		lap := o.Laps[2]
		fmt.Printf("%-32s%4.0f s, %.1f NM across\n", o.Strategy, lap.Inbound.AbsQuantile(0.95), lap.Across.AbsQuantile(0.95))
	}
	half := &results.Outcomes[0]
	inbound, _, n := half.Map.At(0, 0.2)
	fmt.Printf("half the discrepancy, 20 %% headwind: %.0f s over %d laps; median in all winds %+.0f s, told apart to %.0f s\n", inbound, n, half.Laps[2].Inbound.Quantile(0.5), half.Laps[2].Inbound.Reach())
	// Output:
	// half discrepancy + triple drift   19 s, 0.4 NM across
	// full discrepancy + triple drift    9 s, 0.6 NM across
	// lopsided + triple drift            5 s, 0.6 NM across
	// lap quotient + drift by time       1 s, 0.1 NM across
	// exact                              0 s, 0.0 NM across
	// half the discrepancy, 20 % headwind: 4 s over 7 laps; median in all winds +0 s, told apart to 300 s
}

// The best multiple of the drift for light aircraft, found on part of the grid and tried on the
// rest, beside the rule that takes the outbound time into account.
func ExampleStudy_Fit() {
	study := timing.Study{Grid: timing.LightGrid(20), Laps: 3, Start: timing.AtWingsLevelOrAbeam, Intercept: timing.StandardIntercept(), Seed: 1}
	ctx, loss := context.Background(), timing.AcrossLoss(1, 3)
	fit, err := study.Fit(ctx, timing.MultipleFamily(timing.Lopsided()), loss, 0.3)
	if err != nil {
		fmt.Println(err)
		return
	}
	better, err := study.Score(ctx, timing.Compose("", timing.Lopsided(), timing.ByOutbound()), loss, 0.3, true)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s: %.1f\n", fit.Family, fit.Parameters[0])
	fmt.Println("drift by time is better on the cells held out:", better.Loss < fit.HeldOut.Loss/2)
	// Output:
	// lopsided + multiple of the drift: 2.9
	// drift by time is better on the cells held out: true
}

// What the gain of a rule makes of an error, in a headwind of four tenths of the airspeed.
func ExampleSettle() {
	p, f := example()
	f.Wind = wind.Wind{From: p.Inbound(), Speed: 0.4 * f.TAS}
	for _, rule := range []timing.TimingRule{timing.ByFull(), timing.ByHalf(), timing.ByGain(3. / 7)} {
		c, err := timing.Settle(p, f, p.Outward(), rule.Gain)
		if err != nil {
			fmt.Println(err)
			return
		}
		laps, ok := c.Laps(0.1)
		fmt.Printf("%.2f: times %+.2f a lap, settles %v, oscillates %v, down to a tenth in %d laps %v\n", rule.Gain, c.Multiplier+0, c.Settles(), c.Multiplier < -1e-9, laps, ok)
	}
	// Output:
	// 1.00: times -1.33 a lap, settles false, oscillates true, down to a tenth in 0 laps false
	// 0.50: times -0.17 a lap, settles true, oscillates true, down to a tenth in 2 laps true
	// 0.43: times +0.00 a lap, settles true, oscillates false, down to a tenth in 1 laps true
}

// Cross the fix in 11 minutes, and in 5, which no lap fits.
func ExamplePlanDeparture() {
	p, f := example()
	for _, asked := range []time.Duration{11 * time.Minute, 5 * time.Minute} {
		d, err := timing.PlanDeparture(p, f, timing.WithinPattern(p), asked)
		if err != nil {
			fmt.Println(err)
			return
		}
		s := func(d time.Duration) time.Duration { return d.Round(time.Second) }
		if d.Met {
			fmt.Printf("%v: %d laps of %v, then one of %v: outbound %.0f for %v, inbound %v\n",
				asked, d.At.Whole, s(d.Lap), s(d.At.Last.Lap), d.At.Last.OutboundHeading, s(d.At.Last.Straight), s(d.At.Last.Inbound))
		} else {
			fmt.Printf("%v: no lap fits; %v or %v\n", asked, s(d.Before.Time), s(d.After.Time))
		}
	}
	// Output:
	// 11m0s: 2 laps of 3m43s, then one of 3m33s: outbound 207 for 39s, inbound 54s
	// 5m0s: no lap fits; 3m43s or 6m28s
}

func ExampleDepartureWindows() {
	p, f := example()
	windows, err := timing.DepartureWindows(p, f, timing.WithinPattern(p), 12*time.Minute)
	for _, w := range windows {
		fmt.Println(w.Whole, w.From.Round(time.Second), w.To.Round(time.Second))
	}
	fmt.Println(err)
	// Output:
	// 0 0s 0s
	// 0 2m44s 3m43s
	// 1 6m28s 7m27s
	// 2 10m11s 11m10s
	// <nil>
}

// Communications fail before an approach that begins at the fix.
func ExampleLostCommunications_Leave() {
	day := time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC)
	plan, err := timing.LostCommunications{ApproachFix: true, Arrival: day.Add(17*time.Hour + 42*time.Minute), EFC: day.Add(18*time.Hour + 5*time.Minute)}.Leave()
	fmt.Println(plan.Leave.Format("15:04"), err)
	for _, f := range plan.Findings {
		fmt.Printf("%s (%s, %v)\n", f.Text, f.Source, f.Class)
	}
	// Output:
	// 18:05 <nil>
	// an approach begins at the fix: begin descent and approach as near as possible at the time to expect further clearance (14 CFR 91.185(c)(3)(i), published)
}

// The fuel ends before the clearance is expected.
func ExampleFuel_LatestLeave() {
	day := time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC)
	plan, err := timing.Fuel{OnBoard: 92, PerHour: 36, Reserve: 74}.LatestLeave(day.Add(17*time.Hour+42*time.Minute), day.Add(18*time.Hour+20*time.Minute), 4*time.Minute)
	fmt.Println(plan.Latest.Format("15:04"), plan.Laps, "laps", plan.Short, "short", err)
	for _, f := range plan.Findings {
		fmt.Println("-", f.Text)
	}
	// Output:
	// 18:12 7 laps 8m0s short <nil>
	// - the time to expect further clearance is 8m0s beyond the latest time to leave, 18:12
	// - tell air traffic control now: ask for an earlier time, or for the alternate while the fuel reaches it
	// - advise minimum fuel when any undue delay would bring the fuel below the reserve; that gives no priority: where the fuel calls for it, declare an emergency
}

// How many cells the grids have, and the last of each: the strongest wind, straight from behind.
func ExampleGrid_Cell() {
	for _, g := range []timing.Grid{timing.LightGrid(60), timing.JetGrid(60), timing.WideGrid()} {
		c, err := g.Cell(g.Len() - 1)
		fmt.Printf("%s: %d cells, the last %.0f kt, wind %.0f kt, %.0f degrees to the course, %v\n", g.Name, g.Len(), float64(c.Flight.TAS), float64(c.Flight.Wind.Speed), float64(c.Angle), err)
	}
	// Output:
	// light aircraft, 90 to 120 kt, winds to 60 %: 6300 cells, the last 120 kt, wind 72 kt, 180 degrees to the course, <nil>
	// jets, 200 to 265 KIAS, winds to 60 %: 5400 cells, the last 384 kt, wind 230 kt, 180 degrees to the course, <nil>
	// 70 to 300 kt, legs of 1 to 2 minutes: 102600 cells, the last 300 kt, wind 180 kt, 180 degrees to the course, <nil>
}

// The rules that are measured, and the strategies made of them.
func ExampleStrategies() {
	for _, t := range timing.TimingRules() {
		fmt.Printf("%-21s %-15v %s\n", t.Name, t.Class, t.Source)
	}
	for _, d := range timing.DriftRules() {
		fmt.Printf("%-21s %-15v %s\n", d.Name, d.Class, d.Source)
	}
	fmt.Println(len(timing.Strategies()), "strategies")
	// Output:
	// leg's time            published       AIM 5-3-8 j.4, first lap
	// full discrepancy      published       CNATRA P-871 p77, P-801 p135
	// half discrepancy      common practice common practice
	// proportional          common practice common practice
	// 1 s/kt                common practice common practice
	// 1 s/kt/min            common practice common practice
	// twice abeam           common practice common practice
	// no correction         derived         still air
	// single drift          common practice common practice
	// double drift          common practice common practice; CNATRA P-1244 (2 to 3 times)
	// triple drift          published       AIM 5-3-8 j.8(c)
	// triple, then single   published       CNATRA P-871
	// 2 or 3 by side        common practice common practice
	// turns multiple        common practice common practice
	// 23 strategies
}

// The open forms of the rules that were fitted: their numbers and where the search starts. At
// that start none leaves a mean error of 20 s on the second lap.
func ExampleFamily() {
	triple := timing.ThreeTimes()
	study := timing.Study{Grid: timing.LightGrid(20), Laps: 2, Start: timing.AtWingsLevelOrAbeam, Intercept: timing.StandardIntercept(), Seed: 1}
	for _, f := range []timing.Family{timing.GainFamily(triple), timing.LopsidedFamily(triple), timing.TenthsFamily(triple)} {
		score, err := study.Score(context.Background(), f.Make(f.Start), timing.InboundLoss(2, 2), 0.3, true)
		fmt.Println(f.Parameters, f.Start, score.Loss < 20, err)
	}
	// Output:
	// [share] [0.5] true <nil>
	// [share of an excess share of a lack] [0.5 0.5] true <nil>
	// [s a tenth against s a tenth with it] [10 10] true <nil>
}

// What the full discrepancy does over four laps in winds to half of the airspeed.
func ExampleBehaviour() {
	g := timing.LightGrid(50)
	study := timing.Study{Grid: g, Laps: 4, Start: timing.AtAbeam, Strategies: []timing.Strategy{timing.Compose("", timing.ByFull(), timing.ThreeTimes())}}
	r, err := study.Run(context.Background())
	if err != nil {
		fmt.Println(err)
		return
	}
	o := r.Outcomes[0]
	for b, n := range o.Behaviours {
		fmt.Printf("%v: %.0f %%\n", timing.Behaviour(b), 100*float64(n)/float64(o.Trials))
	}
	fmt.Println(o.Laps[3].Inbound.N() == o.Trials)
	// Output:
	// settles: 75 %
	// error stays: 23 %
	// oscillates: 1 %
	// grows: 1 %
	// true
}
