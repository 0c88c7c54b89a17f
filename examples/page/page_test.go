//go:build !js

package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"html"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/examples/internal/chromium"
	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/examples/internal/reply"
)

// driver starts the module as the page does and prints what it answers to each argument,
// and to a call without one.
const driver = `
const [support, module, ...queries] = process.argv.slice(1);
globalThis.crypto ??= require("node:crypto").webcrypto;
require(support);
const go = new Go();
WebAssembly.instantiate(require("node:fs").readFileSync(module), go.importObject).then(({instance}) => {
	go.run(instance);
	process.stdout.write(JSON.stringify([...queries.map(q => holdCircuit(q)), holdCircuit()]), () => process.exit(0));
});
`

// The module under Node gives what the same code gives here.
func TestModule(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("no node is installed: the module is not run")
	}
	module := filepath.Join(t.TempDir(), "hold.wasm")
	if err := compile(module); err != nil {
		t.Fatal(err)
	}
	support, err := supportFile()
	if err != nil {
		t.Fatal(err)
	}
	left := strings.Replace(asked, "right", "left", 1)
	out, err := output(exec.Command(node, "-e", driver, support, module, asked, left, "turns=up"))
	if err != nil {
		t.Fatal(err)
	}
	answers := decode[[]string](t, out)
	if len(answers) != 4 {
		t.Fatalf("%q", answers)
	}
	for i, query := range []string{asked, left} {
		got, want := decode[reply.Answer](t, answers[i]), decode[reply.Answer](t, answer(query))
		if !alike(t, got.Circuit, want.Circuit) || got.Turns != want.Turns || got.Leg != want.Leg || got.Caution != program.Caution {
			t.Errorf("%s: the module answers %+v, this program %+v", query, got, want)
		}
	}
	for i, query := range []string{"turns=up", ""} {
		if got := answers[2+i]; got != answer(query) {
			t.Errorf("%q: the module answers %s", query, got)
		}
	}
}

// alike compares figure by figure; the last digits may differ where this machine fuses
// products and sums.
func alike(t *testing.T, a, b reply.Circuit) bool {
	t.Helper()
	var figures [2]map[string]float64
	for i, c := range []reply.Circuit{a, b} {
		text, err := json.Marshal(c)
		if err != nil {
			t.Fatal(err)
		}
		figures[i] = decode[map[string]float64](t, string(text))
	}
	for name, x := range figures[0] {
		if y, ok := figures[1][name]; !ok || math.Abs(x-y) > 1e-9 {
			return false
		}
	}
	return len(figures[0]) == len(figures[1])
}

// The page opened in a browser, from a file, shows the figures of the module or says what
// is wrong.
func TestPageInABrowser(t *testing.T) {
	browser := chromium.Find(t)
	file := filepath.Join(t.TempDir(), "hold.html")
	var stdout, stderr bytes.Buffer
	if code := run([]string{"-out", file}, &stdout, &stderr); code != program.OK || !strings.HasPrefix(stdout.String(), program.Caution) {
		t.Fatalf("%d, %q, %q", code, stdout.String(), stderr.String())
	}
	shown := func() map[string]string {
		dom := browser.Open(t, file, "--dump-dom")
		figures := map[string]string{}
		for _, m := range regexp.MustCompile(`(?:data-figure|id)="([^"]+)"[^>]*>([^<]*)<`).FindAllSubmatch(dom, -1) {
			figures[string(m[1])] = html.UnescapeString(string(m[2]))
		}
		if !strings.Contains(string(dom), program.Caution) {
			t.Error("no caution")
		}
		return figures
	}
	a := decode[reply.Answer](t, answer(asked))
	bearing := func(deg float64) string { return abeam.NewBearing(deg).ThreeFigures() }
	clock := func(s float64) string {
		d := time.Duration(math.Round(s)) * time.Second
		return fmt.Sprintf("%d:%02d", int(d.Minutes()), int(d.Seconds())%60)
	}
	figures := shown()
	for name, want := range map[string]string{
		"outbound_heading_deg": bearing(a.OutboundHeading), "inbound_heading_deg": bearing(a.InboundHeading),
		"outbound_clock_s": clock(a.Clock), "inbound_s": clock(a.Inbound), "lap_s": clock(a.Lap),
		"outbound_correction_deg": fmt.Sprintf("%+.0f", a.OutboundCorrection), "inbound_correction_deg": fmt.Sprintf("%+.0f", a.InboundCorrection),
		"inbound_groundspeed_kt": fmt.Sprintf("%.0f", a.InboundSpeed), "width_nm": fmt.Sprintf("%.2f", a.Width), "length_nm": fmt.Sprintf("%.2f", a.Length),
		"refused": "",
	} {
		if figures[name] != want {
			t.Errorf("%s: shown %q, computed %q", name, figures[name], want)
		}
	}
	page, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, bytes.Replace(page, []byte(`value="19"`), []byte(`value="190"`), 1), 0o644); err != nil {
		t.Fatal(err)
	}
	if got := shown()["refused"]; got != "wind speed is 190 kt, must be below the TAS of 118 kt." {
		t.Errorf("a wind above the airspeed: %q", got)
	}
}

// What cannot be written leaves nothing behind, and says so.
func TestEnds(t *testing.T) {
	var stdout, stderr bytes.Buffer
	folder := t.TempDir()
	if code := run([]string{"-out", filepath.Join(folder, "no", "hold.html")}, &stdout, &stderr); code != program.Failed || stdout.Len() > 0 || stderr.Len() == 0 {
		t.Errorf("%d, %q, %q", code, stdout.String(), stderr.String())
	}
	if code := run([]string{"hold.html"}, &stdout, &stderr); code != program.Usage || stdout.Len() > 0 {
		t.Errorf("%d, %q", code, stdout.String())
	}
	if left, err := os.ReadDir(folder); err != nil || len(left) > 0 {
		t.Errorf("left behind: %v, %v", left, err)
	}
}
