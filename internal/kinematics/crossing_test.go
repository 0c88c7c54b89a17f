package kinematics_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/internal/kinematics"
)

// At the time that Crossing gives, the turn is on x = 0, and it lies in the bracket; the place
// comes from At, which has another form.
func TestCrossingIsOnTheLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := kinematics.Segment{
			X: draw.Uniform(-0.5, 0.5).Draw(t, "x"), Heading: draw.Uniform(-180, 540).Draw(t, "heading"),
			Rate:  rapid.SampledFrom([]float64{3, -3, 1.5, 0.1, -0.2, 30}).Draw(t, "rate"),
			Speed: draw.Uniform(60, 500).Draw(t, "speed") / 3600, Duration: draw.Uniform(1, 120).Draw(t, "duration"),
		}
		share := draw.Uniform(0, 0.9).Draw(t, "wind")
		from := draw.Uniform(0, 2*math.Pi).Draw(t, "from")
		s.WX, s.WY = s.Speed*share*math.Cos(from), s.Speed*share*math.Sin(from)
		a, b := s.At(0).X, s.End().X
		if (a > 0) == (b > 0) {
			s.X -= (a + b) / 2 // the line between both ends
		}
		got := s.Crossing(0, s.Duration)
		if !(got >= 0 && got <= s.Duration) {
			t.Fatalf("%v is outside of 0 to %v", got, s.Duration)
		}
		// A micrometre, and what a slow turn's radius loses by rounding.
		if x := s.At(got).X; math.Abs(x) > 1e-9+1e-13*s.Speed/math.Abs(s.Rate*math.Pi/180) {
			t.Fatalf("%+v: at %v s it is %v NM off the line", s, got, x)
		}
	})
}
