package main

import (
	"testing"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/tolerance"
)

// A log of places chosen by hand: over the fix, inside, 30 NM abeam, on the other side of the
// globe, and one after the hold, which does not count.
func TestProtected(t *testing.T) {
	pattern, err := hold.NewPattern(hold.Fix{Position: s2.LatLngFromDegrees(47, 8)}, 90, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		t.Fatal(err)
	}
	var log tolerance.Log
	for i, at := range [][2]float64{{47, 8}, {46.98, 7.97}, {46.5, 8}, {-47, -172}, {10, 10}} {
		log.Samples = append(log.Samples, tolerance.Sample{Time: time.Duration(i) * time.Second, Lat: at[0], Lon: at[1]})
	}
	flown := tolerance.Flown{Pattern: pattern, Passages: []tolerance.Passage{{Time: 0}, {Time: 3 * time.Second}}}
	var r Report
	r.protected(log, flown, task{clearance: tolerance.Clearance{Altitude: 6000}})
	if p := r.Protected; p == nil || p.IAS != 230 || p.Wind != 59 || p.Samples != 4 || p.Outside != 2 || p.Margin > -15 || p.Margin < -30 {
		t.Fatalf("%+v", r.Protected)
	}
	r = Report{}
	r.protected(log, flown, task{})
	if r.Protected != nil {
		t.Errorf("without an altitude: %+v", r.Protected)
	}
	log.Samples = log.Samples[3:4] // none that has a place
	r.protected(log, flown, task{clearance: tolerance.Clearance{Altitude: 6000}})
	if r.Protected != nil {
		t.Errorf("nowhere near: %+v", r.Protected)
	}
}
