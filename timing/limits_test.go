package timing

import (
	"context"
	"errors"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/edges"
)

// Every limit is itself accepted and its neighbour beyond is not; the error then names
// operation, field and value.
func TestLimitsOfEveryInput(t *testing.T) {
	const hour, day = float64(time.Hour), float64(24 * time.Hour)
	const min = time.Minute
	ns := func(x float64) time.Duration { return time.Duration(x) }
	p := pattern(t, 90, hold.Right, min)
	f := hold.Flight{TAS: 120, Rate: 3}
	trial := Trial{Pattern: p, Flight: f, Start: AtAbeam, Strategy: fixed(Plan{Outbound: min})}
	fly := func(change func(*Trial)) error {
		flown := trial
		change(&flown)
		_, err := flown.AppendLaps(nil, 1)
		return err
	}
	scatter := func(change func(s *Scatter, x float64)) func(float64) error {
		return func(x float64) error { return fly(func(t *Trial) { change(&t.Scatter, x) }) }
	}
	fuel := func(change func(f *Fuel, x float64)) func(float64) error {
		return func(x float64) error {
			f := Fuel{OnBoard: 60, PerHour: 30, Reserve: 10}
			change(&f, x)
			_, err := f.LatestLeave(at("17:40"), time.Time{}, min)
			return err
		}
	}
	score := func(share float64) error {
		_, err := study(Exact()).Score(context.Background(), Exact(), InboundLoss(1, 1), share, true)
		return err
	}
	const open = math.SmallestNonzeroFloat64 // above 0
	edges.Check(t, []edges.Input{
		edges.Whole("timing.FullDiscrepancy", "last outbound time", 0, hour, func(x float64) error { _, err := FullDiscrepancy(ns(x), min, min); return err }),
		edges.Whole("timing.HalfDiscrepancy", "inbound time", 0, hour, func(x float64) error { _, err := HalfDiscrepancy(min, ns(x), min); return err }),
		edges.Whole("timing.FullDiscrepancy", "target", 1, hour, func(x float64) error { _, err := FullDiscrepancy(min, min, ns(x)); return err }),
		edges.Whole("timing.Proportional", "inbound time", 1, hour, func(x float64) error { _, err := Proportional(min, ns(x), min); return err }),
		edges.Whole("timing.SecondsPerKnot", "target", 1, hour, func(x float64) error { _, err := SecondsPerKnot(ns(x), 0); return err }),
		edges.Real("timing.SecondsPerKnotPerMinute", "headwind", -400, 400, func(x float64) error { _, err := SecondsPerKnotPerMinute(min, abeam.Knots(x)); return err }),
		edges.Whole("timing.Quotient", "target", 1, hour, func(x float64) error { _, err := Quotient(min, min, ns(x), min); return err }),
		edges.Whole("timing.Quotient", "turns", 1, hour, func(x float64) error { _, err := Quotient(min, min, min, ns(x)); return err }),
		edges.Whole("timing.DriftMultiple", "turns", 0, hour, func(x float64) error { _, err := DriftMultiple(ns(x), min); return err }),
		edges.Whole("timing.DriftMultiple", "outbound time", 1, hour, func(x float64) error { _, err := DriftMultiple(min, ns(x)); return err }),
		edges.Real("timing.TripleDrift", "inbound correction", -45, 45, func(x float64) error { _, err := TripleDrift(abeam.Degrees(x)); return err }),
		edges.Real("timing.SlowAt", "groundspeed", open, 1200, func(x float64) error { _, err := SlowAt(abeam.Knots(x)); return err }),
		edges.Whole("timing.LoseTime", "turns", 0, day, func(x float64) error { _, err := LoseTime(MaxWait, ns(x)); return err }),
		edges.Whole("timing.LoseTime", "time to lose", 0, day, func(x float64) error { _, err := LoseTime(ns(x), 0); return err }),
		edges.Whole("timing.PlanDeparture", "time asked", 0, day, func(x float64) error { _, err := PlanDeparture(p, f, WithinPattern(p), ns(x)); return err }),
		edges.Whole("timing.DepartureWindows", "until", 0, day, func(x float64) error { _, err := DepartureWindows(p, f, WithinPattern(p), ns(x)); return err }),
		edges.Whole("timing.PlanDeparture", "shortest leg", 0, float64(min), func(x float64) error {
			_, err := PlanDeparture(p, f, LegLimits{Shortest: ns(x), Longest: min}, min)
			return err
		}),
		edges.Whole("timing.PlanDeparture", "longest leg", float64(min), hour, func(x float64) error { _, err := PlanDeparture(p, f, LegLimits{Longest: ns(x)}, min); return err }),
		edges.Whole("timing.SettleInProportion", "outbound time", 0, hour, func(x float64) error { _, err := SettleInProportion(p, f, 270, ns(x)); return err }),
		edges.Whole("timing.Trial.AppendLaps", "laps", 1, MaxLaps, func(x float64) error { _, err := trial.AppendLaps(nil, int(x)); return err }),
		edges.Whole("timing.Trial.AppendLaps", "start", 1, 3, func(x float64) error { return fly(func(t *Trial) { t.Start = Start(x) }) }),
		edges.Real("timing.Trial.AppendLaps", "cut", 0, 60, func(x float64) error { return fly(func(t *Trial) { t.Intercept.Cut = abeam.Degrees(x) }) }),
		edges.Whole("timing.Trial.AppendLaps", "timing error", 0, float64(min), scatter(func(s *Scatter, x float64) { s.Timing = ns(x) })),
		edges.Real("timing.Trial.AppendLaps", "heading error", 0, 30, scatter(func(s *Scatter, x float64) { s.Heading = abeam.Degrees(x) })),
		edges.Real("timing.Trial.AppendLaps", "airspeed error", 0, 50, scatter(func(s *Scatter, x float64) { s.Airspeed = abeam.Knots(x) })),
		edges.Real("timing.Trial.AppendLaps", "bank error", 0, 15, scatter(func(s *Scatter, x float64) { s.Bank = abeam.Degrees(x) })),
		edges.Real("timing.Trial.AppendLaps", "wind change", 0, 50, scatter(func(s *Scatter, x float64) { s.WindChange = abeam.Knots(x) })),
		edges.Real("timing.Trial.AppendLaps", "wind error", 0, 50, scatter(func(s *Scatter, x float64) { s.WindKnown = abeam.Knots(x) })),
		edges.Real("timing.Study.Score", "share held out", 0.05, 0.9, score),
		edges.Real("timing.Study.Run", "wind share", 0, MaxShare, func(x float64) error {
			s := study(Exact())
			s.Grid.Shares = []float64{x}
			_, err := s.Run(context.Background())
			return err
		}),
		edges.Whole("timing.Grid.Cell", "number", 0, float64(smallGrid().Len()-1), func(x float64) error { _, err := smallGrid().Cell(int(x)); return err }),
		edges.Real("timing.Fuel.LatestLeave", "fuel on board", 0, math.MaxFloat64, fuel(func(f *Fuel, x float64) { f.OnBoard = x })),
		edges.Real("timing.Fuel.LatestLeave", "fuel flow", open, math.MaxFloat64, fuel(func(f *Fuel, x float64) { f.PerHour = x })),
		edges.Real("timing.Fuel.LatestLeave", "reserve", 0, math.MaxFloat64, fuel(func(f *Fuel, x float64) { f.Reserve = x })),
		edges.Whole("timing.Fuel.LatestLeave", "lap", 1, day, func(x float64) error {
			if x > day {
				x = 0 // a lap has no upper limit
			}
			_, err := Fuel{PerHour: 1}.LatestLeave(at("17:40"), time.Time{}, ns(x))
			return err
		}),
	})
}

// A plan at the limits of what can be asked for is flown, and one beyond them is not.
func TestLimitsOfAPlan(t *testing.T) {
	trial := Trial{Pattern: pattern(t, 90, hold.Right, time.Minute), Flight: hold.Flight{TAS: 120, Rate: 3}, Start: AtAbeam}
	for _, tc := range []struct {
		name         string
		good, beyond Plan
	}{
		{"outbound", Plan{Outbound: hold.MaxLeg}, Plan{Outbound: hold.MaxLeg + 1}},
		{"no outbound", Plan{}, Plan{Outbound: -1}},
		{"change", Plan{Outbound: time.Minute, Change: hold.MaxLeg}, Plan{Outbound: time.Minute, Change: hold.MaxLeg + 1}},
		{"no change", Plan{}, Plan{Change: -1}},
		{"abeams", Plan{Abeams: maxAbeams}, Plan{Abeams: math.Nextafter(maxAbeams, 11)}},
		{"no abeams", Plan{}, Plan{Abeams: -math.SmallestNonzeroFloat64}},
		{"start", Plan{Start: AtWingsLevelOrAbeam}, Plan{Start: AtWingsLevelOrAbeam + 1}},
	} {
		trial.Strategy = fixed(tc.good)
		if _, err := trial.AppendLaps(nil, 1); err != nil {
			t.Errorf("%s: %v", tc.name, err)
		}
		trial.Strategy = fixed(tc.beyond)
		var failed *StrategyError
		if _, err := trial.AppendLaps(nil, 1); !errors.As(err, &failed) || failed.Plan != tc.beyond || failed.Lap != 1 {
			t.Errorf("beyond %s: %v", tc.name, err)
		}
	}
}
