// Lab flies a strategy of your own beside the built-in ones. The strategy is the ten lines of
// mine.go: change them and run lab again.
//
//	lab                          one hold lap by lap, then light aircraft in all winds
//	lab -wind 120/25 -tas 105    another wind and airspeed, inbound course 360
//	lab -rough -seed 3           flown with a pilot's errors
//
// A strategy that panics or asks for what cannot be flown is reported by name with the lap
// and what it was told; the others are measured all the same. It exits with 2 for input it
// cannot use and with 1 for a run that failed.
//
// NOT FOR NAVIGATION. The clearance, the chart, the aircraft manual, local rules and
// licensed practice come first.
package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/examples/internal/pilot"
	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/timing"
	"github.com/holdingfix/abeam/wind"
)

func main() {
	program.Run(func(ctx context.Context, args []string, stdout, stderr io.Writer) int {
		return run(ctx, mine, args, stdout, stderr)
	})
}

func run(ctx context.Context, own timing.Strategy, args []string, stdout, stderr io.Writer) int {
	p := program.New("lab", "flies the strategy of mine.go, to be changed, beside the built-in ones.", stdout, stderr)
	windText := p.Flags.String("wind", "055/22", "wind as `from/kt`, relative to an inbound course of 360")
	tas := p.Flags.Float64("tas", 105, "true airspeed in `knots`")
	laps := p.Flags.Int("laps", 5, "how many `laps`, 1 to 20")
	left := p.Flags.Bool("left", false, "left turns")
	rough := p.Flags.Bool("rough", false, "with the errors of a pilot and a wind not well known")
	seed := p.Flags.Uint64("seed", 1, "of the errors")
	if code, ok := p.Parse(args); !ok {
		return code
	}
	if *laps < 1 || *laps > 20 {
		return p.Fail(program.Usage, fmt.Errorf("-laps is %d, must be from 1 to 20", *laps))
	}
	w, err := parseWind(*windText)
	if err != nil {
		return p.Fail(program.Usage, err)
	}
	turn := hold.Right
	if *left {
		turn = hold.Left
	}
	pattern, err := hold.NewPattern(hold.Fix{}, 0, turn, hold.TimedInbound(time.Minute))
	if err != nil {
		return p.Fail(program.Failed, err)
	}
	study := timing.Study{
		Grid: timing.LightGrid(30), Laps: *laps, Start: timing.AtWingsLevelOrAbeam, Intercept: timing.StandardIntercept(), Seed: *seed,
		Strategies: append([]timing.Strategy{own}, beside()...),
	}
	study.Grid.Turn = turn
	if *rough {
		study.Scatter = pilot.Errors()
	}
	// All is computed before anything is written.
	var out bytes.Buffer
	fmt.Fprintln(&out, program.Caution)
	trial := timing.Trial{
		Pattern: pattern, Flight: hold.Flight{TAS: abeam.Knots(*tas), Rate: hold.StandardRate, Wind: w},
		Start: study.Start, Intercept: study.Intercept, Scatter: study.Scatter, Seed: study.Seed,
	}
	if err := lapByLap(&out, trial, study.Strategies, *laps); err != nil {
		return p.Refuse(err)
	}
	r, err := study.Run(ctx)
	if err != nil {
		return p.Fail(program.Failed, err)
	}
	overGrid(&out, r)
	return p.Print(out.Bytes())
}

// beside are the built-in strategies that your own is put beside.
func beside() []timing.Strategy {
	triple := timing.ThreeTimes()
	return []timing.Strategy{
		timing.Compose("", timing.ByHalf(), triple),
		timing.Compose("", timing.ByFull(), triple),
		timing.Compose("", timing.Lopsided(), triple),
		timing.Compose("", timing.Lopsided(), timing.ByOutbound()),
		timing.Exact(),
	}
}

func parseWind(text string) (wind.Wind, error) {
	from, kt, ok := strings.Cut(text, "/")
	if !ok {
		return wind.Wind{}, fmt.Errorf("-wind is %q, must be a direction and a speed as 055/22", text)
	}
	b, err := abeam.ParseBearing(from)
	if err != nil {
		return wind.Wind{}, err
	}
	speed, err := strconv.ParseFloat(kt, 64)
	if err != nil {
		return wind.Wind{}, fmt.Errorf("-wind is %q, must be a direction and a speed as 055/22", text)
	}
	return wind.New(b, abeam.Knots(speed))
}

// lapByLap flies every strategy in one hold.
func lapByLap(w io.Writer, t timing.Trial, strategies []timing.Strategy, n int) error {
	p := t.Pattern
	fmt.Fprint(w, "\nIn parentheses the error of the inbound time, s; rolled out: off the course, positive to the holding side\n")
	fmt.Fprintf(w, "Inbound %s, %v turns, %v, wind from %s at %v\n", p.Inbound().ThreeFigures(), p.Turn(), t.Flight.TAS, t.Flight.Wind.From.ThreeFigures(), t.Flight.Wind.Speed)
	for _, s := range strategies {
		t.Strategy = s
		laps, err := t.AppendLaps(nil, n)
		fmt.Fprintf(w, "%s\n", s.Name)
		for i, l := range laps {
			from := "by the clock"
			if l.Plan.Start == timing.AtTurnComplete {
				from = "from wings level"
			}
			fmt.Fprintf(w, "  lap %d: heading %s for %3.0f s %s, inbound %3.0f s (%+.0f), rolled out %+.2f NM\n",
				i+1, p.Outward().Add(l.Plan.Correction).ThreeFigures(), l.Outbound.Seconds(), from, l.Inbound.Seconds(),
				math.Round(l.Error.Seconds())+0, math.Round(100*float64(l.RollOut.Abreast))/100+0)
		}
		var failed *timing.StrategyError
		switch {
		case errors.As(err, &failed):
			fmt.Fprintln(w, " ", err)
		case err != nil:
			return err
		}
	}
	return nil
}

func overGrid(w io.Writer, r timing.Results) {
	fmt.Fprintf(w, "\n%s: error of the inbound time, s, median and 95 %%\n", r.Grid)
	for _, o := range r.Outcomes {
		fmt.Fprintf(w, "  %-34s", o.Strategy)
		for i, l := range o.Laps {
			if i == 3 {
				break
			}
			fmt.Fprintf(w, "  lap %d %5.1f %5.1f", i+1, l.Inbound.AbsQuantile(0.5), l.Inbound.AbsQuantile(0.95))
		}
		fmt.Fprintln(w)
		if o.Failure != nil {
			fmt.Fprintf(w, "    failed in %d of %d trials, first: %v\n", o.Failed, o.Trials, o.Failure)
		}
	}
}
