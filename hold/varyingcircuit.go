package hold

import (
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/internal/clock"
)

// Moment is a moment of a varying flight.
type Moment struct {
	Time     time.Duration // since over the fix
	At       Point
	Heading  abeam.Bearing
	Altitude abeam.Feet
	TAS      abeam.Knots
}

// VaryingCircuit is one lap of a varying flight that closes exactly: from over the fix on
// the heading that makes the inbound course good there, to over the fix again. Either turn
// lasts from the delay before it to wings level after it.
type VaryingCircuit struct {
	OutboundHeading abeam.Bearing
	OverFix         Moment
	RollOut         Moment // wings level outbound
	TurnIn          Moment // the end of the outbound leg; the delay and the turn follow
	Established     Moment // wings level inbound, on the course
	End             Moment // over the fix

	OutboundTurn Arc
	InboundTurn  Arc
	Straight     time.Duration // on the outbound heading, from wings level to TurnIn
	ToAbeam      time.Duration // as in Circuit
	Clock        time.Duration // as in Circuit
	Inbound      time.Duration // on the course, the heading following the wind
	Lap          time.Duration // exactly the sum of the four legs
	Notes        Notes

	lap varyingTrack
}

// VaryingCircuit finds the lap of a varying flight that closes on the fix with the
// pattern's leg, of any kind. The inbound leg follows the course; the outbound leg is one
// heading.
//
// There is no closed form. The motion is integrated by Gauss's method of order 8, in steps
// of at most 30 degrees of turn that end where the wind profile, the atmosphere or the
// turn rule has a kink; the outbound heading, the outbound time and the end of the inbound
// turn are then found by Broyden's method from the circuit in the mean wind. The error is
// below 1e-8 s, degrees and NM: steps of a third move no result of 300 drawn flights by
// more.
// Where nothing varies the result is that of [Pattern.Circuit].
//
// A DME leg takes the station to be where its reading over the fix puts it at the altitude
// at which the lap begins; the outbound leg ends on the reading at the altitude there.
//
// It allocates nothing for a profile of up to 64 levels.
//
// Errors: [abeam.ErrInvalid] as for [Varying.Validate] and for a pattern out of range;
// [abeam.ErrUnflyable] as [Pattern.Circuit] in the mean wind, for a wind as strong as the
// airspeed anywhere on the lap, a turn too short to roll into and out of, or an outbound
// leg after which the inbound turn comes out beyond the fix; [abeam.ErrNoConvergence]
// where no circuit is found.
func (p Pattern) VaryingCircuit(v Varying) (VaryingCircuit, error) {
	const op = "hold.Pattern.VaryingCircuit"
	if err := p.leg.validate(op); err != nil {
		return VaryingCircuit{}, err
	}
	if err := v.validate(op); err != nil {
		return VaryingCircuit{}, err
	}
	var c VaryingCircuit
	if err := c.solve(op, &p, &v, 1); err != nil {
		return VaryingCircuit{}, err
	}
	return c, nil
}

// solve is VaryingCircuit for what has been validated; fine divides the steps.
func (c *VaryingCircuit) solve(op string, p *Pattern, v *Varying, fine float64) error {
	var levels [64]airLevel
	var kinks [72]float64
	q := newVaryingLap(p, v, fine, levels[:0], kinks[:0])
	var z [3]float64
	if err := q.start(op, p, v, &z); err != nil {
		return err
	}
	if !q.solve(&z) {
		if q.fl.tooSlow {
			return tooStrong(op)
		}
		return check.NoConvergence(op, "circuit", "none", "one that closes on the fix")
	}
	// Only the lap itself counts, not those tried on the way.
	q.fl.tooSlow = false
	q.flyHome(&z)
	return c.fill(op, p, &q, &z)
}

func tooStrong(op string) error {
	return check.Unflyable(op, "winds", "along the lap", "weaker than the true airspeed everywhere")
}

// start gives the three times of the circuit in the air two minutes on, the middle of a
// usual lap, with the delays and the rolls taken off.
func (q *varyingLap) start(op string, p *Pattern, v *Varying, z *[3]float64) error {
	a := q.fl.at(120)
	if q.fl.tooSlow {
		return tooStrong(op)
	}
	rates := [2]float64{q.limits[0].at(a.v), q.limits[1].at(a.v)} // rad/s
	f := Flight{TAS: abeam.Knots(a.v / perSecond), Altitude: abeam.Feet(q.fl.altitude(120))}
	perRate := (1/rates[0] + 1/rates[1]) / 2 * (math.Pi / 180)
	wx, wy := a.wx/a.v, a.wy/a.v
	fr := frame{wx: wx, wy: wy, w: math.Hypot(wx, wy), perRate: perRate, r: perRate * (180 / math.Pi), sinIn: -wy}
	fr.cosIn = math.Sqrt((1 - wy) * (1 + wy))
	fr.g = fr.cosIn + wx
	in, err := fr.inboundTime(op, p, &f)
	if err != nil {
		return err
	}
	dx, dy, _, t, ok := fr.solve(in)
	if !ok {
		return fr.noOutboundLeg(op, &p.leg, &f)
	}
	turned := angle.Atan2(dy, dx) - angle.Asin(fr.sinIn)
	if turned < 0 {
		turned += 360
	}
	for i, angle := range [2]float64{turned, 360 - turned} {
		rolling := 0.0
		if q.roll > 0 {
			// Rolling in or out at p turns through g/(V p) -ln cos(bank).
			rolling = -2 * gravityNM / (a.v * q.roll) * math.Log(math.Cos(q.limits[i].bankAt(a.v)))
		}
		z[2*i] = math.Max(0, (angle*(math.Pi/180)-rolling)/rates[i])
	}
	z[1] = t
	switch p.leg.kind {
	case InboundTimed:
		q.want = p.leg.time.Seconds()
	case OutboundTimed:
		q.want = p.leg.time.Seconds()
	case OutboundDME:
		f.Altitude = v.Ascent.From
		e, err := dmeEnd(op, &p.leg, &f)
		if err != nil {
			return err
		}
		q.want, q.elevation = float64(p.leg.distance), float64(p.leg.station.Elevation)
		q.station = e.station * a.v
	default:
		q.want = float64(p.leg.distance)
	}
	return nil
}

// fill takes the results from the lap.
func (c *VaryingCircuit) fill(op string, p *Pattern, q *varyingLap, z *[3]float64) error {
	if !(z[0] >= 0 && z[2] >= 0) {
		return check.Unflyable(op, "roll rate", abeam.Degrees(q.roll*180/math.Pi), "fast enough to roll into and out of each turn")
	}
	if !(z[1] >= -1e-9) {
		return p.leg.tooShort(op, "the turns join before the leg begins")
	}
	inbound, end, ok := q.inbound()
	if q.fl.tooSlow {
		return tooStrong(op)
	}
	if !ok || inbound < -1e-9 {
		return p.leg.tooShort(op, "in this wind the inbound turn comes out beyond the fix")
	}
	c.OutboundTurn = Arc{Angle: abeam.Degrees((q.rolledOut.m.h - q.pieces[0].start.h) * (180 / math.Pi))}
	c.InboundTurn = Arc{Angle: abeam.Degrees((q.level.m.h - q.call.m.h) * (180 / math.Pi))}
	toAbeam, in := q.abeam()
	times := [5]float64{q.rolledOut.t, math.Max(0, z[1]), q.level.t - q.call.t, math.Max(0, inbound), toAbeam}
	for i, to := range [5]*time.Duration{&c.OutboundTurn.Time, &c.Straight, &c.InboundTurn.Time, &c.Inbound, &c.ToAbeam} {
		if *to, ok = clock.Duration(times[i]); !ok {
			return check.Unflyable(op, "winds", "along the lap", "weak enough for the circuit to end")
		}
	}
	c.Lap = c.OutboundTurn.Time + c.Straight + c.InboundTurn.Time + c.Inbound
	c.Clock = max(0, c.Straight-max(0, c.ToAbeam))
	at := time.Duration(0)
	c.OverFix = q.moment(p, at, corner{m: q.pieces[0].start})
	at += c.OutboundTurn.Time
	c.RollOut = q.moment(p, at, q.rolledOut)
	at += c.Straight
	c.TurnIn = q.moment(p, at, q.call)
	at += c.InboundTurn.Time
	c.Established = q.moment(p, at, q.level)
	c.End = q.moment(p, c.Lap, corner{q.level.t + inbound, end})
	c.OutboundHeading = c.RollOut.Heading
	c.Notes = c.notes(p, in, math.Cos(q.call.m.h) > 0)
	c.lap = varyingTrack{pattern: *p, varying: *q.fl.v, times: *z, inbound: inbound}
	return nil
}

func (c *VaryingCircuit) notes(p *Pattern, abeamIn Phase, pointsInbound bool) (ns Notes) {
	switch abeamIn {
	case OutboundTurn:
		ns |= Notes(AbeamInTurn)
	case InboundTurn:
		ns |= Notes(AbeamAfterOutbound)
	}
	if pointsInbound {
		ns |= Notes(OutboundPointsInbound)
	}
	if c.Straight == 0 {
		ns |= Notes(NoOutboundLeg)
	}
	if p.leg.kind != InboundTimed && c.Inbound < leastInbound {
		ns |= Notes(ShortInbound)
	}
	return ns
}

func (q *varyingLap) moment(p *Pattern, at time.Duration, c corner) Moment {
	return Moment{
		Time: at, At: Point{abeam.NM(c.m.x), abeam.NM(c.m.y)},
		Heading:  p.compass(c.m.h * (180 / math.Pi)),
		Altitude: abeam.Feet(q.fl.altitude(c.t)),
		TAS:      abeam.Knots(q.fl.at(c.t).v / perSecond),
	}
}

// abeam finds the time from wings level outbound to abeam the fix, and the phase in which
// that is. Along rises from the fix and falls through 0 once more: the piece at whose end
// it has is followed in eighths, and Newton's method does the rest.
func (q *varyingLap) abeam() (t float64, in Phase) {
	p := &q.pieces[0]
	for i := range q.n {
		if p = &q.pieces[i]; q.pieces[i+1].start.x <= 0 {
			break
		}
	}
	m := p.start
	for k := range 8 {
		lo := p.t0 + (p.t1-p.t0)*(float64(k)/8)
		hi := p.t0 + (p.t1-p.t0)*(float64(k+1)/8)
		if q.advance(p, &m, lo, hi); m.x <= 0 {
			t, _ = q.crossing(p, &m, lo, hi)
			return t - q.rolledOut.t, p.phase
		}
	}
	// At the very end of the piece, but for rounding: in still air that of the first turn.
	return p.t1 - q.rolledOut.t, p.phase
}

// crossing finds where the motion falls through x = 0 between two times, from its state at
// the second, and in how many steps of Newton's method. In the outbound turn along is
// concave and the steps come down on the root, not on the fix at the start; the bracket is
// for where along has hardly a slope.
func (q *varyingLap) crossing(p *piece, m *motion, lo, hi float64) (t float64, steps int) {
	t = hi
	for steps = range 30 {
		a := q.fl.at(t)
		step := -m.x / (a.v*math.Cos(m.h) + a.wx)
		next := math.Min(t+step, hi)
		if !(next > lo) {
			next = lo
		}
		q.advance(p, m, t, next)
		t = next
		if math.Abs(step) < 1e-10 {
			break
		}
	}
	return t, steps
}
