package hold

import (
	"math"
	"time"

	"gonum.org/v1/gonum/mathext"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/clock"
	"github.com/holdingfix/abeam/internal/kinematics"
)

// left turns the nearest place into the progress from there.
func (c *Circuit) left(segments *[4]kinematics.Segment, n *nearest) Progress {
	durations := [4]time.Duration{c.OutboundTurn.Time, c.Straight, c.InboundTurn.Time, c.Inbound}
	since, _ := clock.Duration(n.t) // at most the phase's, which is one
	since = min(since, durations[n.phase])
	time := since
	for _, d := range durations[:n.phase] {
		time += d
	}
	s := &segments[n.phase]
	at := s.At(n.t)
	vx, vy := s.Velocity(n.t)
	p := Progress{
		Nearest: Sample{
			Time: time, At: Point{abeam.NM(at.X), abeam.NM(at.Y)},
			Heading: abeam.NewBearing(float64(c.inbound) + c.turn.mirror(at.Heading)), Phase: Phase(n.phase),
		},
		LegToGo: groundPath(s, n.t), LegTime: durations[n.phase] - since,
		TimeToFix: c.Lap - time,
	}
	p.Off = abeam.NM(c.turn.mirror(math.Copysign(math.Hypot(n.x-at.X, n.y-at.Y), vx*(n.y-at.Y)-vy*(n.x-at.X))))
	p.ToFix = p.LegToGo
	for i := n.phase + 1; i < len(segments); i++ {
		p.ToFix += groundPath(&segments[i], 0)
	}
	return p
}

// groundPath is the way over the ground from t to the end of a segment, in NM. In a
// turn the groundspeed at an angle a from where the wind goes is
//
//	sqrt(V² + w² + 2 V w cos a) = (V + w) sqrt(1 - m sin²(a/2)),  m = 4 V w/(V + w)²
//
// whose integral over the time is an elliptic integral of the second kind.
func groundPath(s *kinematics.Segment, t float64) abeam.NM {
	w := math.Hypot(s.WX, s.WY)
	if s.Rate == 0 || w == 0 {
		vx, vy := s.Velocity(0)
		return abeam.NM(math.Hypot(vx, vy) * (s.Duration - t))
	}
	m := 4 * s.Speed * w / ((s.Speed + w) * (s.Speed + w))
	half := func(t float64) float64 {
		return (s.Heading + s.Rate*t - angle.Atan2(s.WY, s.WX)) * (math.Pi / 360)
	}
	omega := s.Rate * (math.Pi / 180)
	return abeam.NM(2 * (s.Speed + w) / omega * (ellipticE(half(s.Duration), m) - ellipticE(half(t), m)))
}

// ellipticE is the incomplete elliptic integral of the second kind for any angle: it is
// odd, and grows by twice the complete one in every half turn.
func ellipticE(phi, m float64) float64 {
	halves := math.Round(phi / math.Pi)
	rest := phi - halves*math.Pi
	part := mathext.EllipticE(math.Min(math.Abs(rest), math.Pi/2), m)
	return 2*halves*mathext.CompleteE(m) + math.Copysign(part, rest)
}
