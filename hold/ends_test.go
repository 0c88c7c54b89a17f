package hold

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/near"
)

// someEnds are ends of outbound legs in seconds of airspeed, by clock, along the course and
// from a station ahead and behind.
func someEnds() []end {
	return []end{
		{kind: OutboundTimed, want: 60},
		{kind: OutboundTimed, want: 150},
		{kind: OutboundLength, want: 90},
		{kind: OutboundDME, want: 700, fix: 600, station: 600},
		{kind: OutboundDME, want: 500, fix: 600, station: -600, away: true},
	}
}

// eachFrame gives frames in winds from all round.
func eachFrame(tb testing.TB, shares []float64, do func(fr *frame, from abeam.Bearing, share float64)) {
	tb.Helper()
	for _, share := range shares {
		for from := abeam.Bearing(0); from < 360; from += 15 {
			fr := frameOf(tb, from, share)
			do(&fr, from, share)
		}
	}
}

// What the leg goes beyond its end, by the clock of the circuit of the same inbound time and by
// the place where its inbound turn begins; and how that grows, by differences.
func TestOver(t *testing.T) {
	clocked := 0
	eachFrame(t, []float64{0, 0.1, 0.3, 0.6, 0.9}, func(fr *frame, from abeam.Bearing, share float64) {
		in := math.Asin(fr.sinIn) * (180 / math.Pi)
		for _, more := range []float64{1, 40, 200} {
			s := fr.least() + more
			var m member
			m.set(fr, in, s)
			for _, e := range someEnds() {
				over, slope := e.over(fr, &m)
				const ds = 1e-3
				var lower, higher member
				lower.set(fr, in, s-ds)
				higher.set(fr, in, s+ds)
				under, _ := e.over(fr, &lower)
				above, _ := e.over(fr, &higher)
				if want := (above - under) / (2 * ds); !near.Equal(slope, want, 1e-5*math.Max(1, math.Abs(want))) {
					t.Errorf("wind from %v at %v V, %v s, %+v: slope %v, by differences %v", from, share, s, e, slope, want)
				}
				want := over + e.want
				switch e.kind {
				case OutboundTimed:
					p, err := minutePattern(t, 0, Right).WithLeg(TimedInbound(time.Duration(s * 1e9)))
					if err != nil {
						t.Fatal(err)
					}
					c, err := p.Circuit(flightOf(from, share))
					if err != nil {
						t.Fatal(err)
					}
					if c.Clock > 0 && c.Clock < c.Straight {
						clocked++
					}
					if c.ToAbeam < c.Straight && !near.Equal(c.Clock.Seconds(), want, 1e-6) {
						t.Errorf("wind from %v at %v V, %v s: by the clock %v s, %v", from, share, s, want, c.Clock)
					}
				case OutboundLength:
					if !near.Equal(want, -m.x2, 1e-9) {
						t.Errorf("wind from %v at %v V, %v s: %v along, place %v", from, share, s, want, m.x2)
					}
				case OutboundDME:
					if e.away {
						want = e.want - over
					}
					if d := math.Hypot(m.x2-e.station, m.y2); !near.Equal(want, d, 1e-9) {
						t.Errorf("wind from %v at %v V, %v s: reads %v at %v", from, share, s, want, d)
					}
				}
			}
		}
	})
	if clocked < 50 {
		t.Errorf("the clock started on the leg in %d circuits only", clocked)
	}
}

// Newton's method arrives, in few steps, and the search without it comes to the same answer.
func TestNewtonAndSearch(t *testing.T) {
	found := 0
	eachFrame(t, []float64{0, 0.1, 0.2, 0.3}, func(fr *frame, from abeam.Bearing, share float64) {
		in, least := math.Asin(fr.sinIn)*(180/math.Pi), fr.least()
		for _, e := range someEnds() {
			if e.kind == OutboundTimed {
				if _, ok := fr.clockFromLevel(e.want); ok {
					continue // in closed form
				}
			}
			var m member
			s, steps, ok := fr.newton(&e, &m, in, least)
			if !ok {
				t.Errorf("wind from %v at %v V, %+v: no answer", from, share, e)
				continue
			}
			found++
			m.set(fr, in, s)
			if over, _ := e.over(fr, &m); !near.Equal(over, 0, 1e-9) || steps < 1 || steps > 5 {
				t.Errorf("wind from %v at %v V, %+v: over by %v after %d steps", from, share, e, over, steps)
			}
			var leg Leg
			if again, err := fr.search("test", &leg, &e, in, least); err != nil || !near.Equal(again, s, 1e-9) {
				t.Errorf("wind from %v at %v V, %+v: %v, searched %v, %v", from, share, e, s, again, err)
			}
		}
	})
	if found < 300 {
		t.Errorf("only %d", found)
	}
}

// At the inbound time that ends the search every leg has passed its end; on a course away
// from the station it lies beyond abeam the station.
func TestMost(t *testing.T) {
	check := func(fr *frame, from abeam.Bearing, share float64) {
		in := math.Asin(fr.sinIn) * (180 / math.Pi)
		for _, e := range append(someEnds(), end{kind: OutboundTimed, want: 1}, end{kind: OutboundTimed, want: 600}, end{kind: OutboundLength, want: 1},
			end{kind: OutboundDME, want: 30, fix: 20, station: 20}, end{kind: OutboundDME, want: 30, fix: 20, station: -20, away: true}) {
			var m member
			m.set(fr, in, e.most(fr))
			over, _ := e.over(fr, &m)
			if e.away && !(m.x2 <= e.station) || !e.away && over < -1e-9 {
				t.Errorf("wind from %v at %v V, %+v: over by %v, at %v", from, share, e, over, m.x2)
			}
		}
	}
	eachFrame(t, []float64{0, 0.1, 0.3, 0.6, 0.8, 0.95}, func(fr *frame, from abeam.Bearing, share float64) {
		check(fr, from, share)
		fr.r, fr.perRate = 6*fr.r, 6*fr.perRate // half a degree a second
		check(fr, from, share)
	})
}

// On a course away from the station the leg must come to the reading for the first time at its
// end: against the least reading of a thousand places on the leg.
func TestArrives(t *testing.T) {
	count := map[bool]int{}
	eachFrame(t, []float64{0, 0.3, 0.6, 0.9}, func(fr *frame, from abeam.Bearing, share float64) {
		in := math.Asin(fr.sinIn) * (180 / math.Pi)
		for _, more := range []float64{10, 60, 200, 500} {
			var m member
			m.set(fr, in, fr.least()+more)
			y1 := m.y2 - m.gy*m.t
			for _, station := range []float64{-50, -120, -200, -300, -600} {
				e := end{kind: OutboundDME, want: math.Hypot(m.x2-station, m.y2), fix: -station, station: station, away: true}
				least := math.Inf(1)
				for k := range 1000 {
					share := float64(k) / 1000
					least = min(least, math.Hypot(m.x1+(m.x2-m.x1)*share-station, y1+(m.y2-y1)*share))
				}
				leg := DMELimit(Station{}, 10)
				err := fr.arrives("test", &leg, &e, &m)
				if early := least < e.want; early != errors.Is(err, abeam.ErrUnflyable) || early != (err != nil) {
					t.Errorf("wind from %v at %v V, station at %v, %+v: least %v, %v at the end, %v", from, share, station, m, least, e.want, err)
				}
				count[err == nil]++
				e.away = false
				if err := fr.arrives("test", &leg, &e, &m); err != nil {
					t.Errorf("towards the station: %v", err)
				}
				e.away, e.kind = true, OutboundLength
				if err := fr.arrives("test", &leg, &e, &m); err != nil {
					t.Errorf("along the course: %v", err)
				}
			}
		}
	})
	if count[true] < 200 || count[false] < 200 {
		t.Errorf("%v", count)
	}
}

// A reading of the height itself is overhead the station, and one below it is none; what says
// so names which of the two it is.
func TestReadingsAtTheHeight(t *testing.T) {
	f := Flight{TAS: 120, Rate: 3, Altitude: 6000}
	height := (f.Altitude - 0).NM()
	leg := DMELimit(Station{Fix: height, Course: Toward}, 5)
	e, err := dmeEnd("test", &leg, &f)
	if err != nil || e.fix != 0 || !near.Equal(e.want, math.Sqrt(float64(25-height*height))*30, 1e-9) {
		t.Errorf("%+v, %v", e, err)
	}
	leg = DMELimit(Station{Fix: 5, Course: Away}, height)
	if e, err = dmeEnd("test", &leg, &f); err != nil || e.want != 0 || e.station != -e.fix {
		t.Errorf("%+v, %v", e, err)
	}
	for field, leg := range map[string]Leg{
		"fix DME":   DMELimit(Station{Fix: before(height), Course: Toward}, 5),
		"DME limit": DMELimit(Station{Fix: 5, Course: Away}, before(height)),
	} {
		var at *abeam.FieldError
		if _, err := dmeEnd("test", &leg, &f); !errors.As(err, &at) || at.Field != field {
			t.Errorf("%s: %v", field, err)
		}
	}
}

// A leg whose end every circuit passes is too short; a reading that no leg comes to, because
// each stays farther abreast of the station, is none.
func TestNoCircuitForTheEnd(t *testing.T) {
	fr := frameOf(t, 60, 0.6)
	in, least := math.Asin(fr.sinIn)*(180/math.Pi), fr.least()
	for limit, c := range map[string]struct {
		leg Leg
		end end
	}{
		"comes out beyond the fix": {LengthOutbound(1), end{kind: OutboundLength, want: -500}},
		"comes to in this wind":    {DMELimit(Station{Fix: 20, Course: Away}, 1), end{kind: OutboundDME, want: 1, fix: 600, station: -600, away: true}},
	} {
		_, err := fr.search("test", &c.leg, &c.end, in, least)
		var at *abeam.FieldError
		if !errors.Is(err, abeam.ErrUnflyable) || !errors.As(err, &at) || !strings.Contains(at.Limit, limit) {
			t.Errorf("%s: %v", limit, err)
		}
	}
}
