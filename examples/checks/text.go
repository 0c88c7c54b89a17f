package main

import (
	"fmt"
	"io"
	"maps"
	"math"
	"slices"
	"strings"

	"github.com/holdingfix/abeam/examples/internal/layout"
	"github.com/holdingfix/abeam/internal/reference"
	"github.com/holdingfix/abeam/internal/verification"
)

// negligible is the share of a tolerance below which a deviation is not put in figures:
// much of it is rounding, which differs from processor to processor.
const negligible = 0.01

// worstOf is the worst deviation of a line with its unit, and its share of the tolerance.
func (l line) worstOf() (deviation, part string) {
	switch {
	case l.outside > 0 && l.worst.Err != nil:
		return "not computed", "OUTSIDE"
	case l.outside > 0 && l.unit == "text":
		return fmt.Sprintf("%d differ", l.outside), "OUTSIDE"
	case l.unit == "text":
		return "as it stands", ""
	case share(l.worst) < negligible:
		return fmt.Sprintf("under %.1g %s", negligible*l.widest, l.unit), "under 1 %"
	}
	part = fmt.Sprintf("%.0f %%", 100*share(l.worst))
	if l.outside > 0 {
		part += " OUTSIDE"
	}
	return fmt.Sprintf("%.2g %s", l.worst.Deviation, l.unit), part
}

// lines prints a line for each source, class and unit.
func lines(w io.Writer, s summary) {
	fmt.Fprintf(w, "\n%7s  %-9s  %-21s  %13s  %s\n", "figures", "class", "worst deviation", "of tolerance", "source")
	for i, l := range s.lines {
		source := l.source
		if i > 0 && s.lines[i-1].source == source {
			source = ""
		}
		deviation, part := l.worstOf()
		fmt.Fprintln(w, strings.TrimRight(fmt.Sprintf("%7d  %-9s  %-21s  %13s  %s", l.figures, l.class, deviation, part, source), " "))
	}
}

// heading goes on from the number of figures.
func (s summary) heading() string {
	sources := "sources"
	if s.sources == 1 {
		sources = "source"
	}
	return fmt.Sprintf("figures from %d %s, recomputed by the library; %d outside their tolerance", s.sources, sources, s.outside)
}

// totals prints the sums by class, and what the words of the table mean.
func totals(w io.Writer, s summary, others string) {
	fmt.Fprintf(w, "\n%7d  %s\n", s.figures, s.heading())
	for _, c := range reference.Classes() {
		fmt.Fprintf(w, "%7d  %-9s  %s\n", s.classes[c], c, c.Meaning())
	}
	fmt.Fprintln(w)
	for _, text := range []string{reading, others} {
		layout.Paragraph(w, 0, 0, "", text)
	}
}

// reading explains the columns.
const reading = "The worst deviation is the one that takes the largest share of its tolerance. A tolerance is half a unit of the " +
	"last printed digit, or another one with its reason beside the figure. Texts are compared as they stand."

// figures prints every figure under its source.
func figures(w io.Writer, results []verification.Result) {
	for i, r := range results {
		if i == 0 || results[i-1].Row.Source != r.Row.Source {
			fmt.Fprintf(w, "\n%s\n", r.Row.Source)
		}
		fmt.Fprintf(w, "  %-24s %s  %s\n", id(r), r.Row.Class, task(r))
		fmt.Fprintf(w, "  %-24s %s\n", "", answer(r))
		if r.Row.Place != "" {
			fmt.Fprintf(w, "  %-24s %s\n", "", r.Row.Place)
		}
	}
}

// id is the row by its table.
func id(r verification.Result) string { return r.Row.Table + "/" + r.Row.ID }

// task is what is computed from what.
func task(r verification.Result) string {
	var inputs []string
	for _, key := range slices.Sorted(maps.Keys(r.Row.Inputs)) {
		inputs = append(inputs, key+"="+r.Row.Inputs[key])
	}
	return fmt.Sprintf("%s (%s)", r.Row.Figure, strings.Join(inputs, " "))
}

// answer is what the source has and what came out, to a hundredth of the tolerance.
func answer(r verification.Result) string {
	unit := r.Row.Unit
	switch {
	case r.Err != nil:
		return fmt.Sprintf("want %s %s, not computed: %v", r.Row.Want, unit, r.Err)
	case unit == "text":
		return fmt.Sprintf("want %q, got %q (%s)", r.Row.Want, r.Got.Text, r.Row.Why)
	}
	decimals := max(0, 2-int(math.Floor(math.Log10(r.Row.Tol))))
	return fmt.Sprintf("want %s %s, got %.*f: %.0f %% of %g %s (%s)", r.Row.Want, unit, decimals, r.Got.Number,
		100*share(r), r.Row.Tol, unit, r.Row.Why)
}
