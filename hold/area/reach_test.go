package area

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/holdingfix/abeam/internal/convex"
)

// These tests fly permitted flights turn by turn, with nothing of the closed forms, and hold
// the reach of each family against them from both sides.

// manner is one family of flights; p is how a flight of it differs, each from 0 to 1: delay,
// heading of arrival, heading outbound, length of the leg, and how much of it is flown.
type manner struct {
	name   string
	from   float64 // headings of arrival
	to     float64
	out    float64
	second float64 // where the last turn ends, above out for a turn to the right
	region func(*allowed) convex.Region
}

var manners = []manner{
	{"holding", 0, 0, 180, 365, (*allowed).holding},
	{"direct", -75, 115, 180, 365, (*allowed).direct},
	{"teardrop", 105, 185, 150, 365, (*allowed).teardrop},
	{"parallel", 175, 295, 180, -45, (*allowed).parallel},
}

// place is where a flight in still air is, and for how long the wind has blown.
type place struct{ x, y, heading, time float64 }

func (m *allowed) ahead(p place, distance, time float64) place {
	s, c := math.Sincos(p.heading * math.Pi / 180)
	return place{p.x + distance*c, p.y + distance*s, p.heading, p.time + time}
}

func (m *allowed) turn(p place, to float64) place {
	side := math.Copysign(m.r, to-p.heading)
	s0, c0 := math.Sincos(p.heading * math.Pi / 180)
	s1, c1 := math.Sincos(to * math.Pi / 180)
	return place{p.x + side*(s1-s0), p.y - side*(c1-c0), to, p.time + math.Abs(to-p.heading)*m.perTurn/m.w}
}

// fly gives where the flight p of a manner is.
func (f *manner) fly(m *allowed, p [5]float64) place {
	between := func(lo, hi, share float64) float64 { return lo + (hi-lo)*share }
	delay := between(m.delays[0], m.delays[1], p[0])
	arrive := between(f.from, f.to, p[1])
	out := f.out + between(-m.heading, m.heading, p[2])
	if math.Abs(arrive-f.out) <= m.heading {
		out = arrive // no turn for what is within the tolerance
	}
	length, wind := between(m.legs[0].length, m.legs[1].length, p[3]), between(m.legs[0].wind, m.legs[1].wind, p[3])
	// Five pieces, each a fifth of what is flown.
	flown := 5 * p[4]
	piece := func() float64 { share := math.Max(0, math.Min(flown, 1)); flown--; return share }
	at := place{heading: arrive}
	share := piece()
	at = m.ahead(at, m.v*delay*share, delay*share)
	at = m.turn(at, between(arrive, out, piece()))
	share = piece()
	at = m.ahead(at, length*share, wind*share)
	return m.turn(at, between(at.heading, f.second, math.Max(0, math.Min(flown/2, 1))))
}

// reach is how far the wind lets the flight come in a direction.
func (f *manner) reach(m *allowed, p [5]float64, direction float64) float64 {
	at := f.fly(m, p)
	s, c := math.Sincos(direction * math.Pi / 180)
	return at.x*c + at.y*s + m.w*at.time
}

func drawAllowed(rng *rand.Rand) *allowed {
	v := (90 + 250*rng.Float64()) / 3600
	rate := 1.2 + 1.8*rng.Float64()
	w := (5 + 100*rng.Float64()) / 3600
	t := 60 + 30*rng.Float64()
	return &allowed{
		v: v, r: v / (rate * math.Pi / 180), perTurn: w / rate, w: w, delays: [2]float64{5, 11},
		legs:    [2]leg{{v * (t - 5), t - 5}, {v * (t + 21), t + 21}},
		heading: 5,
	}
}

func drawFlight(rng *rand.Rand) (p [5]float64) {
	for i := range p {
		p[i] = rng.Float64()
		if k := rng.IntN(4); k < 2 && i < 4 {
			p[i] = float64(k)
		}
	}
	return p
}

// No permitted flight reaches beyond, and in every direction one comes as far: the best of a
// seeded search that tries what is near the best so far.
func TestReachIsAttainedAndNotPassed(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	aircraft, starts := 4, 60
	if testing.Short() {
		aircraft, starts = 1, 40
	}
	for range aircraft {
		m := drawAllowed(rng)
		for _, f := range manners {
			region := f.region(m)
			worst, passed := 0.0, 0.0
			for direction := 2.5; direction < 360; direction += 15 {
				best := math.Inf(-1)
				for range starts {
					p := drawFlight(rng)
					here := f.reach(m, p, direction)
					for step := 0.25; step > 1e-7; {
						better := false
						for i := range p {
							for _, d := range [2]float64{-step, step} {
								q := p
								q[i] = math.Max(0, math.Min(1, q[i]+d))
								if r := f.reach(m, q, direction); r > here {
									p, here, better = q, r, true
								}
							}
						}
						if !better {
							step /= 3
						}
					}
					best = math.Max(best, here)
				}
				reach := region.Reach(direction)
				passed = math.Max(passed, best-reach)
				if reach-best > worst {
					worst = reach - best
					if worst > 1e-5 {
						t.Logf("%s %v: reach %.6f, best %.6f", f.name, direction, reach, best)
					}
				}
			}
			if passed > 1e-9 || worst > 1e-5 {
				t.Errorf("%s of %+v: passed by %.2e, missed by %.2e NM", f.name, *m, passed, worst)
			}
		}
	}
}
