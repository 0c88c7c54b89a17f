package hold

import (
	"errors"
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

// endsAt are ends of each kind, at want seconds or airspeed seconds: the stations lie so
// that a leg of want seconds in still air fits.
func endsAt(want float64) []end {
	return []end{
		{kind: OutboundTimed, want: want},
		{kind: OutboundLength, want: want},
		{kind: OutboundDME, want: want + 100, fix: 100, station: 100},
		{kind: OutboundDME, want: 100, fix: want + 100, station: -want - 100, away: true},
	}
}

func (e *end) String() string {
	return fmt.Sprintf("%v of %v, station at %v", e.kind, e.want, e.station)
}

// memberAt is the circuit of inbound time s in wind share V from a direction, course 0.
func memberAt(fr *frame, s float64) *member {
	var m member
	m.set(fr, math.Asin(fr.sinIn)*(180/math.Pi), s)
	return &m
}

// The clock from wings level against the family: the circuit has the outbound time and is
// past abeam at the roll-out; and where there is said to be none, no neighbours of the
// family that are past abeam at the roll-out have the time between theirs.
func TestClockAgainstFamily(t *testing.T) {
	given, none := 0, 0
	for _, share := range []float64{0.1, 0.3, 0.5, 0.7, 0.9} {
		for from := abeam.Bearing(0); from < 360; from += 15 {
			fr := frameOf(t, from, share)
			for _, want := range []float64{10, 60, 115, 200, 600} {
				s, ok := fr.clockFromLevel(want)
				if ok {
					given++
					if m := memberAt(&fr, s); !near.Equal(m.t, want, 1e-8) || m.x1 > 1e-8 || m.ux > 0 || s < 0 {
						t.Errorf("wind from %v at %v V, clock %v: inbound %v is %+v", from, share, want, s, m)
					}
					continue
				}
				none++
				last := memberAt(&fr, fr.least())
				for i := range 400 {
					m := memberAt(&fr, fr.least()+2*float64(i))
					if last.x1 <= 0 && m.x1 <= 0 && last.t < want && m.t >= want {
						t.Errorf("wind from %v at %v V, clock %v: none, but by inbound %v it is %v", from, share, want, m.s, m.t)
					}
					last = m
				}
			}
		}
	}
	if given < 100 || none < 100 {
		t.Errorf("%d given, %d not", given, none)
	}
}

// The edges by hand. In still air the roll-out is abeam the fix itself, and the legs are
// equal. Across a wind of V/2 the least leg lasts T w/(V - w) = 120 s, square to the course,
// and without a wind along it the inbound turn comes out at the fix.
func TestClockFromLevelAtItsLimits(t *testing.T) {
	still := frameOf(t, 0, 0)
	if s, ok := still.clockFromLevel(75); s != 75 || !ok {
		t.Errorf("still air: %v, %v", s, ok)
	}
	across := frameOf(t, 270, 0.5)
	if s, ok := across.clockFromLevel(120); s != 0 || !ok {
		t.Errorf("square: %v, %v", s, ok)
	}
	if s, ok := across.clockFromLevel(120 - 1e-9); ok {
		t.Errorf("less than square: %v", s)
	}
	c, err := legPattern(t, TimedOutbound(2*time.Minute)).Circuit(Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 270, Speed: 60}})
	if err != nil || c.Inbound != 0 || c.Clock != 2*time.Minute {
		t.Errorf("square: inbound %v, clock %v, %v", c.Inbound, c.Clock, err)
	}
}

// Without crosswind the start is the answer.
func TestStartWithoutCrosswind(t *testing.T) {
	for _, share := range []float64{0, 0.1, 0.3, 0.45} {
		for _, from := range []abeam.Bearing{0, 180} {
			fr := frameOf(t, from, share)
			for _, e := range endsAt(90) {
				if e.kind == OutboundTimed && from == 0 {
					continue // in a headwind from wings level
				}
				s := e.start(&fr)
				if over, _ := e.over(&fr, memberAt(&fr, s)); !near.Equal(over, 0, 1e-9) || s < fr.least() {
					t.Errorf("wind from %v at %v V, %v: starts at %v, %v over", from, share, &e, s, over)
				}
			}
		}
	}
	// A ring of radius 30 about the station does not hold the width of 40: 27 abreast it is
	// sqrt(900 - 729) = 13.0767 along, 3.0767 beyond a fix 10 short of the station or
	// 36.9233 short of one 50 beyond it.
	fr := frame{perRate: 1.0 / 3, r: 20, cosIn: 1, g: 1}
	for _, tc := range []struct {
		e    end
		want float64
	}{
		{end{kind: OutboundDME, want: 30, fix: 10, station: 10}, 3.0767},
		{end{kind: OutboundDME, want: 30, fix: 50, station: -50, away: true}, 36.9233},
	} {
		if s := tc.e.start(&fr); !near.Equal(s, tc.want, 1e-4) {
			t.Errorf("%v: starts at %v, want %v", &tc.e, s, tc.want)
		}
	}
}

// The scan ends where every leg has passed its end, or the station.
func TestMostOfSlowTurns(t *testing.T) {
	for _, rate := range []Rate{MinRate, 3} {
		for _, share := range []float64{0, 0.05, 0.3, 0.6, 0.9} {
			for from := abeam.Bearing(0); from < 360; from += 15 {
				p := minutePattern(t, 0, Right)
				var fr frame
				if err := fr.set("test", &p, &Flight{TAS: 100, Rate: rate, Wind: wind.Wind{From: from, Speed: abeam.Knots(100 * share)}}); err != nil {
					t.Fatal(err)
				}
				for _, want := range []float64{1e-3, 10, 60, 600, 3600} {
					for _, e := range endsAt(want) {
						m := memberAt(&fr, math.Max(fr.least(), e.most(&fr)))
						over, _ := e.over(&fr, m)
						if passed := over >= 0 || e.away && m.x2 <= e.station; !passed {
							t.Errorf("wind from %v at %v V, %v: %v over at most, %+v", from, share, &e, over, m)
						}
					}
				}
			}
		}
	}
}

// Newton's method takes two to four steps in ordinary winds, one without crosswind, and
// comes to the end to rounding; of a leg far shorter than a second, on its own scale.
func TestNewton(t *testing.T) {
	for _, share := range []float64{0, 0.1, 0.2, 0.3} {
		for from := abeam.Bearing(0); from < 360; from += 15 {
			fr := frameOf(t, from, share)
			for _, e := range endsAt(90) {
				if _, ok := fr.clockFromLevel(e.want); ok && e.kind == OutboundTimed {
					continue
				}
				var m member
				s, steps, ok := fr.newton(&e, &m, math.Asin(fr.sinIn)*(180/math.Pi), fr.least())
				over, _ := e.over(&fr, memberAt(&fr, s))
				most := 4
				if math.Abs(fr.wy) < 1e-15 {
					most = 1
				}
				if !ok || steps > most || !near.Equal(over, 0, 1e-9) || s < fr.least() {
					t.Errorf("wind from %v at %v V, %v: %v after %d steps, %v, %v over", from, share, &e, s, steps, ok, over)
				}
			}
		}
	}
	for _, across := range []float64{1e-6, 1e-5} {
		fr := frameOf(t, 90, across)
		for _, want := range []float64{3e-3, 1e-2, 0.1} {
			e := end{kind: OutboundLength, want: want}
			var m member
			s, steps, ok := fr.newton(&e, &m, math.Asin(fr.sinIn)*(180/math.Pi), fr.least())
			over, _ := e.over(&fr, memberAt(&fr, s))
			if !ok || !near.Equal(over, 0, 1e-9*want) {
				t.Errorf("short leg %v across %v: %v after %d steps, %v, %v over", want, across, s, steps, ok, over)
			}
		}
	}
}

// The scan gives the first circuit of the family that passes the end, as four thousand even
// steps find it, or none where they do not; and of a DME limit none where that circuit is
// inside the ring a moment before.
func TestSearch(t *testing.T) {
	const n = 4000
	found, leaving, none := 0, 0, 0
	for _, share := range []float64{0, 0.2, 0.5, 0.8} {
		for from := abeam.Bearing(0); from < 360; from += 20 {
			fr := frameOf(t, from, share)
			in, least := math.Asin(fr.sinIn)*(180/math.Pi), fr.least()
			for _, want := range []float64{0.01, 5, 40, 100} {
				for i, e := range endsAt(want) {
					last, first := math.NaN(), math.NaN()
					step := math.Max(0, e.most(&fr)-least) / n
					for j := range n + 1 {
						s := least + step*float64(j)
						over, _ := e.over(&fr, memberAt(&fr, s))
						if last <= 0 && over >= 0 {
							first = s
							break
						}
						last = over
					}
					leg := []Leg{TimedOutbound(1), LengthOutbound(1), DMELimit(Station{}, 1), DMELimit(Station{}, 1)}[i]
					s, err := fr.search("test", &leg, &e, in, least)
					if err != nil {
						switch m := memberAt(&fr, first); {
						case math.IsNaN(first):
							none++
						case e.away && math.Hypot(m.x2-m.gx-e.station, m.y2-m.gy) < e.want:
							leaving++
						default:
							t.Errorf("wind from %v at %v V, %v: %v, steps find %v", from, share, &e, err, first)
						}
						continue
					}
					found++
					over, _ := e.over(&fr, memberAt(&fr, s))
					if !(s <= first+1e-9 && s >= first-step-1e-9) || !near.Equal(over, 0, 1e-6) {
						t.Errorf("wind from %v at %v V, %v: %v, %v over, steps find %v", from, share, &e, s, over, first)
					}
				}
			}
		}
	}
	if found < 100 || leaving < 10 || none < 100 {
		t.Errorf("%d found, %d leaving, %d none", found, leaving, none)
	}
}

// To the last bit. In still air the legs are equal: the scan gives the length itself, also
// where it is one of its points, at an eighth of its span: with a radius of 3.5 that is
// 7 + 1, and the length 1. In a tailwind of V/4 the inbound turn of 60 s drifts 15 inbound,
// and that is the shortest length.
func TestSearchToTheLastBit(t *testing.T) {
	leg := LengthOutbound(1)
	for _, r := range []float64{3.5, 19, 57} {
		fr := frame{perRate: 1.0 / 3, r: r, cosIn: 1, g: 1}
		for _, want := range []float64{1, 0.3, 45, 200} {
			if s, err := fr.search("test", &leg, &end{kind: OutboundLength, want: want}, 0, 0); err != nil || s != want {
				t.Errorf("radius %v, length %v: inbound %v, %v", r, want, s, err)
			}
		}
	}
	fr := frameOf(t, 180, 0.25)
	if s, err := fr.search("test", &leg, &end{kind: OutboundLength, want: 15}, 0, 0); err != nil || s > 1e-30 {
		t.Errorf("shortest length: inbound %v, %v", s, err)
	}
	if s, err := fr.search("test", &leg, &end{kind: OutboundLength, want: before(15.0)}, 0, 0); !errors.Is(err, abeam.ErrUnflyable) {
		t.Errorf("shorter than the shortest: inbound %v, %v", s, err)
	}
}

// A station at -10 and a turn inbound at (-7, 4), 5 from it: the leg flown along (-4, 3) is
// square to the line from the station, 3 x -4 + 4 x 3 = 0, and reads its least there; a
// little more abreast and it is on its way out.
func TestArrivesSquare(t *testing.T) {
	leg := DMELimit(Station{Course: Away, Fix: 10}, 5)
	for _, tc := range []struct {
		gy      float64
		away    bool
		arrives bool
	}{{2.9, true, true}, {3, true, true}, {3.1, true, false}, {3.1, false, true}} {
		e := end{kind: OutboundDME, want: 5, fix: 10, station: -10, away: tc.away}
		err := (&frame{}).arrives("test", &leg, &e, &member{x2: -7, y2: 4, gx: -4, gy: tc.gy})
		if (err == nil) != tc.arrives || err != nil && !errors.Is(err, abeam.ErrUnflyable) {
			t.Errorf("%+v: %v", tc, err)
		}
	}
}

// With the wind right across and no inbound leg the outbound leg never gains on the line
// abeam the fix, but runs beside it: what is left over is still a number.
func TestOverBesideAbeam(t *testing.T) {
	fr := frameOf(t, 90, 0.5)
	m := memberAt(&fr, 0)
	over, _ := (&end{kind: OutboundTimed, want: 60}).over(&fr, m)
	if m.ax != 0 || !(m.x1 > 0) || math.IsInf(over, 0) || math.IsNaN(over) {
		t.Errorf("%v over in %+v", over, m)
	}
}
