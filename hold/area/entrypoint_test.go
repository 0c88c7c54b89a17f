package area

import (
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
)

// direct flies an entry by small steps through the air, in the course frame: from the fix on a
// heading (degrees from the inbound course towards the holding side), straight, a turn to an
// outbound heading, the leg, and a last turn. It gives the farthest that the track and a wind
// of a speed from anywhere come outbound and to the holding side.
type direct struct {
	v, wind, rate       float64 // NM/s, deg/s
	heading, outbound   float64 // degrees
	before, leg, turned float64 // s straight after the fix, s outbound, degrees of the last turn
}

func (d direct) farthest() (outbound, aside float64) {
	const steps = 5000
	var x, y, t float64
	outbound, aside = math.Inf(-1), math.Inf(-1)
	fly := func(seconds, from, to float64) {
		dt := seconds / steps
		for i := range steps {
			s, c := math.Sincos((from + (to-from)*(float64(i)+0.5)/steps) * math.Pi / 180)
			x, y, t = x+c*d.v*dt, y+s*d.v*dt, t+dt
			outbound, aside = max(outbound, -x+d.wind*t), max(aside, y+d.wind*t)
		}
	}
	fly(d.before, d.heading, d.heading)
	fly((d.outbound-d.heading)/d.rate, d.heading, d.outbound)
	fly(d.leg, d.outbound, d.outbound)
	fly(d.turned/d.rate, d.outbound, d.outbound+d.turned)
	return outbound, aside
}

func entryOf(l Lines, heading, outbound, leg float64) direct {
	return direct{
		v: l.V, wind: l.W, rate: float64(l.Rate), heading: heading, outbound: outbound,
		before: 11, leg: leg, turned: 180,
	}
}

// lastTurn is what 15 degrees of wind without a loss are over the extreme of a turn in the
// wind, which comes where the turn takes back what the wind adds.
func lastTurn(l Lines) float64 {
	ratio := l.W / l.V
	theta := math.Asin(ratio)
	return float64(l.Radius) * (ratio*15*math.Pi/180 - (math.Cos(theta) - 1 + theta*ratio))
}

// XE is the entry flown, to the extreme of the last turn, plus what the turn takes back over
// the 15 degrees: nothing without wind, and not below the truth to a wind of 0.51 of
// the airspeed.
func TestXEIsTheEntryAcrossTheCourse(t *testing.T) {
	for _, d := range []Design{
		{IAS: 140, Altitude: 6000, Outbound: 2 * time.Minute}, {IAS: 220, Altitude: 10000},
		{IAS: 220, Altitude: 10000, Calm: true}, {IAS: 100, Altitude: 3000, Wind: 53},
		{IAS: 220, Altitude: 10000, Length: 6}, {IAS: 220, Altitude: 10000, Length: 6, Calm: true},
	} {
		l, err := d.Lines()
		if err != nil {
			t.Fatal(err)
		}
		leg := l.Time.Seconds() + 10 + 5
		carried := 0.0
		if d.Length != 0 { // the wind does not count along the leg
			leg, carried = l.Time.Seconds()+11, l.W*l.Time.Seconds()
		}
		outbound, _ := entryOf(l, 90, 180, leg).farthest()
		over := float64(l.XE) - (outbound - carried)
		if want := lastTurn(l); math.Abs(over-want) > 2e-6 {
			t.Errorf("%v: %v over the entry flown, want %v", d, over, want)
		}
		if ratio := l.W / l.V; ratio <= 0.51 && over < -2e-6 {
			t.Errorf("%v: %v short at a wind of %.3f of the airspeed", d, -over, ratio)
		}
	}
	// Beyond that the formula falls short, as the documentation says.
	l, err := Design{IAS: 100, Altitude: 3000, Wind: 56}.Lines()
	if err != nil {
		t.Fatal(err)
	}
	outbound, _ := entryOf(l, 90, 180, l.Time.Seconds()+15).farthest()
	if ratio := l.W / l.V; ratio < 0.52 || ratio > 0.53 || float64(l.XE) >= outbound {
		t.Errorf("wind %.3f of the airspeed: XE %v, flown %v", ratio, l.XE, outbound)
	}
}

// YE is the entry from 20 degrees short of square, outbound 5 degrees to the holding side,
// over it by what XE is and by tan 5 in place of sin 5; of the direct entries from 70 degrees
// and more it is the farthest, and from less it is not.
func TestYEIsTheEntryShortOfSquare(t *testing.T) {
	for _, d := range []Design{
		{IAS: 140, Altitude: 6000, Outbound: 2 * time.Minute}, {IAS: 220, Altitude: 10000}, {IAS: 265, Altitude: 31000},
	} {
		l, err := d.Lines()
		if err != nil {
			t.Fatal(err)
		}
		leg := l.Time.Seconds() + 15
		_, at70 := entryOf(l, 70, 175, leg).farthest()
		sin5, cos5 := math.Sincos(5 * math.Pi / 180)
		want := lastTurn(l) + leg*l.V*(sin5/cos5-sin5)
		if over := float64(l.YE) - at70; math.Abs(over-want) > 2e-6 {
			t.Errorf("%v: YE is %v beyond the entry flown, want %v", d, over, want)
		}
		for heading := 75.0; heading <= 110; heading += 5 {
			if _, y := entryOf(l, heading, 175, leg).farthest(); y >= at70 {
				t.Errorf("%v: from %v degrees %v, from 70 %v", d, heading, y, at70)
			}
		}
		if _, y := entryOf(l, 50, 175, leg).farthest(); y <= float64(l.YE) {
			t.Errorf("%v: from 50 degrees only %v, YE %v", d, y, l.YE)
		}
	}
	// In still air the parts are exact: 11 v cos 20, r (1 + sin 20), and the leg at 5 degrees.
	l, err := Design{IAS: 220, Altitude: 10000, Calm: true, Allowances: Allowances{Bank: 5 * time.Second, Reaction: 6 * time.Second, Timing: 10 * time.Second}}.Lines()
	if err != nil {
		t.Fatal(err)
	}
	if _, y := entryOf(l, 70, 180, l.Time.Seconds()+15).farthest(); math.Abs(float64(l.YE)-y) > 1e-6 {
		t.Errorf("YE %v, flown %v", l.YE, y)
	}
}

// The 15 s of XE leave out the reaction that i2 has: with it, 21 s, XE is 6 (v + w') more.
func TestXELeavesOutTheReaction(t *testing.T) {
	l, err := Design{IAS: 220, Altitude: 10000}.Lines()
	if err != nil {
		t.Fatal(err)
	}
	book, _ := entryOf(l, 90, 180, 60+15).farthest()
	late, _ := entryOf(l, 90, 180, 60+21).farthest()
	if math.Abs(late-book-6*(l.V+l.W)) > 1e-6 {
		t.Errorf("%v more, want %v", late-book, 6*(l.V+l.W))
	}
}

// Arrivals beyond square, to the edge of the sector at 110 degrees, against XE: a hundredth of
// a mile in the book's wind, seconds of flight in none.
func TestArrivalsBeyondSquare(t *testing.T) {
	most := 0.0
	for _, ias := range []abeam.Knots{90, 130, 170, 210, 250, 280} {
		for _, altitude := range []abeam.Feet{0, 8000, 20000, 34000} {
			for _, calm := range []bool{false, true} {
				l := given(Design{IAS: ias, Altitude: altitude, Calm: calm}.Lines())
				if l.W > 0.5*l.V {
					continue
				}
				for _, heading := range []float64{70, 80, 95, 100, 105, 110} {
					x, _ := entryOf(l, heading, 180, l.Time.Seconds()+15).farthest()
					over := x - float64(l.XE)
					if calm && over > 2.7*l.V || !calm && over > 0.01 || heading < 90 && over > 0 {
						t.Errorf("%v at %v, calm %v, from %v: %v NM, %v s beyond XE", ias, altitude, calm, heading, over, over/l.V)
					}
					if calm {
						most = max(most, over/l.V)
					}
				}
			}
		}
	}
	if most < 2.6 {
		t.Errorf("%v s", most)
	}
}
