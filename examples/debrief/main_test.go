package main

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/examples/internal/jsonfile"
	"github.com/holdingfix/abeam/examples/internal/layout"
	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/internal/reference"
	"github.com/holdingfix/abeam/tolerance"
)

func debrief(args ...string) (code int, stdout, stderr string) {
	var out, err bytes.Buffer
	code = run(args, &out, &err)
	return code, out.String(), err.String()
}

func inFile(t *testing.T, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func reportOf(t *testing.T, args ...string) Report {
	t.Helper()
	code, out, stderr := debrief(append(args, "-json")...)
	if code != program.OK {
		t.Fatal(stderr)
	}
	var r Report
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatal(err)
	}
	return r
}

// demo.csv is what the library makes of the invented flight, to the digits of the file.
func TestDemoLogIsTheLibrarys(t *testing.T) {
	shipped, err := tolerance.ReadCSV(bytes.NewReader(demoLog), nil)
	if err != nil {
		t.Fatal(err)
	}
	c, err := jsonfile.Read[Clearance]("clearance", "", demoClearance)
	if err != nil {
		t.Fatal(err)
	}
	task, err := c.task(shipped)
	if err != nil {
		t.Fatal(err)
	}
	plan, err := demoPlan(task.clearance.Pattern)
	if err != nil {
		t.Fatal(err)
	}
	made, err := plan.Log()
	if err != nil {
		t.Fatal(err)
	}
	if os.Getenv("DEBRIEF_WRITE_DEMO") != "" {
		var b bytes.Buffer
		if err := made.WriteCSV(&b); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile("demo.csv", b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if len(made.Samples) != len(shipped.Samples) || len(shipped.Findings) != 0 {
		t.Fatalf("%d samples made, %d shipped, %v", len(made.Samples), len(shipped.Samples), shipped.Findings)
	}
	for i, a := range made.Samples {
		b := shipped.Samples[i]
		if a.Time != b.Time || math.Abs(a.Lat-b.Lat) > 1.1e-7 || math.Abs(a.Lon-b.Lon) > 1.1e-7 || math.Abs(float64(a.Altitude-b.Altitude)) > 0.011 ||
			math.Abs(float64(a.IAS-b.IAS)) > 0.011 || a.Heading.Sub(b.Heading).Abs() > 0.011 || a.Track.Sub(b.Track).Abs() > 0.011 || math.Abs(float64(a.Groundspeed-b.Groundspeed)) > 0.011 {
			t.Fatalf("sample %d: made %+v, shipped %+v", i, a, b)
		}
	}
}

// What was put into the demo's flight comes out: entry, wind, laps and slips.
func TestDemoFindsWhatWasFlown(t *testing.T) {
	r := reportOf(t)
	if r.Entry.Flown != entry.Teardrop || r.Entry.Calls != entry.Teardrop || len(r.Laps) != 4 || r.Verdict != "unsatisfactory" {
		t.Fatalf("%+v, %d laps, %s", r.Entry, len(r.Laps), r.Verdict)
	}
	if w := r.Wind; math.Abs(w.From-262) > 2*w.FromError || math.Abs(w.Speed-24) > 2*w.Error || math.Abs(w.TAS-122) > 2*w.TASError {
		t.Errorf("wind %+v", w)
	}
	last := r.Laps[3]
	if math.Abs(last.Inbound-60) > 1.5 || math.Abs(last.Correction.Outbound-last.Correction.ExactOut) > 1 || math.Abs(last.Correction.Inbound-last.Correction.ExactIn) > 1 || math.Abs(last.Outbound-last.Correction.ExactClock) > 1.5 {
		t.Errorf("the exact lap: %+v, %+v", last, last.Correction)
	}
	// The slips of demoPlan beyond their limits, within a sample or two for the noise.
	want := map[string][2]float64{"altitude": {507, 20}, "airspeed": {744, 12}, "outbound heading": {1021, 9}}
	for item, w := range want {
		n := 0
		for _, e := range r.Excursions {
			if e.Item == item {
				n++
				if math.Abs(e.From-w[0]) > 3 || math.Abs(e.For-w[1]) > 5 {
					t.Errorf("%s: %+v", item, e)
				}
			}
		}
		if n != 1 {
			t.Errorf("%s: %d excursions", item, n)
		}
	}
}

func TestTextSaysWhatAnInstructorAsks(t *testing.T) {
	code, out, stderr := debrief()
	if code != program.OK || stderr != "" {
		t.Fatalf("exit %d, %s", code, stderr)
	}
	flat := strings.Join(strings.Fields(out), " ")
	for _, want := range []string{
		"NOT FOR NAVIGATION", "DRIVA, inbound 205 magnetic, right turns, 1:00 inbound", "UNSATISFACTORY by FAA instrument rating",
		"teardrop flown", "give or take", "Next lap", "by half the discrepancy", "exact in the estimated wind", "three times the inbound correction",
		"lap 1, inbound turn", "Time of each leg", "10 kt", "0.75 scale", "the standard gives no figure", "own limits", "10 s, own", "0.75 scale -", "262 magnetic at", "-158 to +25", "no examiner's",
	} {
		if !strings.Contains(flat, want) {
			t.Errorf("the report does not say %q:\n%s", want, out)
		}
	}
	for _, line := range strings.Split(out, "\n") {
		if len(line) > layout.Columns+6 || line != strings.TrimRight(line, " ") {
			t.Errorf("%d columns: %q", len(line), line)
		}
	}
}

// The same flight by every standard, in its own words.
func TestStandards(t *testing.T) {
	for name, want := range map[string]string{
		"faa-instrument": "unsatisfactory", "faa-atp": "unsatisfactory", "eu-instrument": "fail", "eu-engine-out": "fail", "eu-en-route": "fail",
	} {
		if r := reportOf(t, "-standard", name); r.Verdict != want {
			t.Errorf("%s: %s", name, r.Verdict)
		}
	}
}

// A real track, whose hold is read off it: a verdict for nothing that is not known.
func TestRealTrack(t *testing.T) {
	text, err := reference.Track("lhr_bnn_01")
	if err != nil {
		t.Fatal(err)
	}
	page := filepath.Join(t.TempDir(), "page.html")
	r := reportOf(t, "-log", inFile(t, "track.csv", string(text)), "-html", page)
	// As read off the plot: right turns, inbound 118, 3 laps of 365, 387 and 235 s.
	if r.Hold.Turns.String() != "right" || math.Abs(r.Hold.Inbound-118) > 5 || len(r.Laps) != 3 || r.Verdict != "not judged" || len(r.Excursions) != 0 {
		t.Errorf("%+v, %d laps, %s", r.Hold, len(r.Laps), r.Verdict)
	}
	for i, want := range []float64{365, 387, 235} {
		if math.Abs(r.Laps[i].Seconds-want) > 15 {
			t.Errorf("lap %d took %v s", i+1, r.Laps[i].Seconds)
		}
	}
	html, err := os.ReadFile(page)
	if err != nil || !bytes.Contains(html, []byte("not for navigation")) && !bytes.Contains(html, []byte("NOT FOR NAVIGATION")) {
		t.Error(err)
	}
}

func TestBadInput(t *testing.T) {
	clearance := func(from, to string) string {
		return inFile(t, "c.json", strings.Replace(string(demoClearance), from, to, 1))
	}
	for name, c := range map[string]struct {
		args []string
		says string
	}{
		"argument":        {[]string{"now"}, "what is"},
		"flag":            {[]string{"-fast"}, "not defined"},
		"no log":          {[]string{"-log", "/nowhere.csv"}, "no such file"},
		"empty log":       {[]string{"-log", inFile(t, "a.csv", "")}, "line 1, column 1"},
		"wrong header":    {[]string{"-log", inFile(t, "a.csv", "a,b\n1,2\n")}, "a header with a column of time"},
		"wrong GPX":       {[]string{"-log", inFile(t, "a.gpx", "<gpx/>")}, "the element gpx"},
		"no hold":         {[]string{"-log", inFile(t, "a.csv", "time_s,lat,lon\n1,50,8\n2,50.001,8\n3,50.002,8\n")}, "a track that holds"},
		"no clearance":    {[]string{"-clearance", "/nowhere.json"}, "no such file"},
		"unknown field":   {[]string{"-clearance", clearance(`"standard"`, `"norm"`)}, "unknown field"},
		"broken JSON":     {[]string{"-clearance", clearance(`{`, ``)}, "byte"},
		"two values":      {[]string{"-clearance", inFile(t, "c.json", string(demoClearance)+"{}")}, "something follows"},
		"standard":        {[]string{"-standard", "best"}, "one of faa-instrument"},
		"guidance":        {[]string{"-clearance", clearance(`"vor"`, `"eyes"`)}, "gps-terminal"},
		"north":           {[]string{"-clearance", clearance(`"north": "magnetic", `, ``)}, "true or magnetic"},
		"leg":             {[]string{"-clearance", clearance(`60}`, `0}`)}, "hold.leg_s"},
		"latitude":        {[]string{"-clearance", clearance(`45.2`, `145.2`)}, "fix position"},
		"leaving":         {[]string{"-clearance", clearance(`1400`, `-1`)}, "leave_s"},
		"own limit":       {[]string{"-clearance", clearance(`"leg_time_s": 10`, `"leg_time_s": -10`)}, "own_limits.leg_time_s"},
		"another place":   {[]string{"-clearance", clearance(`45.2`, `46.2`)}, "passages of the fix"},
		"mapping":         {[]string{"-map", "Speed"}, "is not header=quantity"},
		"mapped quantity": {[]string{"-map", "Speed=pace:kt"}, "is no quantity"},
		"mapped north":    {[]string{"-map", "Way=track:deg:grid"}, "true or magnetic"},
		"mapped unit":     {[]string{"-map", "ias_kt=groundspeed:ft"}, "a quantity in one of its units"},
	} {
		code, out, stderr := debrief(c.args...)
		if code != program.Usage || out != "" || !strings.Contains(stderr, c.says) {
			t.Errorf("%s: exit %d, %q, %s", name, code, out, stderr)
		}
	}
	if code, out, _ := debrief("-help"); code != program.OK || out != "" {
		t.Errorf("-help: exit %d", code)
	}
}

// A mapping makes a strange file one that is judged.
func TestMapping(t *testing.T) {
	strange := strings.Replace(string(demoLog), "altitude_ft,ias_kt", "Height,Indicated", 1)
	if strange == string(demoLog) {
		t.Fatal("the header of the demo has changed")
	}
	log := inFile(t, "a.csv", strange)
	c := inFile(t, "c.json", string(demoClearance))
	r := reportOf(t, "-log", log, "-clearance", c, "-map", "Height=altitude:ft", "-map", "Indicated=indicated airspeed:kt")
	plain := reportOf(t)
	if fmt.Sprint(r.Excursions) != fmt.Sprint(plain.Excursions) || len(r.Log.Findings) != 0 {
		t.Errorf("%v, %v", r.Excursions, r.Log.Findings)
	}
	if r := reportOf(t, "-log", log, "-clearance", c); len(r.Log.Findings) != 2 || r.Items[0].Why != "it is not recorded" {
		t.Errorf("%+v, %v", r.Items[0], r.Log.Findings)
	}
}

// The page is well formed, asks for nothing from elsewhere and shows all there is; a
// failure leaves the old one.
func TestPage(t *testing.T) {
	dir := t.TempDir()
	page := filepath.Join(dir, "page.html")
	if code, _, stderr := debrief("-html", page); code != program.OK {
		t.Fatal(stderr)
	}
	text, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	for _, part := range strings.SplitAfter(string(text), "</svg>") {
		at := strings.Index(part, "<svg")
		if at < 0 {
			continue
		}
		d := xml.NewDecoder(strings.NewReader(part[at:]))
		for {
			if _, err := d.Token(); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				t.Fatalf("%v in %.200s", err, part[at:])
			}
		}
	}
	for _, want := range []string{"NOT FOR NAVIGATION", `data-line="flown"`, `data-line="exact"`, `data-line="altitude"`, `data-band="altitude"`,
		`data-line="airspeed"`, `data-band="airspeed"`, `data-band="inbound time"`, "DRIVA", "lap 4"} {
		if !bytes.Contains(text, []byte(want)) {
			t.Errorf("the page has no %q", want)
		}
	}
	if n := bytes.Count(text, []byte(`data-bar="inbound"`)); n != 4 {
		t.Errorf("%d bars", n)
	}
	outside := strings.ReplaceAll(string(text), `xmlns="http://www.w3.org/2000/svg"`, "")
	for _, never := range []string{"http:", "https:", "src=", "<script", "@import", "url("} {
		if strings.Contains(outside, never) {
			t.Errorf("the page holds %q", never)
		}
	}
	if code, _, _ := debrief("-html", page, "-standard", "best"); code != program.Usage {
		t.Errorf("exit %d", code)
	}
	if code, out, _ := debrief("-html", filepath.Join(dir, "no", "page.html")); code != program.Failed || out != "" {
		t.Errorf("exit %d, %q", code, out)
	}
	after, err := os.ReadFile(page)
	if entries, _ := os.ReadDir(dir); err != nil || !bytes.Equal(after, text) || len(entries) != 1 {
		t.Errorf("the old page is gone, or something beside it: %v", err)
	}
}

// A name that is markup stays a name.
func TestPageEscapes(t *testing.T) {
	c := inFile(t, "c.json", strings.Replace(string(demoClearance), "DRIVA", "<b>&\\\"X", 1))
	page := filepath.Join(t.TempDir(), "page.html")
	if code, _, stderr := debrief("-clearance", c, "-html", page); code != program.OK {
		t.Fatal(stderr)
	}
	text, err := os.ReadFile(page)
	if err != nil || bytes.Contains(text, []byte("<b>&")) || !bytes.Contains(text, []byte("&lt;b&gt;&amp;")) {
		t.Errorf("not escaped, %v", err)
	}
}

type brokenPipe struct{}

func (brokenPipe) Write([]byte) (int, error) { return 0, errors.New("broken pipe") }

func TestBrokenOutput(t *testing.T) {
	var stderr bytes.Buffer
	if code := run(nil, brokenPipe{}, &stderr); code != program.Failed || !strings.Contains(stderr.String(), "broken pipe") {
		t.Errorf("exit %d, %s", code, stderr.String())
	}
}

func TestTicks(t *testing.T) {
	for _, c := range []struct {
		lo, hi float64
		n      int
		want   string
	}{{0, 100, 4, "[0 50 100]"}, {5890, 6110, 4, "[5900 6000 6100]"}, {1, 1, 4, "[]"}, {math.NaN(), 1, 4, "[]"}} {
		if got := fmt.Sprint(ticks(c.lo, c.hi, c.n)); got != c.want {
			t.Errorf("%v to %v: %s", c.lo, c.hi, got)
		}
	}
	if got := clock(-7.4); got != "-0:07" || tolerance.Clock(90*time.Second) != "1:30" {
		t.Error(got)
	}
}
