package main

import (
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/examples/internal/layout"
	"github.com/holdingfix/abeam/tolerance"
)

// writeText lays the report out: the verdict first, then what it rests on.
func (r *Report) writeText(w io.Writer) {
	para(w, "", "%s", r.Caution)
	fmt.Fprintln(w)
	h := r.Hold
	para(w, "Log", "%s: %d samples over %s, with %s.", r.Log.Name, r.Log.Samples, clock(r.Log.Seconds), r.Log.Holds)
	para(w, "Hold", "%s", h.words())
	para(w, "Verdict", "%s by %s.", strings.ToUpper(r.Verdict), h.Standard)
	fmt.Fprintln(w)
	r.writeItems(w)
	r.writeExcursions(w)
	para(w, "Entry", "%s", r.Entry.words())
	para(w, "Wind", "%s", r.windWords())
	para(w, "Protected", "%s", r.Protected.words())
	fmt.Fprintln(w)
	r.writeLaps(w)
	for i, a := range r.Advice {
		name := ""
		if i == 0 {
			name = "Next lap"
		}
		para(w, name, "%s.", a)
	}
	if len(r.Advice) > 0 {
		fmt.Fprintln(w)
	}
	for i, f := range r.Log.Findings {
		name := ""
		if i == 0 {
			name = "Findings"
		}
		para(w, name, "%s.", f)
	}
	if len(r.Log.Findings) > 0 {
		fmt.Fprintln(w)
	}
	para(w, "", "Times count from the start of the log. The exact figures hold for the estimated wind and steady flight only. "+notAnExaminer)
}

// notAnExaminer stands beside every verdict.
const notAnExaminer = "The verdict holds the log against figures; it is no examiner's."

func (h Hold) words() string {
	words := fmt.Sprintf("%s, inbound %s %v, %v turns", h.Fix, bearing(h.Inbound), h.North, h.Turns)
	if h.Leg > 0 {
		words += fmt.Sprintf(", %s inbound", clock(h.Leg))
	}
	if h.Altitude != 0 {
		words += fmt.Sprintf(", at %.0f ft", h.Altitude)
	}
	if h.IAS != 0 {
		words += fmt.Sprintf(" and %.0f KIAS", h.IAS)
	}
	if h.Guidance != (tolerance.Guidance{}).String() {
		words += ", by " + h.Guidance
	}
	if h.Inferred != "" {
		words += "; " + h.Inferred
	}
	return words + "."
}

func (e Entry) words() string {
	if e.Flown == entry.None {
		return "the log begins in the hold."
	}
	calls := e.Calls.String()
	if e.Or != entry.None {
		calls += " or " + e.Or.String()
	}
	return fmt.Sprintf("%v flown, from %s at the fix, which calls for %s: %s.", e.Flown, bearing(e.Heading), calls, e.Verdict)
}

func (r *Report) windWords() string {
	if r.Wind == nil {
		return "not known: " + r.NoWind + "."
	}
	w := r.Wind
	return fmt.Sprintf("%s %v at %.1f kt, give or take %.1f degrees and %.1f kt; TAS %.1f kt, give or take %.1f; residual %.1f kt. The turns took %.2f deg/s.",
		bearing(w.From), r.Hold.North, w.Speed, w.FromError, w.Error, w.TAS, w.TASError, w.RMS, w.Rate)
}

func (r *Report) writeItems(w io.Writer) {
	fmt.Fprintf(w, "  %-17s %-15s %-16s %-18s %s\n", "Item", "verdict", "limit", "met", "within")
	for _, i := range r.Items {
		if i.Why != "" {
			fmt.Fprintf(w, "  %-17s %s: %s%s\n", i.Item, i.Verdict, i.Why, i.metWords())
			continue
		}
		fmt.Fprintf(w, "  %-17s %-15s %-16s %-18s %.1f %%\n", i.Item, i.Verdict, i.limitWords(), i.met(), i.Share)
	}
	fmt.Fprintln(w)
}

// limitWords marks a limit that the standard does not have.
func (i Item) limitWords() string {
	if i.Source == own {
		return i.amountWords() + ", own"
	}
	return i.amountWords()
}

func (i Item) amountWords() string {
	switch {
	case i.Unit == "":
		return "70 degree line"
	case i.Unit == tolerance.CourseItem.Unit():
		return fmt.Sprintf("%g scale", i.Over)
	case i.Under == i.Over:
		return fmt.Sprintf("%g %s", i.Over, i.Unit)
	}
	return fmt.Sprintf("-%g +%g %s", i.Under, i.Over, i.Unit)
}

func (i Item) met() string {
	if i.Unit == "" {
		return ""
	}
	digits := 1
	if i.Unit == tolerance.AltitudeItem.Unit() {
		digits = 0
	} else if i.Unit == tolerance.CourseItem.Unit() || i.Unit == tolerance.HoldingSideItem.Unit() {
		digits = 2
	}
	return fmt.Sprintf("%+.*f to %+.*f", digits, i.Lowest+0, digits, i.Highest+0)
}

// metWords adds what was measured to an item that no figure judges.
func (i Item) metWords() string {
	if i.Lowest == 0 && i.Highest == 0 {
		return ""
	}
	return fmt.Sprintf(" (%s %s)", i.met(), i.Unit)
}

func (r *Report) writeExcursions(w io.Writer) {
	if len(r.Excursions) == 0 {
		para(w, "Excursions", "none.")
		return
	}
	fmt.Fprintf(w, "  %-17s %8s %8s %12s %11s  %s\n", "Excursion", "at", "for", "worst", "limit", "where")
	for _, e := range r.Excursions {
		fmt.Fprintf(w, "  %-17s %8s %6.1f s %12s %11s  %s\n", e.Item, clock(e.From), e.For, e.amount(e.Worst), e.amount(e.Limit), e.where())
	}
	fmt.Fprintln(w)
}

func (e Excursion) amount(x float64) string {
	switch e.Unit {
	case "":
		return ""
	case tolerance.CourseItem.Unit():
		return fmt.Sprintf("%+.2f scale", x)
	case tolerance.HoldingSideItem.Unit():
		return fmt.Sprintf("%+.2f NM", x)
	}
	return fmt.Sprintf("%+.0f %s", x, e.Unit)
}

func (e Excursion) where() string {
	if e.Lap == 0 {
		return e.Leg
	}
	return fmt.Sprintf("lap %d, %s", e.Lap, e.Leg)
}

func (r *Report) writeLaps(w io.Writer) {
	fmt.Fprintf(w, "  %-4s %7s %8s %8s %8s %17s %17s %7s\n", "Lap", "at", "outbound", "inbound", "against", "outbound corr.", "inbound corr.", "within")
	fmt.Fprintf(w, "  %-4s %7s %8s %8s %8s %17s %17s\n", "", "", "time", "time", targetWords(r.Hold.Leg), "flown, exact", "flown, exact")
	for _, l := range r.Laps {
		out, in := "", ""
		if l.Correction != nil {
			out = fmt.Sprintf("%s, %s", signed(l.Correction.Outbound), signed(l.Correction.ExactOut))
			in = fmt.Sprintf("%s, %s", signed(l.Correction.Inbound), signed(l.Correction.ExactIn))
		}
		outbound := clock(l.Outbound)
		if l.Orbit {
			outbound = "orbit"
		}
		fmt.Fprintf(w, "  %-4d %7s %8s %8s %6s s %17s %17s %7s\n", l.Lap, clock(l.From), outbound, clock(l.Inbound), signed(l.OffTarget), out, in, within(l.Judged, l.Share))
	}
	fmt.Fprintln(w, "  Corrections in degrees, positive to the right. Outbound by the clock from wings")
	fmt.Fprintln(w, "  level or abeam; inbound from wings level.")
	fmt.Fprintln(w)
	fmt.Fprintf(w, "  %-4s %18s %18s %18s %18s\n", "Lap", "outbound turn", "outbound leg", "inbound turn", "inbound leg")
	for _, l := range r.Laps {
		fmt.Fprintf(w, "  %-4d", l.Lap)
		for _, leg := range l.Legs {
			fmt.Fprintf(w, " %18s", leg.Words())
		}
		fmt.Fprintln(w)
	}
	fmt.Fprintln(w, "  Time of each leg, and the share of it within.")
	fmt.Fprintln(w)
}

// Words are the time of a leg and the share of it within.
func (l Leg) Words() string {
	return clock(l.Seconds) + ", " + within(l.Judged, l.Share)
}

// Within is the share of a lap.
func (l Lap) Within() string { return within(l.Judged, l.Share) }

// within is a share of what was judged; where nothing was there is none.
func within(judged, share float64) string {
	if judged == 0 {
		return "-"
	}
	return fmt.Sprintf("%.1f %%", share)
}

// signed gives a whole number with its sign, nothing as +0.
func signed(x float64) string { return fmt.Sprintf("%+.0f", math.Round(x)+0) }

func targetWords(leg float64) string {
	if leg == 0 {
		return ""
	}
	return clock(leg)
}

func clock(seconds float64) string {
	return tolerance.Clock(time.Duration(math.Round(seconds * float64(time.Second))))
}

func bearing(deg float64) string { return abeam.NewBearing(deg).ThreeFigures() }

// para writes one paragraph with its name in the margin, wrapped.
func para(w io.Writer, name, format string, args ...any) {
	layout.Paragraph(w, 0, 12, name, fmt.Sprintf(format, args...))
}
