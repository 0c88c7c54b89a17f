package wind_test

import (
	"errors"
	"math"
	"testing"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

// The worst errors that the documentation of each rule states, rounded up: over TAS
// 80 to 300 kt, wind up to 0.4 of it, and the angles for which the rule is taught.
const (
	clockCodeShare, clockCodeDrift     = 0.21, 5.5
	sixthsShare, sixthsDrift           = 0.19, 4.9
	anglePlus20Share, anglePlus20Drift = 0.07, 1.8
	maxDriftRuleError                  = 0.55
	oneInSixtyTo10, oneInSixtyTo20     = 0.54, 1.57
)

// stated reports whether a worst error is the stated one, rounded up.
func stated(worst, doc, step float64) bool { return worst <= doc && worst > doc-step }

func TestCrosswindRulesAreAsGoodAsStated(t *testing.T) {
	for _, rule := range []struct {
		name         string
		share        func(abeam.Degrees) (float64, error)
		from         float64
		worst, drift float64
	}{
		{"ClockCode", wind.ClockCode, 0, clockCodeShare, clockCodeDrift},
		{"Sixths", wind.Sixths, 0, sixthsShare, sixthsDrift},
		{"AnglePlus20", wind.AnglePlus20, 20, anglePlus20Share, anglePlus20Drift},
	} {
		var worstShare, worstDrift float64
		for a := rule.from; a <= 90; a += 0.5 {
			share, err := rule.share(abeam.Degrees(a))
			if err != nil {
				t.Fatal(err)
			}
			worstShare = max(worstShare, math.Abs(share-math.Sin(a*math.Pi/180)))
			for tas := abeam.Knots(80); tas <= 300; tas += 20 {
				for part := abeam.Knots(0.02); part < 0.401; part += 0.02 {
					tri, err := wind.SolveHeading(0, tas, wind.Wind{From: abeam.Bearing(a), Speed: part * tas})
					if err != nil {
						t.Fatal(err)
					}
					most, err := wind.MaxDriftRule(tas, part*tas)
					if err != nil {
						t.Fatal(err)
					}
					worstDrift = max(worstDrift, math.Abs(share*float64(most)-float64(tri.Correction)))
				}
			}
		}
		if !stated(worstShare, rule.worst, 0.01) || !stated(worstDrift, rule.drift, 0.1) {
			t.Errorf("%s: worst share %.4f, stated %v; worst drift %.3f, stated %v", rule.name, worstShare, rule.worst, worstDrift, rule.drift)
		}
	}
}

func TestDriftRulesAreAsGoodAsStated(t *testing.T) {
	worst := 0.0
	for i := range 4001 {
		w := abeam.Knots(i) * 0.01
		exact, err1 := wind.MaxDrift(100, w)
		rule, err2 := wind.MaxDriftRule(100, w)
		if err1 != nil || err2 != nil || rule < exact {
			t.Fatalf("wind %v: exact %v, %v; rule %v, %v", w, exact, err1, rule, err2)
		}
		worst = max(worst, float64(rule-exact))
	}
	if !stated(worst, maxDriftRuleError, 0.01) {
		t.Errorf("MaxDriftRule: worst %.4f, stated %v", worst, maxDriftRuleError)
	}
	for _, c := range []struct{ answer, doc float64 }{{10, oneInSixtyTo10}, {20, oneInSixtyTo20}} {
		got, err := wind.OneInSixty(abeam.NM(c.answer), 60)
		if err != nil || float64(got) != c.answer {
			t.Fatalf("%v in sixty: %v, %v", c.answer, got, err)
		}
		// The error grows with the angle, so that the last is the worst.
		if worst := c.answer - math.Atan(c.answer/60)*180/math.Pi; !stated(worst, c.doc, 0.01) {
			t.Errorf("OneInSixty to %v: worst %.4f, stated %v", c.answer, worst, c.doc)
		}
	}
}

// The largest correction on any course is MaxDrift.
func TestMaxDriftIsTheLargest(t *testing.T) {
	most := abeam.Degrees(0)
	for course := range 360 {
		tri, err := wind.SolveHeading(abeam.Bearing(course), 110, wind.Wind{From: 17, Speed: 40})
		if err != nil {
			t.Fatal(err)
		}
		most = max(most, tri.Correction)
	}
	if want, err := wind.MaxDrift(110, 40); err != nil || !near.Equal(most, want, 1e-9) {
		t.Errorf("largest correction %v, MaxDrift %v, %v", most, want, err)
	}
}

// The steps of the rules as they are taught, and their sides.
func TestCrosswindRuleSteps(t *testing.T) {
	for _, c := range []struct {
		rule  func(abeam.Degrees) (float64, error)
		angle abeam.Degrees
		want  float64
	}{
		{wind.ClockCode, 0, 0}, {wind.ClockCode, 15, 0.25}, {wind.ClockCode, 30, 0.5}, {wind.ClockCode, 45, 0.75},
		{wind.ClockCode, 60, 1}, {wind.ClockCode, 75, 1}, {wind.ClockCode, 90, 1},
		{wind.ClockCode, -30, -0.5}, {wind.ClockCode, 150, 0.5}, {wind.ClockCode, -150, -0.5}, {wind.ClockCode, 180, 0},
		{wind.Sixths, 10, 1.0 / 6}, {wind.Sixths, 20, 2.0 / 6}, {wind.Sixths, 30, 0.5}, {wind.Sixths, 40, 4.0 / 6},
		{wind.Sixths, 50, 5.0 / 6}, {wind.Sixths, 60, 1}, {wind.Sixths, -90, -1}, {wind.Sixths, 330, -0.5},
		{wind.AnglePlus20, 20, 0.4}, {wind.AnglePlus20, 30, 0.5}, {wind.AnglePlus20, 60, 0.8}, {wind.AnglePlus20, 80, 1},
		{wind.AnglePlus20, -90, -1}, {wind.AnglePlus20, 150, 0.5},
		{wind.ClockCode, -3, 0}, {wind.ClockCode, -180, 0}, {wind.Sixths, -4, 0}, // no share has no side
	} {
		if got, err := c.rule(c.angle); err != nil || !near.Equal(got, c.want, 1e-15) || got == 0 && math.Signbit(got) {
			t.Errorf("%v: got %v, %v; want %v", c.angle, got, err, c.want)
		}
	}
}

func TestRulesBadInput(t *testing.T) {
	for name, got := range map[string]answer{
		"ClockCode NaN":        raw(wind.ClockCode(abeam.Degrees(nan))),
		"Sixths infinite":      raw(wind.Sixths(abeam.Degrees(inf))),
		"AnglePlus20 NaN":      raw(wind.AnglePlus20(abeam.Degrees(nan))),
		"AnglePlus20 ahead":    raw(wind.AnglePlus20(19.9)),
		"AnglePlus20 behind":   raw(wind.AnglePlus20(-170)),
		"MaxDrift TAS 0":       raw(wind.MaxDrift(0, 0)),
		"MaxDrift wind NaN":    raw(wind.MaxDrift(100, abeam.Knots(nan))),
		"MaxDriftRule wind -1": raw(wind.MaxDriftRule(100, -1)),
		"OneInSixty along 0":   raw(wind.OneInSixty(0, 0)),
		"OneInSixty off far":   raw(wind.OneInSixty(-61, 60)),
		"OneInSixty off NaN":   raw(wind.OneInSixty(abeam.NM(nan), 60)),
	} {
		if got.value != 0 || !errors.Is(got.err, abeam.ErrInvalid) {
			t.Errorf("%s: %v, %v", name, got.value, got.err)
		}
	}
	for name, got := range map[string]answer{
		"MaxDrift":     raw(wind.MaxDrift(100, 100.1)),
		"MaxDriftRule": raw(wind.MaxDriftRule(100, 100.1)),
	} {
		if got.value != 0 || !errors.Is(got.err, abeam.ErrUnflyable) {
			t.Errorf("%s in a wind above the TAS: %v, %v", name, got.value, got.err)
		}
	}
	if d, err := wind.MaxDrift(100, 100); err != nil || d != 90 {
		t.Errorf("MaxDrift in a wind of the TAS: %v, %v", d, err)
	}
}
