package hold

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

func minutePattern(tb testing.TB, inbound abeam.Bearing, turn Turn) Pattern {
	tb.Helper()
	p, err := NewPattern(Fix{}, inbound, turn, TimedInbound(time.Minute))
	if err != nil {
		tb.Fatal(err)
	}
	return p
}

// With the wind straight down the inbound course the outbound leg vanishes at
// w = V t_in/(t_in + T), a third of the airspeed for 1 minute at 3 deg/s, and the
// shortest inbound leg beyond is w T/(V - w).
func TestHeadwindLimit(t *testing.T) {
	for _, inbound := range []abeam.Bearing{0, 360, 90, 217.3} {
		p := minutePattern(t, inbound, Right)
		f := Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: inbound, Speed: 40}}

		c, err := p.Circuit(f)
		if err != nil {
			t.Fatalf("inbound %v, at the limit: %v", inbound, err)
		}
		if c.Straight > time.Microsecond || !near.Angle(c.OutboundHeading, p.Outward(), 1e-6) {
			t.Errorf("at the limit: outbound %v for %v", c.OutboundHeading, c.Straight)
		}

		f.Wind.Speed = 39.999
		if c, err = p.Circuit(f); err != nil || c.Notes.Has(NoOutboundLeg) || c.Straight <= 0 {
			t.Errorf("below the limit: %v, %v", c.Straight, err)
		}

		f.Wind.Speed = 60 // by hand: 60 x 120 s / (120 - 60) = 120 s
		_, err = p.Circuit(f)
		var field *abeam.FieldError
		if !errors.Is(err, abeam.ErrUnflyable) || !errors.As(err, &field) || field.Field != "inbound leg" ||
			field.Value != time.Minute || !strings.Contains(field.Limit, "2m0s") {
			t.Errorf("beyond the limit: %v", err)
		}
		if _, _, err := p.Outbound(f); !errors.Is(err, abeam.ErrUnflyable) {
			t.Errorf("Outbound beyond the limit: %v", err)
		}
		shortest, err := p.ShortestInbound(f)
		if err != nil || shortest != 2*time.Minute {
			t.Errorf("shortest %v, %v, want 2m", shortest, err)
		}
		q, err := p.WithLeg(TimedInbound(shortest))
		if err != nil {
			t.Fatal(err)
		}
		if c, err = q.Circuit(f); err != nil || c.Straight > time.Microsecond || c.Lap < 4*time.Minute || c.Lap > 4*time.Minute+time.Microsecond {
			t.Errorf("circuit of the shortest leg: %+v, %v", c, err)
		}
	}
}

// The shortest leg solves whatever the wind, and nothing shorter by a microsecond.
func TestShortestInboundIsShortest(t *testing.T) {
	for from := abeam.Bearing(0); from < 360; from += 7.5 {
		for _, share := range []abeam.Knots{0.1, 0.35, 0.6, 0.9} {
			p := minutePattern(t, 0, Left)
			f := Flight{TAS: 150, Rate: 2.5, Wind: wind.Wind{From: from, Speed: 150 * share}}
			shortest, err := p.ShortestInbound(f)
			if err != nil {
				t.Fatal(err)
			}
			if headwind := f.Wind.Components(0).Head > 0; headwind != (shortest > 0) {
				t.Errorf("wind from %v: shortest %v", from, shortest)
			}
			if shortest == 0 || shortest > MaxLeg {
				continue
			}
			q, err := p.WithLeg(TimedInbound(shortest))
			if err != nil {
				t.Fatal(err)
			}
			if _, err := q.Circuit(f); err != nil {
				t.Errorf("wind from %v at %v: %v", from, f.Wind.Speed, err)
			}
			if q, err = p.WithLeg(TimedInbound(shortest - time.Microsecond)); err != nil {
				t.Fatal(err)
			}
			if _, err := q.Circuit(f); !errors.Is(err, abeam.ErrUnflyable) {
				t.Errorf("wind from %v at %v: a shorter leg solves: %v", from, f.Wind.Speed, err)
			}
		}
	}
}

// Near its shortest leg a pattern in a quartering headwind crosses the outbound leg
// ahead of the fix: abeam comes only in the inbound turn, and there is no clock time.
func TestAbeamAfterOutbound(t *testing.T) {
	seen := 0
	for _, turn := range []Turn{Right, Left} {
		for from := abeam.Bearing(5); from < 180; from += 5 {
			p := minutePattern(t, 0, turn)
			f := Flight{TAS: 100, Rate: 3, Wind: wind.Wind{From: from, Speed: 75}}
			shortest, err := p.ShortestInbound(f)
			if err != nil || shortest == 0 {
				continue
			}
			if p, err = p.WithLeg(TimedInbound(shortest + time.Second)); err != nil {
				t.Fatal(err)
			}
			c, err := p.Circuit(f)
			if err != nil {
				t.Fatal(err)
			}
			at, crossed := math.NaN(), 0 // when the sampled track falls through abeam
			track, err := c.Track(10 * time.Millisecond)
			if err != nil {
				t.Fatal(err)
			}
			var last Sample
			for s := range track {
				if last.At.Along > 0 && s.At.Along <= 0 && s.Phase != InboundLeg {
					crossed++
					at = last.Time.Seconds() + 0.01*float64(last.At.Along/(last.At.Along-s.At.Along))
				}
				last = s
			}
			got := (c.OutboundTurn.Time + c.ToAbeam).Seconds()
			if crossed != 1 || !near.Equal(got, at, 1e-4) {
				t.Errorf("%v turns, wind from %v: abeam at %v, sampled %d times at %v (%v)", turn, from, got, crossed, at, c.Notes)
			}
			if c.Notes.Has(AbeamAfterOutbound) {
				seen++
				if c.Clock != 0 || c.ToAbeam <= c.Straight {
					t.Errorf("clock %v, abeam %v after roll-out, straight %v", c.Clock, c.ToAbeam, c.Straight)
				}
			}
		}
	}
	if seen == 0 {
		t.Error("no case was abeam after the outbound leg")
	}
}

// Worked by hand. TAS 120 kt (2 NM/min), 3 deg/s, inbound 000, right turns, wind from
// 270 at 30 kt, that is 0.5 NM/min to the holding side. Flown without correction
// outbound, 180 for 1 minute by the clock. Inbound heading -asin(30/120) = -14.478 deg,
// cosine 0.968246; radius 120/(60 pi) = 0.636620 NM.
//
// Outbound turn of 194.478 deg, 64.826 s: along 0.636620 (0 + 0.25) = 0.159155,
// abreast 0.636620 (0.968246 + 1) + 64.826/60 x 0.5 = 1.793239. Abeam after
// 0.159155/2 min = 4.775 s, so the leg lasts 64.775 s: along 0.159155 - 2 x 64.775/60 =
// -2, abreast 1.793239 + 0.539789 = 2.333028. Inbound turn of 165.522 deg, 55.174 s:
// along -2 + 0.636620 (-0.25 - 0) = -2.159155, abreast 2.333028 - 0.636620 x 1.968246 +
// 0.459783 = 1.539788. Inbound 2.159155 NM at 1.936492 NM/min: 66.899 s. Over the ground
// outbound sqrt(120² + 30²) = 123.693169 kt.
func TestFlyByHand(t *testing.T) {
	f := Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 270, Speed: 30}}
	c, err := minutePattern(t, 0, Right).Fly(f, 180, time.Minute)
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range []struct {
		what           string
		got, want, tol float64
	}{
		{"roll-out along", float64(c.RollOut.Along), 0.159155, 1e-6},
		{"roll-out abreast", float64(c.RollOut.Abreast), 1.793239, 2e-6},
		{"to abeam", c.ToAbeam.Seconds(), 4.775, 1e-3},
		{"turn in abreast", float64(c.TurnIn.Abreast), 2.333028, 2e-5},
		{"established along", float64(c.Established.Along), -2.159155, 1e-6},
		{"established abreast", float64(c.Established.Abreast), 1.539788, 3e-5},
		{"inbound", c.Inbound.Seconds(), 66.899, 2e-3},
		{"outbound groundspeed", float64(c.OutboundGroundspeed), 123.693169, 1e-6},
		{"inbound correction", float64(c.InboundCorrection), -14.4775, 1e-4},
		{"outbound correction", float64(c.OutboundCorrection), 0, 1e-12},
	} {
		if !near.Equal(v.got, v.want, v.tol) {
			t.Errorf("%s: %v, by hand %v", v.what, v.got, v.want)
		}
	}
}

func TestFlyNotes(t *testing.T) {
	p := minutePattern(t, 0, Right)
	// A gale on the tail inbound and no outbound time: rolled out beyond the fix.
	c, err := p.Fly(Flight{TAS: 100, Rate: 3, Wind: wind.Wind{From: 180, Speed: 45}}, 180, 0)
	if err != nil || !c.Notes.Has(BeyondFix) || c.Inbound >= 0 {
		t.Errorf("notes %v, inbound %v, %v", c.Notes, c.Inbound, err)
	}
	// Wind from the holding side, not corrected: blown across the course.
	c, err = p.Fly(Flight{TAS: 100, Rate: 3, Wind: wind.Wind{From: 90, Speed: 20}}, 180, time.Minute)
	if err != nil || !c.Notes.Has(NonHoldingSide) || c.Established.Abreast >= 0 || c.Extent.Astray != -c.Established.Abreast {
		t.Errorf("notes %v, across %v, %v", c.Notes, c.Established.Abreast, err)
	}
	// The inbound direction for an outbound heading never brings the fix abeam.
	if _, err = p.Fly(Flight{TAS: 100, Rate: 3}, 10, time.Minute); !errors.Is(err, abeam.ErrUnflyable) {
		t.Errorf("outbound heading 010: %v", err)
	}
}

func TestBadInput(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	good := Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 10, Speed: 20}}
	with := func(change func(*Flight)) Flight {
		f := good
		change(&f)
		return f
	}
	p := minutePattern(t, 90, Right)
	for _, tc := range []struct {
		name, field string
		p           Pattern
		f           Flight
		kind        error
	}{
		{"zero pattern", "leg", Pattern{}, good, abeam.ErrInvalid},
		{"zero flight", "TAS", p, Flight{}, abeam.ErrInvalid},
		{"TAS NaN", "TAS", p, with(func(f *Flight) { f.TAS = abeam.Knots(nan) }), abeam.ErrInvalid},
		{"TAS infinite", "TAS", p, with(func(f *Flight) { f.TAS = abeam.Knots(inf) }), abeam.ErrInvalid},
		{"TAS negative", "TAS", p, with(func(f *Flight) { f.TAS = -120 }), abeam.ErrInvalid},
		{"TAS absurd", "TAS", p, with(func(f *Flight) { f.TAS = 801 }), abeam.ErrInvalid},
		{"rate zero", "rate of turn", p, with(func(f *Flight) { f.Rate = 0 }), abeam.ErrInvalid},
		{"rate NaN", "rate of turn", p, with(func(f *Flight) { f.Rate = Rate(nan) }), abeam.ErrInvalid},
		{"rate negative", "rate of turn", p, with(func(f *Flight) { f.Rate = -3 }), abeam.ErrInvalid},
		{"rate absurd", "rate of turn", p, with(func(f *Flight) { f.Rate = 31 }), abeam.ErrInvalid},
		{"wind negative", "wind speed", p, with(func(f *Flight) { f.Wind.Speed = -1 }), abeam.ErrInvalid},
		{"wind NaN", "wind speed", p, with(func(f *Flight) { f.Wind.Speed = abeam.Knots(nan) }), abeam.ErrInvalid},
		{"wind from NaN", "wind from", p, with(func(f *Flight) { f.Wind.From = abeam.Bearing(nan) }), abeam.ErrInvalid},
		{"wind from infinite", "wind from", p, with(func(f *Flight) { f.Wind.From = abeam.Bearing(inf) }), abeam.ErrInvalid},
		{"wind equal to TAS", "wind speed", p, with(func(f *Flight) { f.Wind.Speed = 120 }), abeam.ErrUnflyable},
		{"wind above TAS", "wind speed", p, with(func(f *Flight) { f.Wind.Speed = 130 }), abeam.ErrUnflyable},
	} {
		_, c := tc.p.Circuit(tc.f)
		_, _, o := tc.p.Outbound(tc.f)
		_, s := tc.p.ShortestInbound(tc.f)
		_, fly := tc.p.Fly(tc.f, 270, time.Minute)
		for op, err := range map[string]error{"Circuit": c, "Outbound": o, "ShortestInbound": s, "Fly": fly} {
			var field *abeam.FieldError
			if !errors.As(err, &field) || !errors.Is(err, tc.kind) || field.Field != tc.field || field.Limit == "" ||
				field.Op != "hold.Pattern."+op {
				t.Errorf("%s: %s gives %v, want %v about %s", tc.name, op, err, tc.kind, tc.field)
			}
		}
	}
	if err := good.Validate(); err != nil {
		t.Error(err)
	}
	for _, h := range []abeam.Bearing{abeam.Bearing(nan), abeam.Bearing(inf)} {
		if _, err := p.Fly(good, h, time.Minute); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("heading %v: %v", h, err)
		}
	}
	for _, d := range []time.Duration{-1, MaxLeg + 1} {
		if _, err := p.Fly(good, 270, d); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("clock %v: %v", d, err)
		}
	}
}

func TestBadPattern(t *testing.T) {
	nan := math.NaN()
	at := func(lat, lon float64) Fix { return Fix{Position: s2.LatLngFromDegrees(lat, lon)} }
	minute := TimedInbound(time.Minute)
	for name, build := range map[string]func() (Pattern, error){
		"fix position at the pole": func() (Pattern, error) { return NewPattern(at(90, 0), 0, Right, minute) },
		"fix position south pole":  func() (Pattern, error) { return NewPattern(at(-90, 0), 0, Right, minute) },
		"fix position NaN":         func() (Pattern, error) { return NewPattern(at(nan, 0), 0, Right, minute) },
		"fix position beyond":      func() (Pattern, error) { return NewPattern(at(0, 181), 0, Right, minute) },
		"variation":                func() (Pattern, error) { return NewPattern(Fix{Variation: 181}, 0, Right, minute) },
		"inbound course":           func() (Pattern, error) { return NewPattern(Fix{}, abeam.Bearing(nan), Right, minute) },
		"turn":                     func() (Pattern, error) { return NewPattern(Fix{}, 0, 2, minute) },
		"leg none":                 func() (Pattern, error) { return NewPattern(Fix{}, 0, Right, Leg{}) },
		"inbound leg negative":     func() (Pattern, error) { return NewPattern(Fix{}, 0, Right, TimedInbound(-1)) },
		"inbound leg long":         func() (Pattern, error) { return NewPattern(Fix{}, 0, Right, TimedInbound(MaxLeg+1)) },
	} {
		p, err := build()
		var field *abeam.FieldError
		if !errors.Is(err, abeam.ErrInvalid) || !errors.As(err, &field) || !strings.HasPrefix(name, field.Field) {
			t.Errorf("%s: %v", name, err)
		}
		if p != (Pattern{}) {
			t.Errorf("%s: a pattern comes with the error", name)
		}
	}
	a, b := minutePattern(t, 360, Left), minutePattern(t, 0, Left)
	if a != b {
		t.Error("inbound 360 and 000 are different patterns")
	}
}

// Every direction, wind and turn near the edges of what flies gives an answer that is
// finite or an error, never both and never a panic.
func TestFiniteOrError(t *testing.T) {
	values := []float64{0, math.Copysign(0, -1), 1e-300, 1e-12, 1, 59.999999, 60, 119.999999, math.Nextafter(120, 0), 120, math.Nextafter(120, 121), 1e300, math.NaN(), math.Inf(1), math.Inf(-1)}
	dirs := []float64{0, 90, 180, 270, 359.9999999, -90, 1e17, math.NaN(), math.Inf(1)}
	for _, speed := range values {
		for _, dir := range dirs {
			for _, tas := range []float64{120, 1e-300, 1e-9, 800} {
				for _, turn := range []Turn{Right, Left} {
					p := minutePattern(t, 0, turn)
					f := Flight{TAS: abeam.Knots(tas), Rate: 3, Wind: wind.Wind{From: abeam.Bearing(dir), Speed: abeam.Knots(speed)}}
					c, err := p.Circuit(f)
					if err != nil {
						if c != (Circuit{}) {
							t.Errorf("%+v: a circuit comes with %v", f, err)
						}
						continue
					}
					for _, x := range []float64{
						float64(c.InboundHeading), float64(c.OutboundHeading), float64(c.InboundCorrection), float64(c.OutboundCorrection),
						float64(c.InboundGroundspeed), float64(c.OutboundGroundspeed), float64(c.RollOut.Along), float64(c.RollOut.Abreast),
						float64(c.TurnIn.Along), float64(c.TurnIn.Abreast), float64(c.Extent.Beyond), float64(c.Extent.Outbound), float64(c.Extent.Widest),
					} {
						if math.IsNaN(x) || math.IsInf(x, 0) {
							t.Errorf("%+v: %+v", f, c)
							break
						}
					}
					if c.Straight < 0 || c.Clock < 0 || c.Lap < c.Inbound {
						t.Errorf("%+v: times of %+v", f, c)
					}
				}
			}
		}
	}
}

func TestNoAllocations(t *testing.T) {
	p := minutePattern(t, 80, Left)
	f := Flight{TAS: 140, Rate: 3, Wind: wind.Wind{From: 300, Speed: 25}}
	c, err := p.Circuit(f)
	if err != nil {
		t.Fatal(err)
	}
	buf := make([]Sample, 0, 1000)
	for name, run := range map[string]func(){
		"Outbound":        func() { _, _, _ = p.Outbound(f) },
		"Circuit":         func() { _, _ = p.Circuit(f) },
		"Fly":             func() { _, _ = p.Fly(f, 275, time.Minute) },
		"ShortestInbound": func() { _, _ = p.ShortestInbound(f) },
		"TurnRule.At":     func() { _, _ = FAATurn().At(f.TAS) },
		"AppendTrack":     func() { buf, _ = c.AppendTrack(buf[:0], time.Second) },
	} {
		if n := testing.AllocsPerRun(100, run); n != 0 {
			t.Errorf("%s allocates %v times", name, n)
		}
	}
}
