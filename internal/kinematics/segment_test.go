package kinematics_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate"
	"pgregory.net/rapid"

	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/internal/kinematics"
	"github.com/holdingfix/abeam/internal/near"
)

// segments draws segments of up to four minutes at 60 to 500 kt in winds of up to
// 200 kt, turning either way at up to 6 deg/s, very slowly, or not at all.
func segments() *rapid.Generator[kinematics.Segment] {
	rates := rapid.OneOf(
		rapid.SampledFrom([]float64{0, 3, -3, 1.5, -1.5}),
		draw.Uniform(-6, 6),
		rapid.Map(draw.Uniform(-16, -1), func(e float64) float64 { return math.Pow(10, e) }),
		rapid.Map(draw.Uniform(-16, -1), func(e float64) float64 { return -math.Pow(10, e) }),
	)
	return rapid.Custom(func(t *rapid.T) kinematics.Segment {
		return kinematics.Segment{
			X:        draw.Uniform(-20, 20).Draw(t, "x"),
			Y:        draw.Uniform(-20, 20).Draw(t, "y"),
			Heading:  float64(draw.Bearing().Draw(t, "heading")),
			Rate:     rates.Draw(t, "rate"),
			Speed:    float64(draw.TAS().Draw(t, "speed")) / 3600,
			WX:       draw.Uniform(-200, 200).Draw(t, "wx") / 3600,
			WY:       draw.Uniform(-200, 200).Draw(t, "wy") / 3600,
			Duration: draw.Uniform(0, 240).Draw(t, "duration"),
		}
	})
}

// integral adds up the ground velocity by Simpson's rule, with the sines of the
// standard library. Its error is T h^4/180 V rate^4: with 240 s in 4000 steps, 0.14
// NM/s and 0.105 rad/s, 3e-10 NM at the very most.
func integral(s kinematics.Segment, t float64) (x, y float64) {
	const steps = 4000
	times, vx, vy := make([]float64, steps+1), make([]float64, steps+1), make([]float64, steps+1)
	for i := range times {
		times[i] = t * float64(i) / steps
		h := (s.Heading + s.Rate*times[i]) * math.Pi / 180
		vx[i] = s.Speed*math.Cos(h) + s.WX
		vy[i] = s.Speed*math.Sin(h) + s.WY
	}
	return s.X + integrate.Simpsons(times, vx), s.Y + integrate.Simpsons(times, vy)
}

func TestAtAgainstQuadrature(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := segments().Draw(t, "segment")
		if s.Duration == 0 {
			return
		}
		got := s.End()
		x, y := integral(s, s.Duration)
		if !near.Equal(got.X, x, 1e-9) || !near.Equal(got.Y, y, 1e-9) {
			t.Fatalf("ends at %v, %v, the sum of its motion at %v, %v", got.X, got.Y, x, y)
		}
		// Not to the bit: where the processor has it, one of the two is a fused
		// multiply and add.
		if want := s.Heading + s.Rate*s.Duration; !near.Equal(got.Heading, want, 1e-12) {
			t.Fatalf("ends on %v, want %v", got.Heading, want)
		}
	})
}

// Turns whose ends follow from the circle alone: radius V/rate = 180 V/(3 pi).
func TestAtKnownTurns(t *testing.T) {
	const v = 0.05
	const r = v * 60 / math.Pi
	for _, c := range []struct {
		name string
		s    kinematics.Segment
		want kinematics.State
	}{
		{"half a turn to the right", kinematics.Segment{Rate: 3, Speed: v, Duration: 60}, kinematics.State{0, 2 * r, 180}},
		{"half a turn to the left", kinematics.Segment{Rate: -3, Speed: v, Duration: 60}, kinematics.State{0, -2 * r, -180}},
		{"a quarter to the right", kinematics.Segment{Heading: 90, Rate: 3, Speed: v, Duration: 30}, kinematics.State{-r, r, 180}},
		{"a circle", kinematics.Segment{X: 1, Y: 2, Heading: 33, Rate: 3, Speed: v, Duration: 120}, kinematics.State{1, 2, 393}},
		{"straight", kinematics.Segment{X: 1, Heading: 270, Speed: v, Duration: 100}, kinematics.State{1, -5, 270}},
		{"straight against the wind", kinematics.Segment{Heading: 0, Speed: v, WX: -v, Duration: 100}, kinematics.State{0, 0, 0}},
		{"no airspeed, the wind alone", kinematics.Segment{Rate: 3, WX: 0.01, WY: -0.02, Duration: 10}, kinematics.State{0.1, -0.2, 30}},
	} {
		got := c.s.End()
		if !near.Equal(got.X, c.want.X, 4e-16) || !near.Equal(got.Y, c.want.Y, 4e-16) || got.Heading != c.want.Heading {
			t.Errorf("%s: ends at %+v, want %+v", c.name, got, c.want)
		}
	}
}

// A circle leaves the wind and not a trace of the turn.
func TestCircleLeavesTheWind(t *testing.T) {
	for heading := range 360 {
		s := kinematics.Segment{Heading: float64(heading), Rate: 3, Speed: 0.05, WX: 0.25, WY: -0.5}
		for _, rate := range []float64{3, -3} {
			s.Rate = rate
			if got := s.At(120); got.X != 30 || got.Y != -60 {
				t.Errorf("heading %d, rate %v: ends at %v, %v, want 30, -60", heading, rate, got.X, got.Y)
			}
		}
	}
}

func TestContinuity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := segments().Draw(t, "segment")
		at := draw.Uniform(0, 240).Draw(t, "t")
		if start := s.At(0); start != (kinematics.State{s.X, s.Y, s.Heading}) {
			t.Fatalf("starts at %+v", start)
		}
		fastest := s.Speed + math.Hypot(s.WX, s.WY)
		for _, dt := range []float64{1e-9, 1e-3, 1} {
			a, b := s.At(at), s.At(at+dt)
			if moved := math.Hypot(b.X-a.X, b.Y-a.Y); moved > fastest*dt+1e-13 {
				t.Fatalf("%v s moved it by %v NM, faster than %v NM/s", dt, moved, fastest)
			}
		}
		// Cut in two, it flies the same.
		first := s.At(at)
		rest := s
		rest.X, rest.Y, rest.Heading = first.X, first.Y, first.Heading
		got, want := rest.At(60), s.At(at+60)
		if !near.Equal(got.X, want.X, 1e-12) || !near.Equal(got.Y, want.Y, 1e-12) || !near.Equal(got.Heading, want.Heading, 1e-11) {
			t.Fatalf("cut at %v s it ends at %+v, whole at %+v", at, got, want)
		}
	})
}

// As the rate goes to 0 the turn becomes the straight piece, without a rate at which
// the digits are lost. The chord is off by half the angle turned.
func TestStraightIsTheLimit(t *testing.T) {
	rates := []float64{math.SmallestNonzeroFloat64, 1e-310, 1e-300}
	for e := -30; e <= -3; e++ {
		rates = append(rates, math.Pow(10, float64(e)))
	}
	s := kinematics.Segment{X: 1, Y: -2, Heading: 33, Speed: 0.05, WX: 0.01, WY: -0.005, Duration: 60}
	straight := s.End()
	for _, rate := range rates {
		for _, sign := range []float64{1, -1} {
			turning := s
			turning.Rate = sign * rate
			got := turning.End()
			bound := s.Speed*s.Duration*(rate*s.Duration/2*math.Pi/180) + 2e-15
			if d := math.Hypot(got.X-straight.X, got.Y-straight.Y); !(d <= bound) {
				t.Errorf("at %g deg/s it ends %g NM from the straight piece, want at most %g", sign*rate, d, bound)
			}
		}
	}
}

// A left-hand turn is the mirror image of a right-hand one, to the last bit.
func TestMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := segments().Draw(t, "segment")
		m := s
		m.Y, m.Heading, m.Rate, m.WY = -s.Y, -s.Heading, -s.Rate, -s.WY
		a, b := s.End(), m.End()
		if b.X != a.X || b.Y != -a.Y || b.Heading != -a.Heading {
			t.Fatalf("ends at %+v, its mirror image at %+v", a, b)
		}
	})
}

func TestAtNotFinite(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		s := kinematics.Segment{Heading: 10, Rate: 3, Speed: 0.05, WX: 0.01}
		if got := s.At(bad); !math.IsNaN(got.X) {
			t.Errorf("at %v s: %+v", bad, got)
		}
		s.Heading = bad
		if got := s.At(10); !math.IsNaN(got.X) || !math.IsNaN(got.Y) {
			t.Errorf("heading %v: %+v", bad, got)
		}
		s.Heading, s.Rate = 10, bad
		if got := s.At(10); !math.IsNaN(got.X) || !math.IsNaN(got.Y) {
			t.Errorf("rate %v: %+v", bad, got)
		}
	}
}

func TestAtAllocatesNothing(t *testing.T) {
	s := kinematics.Segment{Heading: 10, Rate: 3, Speed: 0.05, WX: 0.01}
	var end kinematics.State
	if n := testing.AllocsPerRun(100, func() { end = s.At(end.X) }); n != 0 {
		t.Errorf("allocates %v times", n)
	}
}
