package tolerance

import (
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

func TestJudgeErrors(t *testing.T) {
	plan := testPlan(t, hold.Right, wind.Wind{From: 200, Speed: 15})
	log := logOf(t, plan)
	f, err := Cut(log, plan.Pattern)
	if err != nil {
		t.Fatal(err)
	}
	good := Clearance{Pattern: plan.Pattern, Altitude: 7000, IAS: 105}
	for name, bad := range map[string]func(s *Standard, c *Clearance, f *Flown){
		"no standard":   func(s *Standard, _ *Clearance, _ *Flown) { *s = Standard{} },
		"no limit":      func(s *Standard, _ *Clearance, _ *Flown) { *s = Standard{Authority: "own", Met: "in", NotMet: "out"} },
		"NaN limit":     func(s *Standard, _ *Clearance, _ *Flown) { s.Altitude.Over = abeam.Feet(math.NaN()) },
		"less than 0":   func(s *Standard, _ *Clearance, _ *Flown) { s.Airspeed.Under = -1 },
		"no pattern":    func(_ *Standard, c *Clearance, _ *Flown) { c.Pattern = hold.Pattern{} },
		"NaN altitude":  func(_ *Standard, c *Clearance, _ *Flown) { c.Altitude = abeam.Feet(math.NaN()) },
		"two guidances": func(_ *Standard, c *Clearance, _ *Flown) { c.Guidance = Guidance{Angle: 10, Distance: 1} },
		"no guidance":   func(_ *Standard, c *Clearance, _ *Flown) { c.Guidance = Guidance{Name: "x"} },
		"negative time": func(_ *Standard, c *Clearance, _ *Flown) { c.Leave = -1 },
		"no passages":   func(_ *Standard, _ *Clearance, f *Flown) { f.Passages = nil },
		"other pattern": func(_ *Standard, _ *Clearance, f *Flown) { f.Pattern = hold.Pattern{} },
		"NaN course": func(_ *Standard, _ *Clearance, f *Flown) {
			f.Laps = []FlownLap{{InboundCourse: abeam.Bearing(math.NaN())}}
		},
		"endless course": func(s *Standard, _ *Clearance, _ *Flown) { s.Course.Degrees = abeam.Degrees(math.Inf(1)) },
		"backward legs":  func(_ *Standard, _ *Clearance, f *Flown) { f.Laps = []FlownLap{{Legs: [4]Span{{1, 0}}}} },
	} {
		s, c, flown := FAAInstrument(), good, f
		bad(&s, &c, &flown)
		if got, err := Judge(log, flown, s, c); !errors.Is(err, abeam.ErrInvalid) || got.Items != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A log put together by hand is held to what readers promise.
func TestLogsThatAreNone(t *testing.T) {
	plan := testPlan(t, hold.Right, wind.Wind{From: 200, Speed: 15})
	good := logOf(t, plan)
	f, err := Cut(good, plan.Pattern)
	if err != nil {
		t.Fatal(err)
	}
	for name, bad := range map[string]func(s []Sample){
		"NaN latitude":     func(s []Sample) { s[5].Lat = math.NaN() },
		"endless altitude": func(s []Sample) { s[5].Altitude = abeam.Feet(math.Inf(1)) },
		"NaN deviation":    func(s []Sample) { s[5].CDI = math.NaN() },
		"order":            func(s []Sample) { s[5], s[6] = s[6], s[5] },
		"equal times":      func(s []Sample) { s[5].Time = s[6].Time },
	} {
		log := good
		log.Samples = slices.Clone(good.Samples)
		bad(log.Samples)
		_, cut := Cut(log, plan.Pattern)
		_, judge := Judge(log, f, FAAInstrument(), Clearance{Pattern: plan.Pattern})
		_, inferred := Infer(log)
		_, estimate := EstimateWind(log, All(), 0)
		for op, err := range map[string]error{"Cut": cut, "Judge": judge, "Infer": inferred, "EstimateWind": estimate} {
			if !errors.Is(err, abeam.ErrInvalid) {
				t.Errorf("%s of %s: %v", op, name, err)
			}
		}
	}
}
