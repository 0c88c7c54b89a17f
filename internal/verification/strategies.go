package verification

import (
	"fmt"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/timing"
	"github.com/holdingfix/abeam/wind"
)

// strategyFigures are the rules of the clock as values, what they do, and leaving on time.
var strategyFigures = map[string]Figure{
	"timing: proportional": func(in *Reader) (Value, error) {
		t, err := timing.Proportional(in.seconds("last"), in.seconds("inbound"), in.seconds("target"))
		return number(t.Seconds()), err
	},
	"timing: quotient": func(in *Reader) (Value, error) {
		t, err := timing.Quotient(in.seconds("last"), in.seconds("inbound"), in.seconds("target"), in.seconds("turns"))
		return number(t.Seconds()), err
	},
	"timing: seconds per knot": func(in *Reader) (Value, error) {
		t, err := timing.SecondsPerKnot(in.seconds("target"), in.knots("headwind"))
		return number(t.Seconds()), err
	},
	"timing: seconds per knot per minute": func(in *Reader) (Value, error) {
		t, err := timing.SecondsPerKnotPerMinute(in.seconds("target"), in.knots("headwind"))
		return number(t.Seconds()), err
	},
	"timing: drift multiple": func(in *Reader) (Value, error) {
		m, err := timing.DriftMultiple(in.seconds("turns"), in.seconds("outbound"))
		return number(m), err
	},
	// The exact circuit of package hold, with nothing of the rules in it.
	"timing: drift multiple of the circuit in the lightest crosswind": func(in *Reader) (Value, error) {
		p, err := hold.NewPattern(hold.Fix{}, 0, hold.Right, hold.TimedInbound(in.seconds("leg")))
		if err != nil {
			return Value{}, err
		}
		c, err := p.Circuit(hold.Flight{TAS: 100, Rate: hold.Rate(in.Num("rate")), Wind: wind.Wind{From: 90, Speed: 0.01}})
		return number(-c.OutboundCorrection / c.InboundCorrection), err
	},
	"timing: seconds per knot of the circuit in the lightest wind": func(in *Reader) (Value, error) {
		p, err := hold.NewPattern(hold.Fix{}, 0, hold.Right, hold.TimedInbound(time.Minute))
		if err != nil {
			return Value{}, err
		}
		from := choose(in, "outbound", map[string]abeam.Bearing{"tailwind": 0, "headwind": 180})
		w := wind.Wind{From: from, Speed: in.tas() * 1e-4}
		c, err := p.Circuit(hold.Flight{TAS: in.tas(), Rate: hold.StandardRate, Wind: w})
		return number((c.Clock - time.Minute).Seconds() / float64(w.Speed)), err
	},
	"timing: outbound heading by rule": func(in *Reader) (Value, error) {
		return number(in.pattern().Outward().Add(in.drift().Correction)), nil
	},
	"timing: outbound turn by rule": func(in *Reader) (Value, error) {
		p := in.pattern()
		by := p.Outward().Add(in.drift().Correction).Sub(p.Inbound().Add(abeam.Degrees(in.Num("correction"))))
		return number(abeam.NewBearing(float64(p.Turn().Apply(by)))), nil
	},
	"timing: outbound correction by rule": func(in *Reader) (Value, error) { return number(in.drift().Correction), nil },
	"timing: outbound correction after a minute": func(in *Reader) (Value, error) {
		p := in.drift()
		if p.Change != time.Minute {
			return Value{}, fmt.Errorf("the heading changes after %v", p.Change)
		}
		return number(p.Then), nil
	},
	"timing: outbound time by rule": func(in *Reader) (Value, error) {
		p, err := hold.NewPattern(hold.Fix{}, 0, hold.Right, hold.TimedInbound(in.seconds("target")))
		plan := in.timingRule().Next(timing.Seen{
			Pattern: p, Flight: hold.Flight{TAS: 120, Rate: hold.StandardRate}, Laps: int(in.Num("laps")),
			Last: timing.Plan{Outbound: in.secondsOr("last")}, Inbound: in.secondsOr("inbound"),
		})
		return number(plan.Outbound.Seconds()), err
	},
	"timing: outbound time flown": func(in *Reader) (Value, error) {
		laps, err := timing.Trial{
			Pattern: in.pattern(), Flight: in.flight(), Start: timing.AtTurnComplete, Strategy: timing.Compose("", in.timingRule(), timing.NoDrift()),
		}.AppendLaps(nil, 1)
		if err != nil {
			return Value{}, err
		}
		return number(laps[0].Outbound.Seconds()), nil
	},
	"timing: sensitivity": func(in *Reader) (Value, error) {
		p := in.pattern()
		s, err := timing.Sensitivity(p, in.flight(), p.Outward())
		return number(s), err
	},
	"timing: multiplier of a gain": func(in *Reader) (Value, error) {
		p := in.pattern()
		c, err := timing.Settle(p, in.flight(), p.Outward(), in.Num("gain"))
		return number(c.Multiplier), err
	},
	"timing: multiplier in proportion": func(in *Reader) (Value, error) {
		p := in.pattern()
		c, err := timing.SettleInProportion(p, in.flight(), p.Outward(), in.seconds("outbound"))
		return number(c.Multiplier), err
	},
	"timing: laps to settle": func(in *Reader) (Value, error) {
		p := in.pattern()
		c, err := timing.Settle(p, in.flight(), p.Outward(), in.Num("gain"))
		n, ok := c.Laps(in.Num("share"))
		if err == nil && !(ok && c.Settles() && !c.Oscillates()) {
			err = fmt.Errorf("%+v does not settle", c)
		}
		return number(float64(n)), err
	},
	"timing: crab from bearing": func(in *Reader) (Value, error) {
		c, err := timing.CrabFromBearing(in.bearing("bearing"), in.bearing("course"))
		return number(c), err
	},
	"timing: lose time": func(in *Reader) (Value, error) {
		t, err := timing.LoseTime(in.seconds("lose"), in.seconds("turns"))
		return number(t.Seconds()), err
	},
	"timing: last outbound of a departure": func(in *Reader) (Value, error) {
		p := in.pattern()
		d, err := timing.PlanDeparture(p, in.flight(), timing.WithinPattern(p), in.seconds("asked"))
		if err == nil && !d.Met {
			err = fmt.Errorf("no lap fits: %v, %v", d.Before.Time, d.After.Time)
		}
		return number(d.At.Last.Straight.Seconds()), err
	},
	"timing: departure window from": func(in *Reader) (Value, error) {
		w, err := in.window()
		return number(w.From.Seconds()), err
	},
	"timing: departure window to": func(in *Reader) (Value, error) {
		w, err := in.window()
		return number(w.To.Seconds()), err
	},
	"timing: longest last leg": func(in *Reader) (Value, error) {
		l, err := timing.LimitsOf(in.rules(), abeam.Feet(in.Num("altitude")))
		return number(l.Longest.Seconds()), err
	},
	"timing: lost communications": func(in *Reader) (Value, error) {
		arrival := time.Date(2026, 11, 25, 17, 40, 0, 0, time.UTC)
		efc, eta := arrival.Add(25*time.Minute), arrival.Add(40*time.Minute)
		l := timing.LostCommunications{ApproachFix: in.yes("approach"), Arrival: arrival}
		if in.yes("efc") {
			l.EFC = efc
		}
		if in.yes("eta") {
			l.ETA = eta
		}
		p, err := l.Leave()
		return Value{Text: map[time.Time]string{arrival: "arrival", efc: "EFC", eta: "ETA"}[p.Leave]}, err
	},
	"timing: time that the fuel holds": func(in *Reader) (Value, error) {
		f := timing.Fuel{OnBoard: in.Num("onboard"), PerHour: in.Num("flow"), Reserve: in.Num("reserve")}
		p, err := f.LatestLeave(time.Date(2026, 11, 25, 17, 40, 0, 0, time.UTC), time.Time{}, 4*time.Minute)
		return number(p.Hold.Seconds()), err
	},
}

// drift is what the drift rule of a row asks for.
func (r *Reader) drift() timing.Plan {
	rule := choose(r, "rule", map[string]timing.DriftRule{
		"none": timing.NoDrift(), "single": timing.SingleDrift(), "double": timing.DoubleDrift(), "triple": timing.ThreeTimes(),
		"triple-then-single": timing.TripleThenSingle(), "side": timing.BySide(), "turns": timing.ByTurns(),
		"by-outbound": timing.ByOutbound(), "single-at-least-20": timing.AtLeast20(timing.SingleDrift(), 15),
	})
	if rule.Next == nil {
		return timing.Plan{}
	}
	return rule.Next(timing.Seen{
		Pattern: r.pattern(), Flight: hold.Flight{TAS: 120, Rate: hold.StandardRate}, Correction: abeam.Degrees(r.Num("correction")),
	}, timing.Plan{Outbound: time.Duration(r.Or("outbound", 60) * float64(time.Second))})
}

func (r *Reader) timingRule() timing.TimingRule {
	rule := choose(r, "rule", map[string]timing.TimingRule{
		"leg": timing.LegTime(), "full": timing.ByFull(), "half": timing.ByHalf(), "proportional": timing.InProportion(),
		"quotient": timing.ByQuotient(), "full-at-least-30": timing.AtLeast30(timing.ByFull()), "twice-abeam": timing.TwiceAbeam(),
	})
	if rule.Next == nil {
		return timing.LegTime() // the row is at fault, and says so
	}
	return rule
}

func (r *Reader) window() (timing.Window, error) {
	p := r.pattern()
	windows, err := timing.DepartureWindows(p, r.flight(), timing.WithinPattern(p), time.Hour)
	n := int(r.Num("window"))
	if err == nil && !(n >= 0 && n < len(windows)) {
		err = fmt.Errorf("no window %d", n)
	}
	if err != nil {
		return timing.Window{}, err
	}
	return windows[n], nil
}

func (r *Reader) secondsOr(key string) time.Duration {
	return time.Duration(r.Or(key, 0) * float64(time.Second))
}

func (r *Reader) yes(key string) bool {
	return choose(r, key, map[string]string{"yes": "yes", "no": "no"}) == "yes"
}
