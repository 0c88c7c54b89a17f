package main

import (
	"fmt"
	"io"

	"github.com/holdingfix/abeam/examples/internal/layout"
	"github.com/holdingfix/abeam/examples/internal/program"
)

// reading explains the columns.
const reading = "The fastest of many turns, path, floor and general way one after another. Nanoseconds are this " +
	"machine's; the ratios can be compared. The floor makes only the calls that no solution can do without, or is what it says."

// text prints the table, and below it what the floors and the general ways are.
func text(w io.Writer, results []result) {
	fmt.Fprintf(w, "%s\n\n%-32s %9s %7s %8s %12s %9s\n", program.Caution, "", "ns", "allocs", "x floor", "general ns", "x path")
	for _, r := range results {
		general, ratio := r.generalCells()
		fmt.Fprintf(w, "%-32s %9s %7s %8.2f %12s %9s\n", r.name, nanoseconds(r.ns), allocs(r.allocs), r.ns/r.floorNS, general, ratio)
	}
	fmt.Fprintln(w)
	layout.Paragraph(w, 0, 0, "", reading)
	fmt.Fprintln(w)
	before := ""
	for _, r := range results {
		what := "floor: " + r.floor
		if r.general != "" {
			what += "; general: " + r.general
		}
		if what == before {
			layout.Paragraph(w, 0, 34, r.name, "the same")
		} else {
			layout.Paragraph(w, 0, 34, r.name, what)
		}
		before = what
	}
}

// markdown prints the same as a table.
func markdown(w io.Writer, results []result) {
	fmt.Fprintf(w, "%s\n\n| path | ns | allocations | times the floor | general way, ns | times the path | floor | general way |\n|---|---:|---:|---:|---:|---:|---|---|\n", program.Caution)
	for _, r := range results {
		general, ratio := r.generalCells()
		fmt.Fprintf(w, "| %s | %s | %s | %.2f | %s | %s | %s | %s |\n", r.name, nanoseconds(r.ns), allocs(r.allocs), r.ns/r.floorNS, general, ratio, r.floor, r.general)
	}
	fmt.Fprintf(w, "\n%s\n", reading)
}

func (r result) generalCells() (ns, ratio string) {
	if r.turns[2] == nil {
		return "", ""
	}
	return nanoseconds(r.generalNS), fmt.Sprintf("%.0f", r.generalNS/r.ns)
}

func nanoseconds(x float64) string {
	if x < 100 {
		return fmt.Sprintf("%.1f", x)
	}
	return fmt.Sprintf("%.0f", x)
}

// allocs tells none from few: a call for many units may have some of its own.
func allocs(x float64) string {
	if x > 0 && x < 0.01 {
		return "<0.01"
	}
	return fmt.Sprintf("%.2g", x)
}
