package timing

import (
	"fmt"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/wind"
)

// stepped flies a lap the way a pilot does, step by step, with nothing of the closed forms in
// it: it turns a little, moves a little, looks where it is. It is the independent check of the
// kernel.
type stepped struct {
	v, wx, wy, rate float64
	in              float64 // heading that makes the course good
	x, y, h, t      float64
	side            hold.Turn
}

const step = 0.005 // s

func newStepped(p hold.Pattern, f hold.Flight) *stepped {
	from := (float64(f.Wind.From) - float64(p.Inbound())) * math.Pi / 180
	if p.Turn() == hold.Left {
		from = -from
	}
	s := &stepped{v: float64(f.TAS) / 3600, rate: float64(f.Rate), side: p.Turn()}
	s.wx, s.wy = -float64(f.Wind.Speed)/3600*math.Cos(from), -float64(f.Wind.Speed)/3600*math.Sin(from)
	s.in = math.Asin(-s.wy/s.v) * 180 / math.Pi
	s.h = s.in
	return s
}

// move flies for dt at a rate of turn, by the heading in the middle.
func (s *stepped) move(rate, dt float64) {
	mid := (s.h + rate*dt/2) * math.Pi / 180
	s.x += (s.v*math.Cos(mid) + s.wx) * dt
	s.y += (s.v*math.Sin(mid) + s.wy) * dt
	s.h += rate * dt
	s.t += dt
}

// turn turns by an angle, up or down.
func (s *stepped) turn(by float64, passed func()) {
	rate := math.Copysign(s.rate, by)
	for left := math.Abs(by) / s.rate; left > 0; left -= step {
		s.move(rate, min(step, left))
		passed()
	}
}

func (s *stepped) straight(for_ float64, passed func()) {
	for left := for_; left > 0; left -= step {
		s.move(0, min(step, left))
		passed()
	}
}

// lap flies one lap; the fix is where x passes 0.
func (s *stepped) lap(plan Plan, start Start, cut float64) (inbound, toAbeam, rollX, rollY, passedY float64) {
	t0, before := s.t, s.x
	abeam := math.NaN()
	look := func() {
		if before > 0 && s.x <= 0 && math.IsNaN(abeam) {
			abeam = s.t - t0 - step*s.x/(s.x-before)
		}
		before = s.x
	}
	out := 180 + float64(s.side.Apply(plan.Correction))
	s.turn(math.Mod(out-s.h+720, 360), look)
	level := s.t - t0
	// Wait for abeam if the clock starts there.
	if (start != AtTurnComplete || plan.Abeams > 0) && math.IsNaN(abeam) {
		for math.IsNaN(abeam) && s.t-t0 < 3600 {
			s.move(0, step)
			look()
		}
	}
	began := level
	switch {
	case start == AtAbeam:
		began = abeam
	case start == AtWingsLevelOrAbeam:
		began = max(level, abeam)
	}
	ends := began + plan.Outbound.Seconds()
	if plan.Abeams > 0 {
		ends = plan.Abeams * abeam
	}
	changes := plan.Change > 0 && began+plan.Change.Seconds() < ends
	if changes {
		s.straight(began+plan.Change.Seconds()-(s.t-t0), look)
		toAbeam = abeam
		by := math.Remainder(180+float64(s.side.Apply(plan.Then))-s.h, 360)
		most := s.rate * max(0, ends-(s.t-t0)) // the inbound turn does not wait for it
		s.turn(max(-most, min(most, by)), look)
	}
	s.straight(ends-(s.t-t0), look)
	if !changes {
		toAbeam = abeam
	}
	if math.IsNaN(toAbeam) { // not on the first outbound heading
		toAbeam = 0
	}
	s.turn(math.Mod(s.in-s.h+720, 360), look)
	rollX, rollY = s.x, s.y
	rolled := s.t
	crossed := math.NaN()
	fix := func() {
		if before < 0 && s.x >= 0 && math.IsNaN(crossed) {
			crossed, passedY = s.t-rolled, s.y
		}
		before = s.x
	}
	if cut != 0 {
		s.turn(cut, fix)
		side := math.Signbit(s.y)
		// Hold the cut until the turn back would roll out on the course.
		radius := s.v / (s.rate * math.Pi / 180)
		lead := func() float64 {
			a, b := s.in*math.Pi/180, s.h*math.Pi/180
			return s.y + math.Copysign(radius, cut)*(math.Cos(a)-math.Cos(b)) + s.wy*math.Abs(cut)/s.rate
		}
		for math.IsNaN(crossed) && math.Signbit(lead()) == side {
			s.move(0, step)
			fix()
		}
		s.turn(-cut, fix)
	}
	for math.IsNaN(crossed) {
		s.move(0, step)
		fix()
	}
	return crossed, toAbeam, rollX, rollY, passedY
}

// againstSteps flies one lap by the kernel and step by step, and says where they differ. It is
// not ok where the two cannot be held against each other: rolled out at the fix or beyond it, or
// never abeam with a clock that waits for it.
func againstSteps(p hold.Pattern, f hold.Flight, plan Plan, cut abeam.Degrees) (l Lap, differs string, ok bool, err error) {
	trial := Trial{Pattern: p, Flight: f, Start: AtAbeam, Strategy: fixed(plan), Intercept: Intercept{Cut: cut}}
	laps, err := trial.AppendLaps(nil, 1)
	if err != nil {
		return Lap{}, "", false, err
	}
	l = laps[0]
	if l.Inbound < 2*time.Second || l.ToAbeam == 0 && (plan.Start != AtTurnComplete || plan.Abeams > 0) {
		return l, "", false, nil
	}
	s := newStepped(p, f)
	inbound, toAbeam, x, y, passed := s.lap(plan, plan.Start, float64(l.Cut))
	// Of a step of 5 ms at the airspeed: the clock starts, and the course is joined, within one. A
	// watch that runs to a multiple of the time abeam multiplies it.
	slack := max(1e-4, step*float64(f.TAS)/3600*max(1, plan.Abeams))
	if math.Abs(inbound-l.Inbound.Seconds()) > 0.02 || math.Abs(toAbeam-l.ToAbeam.Seconds()) > 0.01 ||
		math.Abs(x-float64(l.RollOut.Along)) > slack || math.Abs(y-float64(l.RollOut.Abreast)) > slack || math.Abs(passed-float64(l.Passed)) > max(slack, 5e-4) {
		differs = fmt.Sprintf("flown %+v\nstep by step: inbound %v, abeam %v, rolled out %v %v, passed %v", l, inbound, toAbeam, x, y, passed)
	}
	return l, differs, true, nil
}

func TestLapStepByStep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, f := drawHold(t, 0.35)
		plan := Plan{
			Correction: abeam.Degrees(draw.Uniform(-30, 30).Draw(t, "correction")),
			Outbound:   time.Duration(draw.Uniform(20, 150).Draw(t, "outbound") * 1e9),
			Start:      Start(rapid.IntRange(1, 3).Draw(t, "start")),
		}
		switch rapid.IntRange(0, 3).Draw(t, "kind") {
		case 0:
			plan.Then, plan.Change = abeam.Degrees(draw.Uniform(-30, 30).Draw(t, "then")), time.Duration(draw.Uniform(5, 120).Draw(t, "change")*1e9)
		case 1:
			plan.Abeams = draw.Uniform(1.5, 3).Draw(t, "abeams")
		}
		cut := rapid.SampledFrom([]abeam.Degrees{0, 15, 30, 45}).Draw(t, "cut")
		_, differs, ok, err := againstSteps(p, f, plan, cut)
		if err != nil {
			t.Fatal(err)
		}
		if !ok {
			t.Skip("rolled out at the fix or beyond it, or never abeam")
		}
		if differs != "" {
			t.Fatal(differs)
		}
	})
}

// The same over a fixed spread of holds that is sure to reach every way of a lap: the fix
// passed in the turn by the cut, on the straight, in the turn back and after it; headings that
// change on the way, during the inbound turn among it; watches that read abeam.
func TestLapStepByStepEveryWay(t *testing.T) {
	ways := map[string]int{}
	for i := range 120 {
		part := func(k float64) float64 { return math.Mod(0.5+float64(i)*math.Sqrt(k), 1) } // spread evenly over [0, 1)
		p := pattern(t, abeam.NewBearing(360*part(2)), hold.Turn(i&1), time.Minute)
		f := hold.Flight{TAS: abeam.Knots(80 + 200*part(3)), Rate: hold.Rate(1.5 + 1.5*part(5))}
		f.Wind = wind.Wind{From: abeam.NewBearing(360 * part(7)), Speed: f.TAS * abeam.Knots(0.35*part(11))}
		plan := Plan{
			Correction: abeam.Degrees(-40 + 80*part(13)), Outbound: time.Duration((5 + 70*part(17)) * 1e9), Start: Start(1 + i%3),
		}
		switch i % 4 {
		case 0:
			plan.Then, plan.Change = abeam.Degrees(-40+80*part(19)), time.Duration(80*part(23)*1e9)
		case 1:
			plan.Abeams = 1.5 + part(19)
		}
		cut := []abeam.Degrees{0, 30, 45, 60}[i/4%4]
		l, differs, ok, err := againstSteps(p, f, plan, cut)
		if err != nil {
			t.Fatal(err)
		}
		if !ok {
			continue
		}
		if differs != "" {
			t.Fatalf("lap %d: %s", i, differs)
		}
		turn := l.Cut.Abs() / abeam.Degrees(f.Rate)
		switch in := abeam.Degrees(l.Inbound.Seconds()); {
		case l.Cut == 0:
			ways["on the inbound heading"]++
		case in < turn:
			ways["in the turn by the cut"]++
		case math.Abs(float64(l.Passed)) < 1e-9:
			ways["on the course"]++
		default:
			ways["cutting or turning back"]++
		}
	}
	t.Log(ways)
	if len(ways) != 4 {
		t.Errorf("ways that the fix was passed: %v", ways)
	}
}

// Joining the course: what is flown ends on the course if there is room, never beyond it, and
// by the largest cut that fits.
func TestInterceptEndsOnTheCourse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, f := drawHold(t, 0.35)
		plan := Plan{Correction: abeam.Degrees(draw.Uniform(-30, 30).Draw(t, "correction")), Outbound: 3 * time.Minute, Start: AtTurnComplete}
		cut := rapid.SampledFrom([]abeam.Degrees{0, 10, 30, 60}).Draw(t, "cut")
		laps, err := Trial{Pattern: p, Flight: f, Start: AtAbeam, Strategy: fixed(plan), Intercept: Intercept{Cut: cut}}.AppendLaps(nil, 1)
		if err != nil {
			t.Fatal(err)
		}
		l := laps[0]
		y, passed := float64(l.RollOut.Abreast), float64(l.Passed)
		if cut == 0 || l.Cut == 0 || l.Inbound < 0 {
			if l.Cut != 0 || passed != y {
				t.Fatalf("no cut: %+v", l)
			}
			return
		}
		if (l.Cut < 0) != (y > 0) || math.Abs(passed) > math.Abs(y)+1e-12 || passed*y < -1e-12 {
			t.Fatalf("turned the wrong way or beyond: %+v", l)
		}
		switch l.Cut.Abs() {
		case cut, cut / 2, cut / 4, cut / 8, cut / 16:
		default:
			t.Fatalf("cut %v of %v", l.Cut, cut)
		}
	})
}
