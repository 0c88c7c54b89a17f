package main

import (
	"bytes"
	"encoding/json"
	"errors"
	_ "image/png"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/examples/internal/jsonfile"
	"github.com/holdingfix/abeam/examples/internal/layout"
	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

func brief(args ...string) (code int, stdout, stderr string) {
	var out, err bytes.Buffer
	code = run(args, &out, &err)
	return code, out.String(), err.String()
}

func scenarioFile(t *testing.T, text string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "scenario.json")
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

func TestTextSaysWhatAPilotNeeds(t *testing.T) {
	code, out, stderr := brief()
	if code != program.OK || stderr != "" {
		t.Fatalf("exit %d, %s", code, stderr)
	}
	out = strings.Join(strings.Fields(out), " ")
	for _, want := range []string{
		"NOT FOR NAVIGATION", "west of TARNO, inbound 075 magnetic, right turns", "limit 230 KIAS (AIM 5-3-8 j.2(a))",
		"start at 17:39", "TEARDROP, from heading 192", "turn at the fix: right through", "corrected for the wind", "as published", "twist: inbound course 075", "triple drift", "half the discrepancy",
		"exact", "expect further clearance at 18:05", "over TARNO: time and altitude", "leaving TARNO", "heading, not a course",
	} {
		if !strings.Contains(out, want) {
			t.Errorf("the briefing does not say %q:\n%s", want, out)
		}
	}
	if _, out, _ := brief("-heading", "188"); !strings.Contains(out, "either may be flown") {
		t.Errorf("the alternative entry is not named:\n%s", out)
	}
	_, out, _ = brief()
	for _, line := range strings.Split(out, "\n") {
		if len(line) > layout.Columns+6 {
			t.Errorf("a line of %d columns: %s", len(line), line)
		}
	}
}

// The JSON says what the library computes for the same hold, put in by hand.
func TestJSONIsTheLibrarys(t *testing.T) {
	code, out, stderr := brief("-json")
	if code != program.OK {
		t.Fatal(stderr)
	}
	var b Briefing
	if err := json.Unmarshal([]byte(out), &b); err != nil {
		t.Fatal(err)
	}
	air, err := wind.StandardAir(7000, 5)
	if err != nil {
		t.Fatal(err)
	}
	tas, err := air.TASFromCAS(105)
	if err != nil {
		t.Fatal(err)
	}
	p, err := hold.NewPattern(hold.Fix{}, 75, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		t.Fatal(err)
	}
	// The wind is 145 true and the variation 14 east, so it blows from 131 magnetic.
	c, err := p.Circuit(hold.Flight{TAS: tas, Rate: 3, Wind: wind.Wind{From: 131, Speed: 19}})
	if err != nil {
		t.Fatal(err)
	}
	if b.Exact.OutboundHeading != float64(c.OutboundHeading) || b.Exact.Clock != c.Clock.Seconds() || b.Exact.Lap != c.Lap.Seconds() || !b.Exact.LegPossible {
		t.Errorf("exact %+v, library %+v", b.Exact, c)
	}
	last := b.Laps[len(b.Laps)-1]
	if last.Method != "exact" || last.Error != 0 || last.Across != 0 {
		t.Errorf("the exact lap leaves %+v", last)
	}
	for _, lap := range b.Laps[:len(b.Laps)-1] {
		flown, err := p.Fly(hold.Flight{TAS: tas, Rate: 3, Wind: wind.Wind{From: 131, Speed: 19}}, abeam.Bearing(lap.Heading), time.Duration(math.Round(lap.Clock*1e9)))
		if err != nil || math.Abs(flown.Inbound.Seconds()-lap.Inbound) > 1e-6 || math.Abs(float64(flown.Established.Abreast)-lap.Across) > 1e-9 {
			t.Errorf("%+v: flown %v, %v", lap, flown.Inbound, err)
		}
	}
	// 23 minutes: the entry, then laps.
	f := hold.Flight{TAS: tas, Rate: 3, Wind: wind.Wind{From: 131, Speed: 19}}
	fl, err := entry.FAA().Plan(entry.Teardrop, time.Minute).Fly(p, f, 192, entry.ForWind)
	if err != nil {
		t.Fatal(err)
	}
	left := 23*time.Minute - fl.Total
	if whole := int(left / c.Lap); b.Leaving.Laps != whole || math.Abs(b.Leaving.Spare-(left-time.Duration(whole)*c.Lap).Seconds()) > 1e-6 {
		t.Errorf("leaving %+v", b.Leaving)
	}
	if b.Entry.Kind != entry.Teardrop || b.Entry.Corrected.Total != fl.Total.Seconds() || b.Entry.Corrected.Astray != float64(fl.Extent.Astray) || len(b.Entry.Actions) != 5 {
		t.Errorf("entry %+v, library %+v", b.Entry, fl)
	}
}

func TestChanges(t *testing.T) {
	code, out, stderr := brief("-json", "-wind", "360/40", "-airspeed", "180", "-altitude", "15000", "-course", "360", "-turns", "left", "-heading", "100", "-efc", "19:00")
	if code != program.OK {
		t.Fatal(stderr)
	}
	var b Briefing
	if err := json.Unmarshal([]byte(out), &b); err != nil {
		t.Fatal(err)
	}
	if b.Hold.Inbound != 0 || b.Hold.Turns != hold.Left || b.Hold.Direction != "south" || b.Hold.HoldingSide != "west" ||
		b.Hold.Leg != "1:30 inbound" || b.Hold.Target != 90 || b.Speed.Limit != "265 KIAS" || b.Speed.Holding != 180 || b.Entry.Kind.String() != "parallel" ||
		b.Leaving.EFC != "19:00" || b.Wind.Speed != 40 || b.Wind.From != 346 {
		t.Errorf("%+v", b)
	}
	if code, out, _ := brief("-altitude", "5000", "-airspeed", "205"); code != program.OK || !strings.Contains(out, "ABOVE THE LIMIT") || !strings.Contains(out, "unable to hold at or below 200 KIAS") {
		t.Errorf("205 KIAS at 5,000 ft: exit %d\n%s", code, out)
	}
	if code, out, _ := brief("-efc", "17:43"); code != program.OK || !strings.Contains(strings.Join(strings.Fields(out), " "), "before the entry of") {
		t.Errorf("cleared on before the entry is flown: %s", out)
	}
	if code, out, _ := brief("-efc", "00:10"); code != program.OK || !strings.Contains(strings.Join(strings.Fields(out), " "), "clearance at 00:10: ") {
		t.Errorf("past midnight: %s", out)
	}
}

// Every kind of leg that a clearance can give.
func TestLegs(t *testing.T) {
	dme := strings.Replace(string(demo), `"at_station": true`, `"dme_nm": 10, "station_elevation_ft": 1200`, 1)
	for _, tc := range []struct {
		scenario, clearance, leg string
		clock                    float64 // 0: not known beforehand
	}{
		{string(demo), "HOLD WEST OF TARNO ON THE 255 RADIAL, TWO MINUTE LEGS", "2:00 inbound", 0},
		{strings.Replace(string(demo), `"FAA"`, `"ICAO"`, 1), "HOLD WEST OF TARNO ON THE 255 RADIAL", "1:00 outbound by the clock", 60},
		{string(demo), "HOLD WEST OF TARNO ON THE 255 RADIAL, 4 MILE LEGS", "4 NM outbound along the track", 0},
		{dme, "HOLD WEST OF TARNO ON THE 255 RADIAL, 5 MILE LEGS", "outbound to 15 DME", 0},
		{dme, "HOLD EAST OF TARNO ON THE 255 RADIAL, 5 MILE LEGS", "outbound to 5 DME", 0},
	} {
		name := scenarioFile(t, tc.scenario)
		code, out, stderr := brief("-json", "-scenario", name, "-clearance", tc.clearance)
		var b Briefing
		if err := json.Unmarshal([]byte(out), &b); err != nil {
			t.Fatalf("%s: exit %d, %s, %v", tc.leg, code, stderr, err)
		}
		if b.Hold.Leg != tc.leg || tc.clock != 0 && math.Abs(b.Exact.Clock-tc.clock) > 1e-6 || math.Abs(b.Laps[len(b.Laps)-1].Across) > 1e-9 {
			t.Errorf("%s: %+v, clock %v", tc.leg, b.Hold, b.Exact.Clock)
		}
		// The same, spelt out in figures when a value is changed.
		_, again, stderr := brief("-json", "-scenario", name, "-clearance", tc.clearance, "-turns", "right")
		var c Briefing
		if err := json.Unmarshal([]byte(again), &c); err != nil || c.Exact != b.Exact || c.Hold != b.Hold {
			t.Errorf("%s in figures: %+v, %s, %v", tc.leg, c.Hold, stderr, err)
		}
	}
}

// A headwind that leaves no outbound leg is briefed with the shortest inbound leg.
func TestNoOutboundLeg(t *testing.T) {
	code, out, stderr := brief("-wind", "89/60")
	if code != program.OK {
		t.Fatal(stderr)
	}
	if out = strings.Join(strings.Fields(out), " "); !strings.Contains(out, "no outbound leg gives an inbound leg of 1:00; the shortest that can be had is 2:0") {
		t.Errorf("not said:\n%s", out)
	}
}

func TestNoClearanceTime(t *testing.T) {
	for _, args := range [][]string{
		{"-scenario", scenarioFile(t, inFigures(t))},
		{"-clearance", "HOLD WEST OF TARNO ON THE 255 RADIAL"},
	} {
		code, out, stderr := brief(args...)
		if code != program.OK || !strings.Contains(strings.ToLower(strings.Join(strings.Fields(out), " ")), "was given: ask for one") {
			t.Errorf("%v: exit %d %s\n%s", args, code, stderr, out)
		}
	}
}

// inFigures is the demo with its clearance in figures instead of words, without a time
// of further clearance.
func inFigures(t *testing.T) string {
	t.Helper()
	const words = `"clearance": "HOLD WEST OF TARNO ON THE 255 RADIAL, EXPECT FURTHER CLEARANCE 1805",`
	if !strings.Contains(string(demo), words) {
		t.Fatal("the demo has another clearance")
	}
	text := strings.Replace(string(demo), words, "", 1)
	return strings.Replace(text, `"hold": {`, `"hold": {
    "inbound_deg": 75,
    "turns": "right",`, 1)
}

// The clearance in words and the same in figures make the same hold.
func TestClearanceInWords(t *testing.T) {
	_, words, _ := brief("-json")
	_, figures, stderr := brief("-json", "-scenario", scenarioFile(t, inFigures(t)), "-efc", "18:05")
	var a, b Briefing
	if err := errors.Join(json.Unmarshal([]byte(words), &a), json.Unmarshal([]byte(figures), &b)); err != nil {
		t.Fatal(err, stderr)
	}
	if a.Clearance == nil || a.Clearance.Readback == "" || b.Clearance != nil {
		t.Errorf("clearances %+v and %+v", a.Clearance, b.Clearance)
	}
	if a.Exact != b.Exact || a.Hold != b.Hold || a.Leaving != b.Leaving || !reflect.DeepEqual(a.Entry, b.Entry) {
		t.Errorf("in words %+v\nin figures %+v", a, b)
	}
	code, out, stderr := brief("-clearance", "hold northwest of Bremka on the one four zero radial, left turns, two minute legs, maximum holding airspeed is niner zero, expect further clearance 1730")
	if code != program.OK {
		t.Fatal(stderr)
	}
	out = strings.Join(strings.Fields(out), " ")
	for _, want := range []string{"ONE FOUR ZERO RADIAL", "inbound 320", "left turns", "2:00 inbound", "limit 90 KIAS (as cleared)", "ABOVE THE LIMIT", "Ask "} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
}

func TestBadInput(t *testing.T) {
	edit := func(old, new string) string {
		if !strings.Contains(string(demo), old) {
			t.Fatalf("the demo has no %s", old)
		}
		return scenarioFile(t, strings.Replace(string(demo), old, new, 1))
	}
	for _, tc := range []struct {
		name string
		args []string
		code int
		says []string
	}{
		{"unknown flag", []string{"-speed", "3"}, program.Usage, []string{"-speed"}},
		{"argument", []string{"hold"}, program.Usage, []string{`"hold"`}},
		{"missing file", []string{"-scenario", "nowhere.json"}, program.Usage, []string{"nowhere.json", "no such file"}},
		{"a folder", []string{"-scenario", t.TempDir()}, program.Usage, []string{"directory"}},
		{"empty", []string{"-scenario", scenarioFile(t, "")}, program.Usage, []string{"EOF"}},
		{"malformed", []string{"-scenario", scenarioFile(t, `{"rules": "FAA",`)}, program.Usage, []string{"byte"}},
		{"binary", []string{"-scenario", scenarioFile(t, "\x00\xff\x00")}, program.Usage, []string{"invalid character"}},
		{"huge", []string{"-scenario", scenarioFile(t, strings.Repeat(" ", jsonfile.Max+1))}, program.Usage, []string{"larger than"}},
		{"twice", []string{"-scenario", scenarioFile(t, string(demo)+string(demo))}, program.Usage, []string{"follows"}},
		{"unknown field", []string{"-scenario", edit(`"rules"`, `"authority"`)}, program.Usage, []string{"authority"}},
		{"rules", []string{"-scenario", edit(`"FAA"`, `"UN"`)}, program.Usage, []string{"rules", "UN", "FAA or ICAO"}},
		{"no course", []string{"-scenario", edit(`"HOLD WEST OF TARNO ON THE 255 RADIAL, EXPECT FURTHER CLEARANCE 1805"`, `""`)}, program.Usage, []string{"hold.inbound_deg", "missing"}},
		{"no north", []string{"-scenario", edit(`"north": "magnetic"`, ``)}, program.Usage, []string{"hold.north", "not said", "true or magnetic"}},
		{"wind without north", []string{"-scenario", edit(",\n      \"north\": \"true\"", ``)}, program.Usage, []string{"from", "not said"}},
		{"leg", []string{"-scenario", edit(`"north": "magnetic"`, `"north": "magnetic", "leg_s": -60`)}, program.Usage, []string{"leg_s", "-60", "from 0"}},
		{"huge leg", []string{"-scenario", edit(`"north": "magnetic"`, `"north": "magnetic", "leg_s": 1e300`)}, program.Usage, []string{"leg_s", "1e+300"}},
		{"huge number", []string{"-scenario", edit(`7000`, `1e999`)}, program.Usage, []string{"altitude_ft"}},
		{"over fix", []string{"-scenario", edit(`"17:42"`, `"25:42"`)}, program.Usage, []string{"over_fix", "25:42"}},
		{"wind form", []string{"-wind", "270"}, program.Usage, []string{"-wind", "270", "270/35"}},
		{"wind direction", []string{"-wind", "400/20"}, program.Usage, []string{"-wind", "400", "from 0 to 360"}},
		{"wind words", []string{"-wind", "west/strong"}, program.Usage, []string{"west", "strong"}},
		{"wind NaN", []string{"-wind", "270/NaN"}, program.Usage, []string{"wind speed", "NaN"}},
		{"wind negative", []string{"-wind", "270/-5"}, program.Usage, []string{"wind speed", "-5"}},
		{"airspeed zero", []string{"-airspeed", "0"}, program.Usage, []string{"0"}},
		{"airspeed negative", []string{"-airspeed", "-90"}, program.Usage, []string{"-90"}},
		{"airspeed infinite", []string{"-airspeed", "inf"}, program.Usage, []string{"+Inf"}},
		{"altitude", []string{"-altitude", "80000"}, program.Usage, []string{"altitude", "80000"}},
		{"course", []string{"-course", "north"}, program.Usage, []string{"-course", "north"}},
		{"clearance", []string{"-clearance", "HOLD WEST OF TARNO ON THE 455 RADIAL"}, program.Usage, []string{"455"}},
		{"clearance words", []string{"-clearance", "GO AROUND IN CIRCLES"}, program.Usage, []string{"GO"}},
		{"turns", []string{"-turns", "up"}, program.Usage, []string{"-turns", "up", "right or left"}},
		{"heading", []string{"-heading", "-10"}, program.Usage, []string{"-heading", "-10"}},
		{"efc", []string{"-efc", "six"}, program.Usage, []string{"expect_further_clearance", "six", "17:42"}},
		{"plot format", []string{"-plot", "hold.bmp"}, program.Usage, []string{"-plot", "hold.bmp", ".svg or .png"}},
		{"wind above airspeed", []string{"-wind", "270/130"}, program.Failed, []string{"wind", "130", "unflyable"}},
		{"plot folder", []string{"-plot", filepath.Join(t.TempDir(), "no", "hold.svg")}, program.Failed, []string{"no such file"}},
	} {
		code, out, stderr := brief(tc.args...)
		if code != tc.code {
			t.Errorf("%s: exit %d, want %d (%s)", tc.name, code, tc.code, stderr)
		}
		if out != "" {
			t.Errorf("%s: something was printed", tc.name)
		}
		for _, s := range tc.says {
			if !strings.Contains(stderr, s) {
				t.Errorf("%s: %q does not name %q", tc.name, stderr, s)
			}
		}
	}
}

func TestHelp(t *testing.T) {
	if code, _, stderr := brief("-help"); code != program.OK || !strings.Contains(stderr, "-scenario") {
		t.Errorf("exit %d, %s", code, stderr)
	}
}
