package area

import (
	"errors"
	"math"
	"slices"
	"testing"
	"time"

	"github.com/golang/geo/s2"
	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/near"
)

func must[T any](t testing.TB) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// drawDesign draws over the whole range of holding, conventional and by length. From 90 KIAS
// up the book's wind is weaker than the true airspeed at every altitude.
func drawDesign(t *rapid.T) Design {
	d := Design{
		IAS:      abeam.Knots(rapid.Float64Range(90, 300).Draw(t, "IAS")),
		Altitude: abeam.Feet(rapid.Float64Range(-1000, 45_000).Draw(t, "altitude")),
	}
	if rapid.Bool().Draw(t, "by length") {
		d.Length = abeam.NM(rapid.Float64Range(1, 40).Draw(t, "length"))
	}
	if rapid.Bool().Draw(t, "own allowances") {
		d.Allowances = Allowances{
			Bank:     time.Duration(rapid.Int64Range(0, 30e9).Draw(t, "bank")),
			Reaction: time.Duration(rapid.Int64Range(0, 30e9).Draw(t, "reaction")),
			Timing:   time.Duration(rapid.Int64Range(1, 60e9).Draw(t, "timing")),
			Heading:  abeam.Degrees(rapid.Float64Range(0, 30).Draw(t, "heading")),
		}
	}
	return d
}

func shapes(t *rapid.T) (Design, Template, Envelope) {
	d := drawDesign(t)
	template, err := d.Template()
	if err != nil {
		t.Fatal(err)
	}
	envelope, err := d.Envelope()
	if err != nil {
		t.Fatal(err)
	}
	return d, template, envelope
}

// Over the whole range of designs no outline crosses itself, by the judgement of s2 on the
// ground, and points 1e-6 NM on either side of it are told apart.
func TestNoOutlineCrossesItself(t *testing.T) {
	fix := hold.Fix{Position: s2.LatLngFromDegrees(48, 179.9)}
	pattern := must[hold.Pattern](t)(hold.NewPattern(fix, 20, hold.Left, hold.TimedInbound(time.Minute)))
	rapid.Check(t, func(t *rapid.T) {
		_, template, envelope := shapes(t)
		buffered, err := envelope.All().Grown(BufferWidth)
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range []Area{template.Hold, template.Entries, envelope.Hold, envelope.All(), buffered} {
			_, polygon, err := a.OnGround(pattern, 0.01)
			if err != nil {
				t.Fatal(err)
			}
			if err := polygon.Validate(); err != nil {
				t.Fatal(err)
			}
			// s2 measures the inside: of a loop turned inside out it would be most of the globe. The
			// sphere and the plane differ by the flattening and by the chords, per cents at most.
			if got := polygon.Area() * 3440.065 * 3440.065; !near.Equal(got, a.Size(), 0.02*a.Size()) {
				t.Fatalf("%v square miles on the ground, %v in the plane", got, a.Size())
			}
			direction := abeam.Degrees(rapid.Float64Range(-360, 360).Draw(t, "direction"))
			sin, cos := math.Sincos(float64(direction) * math.Pi / 180)
			edge := a.Edge(direction)
			// Outward goes the normal; inward, from a sharp corner too, the way to a point within.
			var inner hold.Point
			for around := abeam.Degrees(0); around < 360; around += 90 {
				inner.Along += a.Edge(around).Along / 4
				inner.Abreast += a.Edge(around).Abreast / 4
			}
			out := hold.Point{Along: edge.Along + abeam.NM(1e-6*cos), Abreast: edge.Abreast + abeam.NM(1e-6*sin)}
			share := 1e-6 / abeam.NM(math.Hypot(float64(inner.Along-edge.Along), float64(inner.Abreast-edge.Abreast)))
			in := hold.Point{Along: edge.Along + share*(inner.Along-edge.Along), Abreast: edge.Abreast + share*(inner.Abreast-edge.Abreast)}
			if a.Contains(out) || !a.Contains(in) {
				t.Fatalf("1e-6 NM out of the edge at %v: distance %v; in: %v", direction, a.Distance(out), a.Distance(in))
			}
		}
	})
}

// More wind takes nothing off the template in any direction; more speed and more altitude,
// with which the pattern itself grows outbound and to the holding side, nothing there. A
// tolerance of the fix takes nothing off, and a buffer adds its width.
func TestMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Design{IAS: abeam.Knots(rapid.Float64Range(90, 300).Draw(t, "IAS")), Altitude: abeam.Feet(rapid.Float64Range(-1000, 13_000).Draw(t, "altitude"))}
		if rapid.Bool().Draw(t, "high") {
			d.Altitude += 15_001 // the leg is longer there, from 14,000 ft
		}
		draw := func(d Design) Area {
			template, err := d.Template()
			if err != nil {
				t.Fatal(err)
			}
			return template.Hold
		}
		a := draw(d)
		filled, err := d.Filled()
		if err != nil {
			t.Fatal(err)
		}
		windier, faster, higher := d, d, d
		windier.Wind, faster.IAS, higher.Altitude = filled.Wind+10, d.IAS+10, d.Altitude+900
		if by, at := draw(windier).Beyond(a); by > 1e-9 {
			t.Fatalf("with 10 kt more wind it reaches %v less at %v", by, at)
		}
		for _, more := range []Design{faster, higher} {
			b := draw(more)
			for _, direction := range []abeam.Degrees{90, 135, 180} {
				if !(b.Reach(direction) > a.Reach(direction)) {
					t.Fatalf("%+v reaches %v at %v, %+v %v", d, a.Reach(direction), direction, more, b.Reach(direction))
				}
			}
		}
		tolerance, err := RNAV(0.5, 1)
		if err != nil {
			t.Fatal(err)
		}
		if by, at := a.Over(tolerance).Beyond(a); by > 1e-9 {
			t.Fatalf("laid on a tolerance it reaches %v less at %v", by, at)
		}
		grown, err := a.Grown(3)
		if err != nil {
			t.Fatal(err)
		}
		at := abeam.Degrees(rapid.Float64Range(0, 360).Draw(t, "at"))
		if !near.Equal(grown.Reach(at), a.Reach(at)+3, 1e-9) {
			t.Fatal("a buffer of 3 is not 3")
		}
	})
}

// The template contains every track in still air: of the holding of the package hold at any
// airspeed from a third of the design's up to it, though it waits for no bank at the fix.
func TestTemplateContainsStillAir(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawDesign(t)
		d.Length, d.Allowances = 0, Allowances{}
		template, err := d.Template()
		if err != nil {
			t.Fatal(err)
		}
		l := template.Lines
		share := rapid.Float64Range(0.34, 1).Draw(t, "share")
		tas := l.TAS * abeam.Knots(share)
		turning, err := hold.ICAOTurn().At(tas)
		if err != nil {
			t.Fatal(err)
		}
		p, err := hold.NewPattern(hold.Fix{}, 0, hold.Right, hold.TimedOutbound(l.Time))
		if err != nil {
			t.Fatal(err)
		}
		c, err := p.Circuit(hold.Flight{TAS: tas, Rate: turning.Rate})
		if err != nil {
			t.Fatal(err)
		}
		track, err := c.Track(time.Second)
		if err != nil {
			t.Fatal(err)
		}
		e := template.Hold.Follow(func(yield func(hold.Point) bool) {
			for s := range track {
				if !yield(s.At) {
					return
				}
			}
		})
		if !e.Inside() {
			t.Fatalf("%v at %v out of the template of %+v", e.Farthest, e.At, d)
		}
	})
}

// Without allowances for the reaction and the heading, template and envelope are one
// construction, but for the turn that the template draws through 270 degrees: they reach
// equally far in every direction that it does not bear on.
func TestTemplateAgainstEnvelope(t *testing.T) {
	d := Design{IAS: 180, Altitude: 8000, Allowances: PublishedAllowances()}
	d.Allowances.Heading, d.Allowances.Reaction = 0, 0
	template, envelope := must[Template](t)(d.Template()), must[Envelope](t)(d.Envelope())
	for direction := abeam.Degrees(0); direction < 360; direction++ {
		a, b := template.Hold.Reach(direction), envelope.Hold.Reach(direction)
		if a < b-1e-9 || direction < 180 && a > b+1e-9 {
			t.Errorf("at %v the template reaches %v, the envelope %v", direction, a, b)
		}
	}
}

// Where a permitted flight leaves the template: it begins its turn as early as it may and
// ends its leg as late, while the template draws every leg from g, the latest end of the
// turn. In the outbound direction that is what lies between the two beginnings, less the
// wind of that time, when the heading is exact.
func TestWhereTheTemplateIsLeft(t *testing.T) {
	for _, ias := range []abeam.Knots{140, 180, 220, 265} {
		d := Design{IAS: ias, Altitude: 8000, Allowances: PublishedAllowances()}
		d.Allowances.Heading = 0
		template, envelope := must[Template](t)(d.Template()), must[Envelope](t)(d.Envelope())
		got := envelope.Hold.Reach(180) - template.Hold.Reach(180)
		if want := abeam.NM(6 * (template.Lines.V - template.Lines.W)); !near.Equal(got, want, 1e-9) {
			t.Errorf("at %v the envelope reaches %v beyond the template outbound, want %v", ias, got, want)
		}
	}
}

// A left-hand pattern has its area on the other side of the course: mirrored about a course
// of true north, to the east what was to the west.
func TestLeftIsMirrored(t *testing.T) {
	a := must[Template](t)(Design{IAS: 170, Altitude: 4000}.Template()).Hold
	ground := func(turn hold.Turn) []s2.LatLng {
		p := must[hold.Pattern](t)(hold.NewPattern(hold.Fix{Position: s2.LatLngFromDegrees(-35, 10)}, 0, turn, hold.TimedInbound(time.Minute)))
		places, _, err := a.OnGround(p, 0.02)
		if err != nil {
			t.Fatal(err)
		}
		return places
	}
	right, left := ground(hold.Right), ground(hold.Left)
	for i, at := range right {
		mirror := s2.LatLngFromDegrees(left[i].Lat.Degrees(), 20-left[i].Lng.Degrees())
		if !near.Equal(at.Lat, mirror.Lat, 1e-12) || !near.Equal(at.Lng, mirror.Lng, 1e-12) {
			t.Fatalf("corner %d at %v right-hand, %v left-hand", i, at, left[i])
		}
	}
}

func TestSlower(t *testing.T) {
	d := Design{IAS: 140, Altitude: 6000}
	e, n, err := d.Slower(90)
	if err != nil || n < 9 {
		t.Fatal(n, err)
	}
	for ias := abeam.Knots(90); ias <= 140; ias += 1.7 {
		d.IAS = ias
		one := must[Envelope](t)(d.Envelope())
		if by := e.growth(one); by > 2*settled {
			t.Errorf("at %v it reaches %v beyond the envelope of all speeds", ias, by)
		}
	}
	if !testing.Short() { // a second: slow turns in a strong wind take all the airspeeds there are
		slow := Design{IAS: 336, Altitude: 37_000, Outbound: 30 * time.Second, Bank: 6, Wind: 140}
		if _, n, err := slow.Slower(100); err != nil || n != 1025 {
			t.Error(n, err)
		}
	}
	for _, bad := range []abeam.Knots{0, -1, 141, abeam.Knots(math.NaN())} {
		d.IAS = 140
		if _, _, err := d.Slower(bad); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("slowest %v: %v", bad, err)
		}
	}
	if _, _, err := d.Slower(30); !errors.Is(err, abeam.ErrUnflyable) {
		t.Errorf("slower than the wind: %v", err)
	}
	d.Altitude = 1e6
	if _, _, err := d.Slower(90); !errors.Is(err, abeam.ErrInvalid) {
		t.Error(err)
	}
}

func TestAreaErrors(t *testing.T) {
	bad := Design{IAS: -1}
	if _, err := bad.Template(); !errors.Is(err, abeam.ErrInvalid) {
		t.Error(err)
	}
	if _, err := bad.Envelope(); !errors.Is(err, abeam.ErrInvalid) {
		t.Error(err)
	}
	a := must[Template](t)(Design{IAS: 200, Altitude: 5000}.Template()).Hold
	pattern := must[hold.Pattern](t)(hold.NewPattern(hold.Fix{}, 0, hold.Right, hold.TimedInbound(time.Minute)))
	for _, x := range []abeam.NM{-1, 0, 2, abeam.NM(math.NaN()), abeam.NM(math.Inf(1))} {
		if _, err := a.Outline(x); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("sag %v: %v", x, err)
		}
		if _, _, err := a.OnGround(pattern, x); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("sag %v on the ground: %v", x, err)
		}
	}
	for _, x := range []abeam.NM{-1, 101, abeam.NM(math.NaN())} {
		if _, err := a.Grown(x); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("grown by %v: %v", x, err)
		}
	}
	// A triangle has the three corners that a polygon needs, a line has not.
	corners := []hold.Point{{}, {Along: 3}, {Along: 3, Abreast: 4}}
	if places, polygon, err := Around(slices.Values(corners)).OnGround(pattern, 0.1); err != nil || len(places) != 3 || polygon.NumLoops() != 1 {
		t.Errorf("a triangle on the ground: %v, %v", places, err)
	}
	if _, _, err := Around(slices.Values(corners[:2])).OnGround(pattern, 0.1); !errors.Is(err, abeam.ErrInvalid) {
		t.Error("a line on the ground:", err)
	}
	if _, _, err := (Area{}).OnGround(pattern, 0.1); !errors.Is(err, abeam.ErrInvalid) {
		t.Error("an area of nothing on the ground:", err)
	}
	if _, _, err := a.OnGround(hold.Pattern{}, 0.1); !errors.Is(err, abeam.ErrInvalid) {
		t.Error("a zero pattern:", err)
	}
	nowhere, nan := (Area{}).Edge(10), abeam.Degrees(math.NaN())
	if !math.IsInf(float64((Area{}).Reach(10)), -1) || a.Reach(nan) == a.Reach(nan) || (Area{}).Size() != 0 || a.Contains(nowhere) || a.Contains(a.Edge(nan)) {
		t.Error("reach, edge or size of nothing, or in no direction")
	}
	if (Area{}).Contains(hold.Point{}) || a.Contains(hold.Point{Along: abeam.NM(math.NaN())}) {
		t.Error("contains what it cannot")
	}
	if a.With(Area{}).Size() != a.Size() {
		t.Error("nothing adds something")
	}
}

func TestFollow(t *testing.T) {
	a := FixTolerance{radius: 2}.Area()
	points := []hold.Point{{}, {Along: 1}, {Along: 5}, {Abreast: -3}, {Along: abeam.NM(math.NaN())}, {Along: abeam.NM(math.Inf(1))}}
	e := a.Follow(slices.Values(points))
	if e.Points != 6 || e.Outside != 4 || e.Inside() || !near.Equal(e.Farthest, 3, 1e-15) || e.Index != 2 || e.At != points[2] {
		t.Errorf("%+v", e)
	}
	e = a.Follow(slices.Values(points[:2]))
	if !e.Inside() || e.Farthest != -1 || e.Index != 1 {
		t.Errorf("%+v", e)
	}
	// The edge is in the area, and the first of two that are as far is named.
	e = a.Follow(slices.Values([]hold.Point{{}, {Along: 2}, {Along: -2}}))
	if !e.Inside() || e.Farthest != 0 || e.Index != 1 || e.At.Along != 2 {
		t.Errorf("%+v", e)
	}
	if e = a.Follow(slices.Values(points[:0])); !math.IsInf(float64(e.Farthest), -1) || !e.Inside() {
		t.Errorf("%+v", e)
	}
}

func TestAround(t *testing.T) {
	nan, inf := abeam.NM(math.NaN()), abeam.NM(math.Inf(1))
	a := Around(slices.Values([]hold.Point{{Along: nan}, {}, {Along: 3}, {Along: 1, Abreast: 1}, {Along: 3, Abreast: 4}, {Abreast: inf}}))
	if !near.Equal(a.Size(), 6, 1e-12) || !a.Contains(hold.Point{Along: 2, Abreast: 1}) || a.Contains(hold.Point{Along: 1, Abreast: 2}) {
		t.Errorf("a triangle of 3, 4 and 5: %v", a.Size())
	}
	if none := Around(slices.Values([]hold.Point{{Along: nan}})); none.Contains(hold.Point{}) || none.Size() != 0 {
		t.Error("an area around nothing")
	}
}

func TestRectangle(t *testing.T) {
	f := must[FixTolerance](t)(RNAV(2, 1))
	if r := f.Area().Rectangle(); r != (Rectangle{2, 2, 1, 1}) {
		t.Errorf("%+v", r)
	}
	r := f.Area().Over(FixTolerance{radius: 0.5}).Rectangle()
	if r != (Rectangle{2.5, 2.5, 1.5, 1.5}) {
		t.Errorf("%+v", r)
	}
	if got := (FixTolerance{}).Area(); got.Size() != 0 || !got.Contains(hold.Point{}) || got.Distance(hold.Point{Along: 1}) != 1 {
		t.Error("an exact fix is not a point")
	}
}
