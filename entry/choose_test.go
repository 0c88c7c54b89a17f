package entry

import (
	"errors"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

func pattern(tb interface {
	Helper()
	Fatal(...any)
}, inbound abeam.Bearing, turn hold.Turn) hold.Pattern {
	tb.Helper()
	p, err := hold.NewPattern(hold.Fix{}, inbound, turn, hold.TimedInbound(time.Minute))
	if err != nil {
		tb.Fatal(err)
	}
	return p
}

// The edges of every rule set in tenths of a degree on every whole course: what lies a
// tenth inside and a tenth outside, both acceptable at the edge itself, and the zone.
func TestEdgesInTenths(t *testing.T) {
	type edge struct {
		at         int // tenths of a degree, right turns
		below, top Kind
	}
	three := []edge{{1100, Direct, Teardrop}, {1800, Teardrop, Parallel}, {2900, Parallel, Direct}}
	for _, c := range []struct {
		rules Rules
		edges []edge
		zone  int
	}{
		{FAA(), three, 50}, {FAARNAV(), three, 50}, {ICAO(), three, 50},
		{AirForce(), []edge{{1800, Direct, Parallel}, {2900, Parallel, Direct}}, 0},
	} {
		for inbound := range 360 {
			for _, turn := range []hold.Turn{hold.Right, hold.Left} {
				p := pattern(t, abeam.Bearing(inbound), turn)
				choose := func(tenths int) Decision {
					if turn == hold.Left {
						tenths = -tenths
					}
					heading := float64((inbound*10+tenths+7200)%3600) / 10 // as a pilot would write it
					d, err := c.rules.Choose(p, abeam.Bearing(heading))
					if err != nil {
						t.Fatal(err)
					}
					return d
				}
				for _, e := range c.edges {
					below, at, above := choose(e.at-1), choose(e.at), choose(e.at+1)
					if below.Entry != e.below || above.Entry != e.top || below.High.Beyond != e.top || above.Low.Beyond != e.below ||
						below.High.Margin != 0.1 || above.Low.Margin != 0.1 {
						t.Fatalf("%v, inbound %d %v turns, edge %d: %+v, %+v", c.rules, inbound, turn, e.at, below, above)
					}
					if at.Margin != 0 || !(at.Entry == e.below && at.Alternative == e.top || at.Entry == e.top && at.Alternative == e.below) {
						t.Fatalf("%v, inbound %d %v turns, at the edge %d: %+v", c.rules, inbound, turn, e.at, at)
					}
					// The zone has its width on each side, its edges included.
					for _, off := range []int{-c.zone - 1, -c.zone, c.zone, c.zone + 1} {
						flexible := choose(e.at+off).Alternative != None
						if want := off == -c.zone || off == c.zone; flexible != want {
							t.Fatalf("%v, inbound %d %v turns, edge %d: %d tenths off is flexible: %v", c.rules, inbound, turn, e.at, off, flexible)
						}
					}
				}
				if c.zone == 0 { // the teardrop by choice, from 90 to 225 degrees
					for tenths, want := range map[int]Kind{899: None, 900: Teardrop, 1800: Teardrop, 2250: Teardrop, 2251: None} {
						if got := choose(tenths).Choice; got != want {
							t.Fatalf("inbound %d %v turns, %d tenths: choice %v, want %v", inbound, turn, tenths, got, want)
						}
					}
				}
			}
		}
	}
}

// A direction lies in one sector, between its edges; on an edge the margin is none.
func TestBothMargins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := pattern(t, draw.Bearing().Draw(t, "inbound"), rapid.SampledFrom([]hold.Turn{hold.Right, hold.Left}).Draw(t, "turn"))
		rules := rapid.SampledFrom([]Rules{FAA(), ICAO(), AirForce()}).Draw(t, "rules")
		d, err := rules.Choose(p, draw.Bearing().Draw(t, "direction"))
		if err != nil {
			t.Fatal(err)
		}
		width := map[Kind]abeam.Degrees{Direct: 180, Teardrop: 70, Parallel: 110}[d.Entry]
		if rules == AirForce() {
			width = map[Kind]abeam.Degrees{Direct: 250, Parallel: 110}[d.Entry]
		}
		if got := d.Low.Margin + d.High.Margin; !near.Equal(got, width, 2e-9) || d.Margin != min(d.Low.Margin, d.High.Margin) || d.Margin < 0 {
			t.Fatalf("%+v: the sector is %v wide, want %v", d, got, width)
		}
		for _, e := range []Edge{d.Low, d.High} {
			at, err := rules.Choose(p, e.At)
			if err != nil {
				t.Fatal(err)
			}
			if at.Margin > 2e-9 || (at.Entry != d.Entry && at.Entry != e.Beyond) {
				t.Fatalf("on the edge %v of %+v: %+v", e, d, at)
			}
		}
	})
}

// Heading 105 on inbound 000, right turns: direct. A wind across the heading, from the
// left at a quarter of the airspeed, makes the track atan(1/4) = 14.036 degrees to the
// right of it, 119.036: teardrop by track.
func TestBasis(t *testing.T) {
	p := pattern(t, 0, hold.Right)
	f := hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 15, Speed: 30}}
	for _, c := range []struct {
		rules     Rules
		basis     Basis
		direction abeam.Bearing
		entry     Kind
	}{
		{FAA(), Heading, 105, Direct}, {ICAO(), Heading, 105, Direct},
		{FAARNAV(), Track, 119.036243, Teardrop}, {AirForce(), Heading, 105, Direct},
	} {
		d, err := c.rules.ChooseInWind(p, f, 105)
		if err != nil || d.Entry != c.entry || d.Basis != c.basis || c.rules.Basis() != c.basis || !near.Angle(d.Direction, c.direction, 1e-6) {
			t.Errorf("%v: %+v, %v", c.rules, d, err)
		}
		if again, err := c.rules.Choose(p, d.Direction); err != nil || again != d {
			t.Errorf("%v by %v: %+v, %v", c.rules, d.Direction, again, err)
		}
	}
	// The track by the triangle of package wind, over many winds.
	rapid.Check(t, func(t *rapid.T) {
		tas := draw.TAS().Draw(t, "tas")
		f := hold.Flight{TAS: tas, Rate: 3, Wind: draw.Wind(tas, 0.79).Draw(t, "wind")}
		heading := draw.Bearing().Draw(t, "heading")
		d, err := FAARNAV().ChooseInWind(p, f, heading)
		if err != nil {
			t.Fatal(err)
		}
		tr, err := wind.SolveTrack(heading, tas, f.Wind)
		if err != nil || !near.Angle(d.Direction, tr.Track, 1e-9) {
			t.Fatalf("track %v, want %v, %v", d.Direction, tr.Track, err)
		}
	})
}

// Turning course and heading together changes nothing; the mirror image of a left-hand
// pattern is a right-hand one.
func TestSectorsRotateAndMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inbound, heading := draw.Bearing().Draw(t, "inbound"), draw.Bearing().Draw(t, "heading")
		by := abeam.Degrees(draw.Whole(-1800, 1800).Draw(t, "by")) / 10
		s := rapid.SampledFrom([]Rules{FAA(), FAARNAV(), ICAO(), AirForce()}).Draw(t, "rules")
		d, err := s.Choose(pattern(t, inbound, hold.Right), heading)
		if err != nil {
			t.Fatal(err)
		}
		turned, err := s.Choose(pattern(t, inbound.Add(by), hold.Right), heading.Add(by))
		if err != nil {
			t.Fatal(err)
		}
		mirrored, err := s.Choose(pattern(t, inbound, hold.Left), inbound.Add(-heading.Sub(inbound)))
		if err != nil {
			t.Fatal(err)
		}
		// Rounded to the quantum, a difference can still fall to the neighbour.
		for _, o := range []Decision{turned, mirrored} {
			if math.Abs(float64(o.Margin-d.Margin)) > 3e-9 {
				t.Fatalf("%+v and %+v", d, o)
			}
			if d.Margin > 2e-9 && (o.Entry != d.Entry) {
				t.Fatalf("%+v and %+v", d, o)
			}
		}
	})
}

func TestSectorsErrors(t *testing.T) {
	p := pattern(t, 90, hold.Right)
	for _, h := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if d, err := FAA().Choose(p, abeam.Bearing(h)); !errors.Is(err, abeam.ErrInvalid) || d != (Decision{}) {
			t.Errorf("heading %v: %+v, %v", h, d, err)
		}
		if pr, err := Published(p, Direct, abeam.Bearing(h), time.Minute); !errors.Is(err, abeam.ErrInvalid) || pr != (Procedure{}) {
			t.Errorf("procedure for heading %v: %+v, %v", h, pr, err)
		}
	}
	if _, err := (Rules{}).Choose(p, 0); !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("zero rules: %v", err)
	}
	for _, k := range []Kind{None, 4} {
		if _, err := Published(p, k, 0, time.Minute); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("kind %d: %v", k, err)
		}
	}
	for _, d := range []time.Duration{0, -1, hold.MaxLeg + 1} {
		if _, err := Published(p, Direct, 0, d); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("leg %v: %v", d, err)
		}
	}
	var k Kind
	if err := k.UnmarshalText([]byte("sideways")); !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("kind: %v", err)
	}
}

// Every heading's published entry turns the shorter way onto the outbound heading and
// never through more than the sector allows.
func TestPublishedTurns(t *testing.T) {
	for _, turn := range []hold.Turn{hold.Right, hold.Left} {
		p := pattern(t, 200, turn)
		for h := range 360 {
			heading := abeam.Bearing(h)
			d, err := FAA().Choose(p, heading)
			if err != nil {
				t.Fatal(err)
			}
			pr, err := Published(p, d.Entry, heading, time.Minute)
			if err != nil {
				t.Fatal(err)
			}
			through := pr.Through
			if pr.First == hold.Left {
				through = -through
			}
			if got := heading.Add(through); got.Sub(pr.Heading).Abs() > 1e-9 {
				t.Fatalf("heading %d: %+v ends on %v", h, pr, got)
			}
			limits := map[Kind][2]abeam.Degrees{Direct: {70, 250}, Teardrop: {0, 40}, Parallel: {0, 110}}[d.Entry]
			if pr.Through < limits[0] || pr.Through > limits[1] {
				t.Fatalf("heading %d, %v: turns through %v", h, d.Entry, pr.Through)
			}
			if d.Entry == Parallel && (pr.First != turn.Opposite() || pr.Return != turn.Opposite()) {
				t.Fatalf("heading %d: parallel turns %v then %v", h, pr.First, pr.Return)
			}
		}
	}
}

// Along the heading of its leg an entry has nothing to turn, and says so as a turn with the
// pattern through nothing.
func TestPublishedNothingToTurn(t *testing.T) {
	for _, turn := range []hold.Turn{hold.Right, hold.Left} {
		p := pattern(t, 90, turn)
		for kind, heading := range map[Kind]abeam.Bearing{Direct: 270, Teardrop: abeam.Bearing(270).Add(-turn.Apply(30)), Parallel: 270} {
			pr, err := Published(p, kind, heading, time.Minute)
			if err != nil || pr.Through != 0 || pr.First != turn || pr.Heading != heading {
				t.Errorf("%v, %v turns: %+v, %v", kind, turn, pr, err)
			}
		}
	}
}
