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

// At gives the state t seconds into the segment. A straight piece covers
// (V u + w) t; a turn from h0 to h covers V/rate (sin h - sin h0, cos h0 - cos h)
// + w t, the integral of V u(h) + w with h = h0 + rate t.
func (s Segment) At(t float64) State {
	s0, c0 := angle.Sincos(s.Heading)
	if s.Rate == 0 {
		return State{
			X:       s.X + (s.Speed*c0+s.WX)*t,
			Y:       s.Y + (s.Speed*s0+s.WY)*t,
			Heading: s.Heading,
		}
	}
	h := s.Heading + s.Rate*t
	s1, c1 := angle.Sincos(h)
	r := s.Speed / (s.Rate * (math.Pi / 180))
	return State{
		X:       s.X + r*(s1-s0) + s.WX*t,
		Y:       s.Y + r*(c0-c1) + s.WY*t,
		Heading: h,
	}
}

// End is the state when the segment is done.
func (s Segment) End() State { return s.At(s.Duration) }
