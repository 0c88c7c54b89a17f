package timing

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// still is a hold in still air at 120 kt and 3 deg/s: 2 NM a minute, turns of radius 2/pi NM
// that take a minute.
func still(t *testing.T, plan Plan, cut abeam.Degrees) Lap {
	t.Helper()
	trial := Trial{
		Pattern: pattern(t, 90, hold.Right, time.Minute), Flight: hold.Flight{TAS: 120, Rate: 3}, Start: AtAbeam,
		Strategy: fixed(plan), Intercept: Intercept{Cut: cut},
	}
	laps, err := trial.AppendLaps(nil, 1)
	if err != nil {
		t.Fatal(err)
	}
	return laps[0]
}

const radius = 2 / math.Pi // NM, of a turn of still

// Straight away from the course the fix never comes abeam and the clock starts at wings level.
// The turns of a quarter and three quarters leave the aeroplane abeam the fix, by what it flew
// outbound and the difference of the turns, where it passes it at once, whatever the cut.
func TestOutboundStraightAcross(t *testing.T) {
	for _, cut := range []abeam.Degrees{0, 30} {
		for _, start := range []Start{AtAbeam, AtTurnComplete, AtWingsLevelOrAbeam} {
			l := still(t, Plan{Correction: -90, Outbound: 30 * time.Second, Start: start}, cut)
			if l.Outbound != 30*time.Second || l.Straight != 30*time.Second || l.ToAbeam != 0 || l.Inbound != 0 || l.Cut != 0 ||
				l.RollOut.Along != 0 || math.Abs(float64(l.RollOut.Abreast)-1) > 1e-12 || l.Passed != l.RollOut.Abreast || l.Lap != 150*time.Second {
				t.Errorf("cut %v, %v: %+v", cut, start, l)
			}
		}
	}
}

// Abeam is waited for an hour at most. On a heading off by d from straight across the fix comes
// abeam after a radius at v sin d, cot(d) r/v = cot(d) 60/pi s from wings level: an hour at
// d = 0.304 degrees.
func TestAbeamIsWaitedForAnHour(t *testing.T) {
	limit := math.Atan(60/math.Pi/3600) * 180 / math.Pi
	for off, waits := range map[float64]bool{limit * 1.001: true, limit * 0.999: false, -limit: false, 0.001: false} {
		l := still(t, Plan{Correction: abeam.Degrees(-90 + off), Outbound: time.Minute}, 0)
		want := time.Minute
		if waits {
			want += time.Duration(60 / math.Pi / math.Tan(off*math.Pi/180) * 1e9)
		}
		if (l.Straight-want).Abs() > time.Microsecond || (l.ToAbeam != 0) != waits || l.Outbound != time.Minute {
			t.Errorf("off by %v degrees: flown for %v, abeam after %v, want %v", off, l.Straight, l.ToAbeam, want)
		}
	}
}

// A turn begun the moment the fix is abeam has seen it abeam. In still air on the reciprocal
// that is at wings level, a minute after the fix.
func TestTurnAtTheMomentAbeam(t *testing.T) {
	trial := Trial{
		Pattern: pattern(t, 90, hold.Right, time.Minute), Flight: hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 270, Speed: 20}},
		Start: AtAbeam, Strategy: fixed(Plan{}),
	}
	laps, err := trial.AppendLaps(nil, 1)
	if err != nil {
		t.Fatal(err)
	}
	// Carried 20/60 NM beyond it in the turn, it goes back over them at 100 kt: 12 s.
	if l := laps[0]; (l.ToAbeam-72*time.Second).Abs() > time.Microsecond || (l.Straight-12*time.Second).Abs() > time.Microsecond || l.Outbound != 0 {
		t.Errorf("%+v", l)
	}
}

// The reading of the clock is what was asked for, where the clock has started by then.
func TestClockReadsWhatWasAsked(t *testing.T) {
	for _, start := range []Start{AtAbeam, AtTurnComplete, AtWingsLevelOrAbeam} {
		for from := abeam.Bearing(0); from < 360; from += 40 {
			trial := Trial{
				Pattern: pattern(t, 90, hold.Left, time.Minute), Flight: hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: from, Speed: 25}},
				Start: start, Strategy: fixed(Plan{Outbound: 50 * time.Second}),
			}
			laps, err := trial.AppendLaps(nil, 3)
			if err != nil {
				t.Fatal(err)
			}
			for i, l := range laps {
				if (l.Outbound - 50*time.Second).Abs() > 1 {
					t.Errorf("%v, wind from %v, lap %d: %v", start, from, i+1, l.Outbound)
				}
			}
		}
	}
}

// An inbound turn that is late by 5 s is flown 5 s farther out; one that would be early by more
// than the leg begins at wings level.
func TestLateTurn(t *testing.T) {
	var a air
	if err := a.set("test", pattern(t, 90, hold.Right, time.Minute), hold.Flight{TAS: 120, Rate: 3}, 3, 3); err != nil {
		t.Fatal(err)
	}
	for late, want := range map[float64]float64{0: 60, 5: 65, -5: 55, -70: 0} {
		var f flown
		a.fly(a.level(0, 0), &order{out: 180, time: 60, start: AtTurnComplete, late: late}, &f)
		if math.Abs(f.straight-want) > 1e-9 || math.Abs(f.rollX+want/30) > 1e-9 { // 2 NM a minute
			t.Errorf("late by %v s: %v s outbound, rolled out at %v", late, f.straight, f.rollX)
		}
	}
}

// Every angle is brought to one of [0, 360) that differs by whole circles; a hair below 0 is 0
// and no circle.
func TestCircle(t *testing.T) {
	for _, tc := range [][2]float64{
		{0, 0}, {359.5, 359.5}, {360, 0}, {361, 1}, {720, 0}, {1081, 1}, {-1, 359}, {-359, 1}, {-360, 0}, {-361, 359}, {-725, 355}, {-1e-20, 0}, {180, 180},
	} {
		if got := circle(tc[0]); got != tc[1] {
			t.Errorf("%v: %v, want %v", tc[0], got, tc[1])
		}
	}
}

// The cut is the largest that fits. In still air two turns by c take 2 r (1 - cos c) across the
// course, and nothing smaller than a sixteenth is tried.
func TestCutByHand(t *testing.T) {
	across := func(cut float64) float64 { return 2 * radius * (1 - math.Cos(cut*math.Pi/180)) }
	var a air
	if err := a.set("test", pattern(t, 90, hold.Right, time.Minute), hold.Flight{TAS: 120, Rate: 3}, 3, 3); err != nil {
		t.Fatal(err)
	}
	for _, tc := range []struct{ y, want float64 }{
		{across(30) + 1e-9, -30}, {across(30) - 1e-9, -15}, {across(15) - 1e-9, -7.5}, {across(7.5) - 1e-9, -3.75},
		{across(3.75) - 1e-9, -1.875}, {across(1.875) + 1e-9, -1.875}, {across(1.875) - 1e-9, 0}, {across(0.9375) + 1e-9, 0}, {0, 0},
		{-across(30) - 1e-9, 30}, {-across(30) + 1e-9, 15}, {-across(1.875) + 1e-9, 0},
	} {
		_, at, flown := a.inbound(-5, tc.y, 30)
		if joined := math.Abs(at.y) < 1e-12; flown != tc.want || joined != (flown != 0 || tc.y == 0) || at.x != 0 || at.heading != a.in {
			t.Errorf("%v NM off the course: cut %v, want %v, passed %+v", tc.y, flown, tc.want, at)
		}
	}
	// Just reaching the course with the turns alone is joining it.
	sin, cos := sincos(-30)
	_, ay := a.arc(-a.rate2, a.sinIn, a.cosIn, sin, cos, 10)
	if _, _, flown := a.inbound(-5, -2*ay, 30); flown != -30 {
		t.Errorf("turns that end on the course: cut %v", flown)
	}
}

// A wind of 60 kt down the course stops an aeroplane of 120 kt along it on a heading 60 degrees
// off: the cut is halved.
func TestCutThatTheWindStops(t *testing.T) {
	var a air
	if err := a.set("test", pattern(t, 90, hold.Right, time.Minute), hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 90, Speed: 60}}, 3, 3); err != nil {
		t.Fatal(err)
	}
	if _, _, flown := a.inbound(-5, 3, 60); flown != -30 {
		t.Errorf("cut %v", flown)
	}
	if _, _, flown := a.inbound(-5, 3, 59.9); flown != -59.9 {
		t.Errorf("cut %v", flown)
	}
}

// A wind a hair below the airspeed leaves a finite answer or none.
func TestWindAHairBelowTheAirspeed(t *testing.T) {
	p := pattern(t, 0, hold.Right, time.Minute)
	for tas := 60.0; tas < 400; tas++ {
		f := hold.Flight{TAS: abeam.Knots(tas), Rate: 3, Wind: wind.Wind{From: 0, Speed: abeam.Knots(math.Nextafter(tas, 0))}}
		for _, outbound := range []abeam.Bearing{0, 180} {
			if s, err := Sensitivity(p, f, outbound); err == nil && (math.IsNaN(s) || math.IsInf(s, 0)) || err != nil && (!errors.Is(err, abeam.ErrUnflyable) || s != 0) {
				t.Errorf("TAS %v, outbound %v: %v, %v", tas, outbound, s, err)
			}
		}
	}
}
