package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/internal/reference"
	"github.com/holdingfix/abeam/internal/reference/holds"
	"github.com/holdingfix/abeam/internal/verification"
)

func checks(recompute func() ([]verification.Result, error), args ...string) (code int, stdout, stderr string) {
	var out, err bytes.Buffer
	code = run(recompute, args, &out, &err)
	return code, out.String(), err.String()
}

func TestChecks(t *testing.T) {
	for name, c := range map[string]struct {
		args []string
		has  []string
	}{
		"summary":       {nil, []string{program.Caution, " 0 outside their tolerance", "PUBLISHED", "FAA AIM", "GeographicLib", "holding patterns of the FAA"}},
		"of one source": {[]string{"-source", "aim (2023"}, []string{program.Caution, "figures from 1 source, recomputed by the library; 0 outside", "FAA AIM"}},
		"rows":          {[]string{"-rows", "-source", "FAA AIM"}, []string{program.Caution, "5-3-8 j.8(c): 8 left inbound, 24 right outbound", "limits/SF1"}},
		"markdown":      {[]string{"-markdown"}, []string{program.Caution, "| FAA AIM (2023 and later) | PUBLISHED |"}},
	} {
		code, out, stderr := checks(verification.Run, c.args...)
		if code != program.OK || stderr != "" {
			t.Errorf("%s: exit %d, %s", name, code, stderr)
		}
		for _, want := range c.has {
			if !strings.Contains(out, want) {
				t.Errorf("%s: no %q in\n%.2000s", name, want, out)
			}
		}
	}
	for _, args := range [][]string{{"-nothing"}, {"more"}, {"-source", "no such source"}, {"-rows", "-markdown"}} {
		if code, out, stderr := checks(verification.Run, args...); code != program.Usage || out != "" || stderr == "" {
			t.Errorf("%v: exit %d, %q, %q", args, code, out, stderr)
		}
	}
}

// CHECKS.md is what the program writes.
func TestPage(t *testing.T) {
	page, err := os.ReadFile("CHECKS.md")
	if err != nil {
		t.Fatal(err)
	}
	if _, out, _ := checks(verification.Run, "-markdown"); out != string(page) {
		now, then := strings.Split(out, "\n"), strings.Split(string(page), "\n")
		for i := range min(len(now), len(then)) {
			if now[i] != then[i] {
				t.Errorf("line %d is\n%s\nnow\n%s", i+1, then[i], now[i])
			}
		}
		t.Errorf("CHECKS.md has %d lines, now %d: go -C examples run ./checks -markdown >examples/checks/CHECKS.md", len(then), len(now))
	}
}

// README.md gives the totals.
func TestREADME(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	results, err := verification.Run()
	if err != nil {
		t.Fatal(err)
	}
	sources, classes, outside := map[string]bool{}, map[reference.Class]int{}, 0
	for _, r := range results {
		sources[r.Row.Source] = true
		classes[r.Row.Class]++
		if !r.OK() {
			outside++
		}
	}
	published, err := holds.Published()
	if err != nil {
		t.Fatal(err)
	}
	coded, err := holds.Coded()
	if err != nil {
		t.Fatal(err)
	}
	want := fmt.Sprintf("%d figures from %d sources are [recomputed](examples/checks/CHECKS.md), %d outside their tolerance: %d published, "+
		"%d secondary, %d derived outside the library, %d common practice, %d from memory. Another %d holding patterns",
		len(results), len(sources), outside, classes[reference.Published], classes[reference.Secondary], classes[reference.Derived],
		classes[reference.Practice], classes[reference.Memory], len(published)+len(coded))
	if !strings.Contains(strings.Join(strings.Fields(string(readme)), " "), want) {
		t.Errorf("README.md does not say %q", want)
	}
}

// made are results of one source in order, two of them wrong.
func made() ([]verification.Result, error) {
	row := func(id, unit string, tol float64) reference.Row {
		return reference.Row{Table: "demo", ID: id, Class: reference.Derived, Source: "A source", Figure: "sum",
			Inputs: reference.Inputs{"b": "2", "a": "1"}, Want: "3", Unit: unit, Tol: tol, Why: "made up"}
	}
	return []verification.Result{
		{Row: row("text", "text", 0), Got: verification.Value{Text: "3"}},
		{Row: row("far", "kt", 1), Got: verification.Value{Number: 3.5}, Deviation: 0.5},
		{Row: row("small", "kt", 0.01), Got: verification.Value{Number: 3.009}, Deviation: 0.009},
		{Row: row("exact", "kt", 1), Got: verification.Value{Number: 3}},
		{Row: row("near", "NM", 0.5), Got: verification.Value{Number: 3.001}, Deviation: 0.001},
		{Row: row("outside", "s", 0.1), Got: verification.Value{Number: 2.75}, Deviation: 0.25},
		{Row: row("broken", "deg", 0.1), Err: errors.New("no answer")},
	}, nil
}

func TestLines(t *testing.T) {
	code, out, stderr := checks(made)
	if code != program.Failed || strings.Count(stderr, "outside its tolerance") != 2 ||
		!strings.Contains(stderr, "demo/outside sum (a=1 b=2); want 3 s, got 2.750: 250 % of 0.1 s (made up)") || !strings.Contains(stderr, "no answer") {
		t.Errorf("exit %d, %s", code, stderr)
	}
	const want = `
figures  class      worst deviation         of tolerance  source
      1  DERIVED    under 0.005 NM             under 1 %  A source
      1  DERIVED    not computed                 OUTSIDE
      3  DERIVED    0.009 kt                        90 %
      1  DERIVED    0.25 s                 250 % OUTSIDE
      1  DERIVED    as it stands

      7  figures from 1 source, recomputed by the library; 2 outside their tolerance
      0  PUBLISHED`
	if !strings.Contains(out, want) {
		t.Errorf("got\n%s", out)
	}
	broken := errors.New("broken")
	if code, out, stderr := checks(func() ([]verification.Result, error) { return nil, broken }); code != program.Failed || out != "" || !strings.Contains(stderr, "broken") {
		t.Errorf("exit %d, %q, %q", code, out, stderr)
	}
}
