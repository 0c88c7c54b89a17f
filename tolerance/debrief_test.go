package tolerance

import (
	"strings"
	"testing"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// Without recorded headings those that the estimated wind makes of the tracks give the
// same corrections.
func TestDriftsWithoutHeadings(t *testing.T) {
	plan := testPlan(t, hold.Left, wind.Wind{From: 200, Speed: 25})
	log := logOf(t, plan)
	c := Clearance{Pattern: plan.Pattern, Altitude: 7000}
	with, err := NewDebrief(log, c, FAAInstrument())
	if err != nil {
		t.Fatal(err)
	}
	for i := range log.Samples {
		log.Samples[i].Has &^= Quantities(Heading)
	}
	without, err := NewDebrief(log, c, FAAInstrument())
	if err != nil {
		t.Fatal(err)
	}
	if !with.Flown.ByHeading || without.Flown.ByHeading || len(with.Corrections) != 3 || len(without.Corrections) != 3 {
		t.Fatalf("%+v, %+v", with.Corrections, without.Corrections)
	}
	for i, a := range with.Corrections {
		b := without.Corrections[i]
		if abs(a.Inbound-b.Inbound) > 0.3 || abs(a.Outbound-b.Outbound) > 0.3 || a.Lap != b.Lap {
			t.Errorf("by heading %+v, by track %+v", a, b)
		}
	}
	if r := without.Judgement.Item(HeadingItem); r.Why != "it is not recorded" {
		t.Errorf("%+v", r)
	}
}

// A flight without turns has no wind to tell; the debrief says so and judges the rest.
func TestNoWind(t *testing.T) {
	p, err := hold.NewPattern(hold.Fix{Position: s2.LatLngFromDegrees(50, 8)}, 40, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		t.Fatal(err)
	}
	var points []hold.Point
	for range 2 {
		for i := range 101 {
			points = append(points, hold.Point{Along: abeam.NM(-3 + 0.03*float64(i))})
		}
		points = append(points, hold.Point{Along: 0.01})
	}
	d, err := NewDebrief(placed(t, p, points), Clearance{Pattern: p, Guidance: GPSTerminal()}, FAAInstrument())
	if err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(d.NoWind, "tolerance.EstimateWind: ") || d.Wind != (WindEstimate{}) || d.Corrections != nil || d.Advice != nil || len(d.Judgement.Items) != items {
		t.Errorf("%+v", d)
	}
}

// Where no outbound leg gives the inbound time, the advice says so and takes the shortest.
func TestAdviceInAWindThatLeavesNoLeg(t *testing.T) {
	plan := testPlan(t, hold.Right, wind.Wind{From: 75, Speed: 10})
	log := logOf(t, plan)
	f, err := Cut(log, plan.Pattern)
	if err != nil {
		t.Fatal(err)
	}
	w := WindEstimate{Wind: wind.Wind{From: 89, Speed: 60}, TAS: 118} // 075 magnetic: down the course
	e, err := ExactLap(f, w)
	if err != nil {
		t.Fatal(err)
	}
	shortest, err := plan.Pattern.ShortestInbound(hold.Flight{TAS: 118, Rate: f.Rate, Wind: wind.Wind{From: 75, Speed: 60}})
	if err != nil {
		t.Fatal(err)
	}
	if e.Possible || e.Circuit.Inbound != shortest {
		t.Errorf("%+v, shortest %v", e, shortest)
	}
	corrections, err := Corrections(f, e)
	if err != nil {
		t.Fatal(err)
	}
	advice, err := Advise(f, e, corrections)
	if err != nil || !strings.Contains(advice[0].Text, "no outbound leg gives 1:00 inbound") {
		t.Errorf("%+v, %v", advice, err)
	}
	if _, err := Advise(f, e, nil); err == nil {
		t.Error("advice from no lap")
	}
}

func TestPlanErrors(t *testing.T) {
	good := testPlan(t, hold.Right, wind.Wind{From: 75, Speed: 10})
	for name, bad := range map[string]func(*Plan){
		"pattern": func(p *Plan) { p.Pattern = hold.Pattern{} },
		"TAS":     func(p *Plan) { p.Flight.TAS = 0 },
		"step":    func(p *Plan) { p.Step = 0 },
		"north":   func(p *Plan) { p.HeadingNorth = 0 },
		"height":  func(p *Plan) { p.Altitude = -1 },
		"time":    func(p *Plan) { p.Before = -1 },
		"clock":   func(p *Plan) { p.Laps = []PlannedLap{{Outbound: 2 * time.Hour}} },
		"noise":   func(p *Plan) { p.Noise.IAS = -1 },
		"slip":    func(p *Plan) { p.Slips = []Slip{{Quantity: Track}} },
		"laps":    func(p *Plan) { p.Laps = make([]PlannedLap, maxLaps+1) },
		"samples": func(p *Plan) {
			p.Step, p.Before, p.After = hold.MinStep, time.Hour, 2*time.Hour-time.Hour
			p.Laps = make([]PlannedLap, 60)
		},
		"wind":  func(p *Plan) { p.Flight.Wind.Speed = 130 },
		"entry": func(p *Plan) { p.Entry = 9 },
	} {
		p := good
		bad(&p)
		if log, err := p.Log(); err == nil || log.Samples != nil {
			t.Errorf("%s: no error", name)
		}
	}
}
