// Package kinematics is the motion of an aeroplane that flies straight or turns
// at a constant rate, at a constant true airspeed in a constant wind, in closed
// form. It works in the course frame: x along the inbound course, y across it to
// the side on which headings increase, angles in degrees from x towards y,
// distances in NM, speeds in NM/s.
package kinematics

import (
	"math"

	"github.com/holdingfix/abeam/internal/angle"
)

// Segment is one piece of constant rate of turn.
type Segment struct {
	X, Y     float64 // where it starts
	Heading  float64 // at the start
	Rate     float64 // deg/s, positive towards y; 0 is straight
	Speed    float64 // true airspeed
	WX, WY   float64 // where the wind goes
	Duration float64 // s
}

// State is where the aeroplane is and where it points.
type State struct {
	X, Y, Heading float64
}

// At gives the state t seconds into the segment, the integral of V u(h) + w with
// h = h0 + rate t. A straight piece covers (V u + w) t. A turn covers w t and the
// chord of its arc: V t sin(a)/a, a being half the angle turned, along the heading
// halfway through.
//
// The usual V/rate (sin h - sin h0) is the same thing, but for a slow turn it is a
// small difference times a huge radius: at 1e-9 deg/s it is off by 1e-7 NM a minute,
// where this form goes over into the straight piece. A whole number of circles
// leaves exactly the wind.
//
// The heading is not reduced. NaN and infinities give NaN.
func (s Segment) At(t float64) State {
	turned := s.Rate * t
	half := turned / 2
	chord := s.Speed * t
	if a := half * (math.Pi / 180); a != 0 {
		sin, _ := angle.Sincos(half)
		chord *= sin / a
	}
	sin, cos := angle.Sincos(s.Heading + half)
	return State{
		X:       s.X + chord*cos + s.WX*t,
		Y:       s.Y + chord*sin + s.WY*t,
		Heading: s.Heading + turned,
	}
}

// End is the state when the segment is done.
func (s Segment) End() State { return s.At(s.Duration) }
