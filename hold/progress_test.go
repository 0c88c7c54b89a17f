package hold

import (
	"errors"
	"math"
	"testing"
	"time"

	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/internal/kinematics"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

// drawCircuit draws circuits in winds up to 0.8 of the airspeed, with a leg of a minute
// or the shortest that the wind allows.
func drawCircuit(t *rapid.T) Circuit {
	tas := draw.TAS().Draw(t, "TAS")
	p, err := NewPattern(Fix{}, draw.Bearing().Draw(t, "inbound"), rapid.SampledFrom([]Turn{Right, Left}).Draw(t, "turn"), TimedInbound(time.Minute))
	if err != nil {
		t.Fatal(err)
	}
	f := Flight{TAS: tas, Rate: 3, Wind: draw.Wind(tas, 0.8).Draw(t, "wind")}
	shortest, err := p.ShortestInbound(f)
	if err != nil {
		t.Fatal(err)
	}
	if p, err = p.WithLeg(TimedInbound(max(time.Minute, shortest))); err != nil {
		t.Fatal(err)
	}
	c, err := p.Circuit(f)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// groundTrack is the direction over the ground at a sample, in the frame.
func groundTrack(c *Circuit, s Sample) (sin, cos float64) {
	heading := c.turn.mirror(float64(s.Heading - c.inbound))
	vx, vy := kinematics.Segment{Heading: heading, Speed: c.legs.v, WX: c.legs.wx, WY: c.legs.wy}.Velocity(0)
	n := math.Hypot(vx, vy)
	return vy / n, vx / n
}

// An aeroplane beside the track, on its track and heading, is found where it is: at the
// moment of the sample, at its distance off, with its sign.
func TestProgressFindsSamples(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCircuit(t)
		segments := c.segments()
		s := c.sample(&segments, time.Duration(draw.Uniform(0.01, 0.99).Draw(t, "share")*float64(c.Lap)))
		sin, cos := groundTrack(&c, s)
		// To the right of the track, in the frame; less than the least radius of a track, which
		// in 0.8 V on the nose is 0.04 of the turn through the air, 0.013 NM.
		off := draw.Uniform(-0.005, 0.005).Draw(t, "off")
		at := Point{s.At.Along - abeam.NM(off*sin), s.At.Abreast + abeam.NM(off*cos)}
		track := abeam.NewBearing(float64(c.inbound) + c.turn.mirror(math.Atan2(sin, cos)*180/math.Pi))
		byTrack, err := c.ProgressOnTrack(at, track)
		if err != nil {
			t.Fatal(err)
		}
		byHeading, err := c.ProgressOnHeading(at, s.Heading)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range []Progress{byTrack, byHeading} {
			if d := (p.Nearest.Time - s.Time).Abs(); d > time.Microsecond ||
				p.Nearest.Phase != s.Phase && d == 0 || !near.Angle(p.Nearest.Heading, s.Heading, 1e-4) {
				t.Fatalf("%v off %+v: %+v", off, s, p)
			}
			if !near.Equal(float64(p.Off), c.turn.mirror(off), 1e-8) {
				t.Fatalf("%v off, found %v", c.turn.mirror(off), p.Off)
			}
			if p.TimeToFix != c.Lap-p.Nearest.Time || p.LegTime < 0 || p.LegTime > p.TimeToFix || p.LegToGo < 0 || p.LegToGo > p.ToFix {
				t.Fatalf("to go: %+v of a lap of %v", p, c.Lap)
			}
		}
	})
}

// Against a search of the sampled track: no sample is nearer than the place found, and
// none within 90 degrees of a track or heading given.
func TestProgressIsNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCircuit(t)
		at := Point{abeam.NM(draw.Uniform(-6, 3).Draw(t, "along")), abeam.NM(draw.Uniform(-2, 5).Draw(t, "abreast"))}
		given := draw.Bearing().Draw(t, "given")
		alone, err := c.Progress(at)
		if err != nil {
			t.Fatal(err)
		}
		onTrack, err := c.ProgressOnTrack(at, given)
		if err != nil {
			t.Fatal(err)
		}
		onHeading, err := c.ProgressOnHeading(at, given)
		if err != nil {
			t.Fatal(err)
		}
		samples, err := c.AppendTrack(nil, 2*time.Second)
		if err != nil {
			t.Fatal(err)
		}
		sin, cos := math.Sincos(c.turn.mirror(float64(given-c.inbound)) * math.Pi / 180)
		within := func(s Sample, slack float64) (track, heading bool) {
			ts, tc := groundTrack(&c, s)
			return ts*sin+tc*cos >= -slack, math.Abs(math.Remainder(float64(s.Heading-given), 360)) <= 90+60*slack
		}
		for _, s := range samples {
			d := abeam.NM(math.Hypot(float64(s.At.Along-at.Along), float64(s.At.Abreast-at.Abreast)))
			track, heading := within(s, -1e-6)
			if d < size(alone.Off)-1e-8 || track && d < size(onTrack.Off)-1e-6 || heading && d < size(onHeading.Off)-1e-6 {
				t.Fatalf("%v is %v from %v, on track %v, on heading %v; found %+v, %+v, %+v", s, d, at, track, heading, alone, onTrack, onHeading)
			}
		}
		if track, _ := within(onTrack.Nearest, 1e-6); !track {
			t.Fatalf("not on the track %v: %+v", given, onTrack)
		}
		if _, heading := within(onHeading.Nearest, 1e-6); !heading {
			t.Fatalf("not on the heading %v: %+v", given, onHeading)
		}
	})
}

func size(d abeam.NM) abeam.NM { return abeam.NM(math.Abs(float64(d))) }

// The way to go against the length of the sampled track: a chord of an arc of 1 degree
// is shorter by 1.3e-5 of it.
func TestDistanceToGo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCircuit(t)
		segments := c.segments()
		from := time.Duration(draw.Uniform(0, 0.99).Draw(t, "share") * float64(c.Lap))
		s := c.sample(&segments, from)
		p, err := c.ProgressOnHeading(s.At, s.Heading)
		if err != nil {
			t.Fatal(err)
		}
		if p.TimeToFix == 0 { // over the fix, where the lap has ended
			return
		}
		var fix, leg abeam.NM
		for last, at := s, from; at < c.Lap; {
			at = min(at+333*time.Millisecond, c.Lap)
			next := c.sample(&segments, at)
			d := abeam.NM(math.Hypot(float64(next.At.Along-last.At.Along), float64(next.At.Abreast-last.At.Abreast)))
			fix += d
			if next.Time <= p.Nearest.Time+p.LegTime {
				leg += d
			}
			last = next
		}
		step := (c.InboundGroundspeed + 2*c.OutboundGroundspeed).In(333 * time.Millisecond)
		if !near.Relative(p.ToFix, fix, 2e-5) || !near.Equal(p.LegToGo, leg, step) {
			t.Fatalf("to go %v and %v, by the track %v and %v", p.LegToGo, p.ToFix, leg, fix)
		}
	})
}

// The elliptic integral against quadrature of the groundspeed, in winds up to the
// airspeed itself.
func TestGroundPathIsTheIntegral(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := kinematics.Segment{
			Heading: draw.Uniform(-180, 540).Draw(t, "heading"), Rate: draw.Uniform(0.1, 30).Draw(t, "rate"), Speed: 0.05,
		}
		w := 0.05 * rapid.OneOf(draw.Uniform(0, 0.999), rapid.SampledFrom([]float64{0, 1e-12, 0.5, 0.999})).Draw(t, "share")
		sin, cos := math.Sincos(draw.Uniform(0, 7).Draw(t, "from"))
		s.WX, s.WY = w*cos, w*sin
		s.Duration = draw.Uniform(0, 360).Draw(t, "angle") / s.Rate
		since := s.Duration * draw.Uniform(0, 1).Draw(t, "since")
		want := 0.0
		const panels = 200 // the least groundspeed, a thousandth, is passed in a tenth of a degree
		for i := range panels {
			width := (s.Duration - since) / panels
			want += quad.Fixed(func(t float64) float64 {
				return math.Hypot(s.Velocity(t))
			}, since+float64(i)*width, since+float64(i+1)*width, 12, nil, 0)
		}
		if got := float64(groundPath(&s, since)); !near.Equal(got, want, 1e-7*math.Max(want, 1e-3)) {
			t.Fatalf("%+v from %v: %v, quadrature %v", s, since, got, want)
		}
	})
}

// Where two places are equally near: the later in the lap, as documented.
func TestProgressTies(t *testing.T) {
	for _, turn := range []Turn{Right, Left} {
		c, err := minutePattern(t, 40, turn).Circuit(Flight{TAS: 120, Rate: 3})
		if err != nil {
			t.Fatal(err)
		}
		wide := c.RollOut.Abreast
		for _, tc := range []struct {
			name  string
			at    Point
			phase Phase
			time  time.Duration
			off   abeam.NM // to the inside
		}{
			{"over the fix", Point{}, InboundLeg, c.Lap, 0},
			{"rolled out", c.RollOut, OutboundLeg, c.OutboundTurn.Time, 0},
			{"turning in", c.TurnIn, InboundTurn, c.OutboundTurn.Time + c.Straight, 0},
			{"established", c.Established, InboundLeg, c.Lap - c.Inbound, 0},
			{"midway between the legs", Point{-1, wide / 2}, InboundLeg, c.Lap - c.Inbound/2, wide / 2},
			{"beyond the fix", Point{0.1 + wide/2, wide / 2}, OutboundTurn, c.OutboundTurn.Time / 2, -0.1},
			{"short of there, inside", Point{wide/2 - 0.1, wide / 2}, OutboundTurn, c.OutboundTurn.Time / 2, 0.1},
			{"abeam, outside", Point{0, wide + 1}, OutboundLeg, c.OutboundTurn.Time, -1},
		} {
			p, err := c.Progress(tc.at)
			if err != nil || p.Nearest.Phase != tc.phase || (p.Nearest.Time-tc.time).Abs() > time.Microsecond ||
				!near.Equal(p.Off, abeam.NM(turn.mirror(float64(tc.off))), 1e-8) {
				t.Errorf("%s, %v turns: %+v, %v", tc.name, turn, p, err)
			}
		}
		// The same places told apart by where the aeroplane goes.
		middle := Point{-1, wide / 2}
		for _, tc := range []struct {
			direction abeam.Bearing
			phase     Phase
		}{{220, OutboundLeg}, {40, InboundLeg}, {200, OutboundLeg}, {60, InboundLeg}} {
			byTrack, err := c.ProgressOnTrack(middle, tc.direction)
			if err != nil || byTrack.Nearest.Phase != tc.phase {
				t.Errorf("on track %v: %+v, %v", tc.direction, byTrack, err)
			}
			byHeading, err := c.ProgressOnHeading(middle, tc.direction)
			if err != nil || byHeading != byTrack {
				t.Errorf("on heading %v in calm: %+v, on track %+v", tc.direction, byHeading, byTrack)
			}
		}
	}
}

// A lap flown uncorrected rolls out across the inbound course and does not close.
func TestProgressOfAnOpenLap(t *testing.T) {
	c, err := minutePattern(t, 0, Right).Fly(Flight{TAS: 100, Rate: 3, Wind: wind.Wind{From: 90, Speed: 20}}, 180, time.Minute)
	if err != nil || !c.Notes.Has(NonHoldingSide) {
		t.Fatalf("%v, %v", c.Notes, err)
	}
	samples, err := c.AppendTrack(nil, 10*time.Millisecond)
	if err != nil {
		t.Fatal(err)
	}
	var crossing Sample
	for i, s := range samples[1:] {
		if s.Phase != InboundLeg && samples[i].At.Abreast > 0 && s.At.Abreast <= 0 {
			crossing = s
		}
	}
	p, err := c.ProgressOnHeading(crossing.At, crossing.Heading)
	if err != nil || (p.Nearest.Time-crossing.Time).Abs() > time.Microsecond {
		t.Errorf("crossing at %+v: %+v, %v", crossing, p, err)
	}
	// The inbound leg lies on the non-holding side, and ends abeam the fix.
	p, err = c.ProgressOnTrack(Point{0, c.Established.Abreast}, 0)
	if err != nil || p.Nearest.Phase != InboundLeg || p.ToFix > 1e-9 || size(p.Off) > 1e-9 {
		t.Errorf("abeam the fix: %+v, %v", p, err)
	}
}

func TestProgressErrors(t *testing.T) {
	c := windy(t, Right)
	nan := math.NaN()
	beyond, err := minutePattern(t, 0, Right).Fly(Flight{TAS: 100, Rate: 3, Wind: wind.Wind{From: 180, Speed: 45}}, 180, 0)
	if err != nil || !beyond.Notes.Has(BeyondFix) {
		t.Fatal(err)
	}
	for name, err := range map[string]error{
		"point NaN":      second(c.Progress(Point{abeam.NM(nan), 0})),
		"point far":      second(c.Progress(Point{0, 501})),
		"track NaN":      second(c.ProgressOnTrack(Point{}, abeam.Bearing(nan))),
		"track infinite": second(c.ProgressOnTrack(Point{}, abeam.Bearing(math.Inf(1)))),
		"heading NaN":    second(c.ProgressOnHeading(Point{}, abeam.Bearing(nan))),
		"circuit zero":   second((Circuit{}).Progress(Point{})),
		"zero, track":    second((Circuit{}).ProgressOnTrack(Point{}, 0)),
		"beyond the fix": second(beyond.Progress(Point{})),
	} {
		if !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if n := testing.AllocsPerRun(100, func() {
		_, _ = c.Progress(Point{-1, 0.2})
		_, _ = c.ProgressOnTrack(Point{-1, 0.2}, 350)
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}
