package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/timing"
	"github.com/holdingfix/abeam/wind"
)

// write says what was found, in words and figures.
func (a *atlas) write(w io.Writer) {
	fmt.Fprintln(w, program.Caution)
	fmt.Fprintf(w, "\n%d laps flown in %.1f s over %s: %d cells of wind, airspeed, rate and leg, %d of them left out for want of an outbound leg.\n",
		a.flown, a.took.Seconds(), a.wide.Grid, a.wide.Cells, a.wide.LeftOut)
	if a.study.Scatter != (timing.Scatter{}) {
		fmt.Fprintf(w, "Flown with errors: %+v, seed %d.\n", a.study.Scatter, a.study.Seed)
	}
	for _, set := range a.sets {
		a.writeSet(w, set)
	}
	a.writeFits(w)
	a.writeDerived(w)
	for _, err := range a.failed {
		fmt.Fprintln(w, "\nFailed:", err)
	}
}

func (a *atlas) writeSet(w io.Writer, set timing.Results) {
	fmt.Fprintf(w, "\n%s\n", strings.ToUpper(set.Grid[:1])+set.Grid[1:])
	fmt.Fprintf(w, "%-52s %13s %13s %13s %8s %6s %5s\n", "error of the inbound time, s: median and 95 %", "lap 1", "lap 2", "lap 3", "across", "within", "non-")
	fmt.Fprintf(w, "%-52s %13s %13s %13s %8s %6s %5s\n", "", "", "", "", "95% NM", "10 s %", "side")
	for _, o := range set.Outcomes {
		fmt.Fprintf(w, "%-52s", o.Strategy)
		for _, l := range o.Laps[:3] {
			fmt.Fprintf(w, " %6.1f %6s", l.Inbound.AbsQuantile(0.5), upTo(l.Inbound))
		}
		third := o.Laps[2]
		in10 := o.Within10[0] + o.Within10[1] + o.Within10[2]
		fmt.Fprintf(w, " %8s %6.0f %5.0f\n", upToNM(third.Across), 100*float64(in10)/float64(max(1, o.Trials)), 100*float64(third.Astray)/float64(max(1, third.Across.N())))
	}
	fmt.Fprintln(w, "across: at roll-out, lap 3; within: settled within 10 s by lap 3; non-side: rolled out on the non-holding side, %, lap 3")
}

// upTo is the 95 % figure, with a sign where it lies beyond what is told apart.
func upTo(s timing.Spread) string {
	q := s.AbsQuantile(0.95)
	if q >= s.Reach() {
		return fmt.Sprintf(">%.0f", q)
	}
	return fmt.Sprintf("%.1f", q)
}

func upToNM(s timing.Spread) string {
	q := s.AbsQuantile(0.95)
	if q >= s.Reach() {
		return fmt.Sprintf(">%.0f", q)
	}
	return fmt.Sprintf("%.2f", q)
}

func (a *atlas) writeFits(w io.Writer) {
	fmt.Fprintf(w, "\nFITS, on %.0f %% of the cells; every figure here is from the %.0f %% held out\n", 100*(1-heldOut), 100*heldOut)
	for _, f := range a.fits {
		var numbers []string
		for i, x := range f.fit.Parameters {
			numbers = append(numbers, fmt.Sprintf("%s %.2f", f.names[i], x))
		}
		fmt.Fprintf(w, "%s: %s\n  %s\n", f.grid, f.fit.Family, strings.Join(numbers, ", "))
		fmt.Fprintf(w, "  %6.2f  fitted; mean of %s\n", f.fit.HeldOut.Loss, f.what)
		for _, c := range f.against {
			fmt.Fprintf(w, "  %6.2f  %s\n", c.score.Loss, c.name)
		}
	}
	l := timing.Lopsided()
	fmt.Fprintf(w, "The best simple rule: %s. %s%s.\n", l.Name, strings.ToUpper(l.Statement[:1]), l.Statement[1:])
}

// writeDerived says where the discrepancy rules stop settling, from their gain.
func (a *atlas) writeDerived(w io.Writer) {
	fmt.Fprintln(w, "\nDERIVED: in a headwind on the inbound course the error of a lap is multiplied by 1 - k (V + w)/(V - w)")
	p, err := hold.NewPattern(hold.Fix{}, 0, hold.Right, a.legOf())
	if err != nil {
		return
	}
	for _, rule := range []timing.TimingRule{timing.ByFull(), timing.ByHalf()} {
		var said []string
		for percent := 10; percent <= 60; percent += 10 {
			f := hold.Flight{TAS: 100, Rate: hold.StandardRate, Wind: wind.Wind{From: 0, Speed: abeam.Knots(percent)}}
			c, err := timing.Settle(p, f, p.Outward(), rule.Gain)
			if err != nil {
				return
			}
			word := ""
			switch {
			case math.Abs(math.Abs(c.Multiplier)-1) < 1e-9:
				word = " (stands)"
			case !c.Settles():
				word = " (diverges)"
			}
			said = append(said, fmt.Sprintf("%d %%: %.2f%s", percent, c.Multiplier, word))
		}
		fmt.Fprintf(w, "  %s: %s\n", rule.Name, strings.Join(said, ", "))
	}
}

func (a *atlas) legOf() hold.Leg { return hold.TimedInbound(timing.LightGrid(0).Cases[0].Leg) }
