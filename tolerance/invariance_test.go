package tolerance

import (
	"math"
	"testing"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// turned is the plan with everything turned by an angle, and mirrored about the inbound
// course where asked, at another fix.
func turned(t *testing.T, p Plan, by abeam.Degrees, mirror bool, fix hold.Fix) Plan {
	t.Helper()
	in := p.Pattern.Inbound()
	turn := p.Pattern.Turn()
	if mirror {
		turn = turn.Opposite()
	}
	move := func(b abeam.Bearing) abeam.Bearing {
		d := b.Sub(in)
		if mirror {
			d = -d
		}
		return in.Add(d).Add(by)
	}
	var err error
	if p.Pattern, err = hold.NewPattern(fix, move(in), turn, p.Pattern.Leg()); err != nil {
		t.Fatal(err)
	}
	p.Flight.Wind.From = move(p.Flight.Wind.From)
	p.Arrival = move(p.Arrival)
	laps := make([]PlannedLap, len(p.Laps))
	for i, l := range p.Laps {
		laps[i] = PlannedLap{move(l.Heading), l.Outbound}
	}
	p.Laps = laps
	return p
}

// Nothing that is read off a flight depends on where north is, on which side the pattern
// lies, or where on the globe.
func TestFlightsTurnedAndMirrored(t *testing.T) {
	plain := testPlan(t, hold.Right, wind.Wind{From: 131, Speed: 22})
	plain.Slips = []Slip{{Altitude, 300 * time.Second, 20 * time.Second, 150}}
	standard := EUInstrument()
	debrief := func(p Plan) Debrief {
		d, err := NewDebrief(logOf(t, p), Clearance{Pattern: p.Pattern, Altitude: 7000, Guidance: GPSTerminal()}, standard)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	want := debrief(plain)
	for _, at := range []hold.Fix{
		{Position: s2.LatLngFromDegrees(0, 180)}, {Position: s2.LatLngFromDegrees(-71, 12), Variation: -25}, {Position: s2.LatLngFromDegrees(60, -179.99)},
	} {
		for by := abeam.Degrees(-175); by <= 180; by += 71 {
			for _, mirror := range []bool{false, true} {
				p := turned(t, plain, by, mirror, at)
				got := debrief(p)
				if len(got.Flown.Laps) != len(want.Flown.Laps) || len(got.Judgement.Excursions) != len(want.Judgement.Excursions) || got.Flown.Entry.Kind != want.Flown.Entry.Kind {
					t.Fatalf("%v by %v, mirrored %v: %+v", at, by, mirror, got.Flown)
				}
				side := abeam.Degrees(1)
				if mirror {
					side = -1
				}
				for i, g := range got.Flown.Laps {
					w := want.Flown.Laps[i]
					if (g.Inbound-w.Inbound).Abs() > 20*time.Millisecond || (g.Outbound-w.Outbound).Abs() > 20*time.Millisecond ||
						(g.Span().Length()-w.Span().Length()).Abs() > 20*time.Millisecond || abs(g.Widest-w.Widest) > 1e-3 || abs(g.Astray-w.Astray) > 1e-3 {
						t.Errorf("%v by %v, mirrored %v, lap %d: %+v, want %+v", at, by, mirror, i, g, w)
					}
				}
				for i, g := range got.Corrections {
					w := want.Corrections[i]
					if abs(g.Outbound-side*w.Outbound) > 1e-3 || abs(g.ExactOut-side*w.ExactOut) > 0.05 || abs(g.Inbound-side*w.Inbound) > 1e-3 {
						t.Errorf("%v by %v, mirrored %v: %+v, want %+v", at, by, mirror, g, w)
					}
				}
				for i, g := range got.Judgement.Excursions {
					if w := want.Judgement.Excursions[i]; g.Item != w.Item || g.Span != w.Span || math.Abs(g.Worst-w.Worst) > 1e-3 && g.Item != HeadingItem {
						t.Errorf("%v by %v, mirrored %v: %+v, want %+v", at, by, mirror, g, w)
					}
				}
				if abs(got.Wind.Wind.Speed-want.Wind.Wind.Speed) > 1e-3 || abs(got.Wind.TAS-want.Wind.TAS) > 1e-3 {
					t.Errorf("%+v, want %+v", got.Wind, want.Wind)
				}
			}
		}
	}
}
