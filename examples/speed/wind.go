package main

import (
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/wind"
)

const radian = math.Pi / 180

// triangle is a wind triangle and what the floors need of it.
type triangle struct {
	dir, from, track, heading abeam.Bearing
	tas, speed, groundspeed   abeam.Knots
	off, correction           float64 // from - dir and heading - track, in radians
	v, w, g                   float64
}

// irrational gives fractional parts of multiples of square roots: dense, never aligned,
// and the same in every run.
func irrational(i int) func(n float64) float64 {
	return func(n float64) float64 { _, f := math.Modf(float64(i+1) * math.Sqrt(n)); return f }
}

func triangles() ([]path, error) {
	cases := make([]triangle, 1024)
	for i := range cases {
		c, u := &cases[i], irrational(i)
		c.dir, c.from = abeam.Bearing(360*u(2)), abeam.Bearing(360*u(3))
		c.tas, c.speed = abeam.Knots(80+400*u(5)), abeam.Knots(60*u(7))
		t, err := wind.SolveHeading(c.dir, c.tas, c.wind())
		if err != nil {
			return nil, err
		}
		c.track, c.heading, c.groundspeed = t.Track, t.Heading, t.Groundspeed
		c.off = float64(c.from.Sub(c.dir)) * radian
		c.correction = float64(t.Correction) * radian
		c.v, c.w, c.g = float64(c.tas), float64(c.speed), float64(c.groundspeed)
	}
	const few = 64
	const newtons = "the two components to close, Newton"
	return []path{
		compared("wind: heading for a track", cases, nil,
			func(c *triangle) float64 {
				t, _ := wind.SolveHeading(c.dir, c.tas, c.wind())
				return float64(t.Groundspeed)
			},
			way[triangle]{"1 sincos, 1 asin, 1 root", func(c *triangle) float64 {
				sin, cos := math.Sincos(c.off)
				x := c.w * sin / c.v
				return cos + math.Asin(x) + math.Sqrt(1-x*x)
			}},
			way[triangle]{newtons, func(c *triangle) float64 {
				return newton([]float64{float64(c.dir) * radian, c.v}, func(x, y []float64) {
					c.miss(c.v, x[0], x[1], float64(c.dir)*radian, y)
				})[1]
			}}, few),
		compared("wind: track of a heading", cases, nil,
			func(c *triangle) float64 {
				t, _ := wind.SolveTrack(c.dir, c.tas, c.wind())
				return float64(t.Groundspeed)
			},
			way[triangle]{"1 sincos, 1 atan2, 1 root", func(c *triangle) float64 {
				sin, cos := math.Sincos(c.off)
				y, x := c.w*sin, c.v-c.w*cos
				return math.Atan2(y, x) + math.Sqrt(x*x+y*y)
			}},
			way[triangle]{newtons, func(c *triangle) float64 {
				return newton([]float64{float64(c.dir) * radian, c.v}, func(x, y []float64) {
					c.miss(c.v, float64(c.dir)*radian, x[1], x[0], y)
				})[1]
			}}, few),
		compared("wind: wind from both", cases, nil,
			func(c *triangle) float64 {
				t, _ := wind.SolveWind(c.track, c.groundspeed, c.heading, c.tas)
				return float64(t.Wind.Speed)
			},
			way[triangle]{"1 sincos, 1 atan2, 1 root", func(c *triangle) float64 {
				sin, cos := math.Sincos(c.correction)
				y, x := c.v*sin, c.v*cos-c.g
				return math.Atan2(y, x) + math.Sqrt(x*x+y*y)
			}},
			way[triangle]{newtons, func(c *triangle) float64 {
				x := newton([]float64{0, 0}, func(x, y []float64) {
					hs, hc := math.Sincos(float64(c.heading) * radian)
					ts, tc := math.Sincos(float64(c.track) * radian)
					y[0], y[1] = c.v*hc-x[0]-c.g*tc, c.v*hs-x[1]-c.g*ts
				})
				return math.Hypot(x[0], x[1])
			}}, few),
		compared("wind: TAS for a groundspeed", cases, nil,
			func(c *triangle) float64 {
				t, _ := wind.SolveTAS(c.track, c.groundspeed, c.wind())
				return float64(t.TAS)
			},
			way[triangle]{"1 sincos, 1 atan2, 1 root", func(c *triangle) float64 {
				sin, cos := math.Sincos(c.off)
				y, x := c.w*sin, c.g+c.w*cos
				return math.Atan2(y, x) + math.Sqrt(x*x+y*y)
			}},
			way[triangle]{newtons, func(c *triangle) float64 {
				return newton([]float64{float64(c.track) * radian, c.g}, func(x, y []float64) {
					c.miss(x[1], x[0], c.g, float64(c.track)*radian, y)
				})[1]
			}}, few),
	}, nil
}

func (c *triangle) wind() wind.Wind { return wind.Wind{From: c.from, Speed: c.speed} }

// miss is what the velocities do not close by, north and east: air, wind and ground.
func (c *triangle) miss(tas, heading, groundspeed, track float64, y []float64) {
	hs, hc := math.Sincos(heading)
	ts, tc := math.Sincos(track)
	ws, wc := math.Sincos(float64(c.from) * radian)
	y[0] = tas*hc - c.w*wc - groundspeed*tc
	y[1] = tas*hs - c.w*ws - groundspeed*ts
}

// flown is an airspeed in some air.
type flown struct {
	air             wind.Air
	cas, tas        abeam.Knots
	mach, delta, at float64 // of the CAS at sea level, pressure ratio, speed of sound
}

func airspeeds() ([]path, error) {
	air, err := wind.StandardAir(24_000, 8)
	if err != nil {
		return nil, err
	}
	sea, err := wind.StandardAir(0, 0)
	if err != nil {
		return nil, err
	}
	a0 := float64(sea.SpeedOfSound())
	cases := make([]flown, 1024)
	for i := range cases {
		c := &cases[i]
		c.air, c.cas = air, abeam.Knots(80+200*irrational(i)(2))
		if c.tas, err = air.TASFromCAS(c.cas); err != nil {
			return nil, err
		}
		c.mach, c.delta, c.at = float64(c.cas)/a0, air.PressureRatio(), float64(air.SpeedOfSound())
	}
	// A power of 3.5 is products and a root; the power of 2/7 has no such way out.
	floor := way[flown]{"2 roots, 1 power", func(c *flown) float64 {
		q := math.Sqrt(1+0.2*c.mach*c.mach) - 1
		return math.Sqrt(math.Pow(1+q/c.delta, 2.0/7) - 1)
	}}
	const newtons = "the impact pressures to agree, Newton"
	impact := func(speed, sound float64) float64 { return math.Pow(1+0.2*speed*speed/(sound*sound), 3.5) - 1 }
	const few = 64
	return []path{
		compared("wind: TAS from CAS", cases, nil,
			func(c *flown) float64 { v, _ := c.air.TASFromCAS(c.cas); return float64(v) }, floor,
			way[flown]{newtons, func(c *flown) float64 {
				return newton([]float64{float64(c.cas)}, func(x, y []float64) {
					y[0] = impact(x[0], c.at)*c.delta - impact(float64(c.cas), a0)
				})[0]
			}}, few),
		compared("wind: CAS from TAS", cases, nil,
			func(c *flown) float64 { v, _ := c.air.CASFromTAS(c.tas); return float64(v) }, floor,
			way[flown]{newtons, func(c *flown) float64 {
				return newton([]float64{float64(c.tas)}, func(x, y []float64) {
					y[0] = impact(float64(c.tas), c.at)*c.delta - impact(x[0], a0)
				})[0]
			}}, few),
	}, nil
}
