package oracle_test

import (
	"errors"
	"math"
	"testing"

	"github.com/holdingfix/abeam/internal/oracle"
)

// The oracle judges the closed form, so it is judged by what needs neither: circles and
// straight lines in still air, and the sum of all that happens in the air.

func vector(deg, length float64) (north, east float64) {
	s, c := math.Sincos(deg * math.Pi / 180)
	return length * c, length * s
}

func TestStillAir(t *testing.T) {
	for _, left := range []bool{false, true} {
		h := oracle.Hold{Course: 0, TAS: 120, Rate: 3, Inbound: 75, Left: left}
		a, err := h.Solve()
		if err != nil || math.Abs(a.InboundHeading) > 1e-9 || math.Abs(a.Turn-180) > 1e-9 || math.Abs(a.Straight-75) > 1e-9 {
			t.Fatalf("left %v: %+v, %v", left, a, err)
		}
		side := 1.0
		if left {
			side = -1
		}
		if got := h.OutboundHeading(a); math.Abs(got-180*side) > 1e-9 {
			t.Errorf("left %v: outbound heading %v", left, got)
		}
		// On a course of north: 2 NM a minute, so the circles have a radius of 2/pi NM.
		const r, leg = 2 / math.Pi, 2.5
		p := h.Pieces(a)
		for i, want := range []oracle.Piece{
			{North: 0, East: 0, Heading: 0, Rate: 3 * side, Duration: 60},
			{North: 0, East: 2 * r * side, Heading: 180 * side, Duration: 75},
			{North: -leg, East: 2 * r * side, Heading: 180 * side, Rate: 3 * side, Duration: 60},
			{North: -leg, East: 0, Heading: 0, Duration: 75},
		} {
			got := p[i]
			if math.Hypot(got.North-want.North, got.East-want.East) > 1e-8 || math.Abs(got.Heading-want.Heading) > 1e-9 ||
				got.Rate != want.Rate || math.Abs(got.Duration-want.Duration) > 1e-9 {
				t.Errorf("left %v, leg %d: %+v, want %+v", left, i, got, want)
			}
		}
		if n, e := h.At(p[0], 30); math.Hypot(n-r, e-r*side) > 1e-8 {
			t.Errorf("left %v: halfway round at %v, %v", left, n, e)
		}
		if n, e := h.At(p[1], 30); math.Hypot(n+1, e-2*r*side) > 1e-8 {
			t.Errorf("left %v: 30 s outbound at %v, %v", left, n, e)
		}
		if got := h.AbeamAfter(a); math.Abs(got) > 1e-6 {
			t.Errorf("left %v: abeam %v s after the turn", left, got)
		}
		if got, want := h.Range(a, 4), math.Hypot(4+leg, 2*r); math.Abs(got-want) > 1e-8 {
			t.Errorf("left %v: the leg ends %v NM from 4 NM beyond the fix, want %v", left, got, want)
		}
	}
}

// closes holds an answer against the air it was flown in: both turns together are a circle and
// displace nothing in it, so what the straight legs cover is what the wind carries away over the
// whole lap; and on the inbound leg the crosswind is undone.
func closes(t *testing.T, h oracle.Hold, a oracle.Answer) {
	t.Helper()
	in, ie := vector(a.InboundHeading, h.TAS*h.Inbound)
	on, oe := vector(h.OutboundHeading(a), h.TAS*a.Straight)
	wn, we := vector(h.WindFrom, h.WindSpeed*(h.Inbound+a.Straight+360/h.Rate))
	if miss := math.Hypot(in+on-wn, ie+oe-we) / 3600; !(miss < 1e-7) {
		t.Errorf("%+v: %+v misses by %v NM", h, a, miss)
	}
	correction := math.Asin(h.WindSpeed * math.Sin((h.WindFrom-h.Course)*math.Pi/180) / h.TAS)
	if off := math.Remainder(a.InboundHeading-h.Course-correction*180/math.Pi, 360); !(math.Abs(off) < 1e-9) {
		t.Errorf("%+v: the inbound heading %v is %v off", h, a.InboundHeading, off)
	}
	if !(a.Turn > 90 && a.Turn < 270 && a.Straight > 0 && h.Inbound > 0) {
		t.Errorf("%+v: %+v is no circuit as it is flown", h, a)
	}
}

func holds(visit func(oracle.Hold)) {
	for _, left := range []bool{false, true} {
		for from := 0.0; from < 360; from += 40 {
			for _, speed := range []float64{5, 20, 30} {
				visit(oracle.Hold{Course: 75, TAS: 120, Rate: 3, WindFrom: from, WindSpeed: speed, Inbound: 60, Left: left})
			}
		}
	}
	visit(oracle.Hold{Course: 250, TAS: 230, Rate: 1.5, WindFrom: 10, WindSpeed: 80, Inbound: 90})
}

func TestSolveCloses(t *testing.T) {
	holds(func(h oracle.Hold) {
		a, err := h.Solve()
		if err != nil {
			t.Fatalf("%+v: %v", h, err)
		}
		closes(t, h, a)
	})
}

func TestSolveUntil(t *testing.T) {
	outbound := func(h oracle.Hold, a oracle.Answer) float64 { return a.Straight - 165/h.Rate }
	ranged := func(h oracle.Hold, a oracle.Answer) float64 { return h.Range(a, -1) - 0.06*h.TAS }
	abeam := func(h oracle.Hold, a oracle.Answer) float64 { return a.Straight - h.AbeamAfter(a) - 210/h.Rate }
	for name, ending := range map[string]oracle.Ending{"outbound time": outbound, "range": ranged, "time from abeam": abeam} {
		solved := 0
		holds(func(h oracle.Hold) {
			found, a, err := h.SolveUntil(ending)
			if err != nil {
				t.Fatalf("%s %+v: %v", name, h, err)
			}
			if found.WindSpeed != h.WindSpeed || found.Course != h.Course {
				t.Fatalf("%s: asked for %+v, solved %+v", name, h, found)
			}
			if miss := ending(found, a); !(math.Abs(miss) < 1e-7) {
				t.Errorf("%s %+v: misses it by %v", name, h, miss)
			}
			if found.Inbound > 0 { // a strong headwind outbound leaves none for some
				closes(t, found, a)
				solved++
			}
		})
		if solved < 40 {
			t.Errorf("%s: %d solved", name, solved)
		}
	}
	// Abeam and range of a circuit in wind, from where its legs lie.
	h := oracle.Hold{Course: 90, TAS: 120, Rate: 3, WindFrom: 60, WindSpeed: 30, Inbound: 60}
	a, err := h.Solve()
	if err != nil {
		t.Fatal(err)
	}
	p := h.Pieces(a)
	if _, e := h.At(p[1], h.AbeamAfter(a)); math.Abs(e) > 1e-9 {
		t.Errorf("abeam lies %v NM along the course from the fix", e)
	}
	if got := h.Along(3, 7); math.Abs(got-7) > 1e-12 {
		t.Errorf("7 NM east are %v NM along a course of 090", got)
	}
	if got, want := h.Range(a, -2), math.Hypot(p[2].North, p[2].East+2); math.Abs(got-want) > 1e-9 {
		t.Errorf("range %v NM from 2 NM before the fix, want %v", got, want)
	}
}

// What has no answer says so, and gives none.
func TestNoAnswer(t *testing.T) {
	drifting := oracle.Hold{Course: 0, TAS: 100, Rate: 3, WindFrom: 90, WindSpeed: 150, Inbound: 60} // more crosswind than airspeed
	if a, err := drifting.Solve(); !errors.Is(err, oracle.ErrNoConvergence) || a != (oracle.Answer{}) {
		t.Errorf("%+v, %v", a, err)
	}
	outbound := func(_ oracle.Hold, a oracle.Answer) float64 { return a.Straight - 60 }
	if h, a, err := drifting.SolveUntil(outbound); !errors.Is(err, oracle.ErrNoConvergence) || h != (oracle.Hold{}) || a != (oracle.Answer{}) {
		t.Errorf("%+v, %+v, %v", h, a, err)
	}
	calm := oracle.Hold{Course: 0, TAS: 100, Rate: 3, Inbound: 60}
	for name, ending := range map[string]oracle.Ending{
		"never met":           func(oracle.Hold, oracle.Answer) float64 { return 1 },
		"met by nothing real": func(_ oracle.Hold, a oracle.Answer) float64 { return 1 + (a.Straight-50)*(a.Straight-50) },
	} {
		if h, a, err := calm.SolveUntil(ending); err == nil || h != (oracle.Hold{}) || a != (oracle.Answer{}) {
			t.Errorf("an ending %s: %+v, %+v, %v", name, h, a, err)
		}
	}
}
