package kinematics

import "github.com/holdingfix/abeam/internal/angle"

// Velocity gives the velocity over the ground t seconds into the segment, in NM/s.
func (s Segment) Velocity(t float64) (vx, vy float64) {
	sin, cos := angle.Sincos(s.Heading + s.Rate*t)
	return s.Speed*cos + s.WX, s.Speed*sin + s.WY
}
