package hold

import (
	"errors"
	"math"
	"reflect"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

func climber(tb testing.TB) Varying {
	return Varying{
		CAS: 230, Deviation: 10,
		Ascent: Ascent{From: 6000, To: 16000, PerMinute: 1000},
		Winds: profile(tb,
			wind.Level{Altitude: 3000, Wind: wind.Wind{From: 240, Speed: 15}},
			wind.Level{Altitude: 9000, Wind: wind.Wind{From: 270, Speed: 35}},
			wind.Level{Altitude: 18000, Wind: wind.Wind{From: 290, Speed: 60}}),
		OutboundTurn: FAATurn(), InboundTurn: FAATurn(), RollRate: 5, Delay: 2 * time.Second,
	}
}

func TestShuttle(t *testing.T) {
	p := minutePattern(t, 250, Right)
	v := climber(t)
	for _, ascent := range []Ascent{v.Ascent, {16000, 6000, 1000}, {6000, 6001, 1000}, {8000, 12000, 4000}} {
		v.Ascent = ascent
		s, err := p.Shuttle(v, FAAClimb())
		if err != nil {
			t.Fatal(err)
		}
		from := ascent.From
		var total time.Duration
		for i, c := range s.Laps {
			if c.OverFix.Altitude != from || i < len(s.Laps)-1 && c.End.Altitude == ascent.To {
				t.Errorf("%v: lap %d from %v to %v", ascent, i, c.OverFix.Altitude, c.End.Altitude)
			}
			// At a constant rate: altitude is time.
			climbed := math.Abs(float64(c.End.Altitude - c.OverFix.Altitude))
			if i < len(s.Laps)-1 && !near.Equal(climbed, float64(ascent.PerMinute)*c.Lap.Minutes(), 1e-4) {
				t.Errorf("%v: lap %d of %v climbs %v ft", ascent, i, c.Lap, climbed)
			}
			if c.Notes.Has(AboveSpeedLimit) {
				t.Errorf("%v: 230 KIAS noted above 310", ascent)
			}
			from = c.End.Altitude
			total += c.Lap
		}
		minutes := math.Abs(float64(ascent.To-ascent.From)) / float64(ascent.PerMinute)
		if from != ascent.To || s.Time != total || !near.Equal(s.Reached.Minutes(), minutes, 1e-9) || s.Reached > s.Time {
			t.Errorf("%v: ends at %v after %v, reached after %v", ascent, from, s.Time, s.Reached)
		}
		track, err := s.Track(time.Second)
		if err != nil {
			t.Fatal(err)
		}
		last, n := Moment{Time: -1}, 0
		for lap, m := range track {
			jump := math.Hypot(float64(m.At.Along-last.At.Along), float64(m.At.Abreast-last.At.Abreast))
			if m.Time <= last.Time || n > 0 && (jump > 0.12 || lap < 0 || math.Abs(float64(m.Altitude-last.Altitude)) > float64(ascent.PerMinute)/60+1e-6) {
				t.Fatalf("%v: %+v after %+v", ascent, m, last)
			}
			last = m
			n++
		}
		if last.Time != s.Time || last.Altitude != ascent.To || n < int(s.Time/time.Second) {
			t.Errorf("%v: track of %d ends with %+v", ascent, n, last)
		}
	}
}

// The notes of the speed limits, band by band.
func TestShuttleSpeedLimits(t *testing.T) {
	p := minutePattern(t, 250, Right)
	for _, tc := range []struct {
		name     string
		cas, tas abeam.Knots
		ascent   Ascent
		rules    Rules
		want     bool
	}{
		{"230 below 14,000", 230, 0, Ascent{6001, 14000, 5000}, FAA(), false},
		{"230 at 6,000", 230, 0, Ascent{6000, 14000, 5000}, FAA(), true},
		{"231 below 14,000", 231, 0, Ascent{6001, 14000, 5000}, FAA(), true},
		{"250 through 14,000", 250, 0, Ascent{13500, 17000, 9000}, FAA(), true},
		{"250 above 14,000", 250, 0, Ascent{14001, 17000, 9000}, FAA(), false},
		{"250 in the climb", 250, 0, Ascent{6000, 17000, 9000}, FAAClimb(), false},
		{"311 in the climb", 311, 0, Ascent{6000, 17000, 9000}, FAAClimb(), true},
		// 300 KTAS at 6,000 ft is 276 KIAS, at 17,000 ft 234 KIAS.
		{"300 true, low", 0, 300, Ascent{14500, 17000, 9000}, FAA(), false},
		{"320 true, lower", 0, 320, Ascent{6000, 17000, 9000}, FAA(), true},
	} {
		v := climber(t)
		v.CAS, v.TAS, v.Ascent, v.Deviation = tc.cas, tc.tas, tc.ascent, 0
		s, err := p.Shuttle(v, tc.rules)
		if err != nil {
			t.Fatal(err)
		}
		got := false
		for _, c := range s.Laps {
			got = got || c.Notes.Has(AboveSpeedLimit)
		}
		if got != tc.want {
			t.Errorf("%s: noted %v", tc.name, got)
		}
	}
}

// A climb that ends at the top of a band is judged by that band alone, and a Mach limit
// holds at a constant true and at a constant calibrated airspeed. 0.83 of the speed of
// sound in the stratosphere, 573.57 kt by ISO 2533, is 476.1 kt.
func TestShuttleBands(t *testing.T) {
	p := minutePattern(t, 250, Right)
	bands := Rules{Speeds: []SpeedBand{
		{UpTo: 14000, Limit: SpeedLimit{IAS: 230}}, {UpTo: 36500, Limit: SpeedLimit{IAS: 200}}, {UpTo: MaxAltitude, Limit: SpeedLimit{Mach: 0.83}},
	}}
	stratosphere, err := wind.StandardAir(38000, 0)
	if err != nil {
		t.Fatal(err)
	}
	casOf := func(tas abeam.Knots) abeam.Knots { // at the top, where it is fastest
		cas, err := stratosphere.CASFromTAS(tas)
		if err != nil {
			t.Fatal(err)
		}
		return cas
	}
	limit, err := stratosphere.TASFromMach(0.83)
	if err != nil || !near.Equal(limit, 476.1, 0.05) {
		t.Fatalf("the limit is %v, %v", limit, err)
	}
	for _, tc := range []struct {
		name     string
		cas, tas abeam.Knots
		ascent   Ascent
		want     bool
	}{
		{"up to the top of the band", 220, 0, Ascent{13900, 14000, 500}, false},
		{"past it", 220, 0, Ascent{13900, 14001, 500}, true},
		{"at Mach 0.83", 0, limit, Ascent{37000, 38000, 500}, false},
		{"TAS above it", 0, limit + 1, Ascent{37000, 38000, 500}, true},
		{"CAS below it", casOf(limit - 1), 0, Ascent{37000, 38000, 500}, false},
		{"CAS above it", casOf(limit + 1), 0, Ascent{37000, 38000, 500}, true},
	} {
		v := Varying{
			CAS: tc.cas, TAS: tc.tas, Ascent: tc.ascent, OutboundTurn: ICAOTurn(), InboundTurn: ICAOTurn(),
			Winds: profile(t, wind.Level{Altitude: 0}, wind.Level{Altitude: 40000}),
		}
		s, err := p.Shuttle(v, bands)
		if err != nil {
			t.Errorf("%s: %v", tc.name, err)
			continue
		}
		got := false
		for _, c := range s.Laps {
			got = got || c.Notes.Has(AboveSpeedLimit)
		}
		if got != tc.want {
			t.Errorf("%s: noted %v", tc.name, got)
		}
	}
}

func TestVaryingErrors(t *testing.T) {
	nan := math.NaN()
	p := minutePattern(t, 250, Left)
	with := func(change func(*Varying)) Varying {
		v := climber(t)
		change(&v)
		return v
	}
	for _, tc := range []struct {
		name, field string
		v           Varying
		kind        error
	}{
		{"zero", "TAS", Varying{}, abeam.ErrInvalid},
		{"two airspeeds", "CAS", with(func(v *Varying) { v.TAS = 200 }), abeam.ErrInvalid},
		{"CAS NaN", "CAS", with(func(v *Varying) { v.CAS = abeam.Knots(nan) }), abeam.ErrInvalid},
		{"TAS NaN", "TAS", with(func(v *Varying) { v.CAS, v.TAS = 0, abeam.Knots(nan) }), abeam.ErrInvalid},
		{"TAS infinite", "TAS", with(func(v *Varying) { v.CAS, v.TAS = 0, abeam.Knots(math.Inf(1)) }), abeam.ErrInvalid},
		{"supersonic", "CAS", with(func(v *Varying) { v.CAS = 660 }), abeam.ErrInvalid},
		{"deviation", "deviation", with(func(v *Varying) { v.Deviation = wind.Deviation(nan) }), abeam.ErrInvalid},
		{"from NaN", "ascent from", with(func(v *Varying) { v.Ascent.From = abeam.Feet(nan) }), abeam.ErrInvalid},
		{"to NaN", "ascent to", with(func(v *Varying) { v.Ascent.To = abeam.Feet(nan) }), abeam.ErrInvalid},
		{"rate 0", "rate of ascent", with(func(v *Varying) { v.Ascent.PerMinute = 0 }), abeam.ErrInvalid},
		{"rate NaN", "rate of ascent", with(func(v *Varying) { v.Ascent.PerMinute = abeam.Feet(nan) }), abeam.ErrInvalid},
		{"empty profile", "winds", with(func(v *Varying) { v.Winds = wind.Profile{} }), abeam.ErrInvalid},
		{"through the top", "ascent to", with(func(v *Varying) { v.Ascent.To = 18001 }), abeam.ErrInvalid},
		{"from below", "ascent from", with(func(v *Varying) { v.Ascent.From = 2999 }), abeam.ErrInvalid},
		{"no turn", "turn rule", with(func(v *Varying) { v.InboundTurn = TurnRule{} }), abeam.ErrInvalid},
		{"bank", "bank limit", with(func(v *Varying) { v.OutboundTurn.Bank = 61 }), abeam.ErrInvalid},
		{"roll NaN", "roll rate", with(func(v *Varying) { v.RollRate = abeam.Degrees(nan) }), abeam.ErrInvalid},
		{"roll slow", "roll rate", with(func(v *Varying) { v.RollRate = 0.1 }), abeam.ErrInvalid},
		{"delay", "delay", with(func(v *Varying) { v.Delay = -1 }), abeam.ErrInvalid},
		{"delay long", "delay", with(func(v *Varying) { v.Delay = MaxDelay + 1 }), abeam.ErrInvalid},
		{"wind too strong", "winds", with(func(v *Varying) { v.CAS, v.TAS = 0, 20 }), abeam.ErrUnflyable},
	} {
		c, err := p.VaryingCircuit(tc.v)
		s, shuttle := p.Shuttle(tc.v, FAAClimb())
		for op, err := range map[string]error{"circuit": err, "shuttle": shuttle} {
			var field *abeam.FieldError
			if !errors.As(err, &field) || !errors.Is(err, tc.kind) || field.Field != tc.field || field.Limit == "" {
				t.Errorf("%s: %s gives %v, want %v about %s", tc.name, op, err, tc.kind, tc.field)
			}
		}
		if !reflect.DeepEqual(c, VaryingCircuit{}) || s.Laps != nil {
			t.Errorf("%s: a result comes with the error", tc.name)
		}
		if tc.kind == abeam.ErrInvalid && tc.v.Validate() == nil {
			t.Errorf("%s: Validate finds nothing", tc.name)
		}
	}
	good := climber(t)
	if err := good.Validate(); err != nil {
		t.Error(err)
	}
	if _, err := (Pattern{}).VaryingCircuit(good); !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("zero pattern: %v", err)
	}
	if _, err := p.Shuttle(good, Rules{}); !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("no rules: %v", err)
	}
	level := good
	level.Ascent.To = level.Ascent.From
	if _, err := p.Shuttle(level, FAAClimb()); !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("no ascent: %v", err)
	}
	slow := good
	slow.Ascent.PerMinute = 1
	if _, err := p.Shuttle(slow, FAAClimb()); !errors.Is(err, abeam.ErrUnflyable) {
		t.Errorf("a foot a minute: %v", err)
	}
	c, err := p.VaryingCircuit(good)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := c.Track(0); !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("track: %v", err)
	}
	if _, err := (VaryingCircuit{}).Track(time.Second); !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("track of nothing: %v", err)
	}
	if _, err := (Shuttle{}).Track(time.Second); !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("track of no laps: %v", err)
	}
	if _, err := (Shuttle{Laps: []VaryingCircuit{c}}).Track(0); !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("track without a step: %v", err)
	}
	// A roll so slow that there is no turning left.
	fast := good
	fast.CAS, fast.RollRate, fast.OutboundTurn, fast.InboundTurn = 120, 0.5, TurnRule{Bank: 60}, TurnRule{Bank: 60}
	var field *abeam.FieldError
	if _, err := p.VaryingCircuit(fast); !errors.Is(err, abeam.ErrUnflyable) || !errors.As(err, &field) || !near.Equal(field.Value.(abeam.Degrees), 0.5, 1e-12) {
		t.Errorf("slow roll: %v", err)
	}
}

// A turn that begins late, in still air: the pattern is longer by the delay at both ends,
// a different bank at the far end makes it one-sided.
func TestVaryingByHand(t *testing.T) {
	p := minutePattern(t, 0, Right)
	calm := profile(t, wind.Level{Altitude: 5000})
	rule := TurnRule{Rate: 3}
	v := Varying{TAS: 120, Ascent: Ascent{From: 5000, To: 5000}, Winds: calm, OutboundTurn: rule, InboundTurn: rule, Delay: 6 * time.Second}
	c, err := p.VaryingCircuit(v)
	if err != nil {
		t.Fatal(err)
	}
	// 6 s at 2 NM/min is 0.2 NM: roll-out that far beyond the fix; out 60 s + 6 s of the
	// first delay - 6 s of the second; a lap of 4 min and the two delays.
	for _, v := range []struct {
		what      string
		got, want float64
	}{
		{"roll-out along", float64(c.RollOut.At.Along), 0.2},
		{"straight", c.Straight.Seconds(), 60},
		{"lap", c.Lap.Seconds(), 252},
		{"to abeam", c.ToAbeam.Seconds(), 6},
		{"clock", c.Clock.Seconds(), 54},
		{"established", float64(c.Established.At.Along), -2},
	} {
		if !near.Equal(v.got, v.want, 1e-8) {
			t.Errorf("%s: %v, by hand %v", v.what, v.got, v.want)
		}
	}
	// Rolling at 5 deg/s to the 18.24 degrees of 3 deg/s at 120 kt takes 3.65 s and turns
	// through g/(V p) (-ln cos bank), 5.38 degrees instead of the 10.94 of the full rate:
	// the turn is longer by the difference, 1.86 s, twice.
	v.Delay, v.RollRate = 0, 5
	if c, err = p.VaryingCircuit(v); err != nil {
		t.Fatal(err)
	}
	bank := math.Atan(3 * math.Pi / 180 * 120 * 1852 / 3600 / 9.80665)
	roll := 5 * math.Pi / 180
	through := 9.80665 / (120 * 1852.0 / 3600 * roll) * -math.Log(math.Cos(bank))
	late := bank/roll - through/(3*math.Pi/180)
	if want := 60 + 2*late; !near.Equal(c.OutboundTurn.Time.Seconds(), want, 1e-8) {
		t.Errorf("rolling, the turn takes %v, by hand %v", c.OutboundTurn.Time, want)
	}
	if !near.Equal(late, 1.86, 0.005) {
		t.Errorf("late by %v s a roll", late)
	}
	// Half the rate inbound in still air: twice the radius cannot come out on the course
	// from the outbound heading of 180; it needs one that converges.
	v.RollRate, v.InboundTurn = 0, TurnRule{Rate: 2}
	if c, err = p.VaryingCircuit(v); err != nil {
		t.Fatal(err)
	}
	if c.OutboundHeading >= 180 || !near.Equal(float64(c.OutboundTurn.Angle+c.InboundTurn.Angle), 360, 1e-8) || !near.Equal(c.Established.At.Abreast, 0, 1e-9) {
		t.Errorf("outbound %v, turns %v and %v, established %v", c.OutboundHeading, c.OutboundTurn, c.InboundTurn, c.Established.At)
	}
}
