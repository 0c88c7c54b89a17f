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

// The three edges in tenths of a degree on every whole course: what lies a tenth inside
// and a tenth outside, and both acceptable at the edge itself.
func TestEdgesInTenths(t *testing.T) {
	edges := []struct {
		at         int // tenths of a degree, right turns
		below, top Kind
	}{{1100, Direct, Teardrop}, {1800, Teardrop, Parallel}, {2900, Parallel, Direct}}
	for inbound := range 360 {
		for _, turn := range []hold.Turn{hold.Right, hold.Left} {
			p := pattern(t, abeam.Bearing(inbound), turn)
			choose := func(tenths int) Decision {
				if turn == hold.Left {
					tenths = -tenths
				}
				heading := float64((inbound*10+tenths+7200)%3600) / 10 // as a pilot would write it
				d, err := FAA().Choose(p, abeam.Bearing(heading))
				if err != nil {
					t.Fatal(err)
				}
				return d
			}
			for _, e := range edges {
				below, at, above := choose(e.at-1), choose(e.at), choose(e.at+1)
				if below.Entry != e.below || above.Entry != e.top || below.Alternative != e.top || above.Alternative != e.below {
					t.Fatalf("inbound %d %v turns, edge %d: %+v, %+v", inbound, turn, e.at, below, above)
				}
				if at.Margin != 0 || !(at.Entry == e.below && at.Alternative == e.top || at.Entry == e.top && at.Alternative == e.below) {
					t.Fatalf("inbound %d %v turns, at the edge %d: %+v", inbound, turn, e.at, at)
				}
				// The zone is 5 degrees wide on each side, its edge included.
				for _, off := range []int{-51, -50, 50, 51} {
					flexible := choose(e.at+off).Alternative != None
					if want := off == -50 || off == 50; flexible != want {
						t.Fatalf("inbound %d %v turns, edge %d: %d tenths off is flexible: %v", inbound, turn, e.at, off, flexible)
					}
				}
			}
		}
	}
}

// Turning course and heading together changes nothing; the mirror image of a left-hand
// pattern is a right-hand one.
func TestSectorsRotateAndMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inbound, heading := draw.Bearing().Draw(t, "inbound"), draw.Bearing().Draw(t, "heading")
		by := abeam.Degrees(rapid.IntRange(-1800, 1800).Draw(t, "by")) / 10
		s := FAA()
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

func BenchmarkChoose(b *testing.B) {
	p := pattern(b, 75, hold.Left)
	s := FAA()
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		if _, err := s.Choose(p, abeam.Bearing(i%360)); err != nil {
			b.Fatal(err)
		}
		i += 7
	}
}
