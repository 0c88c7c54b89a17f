package entry

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

// A headwind inbound at which both turns alone take the aeroplane back to where the inbound leg
// begins: w (T) = (V - w) tin, a quarter of the airspeed for a circle of 180 s and a leg of 60 s.
// No leg is asked for, to the last digit.
func TestNoLegAskedFor(t *testing.T) {
	f := hold.Flight{TAS: 120, Rate: 2, Wind: wind.Wind{Speed: 30}}
	fl, err := FAA().Plan(Direct, time.Minute).Fly(pattern(t, 0, hold.Right), f, 0, ForWind)
	if err != nil || fl.EntryTime != 0 || fl.Inbound != time.Minute || fl.Total != 4*time.Minute || fl.EntryTrack != 180 || fl.Notes != 0 {
		t.Errorf("%+v, %v", fl, err)
	}
}

// A tailwind inbound of a third of the airspeed carries the turn back, 40 kt for 60 s, as far as
// 30 s outbound from abeam the fix make good at 80 kt: the course is reached over the fix, not
// beyond it. The turn at the fix has taken as long to come abeam again.
func TestEstablishedOverTheFix(t *testing.T) {
	f := hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 180, Speed: 40}}
	fl, err := FAA().Plan(Direct, 30*time.Second).Fly(pattern(t, 0, hold.Right), f, 0, AsPublished)
	if err != nil || fl.Inbound != 0 || fl.Total != 3*time.Minute || fl.Notes.Has(BeyondFix) || !near.Equal(fl.Established.Along, 0, 1e-12) {
		t.Errorf("%+v, %v", fl, err)
	}
	fl, err = FAA().Plan(Direct, 29*time.Second).Fly(pattern(t, 0, hold.Right), f, 0, AsPublished)
	if err != nil || fl.Inbound >= 0 || fl.Total != fl.ToEstablish || !fl.Notes.Has(BeyondFix) || fl.Established.Along <= 0 {
		t.Errorf("a second less: %+v, %v", fl, err)
	}
}

// A wind weaker than the airspeed by the last digit: whether ground is made inbound is for
// rounding to say, and either way the answer is one.
func TestWindOfTheAirspeedByRounding(t *testing.T) {
	p := pattern(t, 0, hold.Right)
	for from := abeam.Bearing(0); from < 360; from += 0.5 {
		f := hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: from, Speed: 119.99999999999999}}
		for _, m := range []Manner{AsPublished, ForWind} {
			fl, err := FAA().Plan(Direct, time.Minute).Fly(p, f, 40, m)
			if err != nil && (fl != (Flown{}) || !errors.Is(err, abeam.ErrUnflyable)) {
				t.Errorf("from %v: %+v, %v", from, fl, err)
			}
		}
	}
}

// The turn to make and what the clock starts by, where the teardrop is already headed for and
// where a direct entry waits for the fix abeam.
func TestActionsWording(t *testing.T) {
	p := pattern(t, 0, hold.Right)
	f := hold.Flight{TAS: 120, Rate: 3}
	for _, c := range []struct {
		kind         Kind
		heading      abeam.Bearing
		turn, timing string
	}{
		{Teardrop, 150, "none, keep heading 150", "60 s, from wings level; then turn right"},
		{Teardrop, 150.4, "none, keep heading 150", "60 s, from wings level; then turn right"},
		{Teardrop, 149, "right through 1 degrees to heading 150", "60 s, from wings level; then turn right"},
		{Parallel, 200, "left through 20 degrees to heading 180", "60 s, from wings level; then turn left"},
		{Direct, 290, "right through 250 degrees to heading 180", "60 s, from wings level or abeam the fix, whichever is later; then turn right"},
	} {
		fl, err := FAA().Plan(c.kind, time.Minute).Fly(p, f, c.heading, AsPublished)
		if err != nil {
			t.Fatal(err)
		}
		actions, err := fl.Actions(p, Crossing{Altitude: 4500})
		if err != nil || actions[0].Do != c.turn || actions[1].Do != c.timing ||
			actions[2].Do != "inbound course 360" || actions[3].Do != "holding speed" || actions[4].Do != "the fix, 4500 ft, entering the hold" {
			t.Errorf("%v from %v: %q, %v", c.kind, c.heading, actions, err)
		}
	}
}

// A leg that ends on a reading is flown to the reading: inbound to the station, fix 10 DME,
// 5 NM leg, turn at 15 (AIM FIG 5-3-5). On the reciprocal over the fix the 5 NM take 150 s at 120 kt.
func TestActionsToADMELimit(t *testing.T) {
	p := pattern(t, 0, hold.Right)
	plan := FAA().Plan(Parallel, time.Minute)
	plan.DME = DME{Fix: 10, Limit: 15}
	fl, err := plan.Fly(p, hold.Flight{TAS: 120, Rate: 3}, 180, AsPublished)
	if err != nil {
		t.Fatal(err)
	}
	actions, err := fl.Actions(p, Crossing{Altitude: 4500})
	if want := "to 15 DME, about 150 s, from wings level; then turn left"; err != nil || actions[1].Do != want {
		t.Errorf("%q, %v, want %q", actions[1].Do, err, want)
	}
}

// Every value says something of its own, and one that is none says so.
func TestNames(t *testing.T) {
	for what, c := range map[string]struct {
		names []fmt.Stringer
		none  fmt.Stringer
		want  string
	}{
		"basis":  {[]fmt.Stringer{Heading, Track}, Basis(0), "not said"},
		"manner": {[]fmt.Stringer{AsPublished, ForWind}, Manner(0), "no manner"},
		"phase": {[]fmt.Stringer{FixTurn, EntryLeg, OffsetTurn, OutboundLeg, ReturnTurn, InterceptLeg, CourseTurn, InboundLeg},
			InboundLeg + 1, "not a phase"},
		"route": {[]fmt.Stringer{InboundRadial, ReciprocalRadial, ArcFromHoldingSide, ArcFromOtherSide, OutboundEnd}, Route(0), "no route"},
		"kind":  {[]fmt.Stringer{Direct, Teardrop, Parallel}, None, "none"},
		"rules": {[]fmt.Stringer{FAA(), FAARNAV(), ICAO(), AirForce()}, Rules{}, "no rules"},
	} {
		seen := map[string]bool{c.want: true}
		for _, n := range c.names {
			if s := n.String(); s == "" || seen[s] {
				t.Errorf("%s: %q twice, or nothing", what, s)
			}
			seen[n.String()] = true
		}
		if got := c.none.String(); got != c.want {
			t.Errorf("%s: %q, want %q", what, got, c.want)
		}
	}
	for _, k := range []Kind{None, Direct, Teardrop, Parallel} {
		var got Kind
		if err := got.UnmarshalText([]byte(k.String())); err != nil || got != k {
			t.Errorf("%v reads back as %v, %v", k, got, err)
		}
	}
}

// The one that strays least comes first; of two that stray alike the one that goes less far
// beyond the fix, then the one established sooner; what cannot be flown comes last.
func TestCompareOrder(t *testing.T) {
	p := pattern(t, 0, hold.Right)
	var beyond, sooner, unflyable int
	for from := abeam.Bearing(0); from < 360; from += 5 {
		for heading := abeam.Bearing(0); heading < 360; heading += 3 {
			for _, speed := range []abeam.Knots{15, 60, 118} {
				f := hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: from, Speed: speed}}
				all, err := AirForce().Compare(p, f, heading, time.Minute, AsPublished)
				if err != nil {
					t.Fatal(err)
				}
				for i, second := range all[1:] {
					first := all[i]
					a, b := first.Flown.Extent, second.Flown.Extent
					switch {
					case first.Err != nil && second.Err != nil:
					case first.Err == nil && second.Err != nil:
						unflyable++
					case first.Err == nil && a.Astray < b.Astray:
					case first.Err == nil && a.Astray == b.Astray && a.Beyond < b.Beyond:
						beyond++
					case first.Err == nil && a.Astray == b.Astray && a.Beyond == b.Beyond && first.Flown.ToEstablish <= second.Flown.ToEstablish:
						sooner++
					default:
						t.Errorf("wind %v, heading %v: %v (%+v, %v) before %v (%+v, %v)", f.Wind, heading, first.Entry, a, first.Err, second.Entry, b, second.Err)
					}
					if (second.Err != nil) != (second.Flown == (Flown{})) {
						t.Errorf("wind %v, heading %v: %+v", f.Wind, heading, second)
					}
				}
			}
		}
	}
	if beyond < 100 || sooner < 100 || unflyable < 5 {
		t.Errorf("decided by beyond %d, by time %d, unflyable last %d", beyond, sooner, unflyable)
	}
}

// An entry that reaches farther than a point can be placed is refused whole; and a consumer of
// positions that stops is not called again.
func TestPositionsEnds(t *testing.T) {
	p, err := hold.NewPattern(hold.Fix{Position: s2.LatLngFromDegrees(47.25, -120.5)}, 0, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		t.Fatal(err)
	}
	fl, err := FAA().Plan(Direct, hold.MaxLeg).Fly(p, hold.Flight{TAS: 600, Rate: 3}, 0, AsPublished)
	if err != nil || fl.Extent.Outbound <= hold.MaxRange {
		t.Fatal(fl.Extent, err)
	}
	if _, err := fl.Positions(p, time.Second); !errors.Is(err, abeam.ErrInvalid) || !strings.Contains(err.Error(), "hold.Pattern.Place") {
		t.Errorf("%v", err)
	}
	fl, err = FAA().Plan(Direct, time.Minute).Fly(p, hold.Flight{TAS: 120, Rate: 3}, 0, AsPublished)
	if err != nil {
		t.Fatal(err)
	}
	positions, err := fl.Positions(p, time.Second)
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for s := range positions {
		if n++; n == 2 {
			if !near.Equal(s.Time.Seconds(), 1, 1e-12) {
				t.Errorf("the second sample is at %v", s.Time)
			}
			break
		}
	}
	if n != 2 {
		t.Errorf("stopped after %d", n)
	}
}
