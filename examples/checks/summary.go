package main

import (
	"cmp"
	"slices"
	"strings"

	"github.com/holdingfix/abeam/internal/reference"
	"github.com/holdingfix/abeam/internal/verification"
)

// line is what the figures of one source, class and unit come to.
type line struct {
	source  string
	class   reference.Class
	unit    string
	figures int
	outside int
	widest  float64             // tolerance
	worst   verification.Result // the largest share of its tolerance
}

// summary is all of them.
type summary struct {
	lines            []line
	sources          int
	figures, outside int
	classes          map[reference.Class]int
}

// share is the deviation as a share of the tolerance, of a text 0 or 1.
func share(r verification.Result) float64 {
	if r.Row.Unit == "text" {
		return r.Deviation
	}
	return r.Deviation / r.Row.Tol
}

// bySource sorts by source, class and unit, texts last, and leaves the rest as it is in
// the tables.
func bySource(results []verification.Result) {
	rank := func(c reference.Class) int { return slices.Index(reference.Classes(), c) }
	words := func(unit string) int {
		if unit == "text" {
			return 1
		}
		return 0
	}
	slices.SortStableFunc(results, func(a, b verification.Result) int {
		x, y := a.Row, b.Row
		return cmp.Or(
			strings.Compare(strings.ToLower(x.Source), strings.ToLower(y.Source)),
			cmp.Compare(rank(x.Class), rank(y.Class)),
			cmp.Compare(words(x.Unit), words(y.Unit)),
			strings.Compare(x.Unit, y.Unit),
		)
	})
}

// summarise takes results in the order of bySource.
func summarise(results []verification.Result) summary {
	s := summary{classes: map[reference.Class]int{}, figures: len(results)}
	for _, r := range results {
		n := len(s.lines)
		if n == 0 || s.lines[n-1].source != r.Row.Source {
			s.sources++
		}
		if n == 0 || s.lines[n-1].source != r.Row.Source || s.lines[n-1].class != r.Row.Class || s.lines[n-1].unit != r.Row.Unit {
			s.lines = append(s.lines, line{source: r.Row.Source, class: r.Row.Class, unit: r.Row.Unit, worst: r})
			n++
		}
		l := &s.lines[n-1]
		l.figures++
		l.widest = max(l.widest, r.Row.Tol)
		if share(r) > share(l.worst) {
			l.worst = r
		}
		if !r.OK() {
			l.outside++
			s.outside++
			if l.worst.OK() { // one that could not be computed has no share
				l.worst = r
			}
		}
		s.classes[r.Row.Class]++
	}
	return s
}
