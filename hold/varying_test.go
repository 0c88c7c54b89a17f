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

// drawVarying draws a climb or a descent through four levels of wind, at a constant CAS,
// rolling and late, with different turns.
func drawVarying(tb testing.TB, i int) (Pattern, Varying) {
	tb.Helper()
	u := spread(i)
	lc := drawLegCase(tb, legKinds[i%len(legKinds)], i)
	from, to := abeam.Feet(4000+8000*u(23)), abeam.Feet(12000+26000*u(29))
	if i%3 == 0 {
		from, to = to, from
	}
	var levels []wind.Level
	for k := range 4 {
		levels = append(levels, wind.Level{
			Altitude: abeam.Feet(k)*12500 + 1000,
			Wind:     wind.Wind{From: abeam.NewBearing(360*u(31) + 25*float64(k)*u(37)), Speed: abeam.Knots(8 + 14*float64(k)*u(41))},
		})
	}
	return lc.pattern, Varying{
		CAS: abeam.Knots(140 + 100*u(2)), Deviation: wind.Deviation(-15 + 30*u(43)),
		Ascent:       Ascent{From: from, To: to, PerMinute: abeam.Feet(300 + 3000*u(47))},
		Winds:        profile(tb, levels...),
		OutboundTurn: FAATurn(), InboundTurn: TurnRule{Rate: 3, Bank: abeam.Degrees(18 + 10*u(53))},
		RollRate: abeam.Degrees(3 + 10*u(59)), Delay: time.Duration(6e9 * u(61)),
	}
}

// simulate flies the times of a varying circuit with its turn rules by the midpoint rule
// in small steps, in north and east, on the public functions of package wind alone, and
// gives the place and heading at wings level outbound, the end of the outbound leg, wings
// level inbound and over the fix.
func simulate(tb testing.TB, v Varying, p Pattern, c VaryingCircuit) [4]motion {
	tb.Helper()
	const step = 0.005
	altitude := func(t float64) abeam.Feet {
		climb := float64(v.Ascent.To - v.Ascent.From)
		return v.Ascent.From + abeam.Feet(math.Copysign(math.Min(math.Abs(climb), float64(v.Ascent.PerMinute)/60*t), climb))
	}
	tas := func(t float64) float64 {
		if v.CAS == 0 {
			return float64(v.TAS)
		}
		a, err := wind.StandardAir(altitude(t), v.Deviation)
		if err != nil {
			tb.Fatal(err)
		}
		x, err := a.TASFromCAS(v.CAS)
		if err != nil {
			tb.Fatal(err)
		}
		return float64(x)
	}
	blows := func(t float64) wind.Wind {
		w, err := v.Winds.At(altitude(t))
		if err != nil {
			tb.Fatal(err)
		}
		return w
	}
	side := 1.0
	if p.Turn() == Left {
		side = -1
	}
	turnRate := func(rule TurnRule, t, since, left float64) float64 { // deg/s
		if since < 0 {
			return 0
		}
		turning, err := rule.At(abeam.Knots(tas(t)))
		if err != nil {
			tb.Fatal(err)
		}
		if v.RollRate == 0 {
			return float64(turning.Rate)
		}
		bank := math.Min(float64(turning.Bank), float64(v.RollRate)*math.Min(since, left))
		return 9.80665 * math.Tan(bank*math.Pi/180) / (tas(t) * 1852 / 3600) * 180 / math.Pi
	}
	var corners [4]motion
	m := motion{h: float64(c.OverFix.Heading)} // x north, y east
	t := 0.0
	for k, duration := range [4]time.Duration{c.OutboundTurn.Time, c.Straight, c.InboundTurn.Time, c.Inbound} {
		total := duration.Seconds()
		n := math.Ceil(total / step)
		for i := 0.0; i < n; i++ {
			dt := total / n
			mid := i*dt + dt/2
			at := t + mid
			rate := 0.0
			switch k {
			case 0:
				rate = turnRate(v.OutboundTurn, at, mid-v.Delay.Seconds(), total-mid)
			case 2:
				rate = turnRate(v.InboundTurn, at, mid-v.Delay.Seconds(), total-mid)
			}
			h := m.h + side*rate*dt/2
			w := blows(at)
			if k == 3 {
				tri, err := wind.SolveHeading(p.Inbound(), abeam.Knots(tas(at)), w)
				if err != nil {
					tb.Fatal(err)
				}
				h = float64(tri.Heading)
			}
			s, co := math.Sincos(h * math.Pi / 180)
			ws, wc := math.Sincos(float64(w.From) * math.Pi / 180)
			m.x += (tas(at)*co - float64(w.Speed)*wc) * dt / 3600
			m.y += (tas(at)*s - float64(w.Speed)*ws) * dt / 3600
			m.h += side * rate * dt
		}
		t += total
		corners[k] = m
	}
	return corners
}

// The climbing circuits against a simulation that shares nothing with them.
func TestVaryingAgainstSimulation(t *testing.T) {
	t.Parallel()
	solved := 0
	var worst, worstHeading float64
	cases, least := 25, 20
	if testing.Short() { // the simulation takes short steps
		cases, least = 4, 4
	}
	for i := range cases {
		p, v := drawVarying(t, i)
		c, err := p.VaryingCircuit(v)
		if err != nil {
			t.Logf("case %d: %v", i, err)
			continue
		}
		solved++
		corners := simulate(t, v, p, c)
		sc, cc := math.Sincos(float64(p.Inbound()) * math.Pi / 180)
		for k, at := range [4]Moment{c.RollOut, c.TurnIn, c.Established, c.End} {
			along, right := corners[k].x*cc+corners[k].y*sc, corners[k].y*cc-corners[k].x*sc
			if p.Turn() == Left {
				right = -right
			}
			worst = math.Max(worst, math.Hypot(along-float64(at.At.Along), right-float64(at.At.Abreast)))
			if k < 3 {
				worstHeading = math.Max(worstHeading, math.Abs(math.Remainder(corners[k].h-float64(at.Heading), 360)))
			}
		}
		// Wings level inbound it points where the course is made good.
		w, err := v.Winds.At(c.Established.Altitude)
		if err != nil {
			t.Fatal(err)
		}
		tri, err := wind.SolveHeading(p.Inbound(), c.Established.TAS, w)
		if err != nil || !near.Angle(tri.Heading, c.Established.Heading, 1e-8) {
			t.Errorf("case %d: established on %v, the course takes %v, %v", i, c.Established.Heading, tri.Heading, err)
		}
		if !near.Equal(c.Established.At.Abreast, 0, 1e-9) || math.Abs(float64(c.End.At.Along)) > 1e-9 {
			t.Errorf("case %d: established at %v, ends at %v", i, c.Established.At, c.End.At)
		}
		checkLegEnd(t, i, p, c)
	}
	t.Logf("%d cases, worst %.1e NM and %.1e degrees", solved, worst, worstHeading)
	// The midpoint rule errs by the square of the step times the jump of the slope of the
	// rate of turn where a roll begins and ends, some 2e-6 degrees each, and by (step
	// rate)2/24 of the distance flown, 1e-7 NM at 10 NM.
	if solved < least || worst > 2e-6 || worstHeading > 2e-5 {
		t.Errorf("%d cases, worst %g NM, %g degrees", solved, worst, worstHeading)
	}
}

// checkLegEnd checks that a varying circuit has the leg it should.
func checkLegEnd(t *testing.T, i int, p Pattern, c VaryingCircuit) {
	t.Helper()
	var got, want float64
	switch leg := p.Leg(); leg.Kind() {
	case InboundTimed:
		got, want = c.Inbound.Seconds(), leg.Inbound().Seconds()
	case OutboundTimed:
		got, want = c.Clock.Seconds(), leg.Outbound().Seconds()
	case OutboundLength:
		got, want = -float64(c.TurnIn.At.Along), float64(leg.Length())
	case InboundLength:
		got, want = -float64(c.Established.At.Along), float64(leg.Length())
	case OutboundDME:
		station, limit := leg.DME()
		fix, err := GroundDistance(station.Fix, c.OverFix.Altitude-station.Elevation)
		if err != nil {
			t.Fatal(err)
		}
		if station.Course == Away {
			fix = -fix
		}
		ground := math.Hypot(float64(c.TurnIn.At.Along-fix), float64(c.TurnIn.At.Abreast))
		reading, err := SlantRange(abeam.NM(ground), c.TurnIn.Altitude-station.Elevation)
		if err != nil {
			t.Fatal(err)
		}
		got, want = float64(reading), float64(limit)
	}
	if !near.Equal(got, want, 1e-8) {
		t.Errorf("case %d, %v: %v", i, p.Leg(), got)
	}
}

// Steps of a third move no result by more than the 1e-8 of a second, degree or mile that
// is documented.
func TestVaryingErrorBound(t *testing.T) {
	var worst float64
	solved := 0
	for i := range 300 {
		p, v := drawVarying(t, i)
		c, err := p.VaryingCircuit(v)
		if err != nil {
			continue
		}
		solved++
		var fine VaryingCircuit
		if err := fine.solve("test", &p, &v, 3); err != nil {
			t.Fatal(err)
		}
		for _, d := range []float64{
			(fine.Straight - c.Straight).Seconds(), (fine.Inbound - c.Inbound).Seconds(), (fine.OutboundTurn.Time - c.OutboundTurn.Time).Seconds(),
			float64(fine.TurnIn.At.Along - c.TurnIn.At.Along), float64(fine.TurnIn.At.Abreast - c.TurnIn.At.Abreast),
			math.Remainder(float64(fine.OutboundHeading-c.OutboundHeading), 360),
		} {
			worst = math.Max(worst, math.Abs(d))
		}
	}
	t.Logf("%d cases, worst %.1e", solved, worst)
	if solved < 200 || worst > 1e-8 {
		t.Errorf("%d cases, worst %g", solved, worst)
	}
}

func TestVaryingAllocatesNothing(t *testing.T) {
	for i := range 20 {
		p, v := drawVarying(t, i)
		level := v
		level.Ascent.To = v.Ascent.From
		for _, v := range []Varying{v, level} {
			if _, err := p.VaryingCircuit(v); err != nil {
				continue // the error is what is allocated
			}
			if n := testing.AllocsPerRun(3, func() { _, _ = p.VaryingCircuit(v) }); n != 0 {
				t.Errorf("case %d: %v allocations", i, n)
			}
		}
	}
}

func runVarying(ps []Pattern, vs []Varying, i int) {
	c, _ := ps[i].VaryingCircuit(vs[i])
	sink += float64(c.OutboundHeading)
}

func BenchmarkVarying(b *testing.B) {
	var ps, level []Pattern
	var vs, levelVs []Varying
	for i := 0; len(ps) < 64; i++ {
		p, v := drawVarying(b, i)
		if _, err := p.VaryingCircuit(v); err != nil {
			continue
		}
		ps, vs = append(ps, p), append(vs, v)
		v.Ascent.To = v.Ascent.From
		if _, err := p.VaryingCircuit(v); err == nil {
			level, levelVs = append(level, p), append(levelVs, v)
		}
	}
	for name, run := range map[string]func(i int){
		"climb": func(i int) { runVarying(ps, vs, i%len(ps)) },
		"level": func(i int) { runVarying(level, levelVs, i%len(level)) },
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			i := 0
			for b.Loop() {
				run(i)
				i++
			}
		})
	}
}

// The curves of the airspeed against the conversion they stand for.
func TestAirspeedCurves(t *testing.T) {
	for _, ascent := range []Ascent{{-2000, 65617, 1000}, {36000, 36200, 100}, {0, 36089, 500}, {37000, 45000, 500}, {30000, 29000, 1}} {
		w := profile(t, wind.Level{Altitude: -2000}, wind.Level{Altitude: 65617})
		v := Varying{CAS: 140, Ascent: ascent, Winds: w}
		fl := newFlow(&Pattern{}, &v, nil, nil)
		for i := range 1001 {
			at := float64(ascent.From) + float64(ascent.To-ascent.From)*float64(i)/1000
			if got, want := fl.airspeed(at), fl.exact(at); !near.Relative(got, want, 2e-13) {
				t.Fatalf("%v at %v ft: %v, want %v", ascent, at, got, want)
			}
		}
	}
}
