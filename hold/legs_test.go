package hold

import (
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/internal/oracle"
	"github.com/holdingfix/abeam/wind"
)

// spread gives the i-th point of a low-discrepancy sequence: fractional parts of
// multiples of irrationals are dense and never aligned, and the same in every run.
func spread(i int) func(alpha float64) float64 {
	return func(alpha float64) float64 { _, f := math.Modf(float64(i+1) * math.Sqrt(alpha)); return f }
}

// legCase is a hold of a kind of leg, its quadrature, and the inbound time in still air
// from which the quadrature starts.
type legCase struct {
	pattern Pattern
	flight  Flight
	hold    oracle.Hold
	ending  oracle.Ending
}

func drawLegCase(tb testing.TB, kind LegKind, i int) legCase {
	tb.Helper()
	u := spread(i)
	tas := 70 + 380*u(2)
	f := Flight{
		TAS: abeam.Knots(tas), Rate: Rate(1 + 3*u(7)), Altitude: abeam.Feet(20000 * u(17)),
		Wind: wind.Wind{From: abeam.NewBearing(360 * u(11)), Speed: abeam.Knots(tas * 0.45 * u(13))},
	}
	seconds := 45 + 150*u(5)
	length := tas * seconds / 3600
	height := (float64(f.Altitude) - 1200) / 6076.115485564304 // NM above the station
	var leg Leg
	var ending oracle.Ending
	switch kind {
	case InboundTimed:
		leg = TimedInbound(time.Duration(seconds * 1e9))
		seconds = leg.time.Seconds()
		ending = func(h oracle.Hold, _ oracle.Answer) float64 { return h.Inbound - seconds }
	case OutboundTimed:
		leg = TimedOutbound(time.Duration(seconds * 1e9))
		seconds = leg.time.Seconds()
		ending = func(h oracle.Hold, a oracle.Answer) float64 {
			return a.Straight - math.Max(0, h.AbeamAfter(a)) - seconds
		}
	case OutboundLength:
		leg = LengthOutbound(abeam.NM(length))
		ending = func(h oracle.Hold, a oracle.Answer) float64 {
			p := h.Pieces(a)[2]
			return -h.Along(p.North, p.East) - length
		}
	case InboundLength:
		leg = LengthInbound(abeam.NM(length))
		ending = func(h oracle.Hold, a oracle.Answer) float64 {
			p := h.Pieces(a)[3]
			return -h.Along(p.North, p.East) - length
		}
	case OutboundDME:
		station := Station{Course: Toward, Fix: abeam.NM(math.Abs(height) + 4 + 25*u(19)), Elevation: 1200}
		if i%2 == 1 {
			station.Course = Away
			station.Fix += abeam.NM(length + tas/(20*math.Pi*float64(f.Rate)))
		}
		limit, err := station.Limit(abeam.NM(length))
		if err != nil {
			tb.Fatal(err)
		}
		leg = DMELimit(station, limit)
		along := math.Sqrt(float64(station.Fix*station.Fix) - height*height)
		if station.Course == Away {
			along = -along
		}
		ending = func(h oracle.Hold, a oracle.Answer) float64 {
			return math.Hypot(h.Range(a, along), height) - float64(limit)
		}
	}
	p, err := NewPattern(Fix{}, abeam.NewBearing(360*u(3)), Turn(i/2&1), leg)
	if err != nil {
		tb.Fatal(err)
	}
	h := oracleOf(p, f)
	h.Inbound = seconds
	return legCase{p, f, h, ending}
}

// Every kind of leg against quadrature and root finding, in 300 cases each; the timed
// inbound leg has a test of its own.
func TestLegsAgainstQuadrature(t *testing.T) {
	for _, kind := range []LegKind{OutboundTimed, OutboundDME, OutboundLength, InboundLength} {
		t.Run(kind.String(), func(t *testing.T) {
			t.Parallel()
			legsAgainstQuadrature(t, kind)
		})
	}
}

func legsAgainstQuadrature(t *testing.T, kind LegKind) {
	want := 300
	if testing.Short() {
		want = 30
	}
	solved, drawn := 0, 0
	var worstTime, worstAngle float64
	for i := 0; solved < want; i++ {
		if drawn++; drawn > 2*want {
			t.Fatalf("only %d of %d cases had a circuit", solved, drawn)
		}
		lc := drawLegCase(t, kind, i)
		c, err := lc.pattern.Circuit(lc.flight)
		if err != nil {
			continue
		}
		h, a, err := lc.hold.SolveUntil(lc.ending)
		if err != nil || !(h.Inbound >= 0 && a.Straight >= 0) {
			t.Fatalf("case %d: the quadrature finds %+v %+v, %v, the closed form %+v", i, h, a, err, c)
		}
		solved++
		worst := math.Max(math.Abs(c.Straight.Seconds()-a.Straight), math.Abs(c.Inbound.Seconds()-h.Inbound))
		angle := math.Max(math.Abs(math.Remainder(float64(c.OutboundHeading)-h.OutboundHeading(a), 360)),
			math.Abs(float64(c.OutboundTurn.Angle)-a.Turn))
		if worst > 1e-6 || angle > 1e-6 {
			t.Errorf("case %d: %v %v, quadrature %v s inbound, %+v", i, c.Inbound, c.Straight, h.Inbound, a)
		}
		worstTime, worstAngle = math.Max(worstTime, worst), math.Max(worstAngle, angle)
		heading, straight, err := lc.pattern.Outbound(lc.flight)
		if err != nil || straight != c.Straight || !near.Angle(heading, c.OutboundHeading, 1e-12) {
			t.Fatalf("Outbound gives %v %v %v, Circuit %v %v", heading, straight, err, c.OutboundHeading, c.Straight)
		}
	}
	t.Logf("%d of %d cases, worst %.1e s and %.1e degrees", solved, drawn, worstTime, worstAngle)
}
