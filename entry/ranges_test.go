package entry

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/edges"
)

// The documented range of every input, from both sides of its ends.
func TestRanges(t *testing.T) {
	const tiny, hour = math.SmallestNonzeroFloat64, float64(time.Hour)
	p := pattern(t, 0, hold.Right)
	fl, err := FAA().Plan(Direct, time.Minute).Fly(p, hold.Flight{TAS: 120, Rate: 3}, 0, AsPublished)
	if err != nil {
		t.Fatal(err)
	}
	plan := func(change func(*Plan, float64)) func(float64) error {
		return func(x float64) error {
			pl := ICAO().Plan(Teardrop, time.Minute)
			pl.DME = DME{Fix: 250, Limit: 260}
			change(&pl, x)
			return pl.Validate()
		}
	}
	slow := func(change func(*Approaching, float64)) func(float64) error {
		return func(x float64) error {
			a := Approaching{Present: 300, Limit: 200, Deceleration: 2, ToFix: time.Minute}
			change(&a, x)
			return second(a.Slow())
		}
	}
	const valid, slowed = "entry.Plan.Validate", "entry.Approaching.Slow"
	edges.Check(t, []edges.Input{
		edges.Whole(valid, "leg time", 1, hour, plan(func(pl *Plan, x float64) { pl.Leg = time.Duration(x) })),
		edges.Whole(valid, "inbound time", 1, hour, plan(func(pl *Plan, x float64) { pl.Inbound = time.Duration(x) })),
		edges.Whole(valid, "offset limit", 0, hour, plan(func(pl *Plan, x float64) { pl.OffsetLimit = time.Duration(x) })),
		edges.Real(valid, "teardrop angle", 10, 45, plan(func(pl *Plan, x float64) { pl.Teardrop = abeam.Degrees(x) })),
		edges.Real(valid, "intercept angle", 10, 90, plan(func(pl *Plan, x float64) { pl.Intercept = abeam.Degrees(x) })),
		edges.Real(valid, "fix DME", 0, 500, plan(func(pl *Plan, x float64) { pl.DME.Fix = abeam.NM(x) })),
		edges.Real(valid, "DME limit", tiny, 500, plan(func(pl *Plan, x float64) { pl.DME.Limit = abeam.NM(x) })),
		edges.Real(valid, "height above the station", 0, 65_617, plan(func(pl *Plan, x float64) { pl.DME.Height = abeam.Feet(x) })),
		edges.Whole("entry.Published", "leg time", 1, hour, func(x float64) error { return second(Published(p, Direct, 0, time.Duration(x))) }),
		edges.Real("entry.Flown.Actions", "altitude", float64(hold.MinAltitude), float64(hold.MaxAltitude), func(x float64) error {
			return second(fl.Actions(p, Crossing{Altitude: abeam.Feet(x)}))
		}),
		edges.Real(slowed, "present speed", tiny, 800, slow(func(a *Approaching, x float64) { a.Present = abeam.Knots(x) })),
		edges.Real(slowed, "speed limit", tiny, 800, slow(func(a *Approaching, x float64) { a.Limit = abeam.Knots(x) })),
		edges.Real(slowed, "deceleration", 0.01, 10, slow(func(a *Approaching, x float64) { a.Deceleration = abeam.Knots(x) })),
		edges.Real(slowed, "tailwind", -400, 400, slow(func(a *Approaching, x float64) { a.Tailwind = abeam.Knots(x) })),
		edges.Whole(slowed, "time to the fix", 1, float64(24*time.Hour), slow(func(a *Approaching, x float64) { a.ToFix = time.Duration(x) })),
	})
	// The shortest step is one; a groundspeed of nothing at the limit is none to slow down to.
	if _, err := fl.Track(hold.MinStep); err != nil {
		t.Error(err)
	}
	if err := slow(func(a *Approaching, x float64) { a.Tailwind = abeam.Knots(x) })(-200); !errors.Is(err, abeam.ErrUnflyable) {
		t.Errorf("a headwind of the limit: %v", err)
	}
}
