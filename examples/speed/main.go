// Speed measures the hot paths of the library, each beside a floor, which makes only the
// calls that no solution can do without, and beside the general-purpose way of doing it:
// gonum's quadrature or Runge-Kutta steps, and Newton's method with a difference Jacobian
// by gonum's linear algebra.
//
//	speed                 half a second for each path
//	speed -time 2s        longer, on a machine that others use
//	speed -only wind      the paths with this in their name
//	speed -markdown       as a table in Markdown
//
// The three take turns in one run, so that whatever else the machine does falls on all of
// them, and the fastest turn of each counts. Nanoseconds are this machine's; the ratios are
// what can be compared.
//
// NOT FOR NAVIGATION. The clearance, the chart, the aircraft manual, local rules and
// licensed practice come first.
package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/holdingfix/abeam/examples/internal/program"
)

func main() {
	program.Run(run)
}

func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	p := program.New("speed", "measures the hot paths beside a floor and the general-purpose way.", stdout, stderr)
	budget := p.Flags.Duration("time", 500*time.Millisecond, "how long to measure each path")
	only := p.Flags.String("only", "", "only paths with this `text` in their name")
	inMarkdown := p.Flags.Bool("markdown", false, "the table in Markdown")
	if code, ok := p.Parse(args); !ok {
		return code
	}
	if *budget < 0 {
		return p.Fail(program.Usage, fmt.Errorf("-time is %v, must not be negative", *budget))
	}
	all, err := paths()
	if err != nil {
		return p.Fail(program.Failed, err)
	}
	var results []result
	for _, path := range all {
		if !strings.Contains(path.name, *only) {
			continue
		}
		if ctx.Err() != nil {
			return p.Fail(program.Failed, ctx.Err())
		}
		results = append(results, path.measure(*budget))
	}
	if len(results) == 0 {
		return p.Fail(program.Usage, fmt.Errorf("no path has %q in its name", *only))
	}
	var out bytes.Buffer
	if *inMarkdown {
		markdown(&out, results)
	} else {
		text(&out, results)
	}
	return p.Print(out.Bytes())
}

// paths are the hot paths by room.
func paths() ([]path, error) {
	var all []path
	for _, room := range []func() ([]path, error){triangles, airspeeds, circuits, ground, varying, entries, laps, judging} {
		some, err := room()
		if err != nil {
			return nil, err
		}
		all = append(all, some...)
	}
	return all, nil
}
