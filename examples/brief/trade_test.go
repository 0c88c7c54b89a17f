package main

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/holdingfix/abeam/examples/internal/program"
)

func inOneLine(t *testing.T, args ...string) string {
	t.Helper()
	code, out, stderr := brief(args...)
	if code != program.OK {
		t.Fatalf("%v: exit %d, %s", args, code, stderr)
	}
	return strings.Join(strings.Fields(out), " ")
}

// A cleared speed above the limit of the altitude is asked about and does not raise it; one
// below governs.
func TestClearedSpeed(t *testing.T) {
	const words = "HOLD WEST OF TARNO ON THE 255 RADIAL, EFC 1805, MAXIMUM HOLDING AIRSPEED IS "
	for speed, want := range map[string]string{"231": "limit 230 KIAS (AIM", "230": "limit 230 KIAS (as cleared)", "175": "limit 175 KIAS (as cleared)"} {
		out := inOneLine(t, "-clearance", words+speed)
		if asked := strings.Contains(out, "above the limit of the altitude: ask"); !strings.Contains(out, want) || asked != (speed == "231") {
			t.Errorf("%s: asked %v, no %q in\n%s", speed, asked, want, out)
		}
	}
}

// Distances take the place of times in the entry too (AIM 5-3-8 j.5): the leg ends on the
// reading. A direct entry flies the leg that was cleared, the others the altitude's time.
func TestEntryToTheLegCleared(t *testing.T) {
	dme := scenarioFile(t, strings.Replace(string(demo), `"at_station": true`, `"dme_nm": 10`, 1))
	for _, tc := range []struct {
		heading string
		entry   string
		action  string
	}{{"075", "DIRECT", "ends by distance (outbound to 15 DME), not by the clock"}, {"255", "TEARDROP", "time: to 15 DME, about"}, {"290", "PARALLEL", "time: to 15 DME, about"}} {
		out := inOneLine(t, "-scenario", dme, "-clearance", "HOLD WEST OF THE 10 DME FIX ON THE 255 RADIAL, 5 MILE LEGS, EFC 1805", "-heading", tc.heading)
		if !strings.Contains(out, tc.entry) || !strings.Contains(out, tc.action) {
			t.Errorf("%s:\n%s", tc.heading, out)
		}
	}
	for heading, clock := range map[string]float64{"075": 120, "225": 60} {
		var b Briefing
		_, out, stderr := brief("-json", "-clearance", "HOLD WEST OF TARNO ON THE 255 RADIAL, 2 MINUTE LEGS", "-heading", heading)
		if err := json.Unmarshal([]byte(out), &b); err != nil || b.Entry.Published.Clock != clock {
			t.Errorf("heading %s: %+v, %s, %v", heading, b.Entry.Published, stderr, err)
		}
	}
}

// The published heading and time stand beside the corrected ones, the wind says its north,
// and an EFC is no clearance. Only a leg by its inbound time is held against one.
func TestSaidAsTheTradeDoes(t *testing.T) {
	out := inOneLine(t)
	for _, want := range []string{"teardrop as published: heading 225 for 1:00;", "131 magnetic at 19 kt", "1:00 inbound, at", "is no clearance: leave when cleared", "against"} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	icao := scenarioFile(t, strings.Replace(string(demo), `"FAA"`, `"ICAO"`, 1))
	out = inOneLine(t, "-scenario", icao)
	if header := out[strings.Index(out, "First lap"):strings.Index(out, "still-air")]; strings.Contains(header, "against") || !strings.Contains(out, "1:00 outbound by the clock") {
		t.Errorf("a leg by outbound time is held against an inbound time:\n%s", out)
	}
	if out := inOneLine(t, "-heading", "188"); !strings.Contains(out, "and within 5, so that either may be flown") {
		t.Errorf("the zone is not said:\n%s", out)
	}
}
