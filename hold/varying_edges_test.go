package hold

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

// Where nothing varies, the times that the search starts from are those of the answer:
// for any leg, in any wind, and in still air with rolls and unequal turns too.
func TestVaryingStart(t *testing.T) {
	startOf := func(p Pattern, v Varying) ([3]float64, [3]float64) {
		q := newVaryingLap(&p, &v, 1, nil, nil)
		var z [3]float64
		if err := q.start("test", &p, &v, &z); err != nil {
			t.Fatal(err)
		}
		return z, q.misses(&z)
	}
	for _, kind := range legKinds {
		for i := range 40 {
			lc := drawLegCase(t, kind, i)
			if _, err := lc.pattern.Circuit(lc.flight); err != nil {
				continue
			}
			if _, miss := startOf(lc.pattern, steady(t, lc.flight)); norm(&miss) > 1e-8 {
				t.Errorf("%v case %d: misses by %v", kind, i, miss)
			}
		}
	}
	p := minutePattern(t, 0, Right)
	v := steady(t, Flight{TAS: 120, Rate: 3})
	v.RollRate = 5
	if _, miss := startOf(p, v); norm(&miss) > 1e-10 {
		t.Errorf("with rolls: misses by %v", miss)
	}
	// Half a circle at 3 and at 2 deg/s, and a minute between them.
	v.RollRate, v.InboundTurn.Rate = 0, 2
	z, _ := startOf(p, v)
	for i, want := range [3]float64{60, 60, 90} {
		if !near.Equal(z[i], want, 1e-9) {
			t.Errorf("unequal turns: starts from %v", z)
		}
	}
	// In a wind they start as the circuit does that turns in the mean of their times,
	// 30 + 45 s on average for a half circle at 3 and at 2 deg/s: 2.4 deg/s.
	f := Flight{TAS: 120, Rate: 2.4, Wind: wind.Wind{From: 60, Speed: 30}}
	c, err := p.Circuit(f)
	if err != nil {
		t.Fatal(err)
	}
	v = steady(t, f)
	v.OutboundTurn.Rate, v.InboundTurn.Rate = 3, 2
	if z, _ = startOf(p, v); !near.Equal(z[1], c.Straight.Seconds(), 1e-8) {
		t.Errorf("unequal turns in a wind: starts from %v, the mean takes %v", z, c.Straight)
	}
}

// Misses in still air at 2 NM a minute and 3 deg/s, a radius of 2/pi NM, by hand.
func TestVaryingMisses(t *testing.T) {
	v := steady(t, Flight{TAS: 120, Rate: 3})
	// A second more of the second turn is 3 degrees past the course: an arc of 1/30 NM.
	p := minutePattern(t, 0, Right)
	q := newVaryingLap(&p, &v, 1, nil, nil)
	q.want = 60
	if miss := q.misses(&[3]float64{60, 60, 61}); !near.Equal(miss[0], 1.0/30, 1e-12) {
		t.Errorf("off the heading by %v", miss[0])
	}
	// Ten seconds short of a minute outbound: 1/3 NM, and closed but for that.
	p, err := p.WithLeg(TimedOutbound(time.Minute))
	if err != nil {
		t.Fatal(err)
	}
	q = newVaryingLap(&p, &v, 1, nil, nil)
	q.want = 60
	if miss := q.misses(&[3]float64{60, 50, 60}); !near.Equal(miss[2], 1.0/3, 1e-12) || math.Abs(miss[0])+math.Abs(miss[1]) > 1e-12 {
		t.Errorf("off by %v", miss)
	}
}

// A corrected Jacobian explains the step, and says of what is at right angles to the step
// what it said before.
func TestBroyden(t *testing.T) {
	jac := [3][3]float64{{2, 1, 0}, {0, 3, 1}, {1, 0, 4}}
	was := jac
	z, next := [3]float64{1, 1, 1}, [3]float64{3, 2, 3} // a step of (2, 1, 2)
	miss, after := [3]float64{1, 2, 3}, [3]float64{4, 4, 4}
	broyden(&jac, &z, &next, &miss, &after)
	for i := range jac {
		if got, want := 2*jac[i][0]+jac[i][1]+2*jac[i][2], after[i]-miss[i]; !near.Equal(got, want, 1e-12) {
			t.Errorf("row %d: the step gives %v, gave %v", i, got, want)
		}
		for _, across := range [2][3]float64{{1, 0, -1}, {1, -2, 0}} {
			got, want := 0.0, 0.0
			for j := range across {
				got += jac[i][j] * across[j]
				want += was[i][j] * across[j]
			}
			if !near.Equal(got, want, 1e-12) {
				t.Errorf("row %d: across the step %v, before %v", i, got, want)
			}
		}
	}
}

func TestSolve3(t *testing.T) {
	if x, ok := solve3([3][3]float64{{0, 2, 1}, {1, 1, 1}, {4, 0, 1}}, [3]float64{7, 6, 7}); !ok || x != [3]float64{1, 2, 3} {
		t.Errorf("%v, %v", x, ok)
	}
	if x, ok := solve3([3][3]float64{{1, 2, 3}, {0, 1, 0}, {0, 0, 0}}, [3]float64{1, 2, 3}); ok {
		t.Errorf("without a solution: %v", x)
	}
}

// Newton's method takes a few steps to abeam, from the end of an eighth of a turn.
func TestVaryingCrossing(t *testing.T) {
	most := 0
	for i := range 100 {
		lc := drawLegCase(t, InboundTimed, i)
		c, err := lc.pattern.Circuit(lc.flight)
		if err != nil || c.ToAbeam > -time.Second {
			continue
		}
		v := steady(t, lc.flight)
		q := newVaryingLap(&lc.pattern, &v, 1, nil, nil)
		var z [3]float64
		if err := q.start("test", &lc.pattern, &v, &z); err != nil {
			t.Fatal(err)
		}
		q.fly(&z)
		p := &q.pieces[0]
		lo := q.rolledOut.t + c.ToAbeam.Seconds()
		lo -= z[0] / 16
		hi := math.Min(lo+z[0]/8, z[0])
		m := p.start
		q.advance(p, &m, 0, hi)
		at, steps := q.crossing(p, &m, lo, hi)
		if !near.Equal(at-q.rolledOut.t, c.ToAbeam.Seconds(), 1e-8) {
			t.Errorf("case %d: %v, in closed form %v", i, at-q.rolledOut.t, c.ToAbeam)
		}
		most = max(most, steps)
	}
	// Half an eighth of a turn off at first, then its square and so on.
	if most == 0 || most > 5 {
		t.Errorf("%d steps", most)
	}
}

// A time that is none, which an iteration that strays can ask for, ends the flight there too.
func TestAdvanceEnds(t *testing.T) {
	p := minutePattern(t, 0, Right)
	v := steady(t, Flight{TAS: 120, Rate: 3})
	q := newVaryingLap(&p, &v, 1, nil, nil)
	for _, to := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		m := motion{}
		if q.advance(&piece{kind: straight}, &m, 0, to); m.x-m.x == 0 {
			t.Errorf("at %v: %+v", to, m)
		}
	}
	m := motion{}
	if q.advance(&piece{kind: straight}, &m, 0, 60); !near.Equal(m.x, 2, 1e-12) {
		t.Errorf("120 kt for a minute: %+v", m)
	}
}

// In winds of nearly the airspeed along falls again soon after the fix.
func TestVaryingAbeamInStrongWind(t *testing.T) {
	p, err := NewPattern(Fix{}, 0, Right, LengthInbound(20))
	if err != nil {
		t.Fatal(err)
	}
	for _, speed := range []abeam.Knots{180, 195, 199} {
		f := Flight{TAS: 200, Rate: 6, Wind: wind.Wind{Speed: speed}}
		c, err := p.Circuit(f)
		v, varying := p.VaryingCircuit(steady(t, f))
		if err != nil || varying != nil || !near.Equal(v.ToAbeam.Seconds(), c.ToAbeam.Seconds(), 1e-6) || v.Notes != c.Notes {
			t.Errorf("%v: %v %v, in closed form %v %v, %v, %v", speed, v.ToAbeam, v.Notes, c.ToAbeam, c.Notes, varying, err)
		}
	}
}

// A level flight at a calibrated airspeed is one at the true airspeed that it is.
func TestVaryingLevelByCAS(t *testing.T) {
	solved := 0
	for i := range 300 {
		p, v := drawVarying(t, i)
		v.Ascent.To = v.Ascent.From
		if i%2 == 0 {
			u := spread(i)
			v.Winds = profile(t,
				wind.Level{Altitude: 0, Wind: wind.Wind{From: abeam.NewBearing(360 * u(31)), Speed: abeam.Knots(140 * u(37))}},
				wind.Level{Altitude: 40000, Wind: wind.Wind{From: abeam.NewBearing(360 * u(41)), Speed: abeam.Knots(180 * u(47))}})
		}
		a, err := wind.StandardAir(v.Ascent.From, v.Deviation)
		if err != nil {
			t.Fatal(err)
		}
		byTAS := v
		byTAS.CAS = 0
		if byTAS.TAS, err = a.TASFromCAS(v.CAS); err != nil {
			t.Fatal(err)
		}
		c, err := p.VaryingCircuit(v)
		d, err2 := p.VaryingCircuit(byTAS)
		if (err == nil) != (err2 == nil) || !near.Equal(c.Lap.Seconds(), d.Lap.Seconds(), 1e-6) || c.OverFix.TAS != d.OverFix.TAS {
			t.Errorf("case %d: %v at %v, %v; by TAS %v at %v, %v", i, c.Lap, c.OverFix.TAS, err, d.Lap, d.OverFix.TAS, err2)
		}
		if err == nil {
			solved++
		}
	}
	if solved < 200 {
		t.Errorf("only %d cases", solved)
	}
}

// A climb or descent that begins or ends at exactly the tropopause has the airspeed of the
// air there.
func TestVaryingAtTropopause(t *testing.T) {
	p := minutePattern(t, 0, Right)
	for _, a := range []Ascent{{tropopause, 37000, 500}, {tropopause, 36000, 50}, {36000, tropopause, 50}, {37000, tropopause, 500}} {
		v := Varying{
			CAS: 240, Ascent: a, Winds: profile(t, wind.Level{Altitude: 36000}, wind.Level{Altitude: 37000}),
			OutboundTurn: ICAOTurn(), InboundTurn: ICAOTurn(),
		}
		c, err := p.VaryingCircuit(v)
		if err != nil {
			t.Errorf("%v: %v", a, err)
			continue
		}
		for _, m := range []Moment{c.OverFix, c.End} {
			air, err := wind.StandardAir(m.Altitude, 0)
			if err != nil {
				t.Fatal(err)
			}
			if want, err := air.TASFromCAS(240); err != nil || !near.Relative(m.TAS, want, 1e-12) {
				t.Errorf("%v: %v at %v, want %v, %v", a, m.TAS, m.Altitude, want, err)
			}
		}
	}
}

// A wind as strong as the airspeed is too strong, from ahead and from either side.
func TestVaryingWindAsStrong(t *testing.T) {
	p := minutePattern(t, 0, Right)
	for _, from := range []abeam.Bearing{0, 90, 270} {
		for _, speed := range []abeam.Knots{120, 130} {
			_, err := p.VaryingCircuit(steady(t, Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: from, Speed: speed}}))
			var field *abeam.FieldError
			if !errors.Is(err, abeam.ErrUnflyable) || !errors.As(err, &field) || field.Field != "winds" {
				t.Errorf("%v from %v: %v", speed, from, err)
			}
		}
	}
}

// Whole minutes of track: the end of a lap of four minutes is given once. Each moment of
// the track at a corner is that of the circuit.
func TestVaryingTrackEnds(t *testing.T) {
	p := minutePattern(t, 0, Right)
	v := steady(t, Flight{TAS: 120, Rate: 3})
	c, err := p.VaryingCircuit(v)
	if err != nil {
		t.Fatal(err)
	}
	track, err := c.Track(time.Minute)
	if err != nil {
		t.Fatal(err)
	}
	corners := []Moment{c.OverFix, c.RollOut, c.TurnIn, c.Established, c.End}
	n := 0
	for _, m := range track {
		if n >= len(corners) {
			t.Fatalf("%v after the end", m)
		}
		w := corners[n]
		if m.Time != w.Time || !near.Equal(m.At.Along, w.At.Along, 1e-9) || !near.Equal(m.At.Abreast, w.At.Abreast, 1e-9) ||
			!near.Angle(m.Heading, w.Heading, 1e-9) || !near.Equal(m.TAS, w.TAS, 1e-9) || m.Altitude != w.Altitude {
			t.Errorf("%+v, corner %+v", m, w)
		}
		n++
	}
	if n != len(corners) || c.Lap != 4*time.Minute {
		t.Errorf("%d moments of %v", n, c.Lap)
	}
	if _, err := c.Track(MinStep); err != nil {
		t.Errorf("the shortest step: %v", err)
	}
	if _, err := (Shuttle{Laps: []VaryingCircuit{c}}).Track(MinStep); err != nil {
		t.Errorf("the shortest step of a shuttle: %v", err)
	}
	v.Delay = MaxDelay
	if err := v.Validate(); err != nil {
		t.Errorf("the longest delay: %v", err)
	}
}

// The notes of a circuit in which nothing varies are those of the closed form; an inbound
// leg of just 30 s is not short: 1 NM at 120 kt.
func TestVaryingNotes(t *testing.T) {
	var seen Notes
	for i := range 300 {
		for _, kind := range legKinds {
			lc := drawLegCase(t, kind, i)
			lc.flight.Wind.Speed *= 1.6
			c, err := lc.pattern.Circuit(lc.flight)
			if err != nil {
				continue
			}
			v, err := lc.pattern.VaryingCircuit(steady(t, lc.flight))
			if err != nil {
				continue
			}
			seen |= v.Notes
			const all = Notes(AbeamInTurn | AbeamAfterOutbound | OutboundPointsInbound | NoOutboundLeg | ShortInbound)
			if v.Notes&all != c.Notes&all {
				t.Errorf("%v case %d: %v, in closed form %v", kind, i, v.Notes, c.Notes)
			}
		}
	}
	for _, note := range []Note{AbeamInTurn, ShortInbound, OutboundPointsInbound} {
		if !seen.Has(note) {
			t.Errorf("no case of: %v", note)
		}
	}
	p, err := NewPattern(Fix{}, 0, Right, LengthInbound(1))
	if err != nil {
		t.Fatal(err)
	}
	c, err := p.VaryingCircuit(steady(t, Flight{TAS: 120, Rate: 3}))
	if err != nil || c.Inbound != 30*time.Second || c.Notes.Has(ShortInbound) {
		t.Errorf("%v: %v, %v", c.Inbound, c.Notes, err)
	}
}

// At the airspeed at which both limits agree the rate governs.
func TestTurnRuleAgree(t *testing.T) {
	byBank, err := TurnRule{Bank: 25}.At(200)
	if err != nil || !byBank.ByBank {
		t.Fatalf("%+v, %v", byBank, err)
	}
	both, err := TurnRule{Rate: byBank.Rate, Bank: 25}.At(200)
	if err != nil || both.ByBank || both.Rate != byBank.Rate {
		t.Errorf("%+v, %v", both, err)
	}
}
