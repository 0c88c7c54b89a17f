package timing

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// planned is a hold to depart from, with the lap of the shortest leg allowed, its own, and that
// of the longest.
type planned struct {
	p      hold.Pattern
	f      hold.Flight
	limits LegLimits
	laps   [3]time.Duration
}

// departures are holds in winds from all sides with narrow, wide and overlapping windows.
func departures(t *testing.T) (all []planned) {
	for i, limits := range []LegLimits{{0, time.Minute}, {40 * time.Second, time.Minute}, {time.Minute, time.Minute}, {30 * time.Second, 2 * time.Minute}, {0, 10 * time.Minute}, {0, 20 * time.Minute}} {
		leg := time.Minute
		if limits.Longest > 10*time.Minute { // the shortest lap is below half of the pattern's
			leg = 10 * time.Minute
		}
		for from := abeam.Bearing(0); from < 360; from += 72 {
			d := planned{
				p: pattern(t, 75, hold.Turn(i&1), leg), limits: limits,
				f: hold.Flight{TAS: 110, Rate: 3, Wind: wind.Wind{From: from, Speed: 23}},
			}
			least, err := d.p.ShortestInbound(d.f)
			if err != nil {
				t.Fatal(err)
			}
			for k, inbound := range []time.Duration{max(1, least, limits.Shortest), leg, limits.Longest} {
				last, err := d.p.WithLeg(hold.TimedInbound(inbound))
				if err != nil {
					t.Fatal(err)
				}
				c, err := last.Circuit(d.f)
				if err != nil {
					t.Fatal(err)
				}
				d.laps[k] = c.Lap
			}
			all = append(all, d)
		}
	}
	return all
}

// times are the ends of the windows and the laps, with their neighbours, and some between.
func (d *planned) times() (all []time.Duration) {
	for whole := range time.Duration(4) {
		for _, lap := range []time.Duration{d.laps[0], d.laps[1], d.laps[2], (d.laps[0] + d.laps[1]) / 2, (d.laps[1] + d.laps[2]) / 2, d.laps[0] + d.laps[1]/2, d.laps[1] + d.laps[1]/2} {
			for beside := time.Duration(-1); beside <= 1; beside++ {
				all = append(all, whole*d.laps[1]+lap+beside)
			}
		}
	}
	return append(all, 1, d.laps[0]/2)
}

// What the planner gives is what trying every number of laps gives: of the plans that fit the
// one whose last lap is nearest to the pattern's, with the fewest laps, or the nearest crossings on both sides.
func TestDepartureAgainstEveryNumberOfLaps(t *testing.T) {
	for _, d := range departures(t) {
		shortest, lap, longest := d.laps[0], d.laps[1], d.laps[2]
		for _, asked := range d.times() {
			got, err := PlanDeparture(d.p, d.f, d.limits, asked)
			if err != nil {
				t.Fatal(err)
			}
			fits, nearest, whole := false, time.Duration(0), 0
			before, after := time.Duration(0), time.Duration(math.MaxInt64)
			for n := time.Duration(0); n <= asked/lap+1; n++ {
				last := asked - n*lap
				if last >= shortest && last <= longest {
					if off := (last - lap).Abs(); !fits || off < nearest {
						nearest, whole = off, int(n)
					}
					fits = true
				}
				if n*lap+longest < asked {
					before = max(before, n*lap+longest)
				}
				if n*lap+shortest > asked {
					after = min(after, n*lap+shortest)
				}
			}
			if got.Met != fits {
				t.Fatalf("asked %v of laps %v: met %v", asked, d.laps, got.Met)
			}
			if !fits {
				if got.Before.Time != before || got.After.Time != after {
					t.Fatalf("asked %v of laps %v: %v and %v, want %v and %v", asked, d.laps, got.Before.Time, got.After.Time, before, after)
				}
				continue
			}
			if got.At.Whole != whole {
				t.Fatalf("asked %v of laps %v: %d whole laps, %d leave a lap nearer to the pattern's", asked, d.laps, got.At.Whole, whole)
			}
			last := asked - time.Duration(whole)*lap
			// The ends of a window and the pattern's own lap need no search.
			if late := got.At.Time - asked; late > 0 || late < -Punctual || (last == shortest || last == lap || last == longest) && late != 0 {
				t.Fatalf("asked %v of laps %v, crosses at %v", asked, d.laps, got.At.Time)
			}
		}
	}
}

// The windows are every number of laps with the range of the last one, joined where they
// meet and cut at the time given.
func TestWindowsAgainstEveryNumberOfLaps(t *testing.T) {
	for _, d := range departures(t) {
		for _, until := range d.times() {
			got, err := DepartureWindows(d.p, d.f, d.limits, until)
			if err != nil {
				t.Fatal(err)
			}
			want := []Window{{}}
			for n := 0; time.Duration(n)*d.laps[1]+d.laps[0] <= until; n++ {
				from, to := time.Duration(n)*d.laps[1]+d.laps[0], min(until, time.Duration(n)*d.laps[1]+d.laps[2])
				if n > 0 && from <= want[len(want)-1].To {
					want[len(want)-1].To = to
				} else {
					want = append(want, Window{n, from, to})
				}
			}
			if !slices.Equal(got, want) {
				t.Fatalf("until %v of laps %v: %v, want %v", until, d.laps, got, want)
			}
		}
	}
}

// In a wind from behind of 99.8 % of the airspeed the lap grows a thousand times as fast as its
// inbound leg, and the planner still meets the time; beyond, where a nanosecond inbound is more
// than Punctual, it may not, and says so.
func TestDepartureInAWindNearTheAirspeed(t *testing.T) {
	p := pattern(t, 90, hold.Right, 10*time.Second)
	for _, from := range []abeam.Bearing{270, 240, 0} {
		for _, share := range []abeam.Knots{0.9, 0.98, 0.99, 0.997} {
			f := hold.Flight{TAS: 100, Rate: hold.MaxRate, Wind: wind.Wind{From: from, Speed: 100 * share}}
			windows, err := DepartureWindows(p, f, WithinPattern(p), MaxWait)
			if err != nil {
				t.Fatal(err)
			}
			w := windows[1]
			for i := range time.Duration(50) {
				asked := w.From + i*(w.To-w.From)/50 + i*7919
				d, err := PlanDeparture(p, f, WithinPattern(p), asked)
				if err != nil || !d.Met || d.At.Time > asked || d.At.Time < asked-Punctual {
					t.Fatalf("wind %v, asked %v: %v, %v", f.Wind, asked, d.At.Time, err)
				}
			}
		}
	}
	f := hold.Flight{TAS: 100, Rate: hold.MaxRate, Wind: wind.Wind{From: 270, Speed: 99.95}}
	windows, err := DepartureWindows(p, f, WithinPattern(p), MaxWait)
	if err != nil || len(windows) < 2 {
		t.Fatal(windows, err)
	}
	failed := 0
	for i := range time.Duration(50) {
		d, err := PlanDeparture(p, f, WithinPattern(p), windows[1].From+i*7919)
		if errors.Is(err, abeam.ErrNoConvergence) && d == (Departure{}) {
			failed++
		} else if err != nil {
			t.Fatal(err)
		}
	}
	if failed == 0 {
		t.Error("a nanosecond inbound is 4 microseconds of a lap, and every time is met")
	}
}

// In 99.9 % of the airspeed the lap of a given time is not exact to a microsecond in closed form,
// and the steps that follow find it.
func TestDepartureIsSteppedTo(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	tried := 0
	for range 20_000 {
		p := pattern(t, abeam.Bearing(360*r.Float64()), hold.Right, time.Duration(1+r.IntN(300))*time.Second)
		f := hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: abeam.Bearing(360 * r.Float64()), Speed: 120 * 0.999}}
		pl, err := newPlanner("", p, f, LegLimits{Longest: time.Hour})
		if err != nil || pl.mostLast-pl.shortestLap > 500*(pl.longest.Inbound-pl.shortest.Inbound) {
			continue
		}
		asked := pl.shortestLap + time.Duration(r.Float64()*float64(pl.mostLast-pl.shortestLap))
		c, err := pl.last(asked)
		if late := c.Lap - asked; err != nil || late > 0 || late < -Punctual {
			t.Fatalf("%v in %v: %v, late by %v", p, f.Wind, err, late)
		}
		tried++
	}
	if tried < 1000 {
		t.Errorf("%d tried", tried)
	}
}

// The legs of the authorities: 1 minute to 14,000 ft, 1.5 above. Source: AIM 5-3-8 j.
func TestLimitsOfAnAuthority(t *testing.T) {
	for altitude, want := range map[abeam.Feet]time.Duration{6000: time.Minute, 14000: time.Minute, 14001: 90 * time.Second} {
		if got, err := LimitsOf(hold.FAA(), altitude); err != nil || got != (LegLimits{Longest: want}) {
			t.Errorf("at %v: %v, %v", altitude, got, err)
		}
	}
	if got, err := LimitsOf(hold.FAA(), abeam.Feet(math.NaN())); !errors.Is(err, abeam.ErrInvalid) || got != (LegLimits{}) {
		t.Errorf("no altitude: %v, %v", got, err)
	}
}

// A leg that is no inbound time has none to stretch or to shorten.
func TestDepartureNeedsATimedLeg(t *testing.T) {
	f := hold.Flight{TAS: 120, Rate: 3}
	for _, leg := range []hold.Leg{hold.LengthOutbound(5), hold.TimedOutbound(time.Minute)} {
		p, err := pattern(t, 90, hold.Right, time.Minute).WithLeg(leg)
		if err != nil {
			t.Fatal(err)
		}
		var e *abeam.FieldError
		if d, err := PlanDeparture(p, f, LegLimits{}, time.Minute); !errors.As(err, &e) || e.Field != "leg" || e.Op != "timing.PlanDeparture" || d != (Departure{}) {
			t.Errorf("%v: %v", leg, err)
		}
	}
}

// A minute of hold in a headwind straight down the course, worked by hand. The lap of 120 kt
// against 30 closes when out (V + w) = in (V - w) - T w: with a minute in and 2 minutes of
// turns, 150 out = 90 x 60 - 30 x 120 s, so 12 s out and a lap of 192 s; with the shortest leg,
// 40 s in and none out, 160 s. Between the two the lap grows by 1.6 s for a second inbound.
func TestDepartureWorkedByHand(t *testing.T) {
	p := pattern(t, 90, hold.Right, time.Minute)
	f := hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 90, Speed: 30}}
	for _, tc := range []struct {
		asked, inbound float64 // s
		whole          int
	}{{192, 60, 0}, {176, 50, 0}, {192 + 168, 45, 1}, {3 * 192, 60, 2}} {
		d, err := PlanDeparture(p, f, WithinPattern(p), time.Duration(tc.asked*1e9))
		if err != nil || !d.Met || d.At.Whole != tc.whole || math.Abs(d.At.Last.Inbound.Seconds()-tc.inbound) > 1e-6 {
			t.Errorf("in %v s: %+v, %v", tc.asked, d.At, err)
		}
	}
	for asked, want := range map[float64][2]float64{159: {0, 160}, 193: {192, 352}} {
		d, err := PlanDeparture(p, f, WithinPattern(p), time.Duration(asked*1e9))
		if err != nil || d.Met || math.Abs(d.Before.Time.Seconds()-want[0]) > 1e-6 || math.Abs(d.After.Time.Seconds()-want[1]) > 1e-6 {
			t.Errorf("in %v s: %v and %v, %v", asked, d.Before.Time, d.After.Time, err)
		}
	}
}

// Half of what the turns leave: 3 minutes to lose and turns of 2 leave 30 s, as AIM 5-4-10 has
// it; the turns alone leave nothing.
func TestLoseTimeByHand(t *testing.T) {
	for _, tc := range [][3]time.Duration{{3 * time.Minute, 2 * time.Minute, 30 * time.Second}, {2 * time.Minute, 2 * time.Minute, 0}, {5 * time.Minute, 0, 150 * time.Second}} {
		if got, err := LoseTime(tc[0], tc[1]); err != nil || got != tc[2] {
			t.Errorf("%v to lose, turns %v: %v, %v", tc[0], tc[1], got, err)
		}
	}
	if _, err := LoseTime(2*time.Minute-1, 2*time.Minute); !errors.Is(err, abeam.ErrUnflyable) {
		t.Error(err)
	}
}
