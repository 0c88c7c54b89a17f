package main

import (
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"
)

var below, above = regexp.MustCompile(`below ([\d.]+)`), regexp.MustCompile(`above ([\d,]+)`)

// The table of README.md is what is measured. What else runs on the machine can only make the
// fastest turns slower, so a bound is missed when a longer measurement misses it too.
func TestREADME(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	all, err := paths()
	if err != nil {
		t.Fatal(err)
	}
	_, table, _ := strings.Cut(string(readme), "| hot path |")
	table, _, _ = strings.Cut(table, "\n\n")
	rows := strings.Split(table, "\n")[2:]
	if len(rows) < 5 {
		t.Fatalf("%d rows", len(rows))
	}
	for _, row := range rows {
		cells := strings.Split(row, "|")
		name := strings.TrimSpace(cells[1])
		most, err := strconv.ParseFloat(below.FindStringSubmatch(cells[2])[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		least, err := strconv.ParseFloat(strings.ReplaceAll(above.FindStringSubmatch(cells[3])[1], ",", ""), 64)
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, p := range all {
			if p.name != name {
				continue
			}
			found = true
			var r result
			for budget := 50 * time.Millisecond; budget < 3*time.Second; budget *= 4 {
				if r = p.measure(budget); r.ns < most*r.floorNS && r.generalNS > least*r.ns {
					break
				}
			}
			if !(r.ns < most*r.floorNS && r.generalNS > least*r.ns) || r.allocs != 0 {
				t.Errorf("%s: %.2f of the floor, the general way %.0f of it, %v allocations; README says below %v, above %v and none",
					name, r.ns/r.floorNS, r.generalNS/r.ns, r.allocs, most, least)
			}
		}
		if !found {
			t.Errorf("README has a path %q", name)
		}
	}
}
