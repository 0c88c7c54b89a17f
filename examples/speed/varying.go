package main

import (
	"errors"
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// climb is a circuit flown in a climb through a wind that changes.
type climb struct {
	pattern hold.Pattern
	flight  hold.Varying
	start   [3]float64 // times of the turns and of the outbound leg, in still air
}

func varying() ([]path, error) {
	cases := make([]climb, 0, 64)
	for i := 0; len(cases) < cap(cases); i++ {
		u := irrational(i)
		var c climb
		var err error
		if c.pattern, err = hold.NewPattern(hold.Fix{}, abeam.NewBearing(360*u(2)), hold.Turn(i&1), hold.TimedInbound(time.Minute)); err != nil {
			return nil, err
		}
		rule := hold.TurnRule{Rate: hold.StandardRate}
		c.flight = hold.Varying{
			CAS: abeam.Knots(140 + 60*u(3)), Ascent: hold.Ascent{From: 3000, To: 14000, PerMinute: abeam.Feet(300 + 900*u(5))},
			OutboundTurn: rule, InboundTurn: rule,
		}
		var levels []wind.Level
		for k := range 3 {
			levels = append(levels, wind.Level{Altitude: abeam.Feet(2000 + 7000*k), Wind: wind.Wind{
				From: abeam.NewBearing(360*u(7) + 20*float64(k)), Speed: abeam.Knots(5 + 12*float64(k)*u(11)),
			}})
		}
		if c.flight.Winds, err = wind.NewProfile(levels...); err != nil {
			return nil, err
		}
		c.start = [3]float64{60, 60, 60}
		if _, err := c.pattern.VaryingCircuit(c.flight); err == nil {
			cases = append(cases, c)
		} else if !errors.Is(err, abeam.ErrUnflyable) {
			return nil, err
		}
	}
	return []path{
		compared("hold: circuit in a climb", cases, nil,
			func(c *climb) float64 {
				lap, _ := c.pattern.VaryingCircuit(c.flight)
				return lap.Straight.Seconds()
			},
			// A lap is 12 steps of 30 degrees of turn and one for each of 3 straight parts, of
			// 4 stages each: 60 stages. A start, three differences and the answer are 5 laps.
			way[climb]{"5 laps of 60 sincos and roots", func(c *climb) float64 {
				sum := float64(c.flight.CAS)
				for i := range 5 * 60 {
					sin, cos := math.Sincos(float64(i) + sum)
					sum = math.Sqrt(3 + sin + cos)
				}
				return sum
			}},
			way[climb]{"Runge-Kutta steps of a second, Newton for the lap to close", (*climb).integrated}, 2),
	}, nil
}

// integrated gives the time of the outbound leg. It knows the public functions of package
// wind alone.
func (c *climb) integrated() float64 {
	start := c.start
	return newton(start[:], c.misses)[1]
}

// misses flies the turns and the leg between them, and gives by how much the second turn
// ends off the inbound heading and off the course, and how far from the fix the inbound
// leg ends.
func (c *climb) misses(z, miss []float64) {
	side := 1.0
	if c.pattern.Turn() == hold.Left {
		side = -1
	}
	course := float64(c.pattern.Inbound()) * radian
	heading, _ := c.crab(0)
	m := [3]float64{0, 0, heading} // north, east, heading
	t := 0.0
	for k, rate := range [3]float64{side * float64(hold.StandardRate) * radian, 0, side * float64(hold.StandardRate) * radian} {
		m = c.fly(m, t, z[k], func(at float64, m [3]float64) [3]float64 {
			v, wn, we := c.air(at)
			sin, cos := math.Sincos(m[2])
			return [3]float64{v*cos - wn, v*sin - we, rate}
		})
		t += z[k]
	}
	crab, _ := c.crab(t)
	miss[0] = math.Remainder(m[2]-crab, 2*math.Pi)
	miss[1] = m[1]*math.Cos(course) - m[0]*math.Sin(course)
	along := c.fly([3]float64{m[0]*math.Cos(course) + m[1]*math.Sin(course)}, t, c.pattern.Leg().Inbound().Seconds(), func(at float64, _ [3]float64) [3]float64 {
		_, groundspeed := c.crab(at)
		return [3]float64{groundspeed}
	})
	miss[2] = along[0]
}

// air is the airspeed and the wind, north and east, in NM a second.
func (c *climb) air(t float64) (v, north, east float64) {
	a := c.flight.Ascent
	altitude := min(a.From+a.PerMinute*abeam.Feet(t/60), a.To)
	air, err := wind.StandardAir(altitude, 0)
	if err != nil {
		return math.NaN(), 0, 0
	}
	tas, err := air.TASFromCAS(c.flight.CAS)
	if err != nil {
		return math.NaN(), 0, 0
	}
	w, err := c.flight.Winds.At(altitude)
	if err != nil {
		return math.NaN(), 0, 0
	}
	sin, cos := math.Sincos(float64(w.From) * radian)
	return float64(tas) / 3600, float64(w.Speed) * cos / 3600, float64(w.Speed) * sin / 3600
}

// crab is the heading that makes the inbound course good, and the groundspeed on it.
func (c *climb) crab(t float64) (heading, groundspeed float64) {
	v, north, east := c.air(t)
	course := float64(c.pattern.Inbound()) * radian
	sin, cos := math.Sincos(course)
	across, along := east*cos-north*sin, north*cos+east*sin // of where the wind is from
	correction := math.Asin(across / v)
	return course + correction, v*math.Cos(correction) - along
}

// fly integrates from a time on, by the classical method of Runge and Kutta.
func (c *climb) fly(m [3]float64, t, duration float64, slope func(at float64, m [3]float64) [3]float64) [3]float64 {
	n := math.Max(1, math.Ceil(math.Abs(duration)))
	h := duration / n
	step := func(m, k [3]float64, h float64) [3]float64 {
		for i := range m {
			m[i] += h * k[i]
		}
		return m
	}
	for i := range int(n) {
		at := t + float64(i)*h
		k1 := slope(at, m)
		k2 := slope(at+h/2, step(m, k1, h/2))
		k3 := slope(at+h/2, step(m, k2, h/2))
		k4 := slope(at+h, step(m, k3, h))
		for j := range m {
			m[j] += h / 6 * (k1[j] + 2*k2[j] + 2*k3[j] + k4[j])
		}
	}
	return m
}
