package timing

import (
	"context"
	"errors"
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
)

// limit is the range that a function documents for one of its inputs: whole nanoseconds or
// counts, or a number with neighbours of its own.
type limit struct {
	op, field string
	lo, hi    float64 // both accepted
	whole     bool
	call      func(x float64) error
}

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
	for _, l := range []limit{
		{"timing.FullDiscrepancy", "last outbound time", 0, hour, true, func(x float64) error { _, err := FullDiscrepancy(ns(x), min, min); return err }},
		{"timing.HalfDiscrepancy", "inbound time", 0, hour, true, func(x float64) error { _, err := HalfDiscrepancy(min, ns(x), min); return err }},
		{"timing.FullDiscrepancy", "target", 1, hour, true, func(x float64) error { _, err := FullDiscrepancy(min, min, ns(x)); return err }},
		{"timing.Proportional", "inbound time", 1, hour, true, func(x float64) error { _, err := Proportional(min, ns(x), min); return err }},
		{"timing.SecondsPerKnot", "target", 1, hour, true, func(x float64) error { _, err := SecondsPerKnot(ns(x), 0); return err }},
		{"timing.SecondsPerKnotPerMinute", "headwind", -400, 400, false, func(x float64) error { _, err := SecondsPerKnotPerMinute(min, abeam.Knots(x)); return err }},
		{"timing.Quotient", "target", 1, hour, true, func(x float64) error { _, err := Quotient(min, min, ns(x), min); return err }},
		{"timing.Quotient", "turns", 1, hour, true, func(x float64) error { _, err := Quotient(min, min, min, ns(x)); return err }},
		{"timing.DriftMultiple", "turns", 0, hour, true, func(x float64) error { _, err := DriftMultiple(ns(x), min); return err }},
		{"timing.DriftMultiple", "outbound time", 1, hour, true, func(x float64) error { _, err := DriftMultiple(min, ns(x)); return err }},
		{"timing.TripleDrift", "inbound correction", -45, 45, false, func(x float64) error { _, err := TripleDrift(abeam.Degrees(x)); return err }},
		{"timing.SlowAt", "groundspeed", open, 1200, false, func(x float64) error { _, err := SlowAt(abeam.Knots(x)); return err }},
		{"timing.LoseTime", "turns", 0, day, true, func(x float64) error { _, err := LoseTime(MaxWait, ns(x)); return err }},
		{"timing.LoseTime", "time to lose", 0, day, true, func(x float64) error { _, err := LoseTime(ns(x), 0); return err }},
		{"timing.PlanDeparture", "time asked", 0, day, true, func(x float64) error { _, err := PlanDeparture(p, f, WithinPattern(p), ns(x)); return err }},
		{"timing.DepartureWindows", "until", 0, day, true, func(x float64) error { _, err := DepartureWindows(p, f, WithinPattern(p), ns(x)); return err }},
		{"timing.PlanDeparture", "shortest leg", 0, float64(min), true, func(x float64) error {
			_, err := PlanDeparture(p, f, LegLimits{Shortest: ns(x), Longest: min}, min)
			return err
		}},
		{"timing.PlanDeparture", "longest leg", float64(min), hour, true, func(x float64) error { _, err := PlanDeparture(p, f, LegLimits{Longest: ns(x)}, min); return err }},
		{"timing.SettleInProportion", "outbound time", 0, hour, true, func(x float64) error { _, err := SettleInProportion(p, f, 270, ns(x)); return err }},
		{"timing.Trial.AppendLaps", "laps", 1, MaxLaps, true, func(x float64) error { _, err := trial.AppendLaps(nil, int(x)); return err }},
		{"timing.Trial.AppendLaps", "start", 1, 3, true, func(x float64) error { return fly(func(t *Trial) { t.Start = Start(x) }) }},
		{"timing.Trial.AppendLaps", "cut", 0, 60, false, func(x float64) error { return fly(func(t *Trial) { t.Intercept.Cut = abeam.Degrees(x) }) }},
		{"timing.Trial.AppendLaps", "timing error", 0, float64(min), true, scatter(func(s *Scatter, x float64) { s.Timing = ns(x) })},
		{"timing.Trial.AppendLaps", "heading error", 0, 30, false, scatter(func(s *Scatter, x float64) { s.Heading = abeam.Degrees(x) })},
		{"timing.Trial.AppendLaps", "airspeed error", 0, 50, false, scatter(func(s *Scatter, x float64) { s.Airspeed = abeam.Knots(x) })},
		{"timing.Trial.AppendLaps", "bank error", 0, 15, false, scatter(func(s *Scatter, x float64) { s.Bank = abeam.Degrees(x) })},
		{"timing.Trial.AppendLaps", "wind change", 0, 50, false, scatter(func(s *Scatter, x float64) { s.WindChange = abeam.Knots(x) })},
		{"timing.Trial.AppendLaps", "wind error", 0, 50, false, scatter(func(s *Scatter, x float64) { s.WindKnown = abeam.Knots(x) })},
		{"timing.Study.Score", "share held out", 0.05, 0.9, false, score},
		{"timing.Study.Run", "wind share", 0, MaxShare, false, func(x float64) error {
			s := study(Exact())
			s.Grid.Shares = []float64{x}
			_, err := s.Run(context.Background())
			return err
		}},
		{"timing.Grid.Cell", "number", 0, float64(smallGrid().Len() - 1), true, func(x float64) error { _, err := smallGrid().Cell(int(x)); return err }},
		{"timing.Fuel.LatestLeave", "fuel on board", 0, math.MaxFloat64, false, fuel(func(f *Fuel, x float64) { f.OnBoard = x })},
		{"timing.Fuel.LatestLeave", "fuel flow", open, math.MaxFloat64, false, fuel(func(f *Fuel, x float64) { f.PerHour = x })},
		{"timing.Fuel.LatestLeave", "reserve", 0, math.MaxFloat64, false, fuel(func(f *Fuel, x float64) { f.Reserve = x })},
		{"timing.Fuel.LatestLeave", "lap", 1, day, true, func(x float64) error {
			if x > day {
				x = 0 // a lap has no upper limit
			}
			_, err := Fuel{PerHour: 1}.LatestLeave(at("17:40"), time.Time{}, ns(x))
			return err
		}},
	} {
		below, above := math.Nextafter(l.lo, math.Inf(-1)), math.Nextafter(l.hi, math.Inf(1))
		if l.whole {
			below, above = l.lo-1, l.hi+1
		}
		for _, x := range []float64{l.lo, l.hi} {
			if err := l.call(x); errors.Is(err, abeam.ErrInvalid) {
				t.Errorf("%s, %s of %v: %v", l.op, l.field, x, err)
			}
		}
		for _, x := range []float64{below, above} {
			var e *abeam.FieldError
			if err := l.call(x); !errors.As(err, &e) || !errors.Is(err, abeam.ErrInvalid) || e.Op != l.op || e.Field != l.field || e.Limit == "" || fmt.Sprint(e.Value) == "" {
				t.Errorf("%s, %s of %v: %v", l.op, l.field, x, err)
			}
		}
	}
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
