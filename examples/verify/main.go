// Verify recomputes every reference figure that the library is checked against and
// prints what was checked, against what, and how far off the worst answer is.
//
//	verify          one line a source
//	verify -rows    one line a figure
//
// It exits with 1 if an answer lies outside its tolerance.
//
// NOT FOR NAVIGATION. The clearance, the chart, the aircraft manual, local rules and
// licensed practice come first.
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"github.com/holdingfix/abeam/internal/reference"
	"github.com/holdingfix/abeam/internal/verification"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("verify", flag.ContinueOnError)
	flags.SetOutput(stderr)
	rows := flags.Bool("rows", false, "print every row")
	if err := flags.Parse(args); err != nil {
		return 2
	}
	results, err := verification.Run()
	if err != nil {
		fmt.Fprintln(stderr, "verify:", err)
		return 1
	}
	if *rows {
		for _, r := range results {
			fmt.Fprintln(stdout, line(r))
		}
	} else {
		bySource(stdout, results)
	}
	failed := 0
	for _, r := range results {
		if !r.OK() {
			failed++
			fmt.Fprintln(stderr, "outside its tolerance:", line(r))
		}
	}
	counts := map[reference.Class]int{}
	for _, r := range results {
		counts[r.Row.Class]++
	}
	fmt.Fprintf(stdout, "\n%d figures, %d outside their tolerance\n", len(results), failed)
	for _, c := range reference.Classes() {
		fmt.Fprintf(stdout, "  %-10s %5d  %s\n", c, counts[c], c.Meaning())
	}
	if failed > 0 {
		return 1
	}
	return 0
}

func line(r verification.Result) string {
	var inputs []string
	for k, v := range r.Row.Inputs {
		inputs = append(inputs, k+"="+v)
	}
	slices.Sort(inputs)
	answer := r.Got.Text
	if r.Row.Unit != "text" {
		answer = fmt.Sprintf("%g", r.Got.Number)
	}
	if r.Err != nil {
		answer = r.Err.Error()
	}
	return fmt.Sprintf("%s/%s [%s] %s (%s): %s, want %s %s; %s", r.Row.Table, r.Row.ID, r.Row.Class, r.Row.Figure,
		strings.Join(inputs, " "), answer, r.Row.Want, r.Row.Unit, r.Row.Source)
}

// bySource gives for each source and unit the rows checked and the worst deviation, as
// it stands and as a share of the row's tolerance.
func bySource(w io.Writer, results []verification.Result) {
	type key struct {
		source, unit string
	}
	type sum struct {
		key
		class        reference.Class
		rows         int
		worst, share float64
	}
	var order []*sum
	sums := map[key]*sum{}
	for _, r := range results {
		k := key{r.Row.Source, r.Row.Unit}
		s := sums[k]
		if s == nil {
			s = &sum{key: k, class: r.Row.Class}
			sums[k] = s
			order = append(order, s)
		}
		s.rows++
		s.worst = max(s.worst, r.Deviation)
		if r.Row.Tol > 0 {
			s.share = max(s.share, r.Deviation/r.Row.Tol)
		}
	}
	fmt.Fprintf(w, "%5s  %-10s  %-22s  %s\n", "rows", "class", "worst deviation", "source")
	for _, s := range order {
		worst := "as printed"
		if s.unit != "text" {
			worst = fmt.Sprintf("%.2g %s (%.0f %%)", s.worst, s.unit, 100*s.share)
		} else if s.worst > 0 {
			worst = "DIFFERS"
		}
		fmt.Fprintf(w, "%5d  %-10s  %-22s  %s\n", s.rows, s.class, worst, s.source)
	}
	fmt.Fprintln(w, "\nIn brackets: as a share of the tolerance, which is half a unit of the last printed digit or")
	fmt.Fprintln(w, "stands with its reason beside the row.")
}
