package tolerance

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/edges"
	"github.com/holdingfix/abeam/wind"
)

// Every limit is itself accepted and its neighbour beyond is not; the error then names
// operation and field.
func TestLimitsOfEveryInput(t *testing.T) {
	good := testPlan(t, hold.Right, wind.Wind{From: 200, Speed: 15})
	log := logOf(t, good)
	f, err := Cut(log, good.Pattern)
	if err != nil {
		t.Fatal(err)
	}
	cleared := func(change func(c *Clearance, x float64)) func(float64) error {
		return func(x float64) error {
			c := Clearance{Pattern: good.Pattern}
			change(&c, x)
			_, err := Judge(log, f, FAAInstrument(), c)
			return err
		}
	}
	planned := func(change func(p *Plan, x float64)) func(float64) error {
		return func(x float64) error {
			p := good
			p.Step = 10 * time.Second
			change(&p, x)
			_, err := p.Log()
			return err
		}
	}
	const hour = float64(time.Hour)
	ns := func(x float64) time.Duration { return time.Duration(x) }
	edges.Check(t, []edges.Input{
		edges.Real("tolerance.Judge", "altitude assigned", float64(hold.MinAltitude), float64(hold.MaxAltitude), cleared(func(c *Clearance, x float64) { c.Altitude = abeam.Feet(x) })),
		edges.Real("tolerance.Judge", "airspeed assigned", 0, float64(wind.MaxTAS), cleared(func(c *Clearance, x float64) { c.IAS = abeam.Knots(x) })),
		edges.Real("tolerance.Judge", "leg length", 0, 100, cleared(func(c *Clearance, x float64) { c.LegLength = abeam.NM(x) })),
		edges.Whole("tolerance.Judge", "time to leave", 0, hour, func(x float64) error {
			if x > hour {
				x = -1 // it has no upper limit
			}
			return cleared(func(c *Clearance, x float64) { c.Leave = ns(x) })(x)
		}),
		edges.Real("tolerance.Judge", "guidance angle", math.SmallestNonzeroFloat64, 45, cleared(func(c *Clearance, x float64) {
			if x == 0 {
				x = -1 // an angle of 0 is none, and an error of the guidance
			}
			c.Guidance = Guidance{Angle: abeam.Degrees(x)}
		})),
		edges.Real("tolerance.Judge", "guidance distance", math.SmallestNonzeroFloat64, 100, cleared(func(c *Clearance, x float64) {
			if x == 0 {
				x = -1
			}
			c.Guidance = Guidance{Distance: abeam.NM(x)}
		})),
		edges.Real("tolerance.Judge", "station distance", -300, 300, cleared(func(c *Clearance, x float64) { c.Guidance = VORRadial(abeam.NM(x)) })),
		edges.Real("tolerance.Judge", "blind distance", 0, 50, cleared(func(c *Clearance, x float64) { c.Guidance = Guidance{Angle: 10, Blind: abeam.NM(x)} })),
		edges.Whole("tolerance.Plan.Log", "step", float64(hold.MinStep), hour, func(x float64) error {
			if x > hour {
				x = float64(hold.MinStep) - 1 // it has no upper limit
			}
			p := good
			p.Step, p.Laps, p.Before, p.After = ns(x), nil, time.Second, 0
			_, err := p.Log()
			return err
		}),
		edges.Real("tolerance.Plan.Log", "altitude", 0, float64(wind.MaxPressureAltitude), planned(func(p *Plan, x float64) { p.Altitude = abeam.Feet(x) })),
		edges.Whole("tolerance.Plan.Log", "time", 0, hour, planned(func(p *Plan, x float64) { p.Before = ns(x) })),
		edges.Whole("tolerance.Plan.Log", "time", 0, hour, planned(func(p *Plan, x float64) { p.EntryTime = ns(x) })),
		edges.Whole("tolerance.Plan.Log", "time", 0, hour, planned(func(p *Plan, x float64) { p.After = ns(x) })),
		edges.Whole("tolerance.Plan.Log", "time", 0, hour, planned(func(p *Plan, x float64) {
			p.Laps = []PlannedLap{{Heading: p.Pattern.Outward(), Outbound: ns(x)}}
		})),
		edges.Real("tolerance.Plan.Log", "noise", 0, 1e4, planned(func(p *Plan, x float64) { p.Noise.Track = abeam.Degrees(x) })),
		edges.Real("tolerance.Plan.Log", "slip", -1e4, 1e4, planned(func(p *Plan, x float64) { p.Slips = []Slip{{Quantity: Heading, By: x}} })),
		edges.Real("tolerance.EstimateWind", "variation", -180, 180, func(x float64) error { _, err := EstimateWind(log, All(), abeam.Variation(x)); return err }),
	})
}

// What is no number, or beyond a kind, is refused by its field.
func TestPlansThatAreNone(t *testing.T) {
	nan := abeam.Bearing(math.NaN())
	good := testPlan(t, hold.Right, wind.Wind{From: 200, Speed: 15})
	for name, tc := range map[string]struct {
		change func(*Plan)
		field  string
		kind   error
	}{
		"arrival":         {func(p *Plan) { p.Arrival = nan }, "heading", abeam.ErrInvalid},
		"entry heading":   {func(p *Plan) { p.EntryHeading = nan }, "heading", abeam.ErrInvalid},
		"outbound":        {func(p *Plan) { p.Laps = []PlannedLap{{Heading: nan}} }, "outbound heading", abeam.ErrInvalid},
		"north":           {func(p *Plan) { p.HeadingNorth = 7 }, "heading north", abeam.ErrInvalid},
		"slip of a track": {func(p *Plan) { p.Slips = []Slip{{Quantity: Track}} }, "slip", abeam.ErrInvalid},
		"entry":           {func(p *Plan) { p.Entry = entry.Parallel + 9 }, "entry", abeam.ErrInvalid},
		"laps":            {func(p *Plan) { p.Laps = make([]PlannedLap, maxLaps+1) }, "laps", abeam.ErrInvalid},
		"pattern":         {func(p *Plan) { p.Pattern = hold.Pattern{} }, "pattern", abeam.ErrInvalid},
		// Across the course and carried on inbound by the wind, it leaves the fix behind.
		"never abeam": {func(p *Plan) {
			p.Laps = []PlannedLap{{Heading: p.Pattern.Inbound().Add(89)}}
			p.Flight.Wind = wind.Wind{From: p.Pattern.Outward(), Speed: 40}
		}, "outbound heading", abeam.ErrUnflyable},
		// Above the speed of sound at sea level, where the scale of CAS ends.
		"airspeed": {func(p *Plan) { p.Flight.TAS, p.Altitude = 700, 0 }, "TAS", abeam.ErrInvalid},
	} {
		p := good
		tc.change(&p)
		log, err := p.Log()
		var e *abeam.FieldError
		if !errors.As(err, &e) || !errors.Is(err, tc.kind) || e.Field != tc.field || log.Samples != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	p := good
	p.Laps = nil
	p.Before, p.After, p.Step = time.Hour, time.Hour, hold.MinStep
	if n := int(2 * time.Hour / hold.MinStep); n > MaxSamples-1 {
		var e *abeam.FieldError
		if _, err := p.Log(); !errors.As(err, &e) || e.Field != "samples" || e.Value != n {
			t.Error(err)
		}
	}
}
