// Checks recomputes every reference figure that the library is checked against and lists
// what was checked, against what, and how far off the worst answer is.
//
//	checks                  a line for each source and unit, and the totals
//	checks -source AIM      of the sources that have this in their name
//	checks -rows            every single figure
//	checks -markdown        the lines as the table in CHECKS.md
//
// It exits with 1 if an answer lies outside its tolerance, and says which on standard
// error, and with 2 for input it cannot use.
//
// NOT FOR NAVIGATION. The clearance, the chart, the aircraft manual, local rules and
// licensed practice come first.
package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/internal/reference/holds"
	"github.com/holdingfix/abeam/internal/verification"
)

func main() { os.Exit(run(verification.Run, os.Args[1:], os.Stdout, os.Stderr)) }

func run(recompute func() ([]verification.Result, error), args []string, stdout, stderr io.Writer) int {
	p := program.New("checks", "recomputes every reference figure and lists the deviations by source.", stdout, stderr)
	source := p.Flags.String("source", "", "only sources with this `text` in their name, whatever its case")
	rows := p.Flags.Bool("rows", false, "every single figure")
	inMarkdown := p.Flags.Bool("markdown", false, "the lines as a table in Markdown")
	if code, ok := p.Parse(args); !ok {
		return code
	}
	if *rows && *inMarkdown {
		return p.Fail(program.Usage, fmt.Errorf("-rows and -markdown exclude each other"))
	}
	all, err := recompute()
	if err != nil {
		return p.Fail(program.Failed, err)
	}
	results := of(all, *source)
	if len(results) == 0 {
		return p.Fail(program.Usage, fmt.Errorf("no source has %q in its name", *source))
	}
	others, err := patterns()
	if err != nil {
		return p.Fail(program.Failed, err)
	}
	var out bytes.Buffer
	switch sum := summarise(results); {
	case *inMarkdown:
		markdown(&out, sum, others)
	case *rows:
		fmt.Fprintln(&out, program.Caution)
		figures(&out, results)
		totals(&out, sum, others)
	default:
		fmt.Fprintln(&out, program.Caution)
		lines(&out, sum)
		totals(&out, sum, others)
	}
	code := p.Print(out.Bytes())
	for _, r := range results {
		if !r.OK() {
			code = p.Fail(program.Failed, fmt.Errorf("outside its tolerance: %s %s; %s", id(r), task(r), answer(r)))
		}
	}
	return code
}

// of gives the results of the sources with the text in their name, by source.
func of(results []verification.Result, text string) []verification.Result {
	var some []verification.Result
	for _, r := range results {
		if strings.Contains(strings.ToLower(r.Row.Source), strings.ToLower(text)) {
			some = append(some, r)
		}
	}
	bySource(some)
	return some
}

// patterns says what is compared beside the single figures.
func patterns() (string, error) {
	published, err := holds.Published()
	if err != nil {
		return "", err
	}
	coded, err := holds.Coded()
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("Not among these: %d published and %d coded holding patterns of the FAA, which tests of "+
		"internal/verification compare one by one and fly in the wind.", len(published), len(coded)), nil
}
