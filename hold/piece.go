package hold

import "math"

// motion is where a varying flight is: the heading in radians from the course towards the
// holding side, not reduced, and the place in the course frame in NM.
type motion struct{ h, x, y float64 }

// pieceKind says how the bank behaves on a piece.
type pieceKind uint8

const (
	straight  pieceKind = iota // wings level on one heading
	rollIn                     // bank grows from level
	turning                    // as the rule has it
	rollOut                    // bank falls to level
	alongside                  // on the course, the heading following the wind
)

// piece is a stretch of the circuit over which the motion is smooth but for the kinks of
// the flow.
type piece struct {
	kind   pieceKind
	phase  Phase
	t0, t1 float64
	bank   float64 // at the start of a roll out, radians
	which  uint8   // of the two turns
	start  motion
}

// turnLimit is a turn rule in the units of the kernel; zero does not limit.
type turnLimit struct {
	rate float64 // rad/s
	pull float64 // g tan(bank), NM/s2: over the airspeed the rate of turn at that bank
}

// gravityNM is the acceleration of free fall in NM/s².
const gravityNM = gravity / 1852

func limitOf(r TurnRule) turnLimit {
	l := turnLimit{rate: float64(r.Rate) * (math.Pi / 180)}
	if r.Bank != 0 {
		l.pull = gravityNM * math.Tan(float64(r.Bank)*(math.Pi/180))
	}
	return l
}

// at is the rate of turn at an airspeed.
func (l *turnLimit) at(v float64) float64 {
	if l.pull == 0 {
		return l.rate
	}
	if byBank := l.pull / v; l.rate == 0 || byBank < l.rate {
		return byBank
	}
	return l.rate
}

// bank is that of the turn at an airspeed, in radians.
func (l *turnLimit) bankAt(v float64) float64 { return math.Atan(l.at(v) * v / gravityNM) }

// rate of turn at a time on a piece.
func (q *varyingLap) rate(p *piece, t, v float64) float64 {
	switch p.kind {
	case rollIn:
		return gravityNM / v * math.Tan(q.roll*(t-p.t0))
	case turning:
		return q.limits[p.which].at(v)
	case rollOut:
		return gravityNM / v * math.Tan(p.bank-q.roll*(t-p.t0))
	}
	return 0
}

// Gauss's method of 4 stages and order 8 (from memory: Hairer, Norsett and Wanner,
// Solving Ordinary Differential Equations I, II.7; the coefficients were worked to 20
// digits from the roots of the Legendre polynomial and its Lagrange polynomials). The rate
// of turn depends on neither heading nor place, and the velocity on the heading only, so
// that the stages need no iteration.
var (
	gaussNode   = [4]float64{0.06943184420297371239, 0.33000947820757186760, 0.66999052179242813240, 0.93056815579702628761}
	gaussWeight = [4]float64{0.17392742256872692869, 0.32607257743127307131, 0.32607257743127307131, 0.17392742256872692869}
	gaussStage  = [4][4]float64{
		{0.08696371128436346434, -0.02660418008499879331, 0.01262746268940472452, -0.00355514968579568316},
		{0.18811811749986807165, 0.16303628871563653566, -0.02788042860247089522, 0.00673550059453815552},
		{0.16719192197418877317, 0.35395300603374396654, 0.16303628871563653566, -0.01419069493114114296},
		{0.17748257225452261184, 0.31344511474186834680, 0.35267675751627186463, 0.08696371128436346434},
	}
)

// The longest steps. Over a step of a twelfth of a circle Gauss's method errs by 2e-12 of
// the radius; the wind and the airspeed of a minute's climb are smoother than that.
const (
	maxTurnStep = math.Pi / 6
	maxTimeStep = 60.0
	rollSteps   = 2
)

// advance flies a part of a piece, from t0 to t1, which may be earlier.
func (q *varyingLap) advance(p *piece, m *motion, t0, t1 float64) {
	for range len(q.fl.kinks) + 1 { // each stretch ends at a kink or at t1, whatever the times
		if t0 == t1 {
			break
		}
		next := t1
		for _, k := range q.fl.kinks { // a few; the first on the way
			if k > t0 && k < next || k < t0 && k > next {
				next = k
			}
		}
		span := math.Abs(next - t0)
		n := math.Ceil(span / maxTimeStep * q.fine)
		switch p.kind {
		case rollIn, rollOut:
			n = rollSteps * q.fine
		case turning:
			turned := span * q.limits[p.which].at(q.fl.at(t0).v)
			n = math.Max(n, math.Ceil(turned/maxTurnStep*q.fine))
		}
		if !(n > 1) { // nor a number: the motion is to show it
			n = 1
		}
		n = math.Min(n, 10000)
		dt := (next - t0) / n
		for i := 0.0; i < n; i++ {
			q.step(p, m, t0+i*dt, dt)
		}
		t0 = next
	}
}

// step is one step of Gauss's method.
func (q *varyingLap) step(p *piece, m *motion, t, dt float64) {
	var a [4]air
	var rate [4]float64
	for i := range a {
		at := t + gaussNode[i]*dt
		a[i] = q.fl.at(at)
		rate[i] = q.rate(p, at, a[i].v)
	}
	var dh, dx, dy float64
	s, c := 0.0, 1.0
	if p.kind == straight {
		s, c = math.Sincos(m.h)
	}
	for i := range a {
		w := gaussWeight[i]
		switch p.kind {
		case alongside:
			_, along := a[i].crab()
			dx += w * along
			continue
		case straight:
		default:
			g := &gaussStage[i]
			s, c = math.Sincos(m.h + dt*(g[0]*rate[0]+g[1]*rate[1]+g[2]*rate[2]+g[3]*rate[3]))
			dh += w * rate[i]
		}
		dx += w * (a[i].v*c + a[i].wx)
		dy += w * (a[i].v*s + a[i].wy)
	}
	m.h += dt * dh
	m.x += dt * dx
	m.y += dt * dy
	if p.kind == alongside {
		m.h, _ = q.fl.at(t + dt).crab()
	}
}
