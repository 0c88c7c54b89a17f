package area

import (
	"math"
	"slices"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/wind"
)

// Beyond the limits of ICAO the lines stand, with a note; at a limit there is none. The
// limits: AFMAN 11-217 Vol 1 (2005) table 18.4, PUBLISHED.
func TestSpeedsBeyondTheLimitAreNoted(t *testing.T) {
	air, err := wind.StandardAir(36000, 0)
	if err != nil {
		t.Fatal(err)
	}
	mach83, err := air.CASFromMach(0.83)
	if err != nil {
		t.Fatal(err)
	}
	both := Notes(AboveSpeedLimit | AboveTurbulenceLimit)
	for _, c := range []struct {
		altitude abeam.Feet
		limit    abeam.Knots
		at, past Notes
	}{
		{14000, 230, 0, Notes(AboveSpeedLimit)},
		{14000, 280, Notes(AboveSpeedLimit), both},
		{14000.5, 240, 0, Notes(AboveSpeedLimit)},
		{20000, 280, Notes(AboveSpeedLimit), both},
		{20000.5, 265, 0, Notes(AboveSpeedLimit)},
		{36000, mach83 - 1e-6, 0, 0},
		{36000, mach83 + 1e-6, both, both},
	} {
		past := abeam.Knots(math.Nextafter(float64(c.limit), 1e9))
		for ias, want := range map[abeam.Knots]Notes{c.limit: c.at, past: c.past} {
			l, err := Design{IAS: ias, Altitude: c.altitude}.Lines()
			if err != nil || l.Notes != want {
				t.Errorf("%v at %v: %v, %v, want %v", ias, c.altitude, l.Notes, err, want)
			}
			if !(l.XE > 0) {
				t.Errorf("%v at %v: no lines", ias, c.altitude)
			}
		}
	}
	// In turbulence from 14,000 to 34,000 ft the lesser of 280 KIAS and M 0.80 holds: at 34,000
	// ft, M 0.80 is below 280 KIAS.
	air, err = wind.StandardAir(34000, 0)
	if err != nil {
		t.Fatal(err)
	}
	mach80, err := air.CASFromMach(0.80)
	if err != nil || mach80 > 280 {
		t.Fatal(mach80, err)
	}
	for ias, want := range map[abeam.Knots]bool{mach80 - 1e-6: false, mach80 + 1e-6: true} {
		if l, err := (Design{IAS: ias, Altitude: 34000}).Lines(); err != nil || l.Notes.Has(AboveTurbulenceLimit) != want {
			t.Errorf("%v: %v, %v", ias, l.Notes, err)
		}
	}
	// Beyond Mach 1 there is no Mach number to compare, and the limit is exceeded all the same.
	if l, err := (Design{IAS: 350, Altitude: 50000, Warmer: -60, Wind: 50}).Lines(); err != nil || l.Notes != both {
		t.Errorf("%v, %v", l.Notes, err)
	}
}

func TestShortLegIsNoted(t *testing.T) {
	v := given(Design{IAS: 220, Altitude: 10000}.Lines()).V
	for length, want := range map[abeam.NM]bool{abeam.NM(60 * v * 0.999999): true, abeam.NM(60 * v * 1.000001): false} {
		l, err := Design{IAS: 220, Altitude: 10000, Length: length}.Lines()
		if err != nil || l.Notes.Has(ShortLeg) != want {
			t.Errorf("%v: %v, %v", length, l.Notes, err)
		}
	}
	if l, err := (Design{IAS: 220, Altitude: 10000, Outbound: 30 * time.Second}).Lines(); err != nil || l.Notes != 0 {
		t.Errorf("by time: %v, %v", l.Notes, err) // the altitude's time is the user's to change
	}
}

func TestNotesAreAllWorded(t *testing.T) {
	all := Notes(lastNote - 1)
	notes := slices.Collect(all.All())
	if !slices.Equal(notes, []Note{AboveSpeedLimit, AboveTurbulenceLimit, ShortLeg}) {
		t.Errorf("%v", notes)
	}
	seen := map[string]bool{}
	for _, n := range notes {
		if s := n.String(); s == "not a note" || seen[s] {
			t.Errorf("%d: %q", n, s)
		}
		seen[n.String()] = true
	}
	if got := lastNote.String(); got != "not a note" {
		t.Errorf("%q", got)
	}
	if got := Notes(AboveSpeedLimit | ShortLeg).String(); got != "the airspeed exceeds the holding speed limit of ICAO; the outbound leg takes less than 1 min at the true airspeed" {
		t.Errorf("%q", got)
	}
	if Notes(0).String() != "" || Notes(ShortLeg).Has(AboveSpeedLimit) {
		t.Error("notes that are not there")
	}
}
