package hold

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/kinematics"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

// frameOf is the frame of a flight inbound on 000 at 120 kt and 3 deg/s, in a wind of a
// share of the airspeed.
func frameOf(tb testing.TB, from abeam.Bearing, share float64) frame {
	tb.Helper()
	p := minutePattern(tb, 0, Right)
	var fr frame
	f := flightOf(from, share)
	if err := fr.set("test", &p, &f); err != nil {
		tb.Fatal(err)
	}
	return fr
}

func flightOf(from abeam.Bearing, share float64) Flight {
	return Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: from, Speed: abeam.Knots(120 * share)}}
}

// A turn from any heading, laid so that it is abeam the fix at some heading on which along
// falls, crosses there by the motion that the track is made of, and in few steps.
func TestCrossing(t *testing.T) {
	for _, share := range []float64{0, 0.1, 0.2, 0.3, 0.5, 0.8, 0.95, 0.999, 0.999999} {
		most := 8
		if share <= 0.95 {
			most = 6
		}
		for from := abeam.Bearing(0); from < 360; from += 15 {
			fr := frameOf(t, from, share)
			top := math.Acos(-fr.wx) * (180 / math.Pi)
			for h0 := 0.0; h0 < 360; h0 += 20 {
				for _, part := range []float64{0.01, 0.1, 0.3, 0.45, 0.5, 0.7, 0.99} {
					s := kinematics.Segment{Heading: h0, Rate: 3, Speed: 1, WX: fr.wx, WY: fr.wy}
					s.X = -s.At((top + (360-2*top)*part - h0) / 3).X
					sin0, cos0 := math.Sincos(h0 * math.Pi / 180)
					got, steps := fr.crossing(s.X, sin0, cos0, h0)
					if at := s.At(got); !near.Equal(at.X, 0, 1e-11) || at.Heading < top || at.Heading > 360-top || steps > most {
						t.Fatalf("wind from %v at %v V, from heading %v, part %v: crosses at %+v after %d steps", from, share, h0, part, at, steps)
					}
				}
			}
		}
	}
}

// Where the turns join straight across the course, along has no slope at the join: the
// fix is abeam a quarter of a circle later, 30 s. A wind of a millionth of the airspeed
// moves that by a millionth of the lap, and so does the nanosecond to which the shortest
// leg is rounded by way of the heading: out of 85 microseconds of outbound leg.
func TestAbeamFromAcross(t *testing.T) {
	p := minutePattern(t, 0, Right)
	f := Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 45, Speed: 1.2e-4}}
	shortest, err := p.ShortestInbound(f)
	if err != nil {
		t.Fatal(err)
	}
	if p, err = p.WithLeg(TimedInbound(shortest)); err != nil {
		t.Fatal(err)
	}
	c, err := p.Circuit(f)
	if err != nil || !near.Equal((c.ToAbeam-c.Straight).Seconds(), 30, 1e-3) {
		t.Errorf("abeam %v after roll-out, straight %v, %v", c.ToAbeam, c.Straight, err)
	}
}

// Newton's method on a turn, from within 15 degrees of the foot, takes five steps at most.
func TestFootOfATurn(t *testing.T) {
	for _, share := range []float64{0, 0.1, 0.3, 0.5, 0.8, 0.95} {
		for from := abeam.Bearing(0); from < 360; from += 15 {
			fr := frameOf(t, from, share)
			s := kinematics.Segment{Rate: 3, Speed: 1, WX: fr.wx, WY: fr.wy, Duration: 120}
			for at := 3.0; at < 120; at += 9 {
				vx, vy := s.Velocity(at)
				place := s.At(at)
				for _, off := range []float64{-60, -30, -15, -3, 0, 3, 9, 15} {
					v := math.Hypot(vx, vy)
					n := nearest{x: place.X - off*vy/v, y: place.Y + off*vx/v}
					lo, hi := at-1, at+2
					if n.slope(&s, lo) >= 0 || n.slope(&s, hi) < 0 {
						continue // beyond the centre of the curve
					}
					if got, steps := n.foot(&s, lo, hi); !near.Equal(got, at, 1e-6) || steps > 5 {
						t.Fatalf("wind from %v at %v V, %v off at %v: foot at %v after %d steps", from, share, off, at, got, steps)
					}
				}
			}
		}
	}
}

// A turn of 270 degrees at the greatest rate, 9 s: the distance to a point outside rises at
// the start, falls from abreast of the far side on and has its only foot at 225 degrees;
// it ends higher again. The wind is calm, so that the foot lies on the line from the centre.
func TestFootOfAFastTurn(t *testing.T) {
	s := kinematics.Segment{Rate: float64(MaxRate), Speed: 1, Duration: 9}
	r := 180 / math.Pi / float64(MaxRate)
	sin, cos := math.Sincos(225 * math.Pi / 180)
	n := nearest{x: 3 * r * sin, y: r - 3*r*cos, distance: math.Inf(1)}
	n.turn(4, &s, 0, 9)
	if n.phase != 4 || !near.Equal(n.t, 7.5, 1e-9) || !near.Equal(n.distance, 2*r, 1e-12) {
		t.Errorf("%+v, radius %v", n, r)
	}
}

// The family by finite differences and by the legs that are flown: roll-out plus the
// velocity over the ground for the outbound time is the start of the inbound turn.
func TestFamily(t *testing.T) {
	for _, share := range []float64{0, 0.2, 0.5} {
		for from := abeam.Bearing(0); from < 360; from += 30 {
			fr := frameOf(t, from, share)
			in := math.Asin(fr.sinIn) * (180 / math.Pi)
			least := fr.least()
			const s, ds = 90.0, 1e-3
			var m, before, after member
			m.set(&fr, in, least+s)
			before.set(&fr, in, least+s-ds)
			after.set(&fr, in, least+s+ds)
			turned := math.Atan2(after.uy, after.ux) - math.Atan2(before.uy, before.ux)
			if want := math.Remainder(turned, 2*math.Pi) / (2 * ds); !near.Equal(m.dh, want, 1e-9) {
				t.Errorf("wind from %v at %v V: dh/ds %v, by differences %v", from, share, m.dh, want)
			}
			if got, want := -fr.g*m.ux/m.slip, (after.t-before.t)/(2*ds); !near.Equal(got, want, 1e-7) {
				t.Errorf("wind from %v at %v V: dt/ds %v, by differences %v", from, share, got, want)
			}
			t1 := math.Remainder(math.Atan2(m.uy, m.ux)*(180/math.Pi)-in-180, 360) + 180
			x1 := fr.r*(m.uy-fr.sinIn) + fr.wx*t1*fr.perRate
			y1 := fr.r*(fr.cosIn-m.ux) + fr.wy*t1*fr.perRate
			if !near.Equal(m.x1, x1, 1e-9) || !near.Equal(m.x2, x1+m.gx*m.t, 1e-9) || !near.Equal(m.y2, y1+m.gy*m.t, 1e-9) {
				t.Errorf("wind from %v at %v V: %+v, rolled out at %v, %v", from, share, m, x1, y1)
			}
		}
	}
}

// In a headwind with a crosswind the least of the ordinary circuits flies its outbound leg
// square to the course; without a crosswind it has none and is the shortest.
func TestLeastIsSquare(t *testing.T) {
	for _, from := range []abeam.Bearing{20, 45, 70, 290, 315, 340} {
		fr := frameOf(t, from, 0.4)
		var m member
		m.set(&fr, math.Asin(fr.sinIn)*(180/math.Pi), fr.least())
		if !near.Equal(m.ux, 0, 1e-12) || !near.Equal(math.Abs(m.uy), 1, 1e-12) {
			t.Errorf("wind from %v: outbound heading (%v, %v)", from, m.ux, m.uy)
		}
	}
	if fr := frameOf(t, 0, 0.4); fr.least() != fr.shortest() {
		t.Errorf("headwind: least %v, shortest %v", fr.least(), fr.shortest())
	}
	if fr := frameOf(t, 120, 0.4); fr.least() != 0 {
		t.Errorf("tailwind: least %v", fr.least())
	}
}

// On the inbound heading the outbound turn turns by nothing, and the fix is left behind:
// it is never abeam, in calm, in a headwind or in a tailwind.
func TestFlyInbound(t *testing.T) {
	for _, turn := range []Turn{Right, Left} {
		p := minutePattern(t, 0, turn)
		for _, w := range []wind.Wind{{}, {From: 0, Speed: 20}, {From: 180, Speed: 20}} {
			c, err := p.Fly(Flight{TAS: 120, Rate: 3, Wind: w}, 0, time.Minute)
			if !errors.Is(err, abeam.ErrUnflyable) {
				t.Errorf("%v turns in %v: %+v, %v", turn, w, c, err)
			}
		}
	}
}
