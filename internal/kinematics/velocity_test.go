package kinematics_test

import (
	"testing"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/internal/kinematics"
	"github.com/holdingfix/abeam/internal/near"
)

// The velocity is the slope of the way. A central difference over 2h misses it by
// V rate^2 h^2/6, here 0.14 x 0.27 x 1e-6/6, and by the rounding of the places over 2h.
func TestVelocityIsTheSlope(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := kinematics.Segment{
			Heading: draw.Uniform(-180, 540).Draw(t, "heading"), Rate: draw.Uniform(-30, 30).Draw(t, "rate"),
			Speed: draw.Uniform(0, 0.14).Draw(t, "speed"), WX: draw.Uniform(-0.1, 0.1).Draw(t, "wx"), WY: draw.Uniform(-0.1, 0.1).Draw(t, "wy"),
		}
		at := draw.Uniform(0, 60).Draw(t, "time")
		const h = 1e-3
		a, b := s.At(at-h), s.At(at+h)
		vx, vy := s.Velocity(at)
		if !near.Equal(vx, (b.X-a.X)/(2*h), 1e-8) || !near.Equal(vy, (b.Y-a.Y)/(2*h), 1e-8) {
			t.Fatalf("velocity %v, %v; slope %v, %v", vx, vy, (b.X-a.X)/(2*h), (b.Y-a.Y)/(2*h))
		}
	})
}
