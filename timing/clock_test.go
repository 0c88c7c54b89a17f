package timing

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
)

func at(hhmm string) time.Time {
	t, err := time.Parse("15:04", hhmm)
	if err != nil {
		panic(err)
	}
	return t.AddDate(2026, 0, 0)
}

func says(findings []Finding) string {
	var all []string
	for _, f := range findings {
		if f.Source == "" || f.Class == Unstated {
			return "a finding without a source: " + f.Text
		}
		all = append(all, f.Text)
	}
	return strings.Join(all, "; ")
}

func TestLostCommunications(t *testing.T) {
	arrival, efc, eta := at("17:40"), at("18:05"), at("18:20")
	for name, tc := range map[string]struct {
		lost  LostCommunications
		leave time.Time
		says  string
	}{
		"approach, EFC":       {LostCommunications{true, arrival, efc, eta}, efc, "begin descent and approach as near as possible at the time to expect"},
		"approach, no EFC":    {LostCommunications{true, arrival, time.Time{}, eta}, eta, "at the estimated time of arrival"},
		"approach, ETA gone":  {LostCommunications{true, arrival, time.Time{}, at("17:30")}, arrival, "do not hold"},
		"elsewhere, EFC":      {LostCommunications{false, arrival, efc, eta}, efc, "for a fix where one begins"},
		"elsewhere, no EFC":   {LostCommunications{false, arrival, time.Time{}, eta}, arrival, "leave on arrival"},
		"elsewhere, EFC gone": {LostCommunications{false, arrival, at("17:30"), eta}, arrival, "do not hold"},
	} {
		p, err := tc.lost.Leave()
		if err != nil || !p.Leave.Equal(tc.leave) || !strings.Contains(says(p.Findings), tc.says) || !strings.HasPrefix(p.Findings[0].Source, "14 CFR 91.185(c)(3)(i") {
			t.Errorf("%s: %v, %q, %v", name, p.Leave, says(p.Findings), err)
		}
		if none := tc.lost.EFC.IsZero(); strings.Contains(says(p.Findings), "ask for a time") != none {
			t.Errorf("%s: %q", name, says(p.Findings))
		}
	}
	for _, bad := range []LostCommunications{{}, {ApproachFix: true, Arrival: arrival}, {EFC: efc}} {
		if p, err := bad.Leave(); !errors.Is(err, abeam.ErrInvalid) || p.Findings != nil {
			t.Errorf("%+v: %v", bad, err)
		}
	}
}

func TestFuel(t *testing.T) {
	now, lap := at("17:40"), 4*time.Minute
	f := Fuel{OnBoard: 60, PerHour: 30, Reserve: 45} // half an hour
	for name, tc := range map[string]struct {
		fuel   Fuel
		efc    time.Time
		latest time.Time
		laps   int
		short  time.Duration
		says   string
	}{
		"within":     {f, at("18:05"), at("18:10"), 7, 0, ""},
		"at it":      {f, at("18:10"), at("18:10"), 7, 0, ""},
		"beyond":     {f, at("18:25"), at("18:10"), 7, 15 * time.Minute, "15m0s beyond the latest time to leave, 18:10; tell air traffic control now"},
		"none given": {f, time.Time{}, at("18:10"), 7, 0, "ask for one"},
		"reserve":    {Fuel{OnBoard: 45, PerHour: 30, Reserve: 45}, at("17:41"), now, 0, time.Minute, "leave now"},
		"below it":   {Fuel{OnBoard: 10, PerHour: 30, Reserve: 45}, at("17:40"), now, 0, 0, "leave now"},
		"not a lap":  {Fuel{OnBoard: 46, PerHour: 30, Reserve: 45}, at("17:41"), at("17:42"), 0, 0, "another lap"},
		"no end":     {Fuel{OnBoard: math.MaxFloat64, PerHour: math.SmallestNonzeroFloat64}, at("18:05"), now.Add(MaxWait), 360, 0, ""},
	} {
		p, err := tc.fuel.LatestLeave(now, tc.efc, lap)
		if err != nil || !p.Latest.Equal(tc.latest) || p.Laps != tc.laps || p.Short != tc.short || !strings.Contains(says(p.Findings), tc.says) || tc.says == "" && p.Findings != nil {
			t.Errorf("%s: %+v, %v", name, p, err)
		}
	}
	nan := math.NaN()
	for name, bad := range map[string]Fuel{"zero": {}, "negative": {-1, 1, 1}, "NaN": {nan, 1, 1}, "flow": {1, 0, 0}, "flow NaN": {1, nan, 0}, "reserve": {1, 1, -1}, "infinite": {math.Inf(1), 1, 1}} {
		if p, err := bad.LatestLeave(now, time.Time{}, lap); !errors.Is(err, abeam.ErrInvalid) || p.Findings != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := f.LatestLeave(now, time.Time{}, 0); !errors.Is(err, abeam.ErrInvalid) {
		t.Error(err)
	}
	if _, err := f.LatestLeave(time.Time{}, time.Time{}, lap); !errors.Is(err, abeam.ErrInvalid) {
		t.Error(err)
	}
	// What was burnt until the latest time leaves the reserve, to a second's flow.
	rapid.Check(t, func(t *rapid.T) {
		f := Fuel{OnBoard: float64(rapid.IntRange(0, 20000).Draw(t, "on board")), PerHour: float64(rapid.IntRange(1, 5000).Draw(t, "flow")), Reserve: float64(rapid.IntRange(0, 10000).Draw(t, "reserve"))}
		p, err := f.LatestLeave(now, time.Time{}, lap)
		if err != nil {
			t.Fatal(err)
		}
		left := f.OnBoard - f.PerHour*p.Hold.Hours()
		if p.Hold > 0 && left < f.Reserve-1e-6 || p.Hold < MaxWait && left > f.Reserve+f.PerHour/3600+1e-6 && f.OnBoard > f.Reserve {
			t.Fatalf("%+v: %v, %v left", f, p.Hold, left)
		}
	})
}
