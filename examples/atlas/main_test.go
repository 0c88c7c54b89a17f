package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/xml"
	"errors"
	"fmt"
	"image"
	_ "image/png"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/examples/internal/pilot"
	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/timing"
)

func atlasRun(ctx context.Context, args ...string) (code int, stdout, stderr string) {
	var out, err bytes.Buffer
	code = run(ctx, args, &out, &err)
	return code, out.String(), err.String()
}

// A coarse atlas: every file is there and whole, and says what the library says.
func TestAtlas(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new")
	code, out, stderr := atlasRun(t.Context(), "-coarse", "-laps", "3", "-out", dir)
	if code != program.OK || stderr != "" {
		t.Fatalf("exit %d, %s", code, stderr)
	}
	for _, want := range []string{
		"NOT FOR NAVIGATION", "Light aircraft, 90 to 120 kt", "Jets, 200 to 265 KIAS", "half discrepancy + triple drift",
		"held out", "The best simple rule: lopsided.", "full discrepancy: 10 %: -0.22", "(diverges)",
	} {
		if !strings.Contains(out, want) {
			t.Errorf("the findings do not say %q", want)
		}
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	// Two tables; a map for each strategy and two comparisons, in two formats.
	if want := 2 + 2*(len(timing.Strategies())+2); len(entries) != want {
		t.Errorf("%d files, want %d", len(entries), want)
	}
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		switch filepath.Ext(e.Name()) {
		case ".png":
			img, _, err := image.Decode(bytes.NewReader(data))
			if err != nil || img.Bounds().Dx() < 900 {
				t.Errorf("%s: %v", e.Name(), err)
			}
		case ".svg":
			d := xml.NewDecoder(bytes.NewReader(data))
			for {
				if _, err := d.Token(); errors.Is(err, io.EOF) {
					break
				} else if err != nil {
					t.Fatalf("%s: %v", e.Name(), err)
				}
			}
			if !bytes.Contains(data, []byte("Not for navigation")) {
				t.Errorf("%s carries no caution", e.Name())
			}
		case ".csv":
			if _, err := csv.NewReader(bytes.NewReader(data)).ReadAll(); err != nil {
				t.Errorf("%s: %v", e.Name(), err)
			}
		default:
			t.Errorf("what is %s?", e.Name())
		}
	}
	checkTable(t, filepath.Join(dir, "table.csv"))
}

// The table has the figures of a study run by hand.
func checkTable(t *testing.T, name string) {
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if want := 1 + 5*len(timing.Strategies())*3; len(rows) != want {
		t.Errorf("%d rows, want %d", len(rows), want)
	}
	g := timing.LightGrid(30)
	g.Cases, g.Shares, g.Angles = every(g.Cases, 7), every(g.Shares, 4), every(g.Angles, 3)
	s := timing.Study{
		Grid: g, Strategies: []timing.Strategy{timing.Compose("", timing.ByFull(), timing.ThreeTimes())}, Laps: 3,
		Start: timing.AtWingsLevelOrAbeam, Intercept: timing.StandardIntercept(),
	}
	r, err := s.Run(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	found := false
	for _, row := range rows {
		if row[0] == g.Name && row[1] == s.Strategies[0].Name && row[2] == "2" {
			found = true
			want := strconv.FormatFloat(r.Outcomes[0].Laps[1].Inbound.AbsQuantile(0.95), 'f', 1, 64)
			if row[5] != want {
				t.Errorf("%v, want %s", row, want)
			}
		}
	}
	if !found {
		t.Error("the row is not there")
	}
}

// An interrupted run leaves nothing, and what was there before is as it was.
func TestInterrupted(t *testing.T) {
	dir := t.TempDir()
	old := filepath.Join(dir, "table.csv")
	if err := os.WriteFile(old, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	code, out, stderr := atlasRun(ctx, "-out", dir)
	if code != program.Failed || out != "" || !strings.Contains(stderr, "canceled") {
		t.Errorf("exit %d, %q, %q", code, out, stderr)
	}
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) != 1 {
		t.Errorf("%v, %v", entries, err)
	}
	if text, err := os.ReadFile(old); err != nil || string(text) != "old" {
		t.Errorf("%q, %v", text, err)
	}
	// Stopped while it works: the same.
	ctx, cancel = context.WithCancel(t.Context())
	a := timing.Strategies()[0]
	a.Next = func(timing.Seen) timing.Plan { cancel(); return timing.Plan{} }
	if _, err := newAtlas(ctx, timing.Study{Laps: 3, Start: timing.AtAbeam, Strategies: []timing.Strategy{a}}, false, &bar{}); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
}

// Errors of a pilot are drawn from the seed, whatever the number of processors.
func TestRough(t *testing.T) {
	dir := t.TempDir()
	code, out, stderr := atlasRun(t.Context(), "-coarse", "-rough", "-laps", "3", "-out", dir)
	if code != program.OK || !strings.Contains(out, "Flown with errors") {
		t.Fatalf("exit %d, %s", code, stderr)
	}
	written, err := os.ReadFile(filepath.Join(dir, "table.csv"))
	if err != nil {
		t.Fatal(err)
	}
	table := func(seed uint64, workers int) string {
		s := timing.Study{
			Laps: 3, Start: timing.AtWingsLevelOrAbeam, Intercept: timing.StandardIntercept(), Seed: seed, Workers: workers,
			Strategies: timing.Strategies(), Scatter: pilot.Errors(),
		}
		a, err := newAtlas(t.Context(), s, true, &bar{})
		if err != nil {
			t.Fatal(err)
		}
		data, err := a.table()
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	if table(1, 1) != string(written) || table(2, 1) == string(written) {
		t.Error("the seed does not decide")
	}
}

func TestBadInput(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	for _, tc := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"-nothing"}, program.Usage, "-nothing"},
		{[]string{"all"}, program.Usage, `"all"`},
		{[]string{"-laps", "2"}, program.Usage, "-laps is 2"},
		{[]string{"-laps", "101"}, program.Usage, "-laps is 101"},
		{[]string{"-laps", "many"}, program.Usage, "many"},
		{[]string{"-seed", "-1"}, program.Usage, "-1"},
		{[]string{"-workers", "-1", "-coarse"}, program.Usage, "workers"},
		{[]string{"-coarse", "-laps", "3", "-out", file}, program.Failed, "file"},
	} {
		code, out, stderr := atlasRun(t.Context(), tc.args...)
		if code != tc.code || out != "" || !strings.Contains(stderr, tc.says) {
			t.Errorf("%v: exit %d, %q, %q", tc.args, code, out, stderr)
		}
	}
	if code, _, stderr := atlasRun(t.Context(), "-help"); code != program.OK || !strings.Contains(stderr, "-coarse") {
		t.Errorf("exit %d, %s", code, stderr)
	}
}

// The bar shows on what it is given, comes to its end, and clears its line.
func TestBar(t *testing.T) {
	var out bytes.Buffer
	b := &bar{w: &out, part: "part"}
	b.show(1, 4)
	b.show(2, 4) // within a tenth of a second: not shown
	b.show(4, 4)
	b.clear()
	text := out.String()
	if !strings.Contains(text, "[#######                       ]  25 %") || strings.Contains(text, "50 %") || !strings.Contains(text, "100 %") || !strings.HasSuffix(text, " \r") {
		t.Errorf("%q", text)
	}
	var silent bytes.Buffer
	n := newBar(&silent)
	n.show(1, 1)
	n.clear()
	if silent.Len() != 0 {
		t.Error("a bar that is not on a terminal")
	}
}

func TestClassesAndNames(t *testing.T) {
	for x, want := range map[float64]int{0: 0, 1.99: 0, 2: 1, 119: 6, 120: 7, 1e9: 7} {
		if got := class(x, inboundSteps); got != want {
			t.Errorf("class of %v: %d, want %d", x, got, want)
		}
	}
	if len(shades) != len(inboundSteps)+1 || len(shades) != len(acrossSteps)+1 {
		t.Error("a class without a shade")
	}
	slugs := map[string]bool{}
	for _, s := range timing.Strategies() {
		slugs[slug(s.Name)] = true
	}
	if len(slugs) != len(timing.Strategies()) || slug("1 s/kt + triple drift") != "1-s-kt-triple-drift" {
		t.Errorf("%d names of files", len(slugs))
	}
	for _, name := range shown() {
		found := false
		for _, s := range timing.Strategies() {
			found = found || s.Name == name
		}
		if !found {
			t.Errorf("%q is drawn and not measured", name)
		}
	}
}

// The map draws a wind where it blows from: the holding side on the right.
func TestRasterFollowsTheGrid(t *testing.T) {
	g := timing.Grid{Angles: []abeam.Degrees{180, -90, 0, 90}, Shares: []float64{0, 0.25}}
	r := newRaster(&timing.Map{}, g, inboundSteps, func(x float64, _ abeam.NM) float64 { return x })
	c, rows := r.Dims()
	var xs []string
	for i := range c {
		xs = append(xs, fmt.Sprint(r.X(i)))
	}
	if got := strings.Join(xs, " "); got != "-180 -90 0 90 180" || rows != 2 || r.Y(1) != 25 {
		t.Errorf("%s, %d rows", got, rows)
	}
}
