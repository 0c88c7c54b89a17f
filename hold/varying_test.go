package hold

import (
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

func profile(tb testing.TB, levels ...wind.Level) wind.Profile {
	tb.Helper()
	p, err := wind.NewProfile(levels...)
	if err != nil {
		tb.Fatal(err)
	}
	return p
}

// steady is the varying flight in which nothing varies.
func steady(tb testing.TB, f Flight) Varying {
	rule := TurnRule{Rate: f.Rate}
	return Varying{
		TAS: f.TAS, Ascent: Ascent{From: f.Altitude, To: f.Altitude},
		Winds:        profile(tb, wind.Level{Altitude: f.Altitude, Wind: f.Wind}),
		OutboundTurn: rule, InboundTurn: rule,
	}
}

// Where nothing varies, the circuit by integration is the closed one, for every kind of
// leg.
func TestVaryingAgainstClosedForm(t *testing.T) {
	for _, kind := range legKinds {
		solved := 0
		var worst float64
		for i := 0; solved < 200 && i < 300; i++ {
			lc := drawLegCase(t, kind, i)
			c, err := lc.pattern.Circuit(lc.flight)
			if err != nil {
				continue
			}
			v, err := lc.pattern.VaryingCircuit(steady(t, lc.flight))
			if err != nil {
				t.Errorf("%v case %d: %v", kind, i, err)
				continue
			}
			solved++
			for _, d := range []float64{
				(v.Straight - c.Straight).Seconds(), (v.Inbound - c.Inbound).Seconds(), (v.Lap - c.Lap).Seconds(),
				(v.OutboundTurn.Time - c.OutboundTurn.Time).Seconds(), (v.InboundTurn.Time - c.InboundTurn.Time).Seconds(),
				(v.ToAbeam - c.ToAbeam).Seconds(), (v.Clock - c.Clock).Seconds(),
				math.Remainder(float64(v.OutboundHeading-c.OutboundHeading), 360), math.Remainder(float64(v.End.Heading-c.InboundHeading), 360),
				float64(v.OutboundTurn.Angle - c.OutboundTurn.Angle), float64(v.InboundTurn.Angle - c.InboundTurn.Angle),
				float64(v.RollOut.At.Along - c.RollOut.Along), float64(v.RollOut.At.Abreast - c.RollOut.Abreast),
				float64(v.TurnIn.At.Along - c.TurnIn.Along), float64(v.TurnIn.At.Abreast - c.TurnIn.Abreast),
				float64(v.Established.At.Along - c.Established.Along), float64(v.Established.At.Abreast), float64(v.End.At.Along),
			} {
				worst = math.Max(worst, math.Abs(d))
			}
			if worst > 1e-6 {
				t.Fatalf("%v case %d: off by %g\n%+v\n%+v", kind, i, worst, v, c)
			}
		}
		t.Logf("%v: %d cases, worst %.1e (s, deg, NM)", kind, solved, worst)
		if solved < 200 {
			t.Errorf("%v: only %d cases", kind, solved)
		}
	}
}

var _ = near.Equal[float64]
var _ abeam.NM
var _ time.Duration
