package area

import (
	"context"
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
	"github.com/holdingfix/abeam/wind"
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

// drawDesign draws over the whole range, conventional and by length.
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
	if errors.Is(err, abeam.ErrUnflyable) {
		t.Skip("the wind exceeds the airspeed")
	}
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
			// s2 measures the inside: of a loop turned inside out it would be most of the globe.
			if got := polygon.Area() * 3440.065 * 3440.065; !near.Equal(got, a.Size(), 0.02*a.Size()) {
				t.Fatalf("%v square miles on the ground, %v in the plane", got, a.Size())
			}
			direction := abeam.Degrees(rapid.Float64Range(-360, 360).Draw(t, "direction"))
			sin, cos := math.Sincos(float64(direction) * math.Pi / 180)
			edge := a.Edge(direction)
			// From a corner the way inward is not along every normal: only where the edge is round.
			next, last := a.Edge(direction+0.01), a.Edge(direction-0.01)
			round := math.Hypot(float64(next.Along-last.Along), float64(next.Abreast-last.Abreast)) > 1e-4
			for _, step := range []float64{-1e-6, 1e-6} {
				if step < 0 && !round {
					continue
				}
				at := hold.Point{Along: edge.Along + abeam.NM(step*cos), Abreast: edge.Abreast + abeam.NM(step*sin)}
				if a.Contains(at) != (step < 0) {
					t.Fatalf("%v NM from the edge at %v: distance %v", step, direction, a.Distance(at))
				}
			}
		}
	})
}

// More speed, more wind and more altitude (thinner and windier air) never take anything off
// the template; nor does a tolerance of the fix, and a buffer adds its width.
func TestMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, template, envelope := shapes(t)
		if d.Altitude <= 14_000 && d.Altitude > 13_000 || d.Length != 0 {
			d.Altitude = 5000 // the leg's time changes above 14,000 ft
		}
		d.Bank = 0
		more := d
		switch rapid.IntRange(0, 2).Draw(t, "more") {
		case 0:
			more.IAS += 10
		case 1:
			more.Altitude += 1000
		default:
			more.Wind, more.Calm = 0, false
			f, err := d.Filled()
			if err != nil {
				t.Skip("unflyable")
			}
			more.Wind = f.Wind + 10
		}
		a, err := d.Template()
		b, other := more.Template()
		if err != nil || other != nil {
			t.Skip("unflyable")
		}
		if more.Wind != 0 { // in the same air only the circles grow
			if by, at := b.Hold.Beyond(a.Hold); by > 1e-9 {
				t.Fatalf("with 10 kt more wind it reaches %v less at %v", by, at)
			}
		}
		for _, direction := range []abeam.Degrees{90, 135, 180, 225} { // away from the fix
			if !(b.Hold.Reach(direction) >= a.Hold.Reach(direction)-1e-9) {
				t.Fatalf("%+v reaches %v at %v, %+v %v", d, a.Hold.Reach(direction), direction, more, b.Hold.Reach(direction))
			}
		}
		tolerance, err := RNAV(0.5, 1)
		if err != nil {
			t.Fatal(err)
		}
		if by, at := template.Hold.Over(tolerance).Beyond(template.Hold); by > 1e-9 {
			t.Fatalf("laid on a tolerance it reaches %v less at %v", by, at)
		}
		grown, err := envelope.Hold.Grown(3)
		if err != nil {
			t.Fatal(err)
		}
		at := abeam.Degrees(rapid.Float64Range(0, 360).Draw(t, "at"))
		if !near.Equal(grown.Reach(at), envelope.Hold.Reach(at)+3, 1e-9) {
			t.Fatal("a buffer of 3 is not 3")
		}
	})
}

// The template contains every track in still air: of the holding of the package hold at any
// airspeed up to the design's, and its own racetrack.
func TestTemplateContainsStillAir(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, template, _ := shapes(t)
		if d.Length != 0 || d.Allowances != (Allowances{}) {
			t.Skip("of the published allowances")
		}
		l := template.Lines
		share := rapid.Float64Range(0.3, 1).Draw(t, "share")
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
		// The first turn of the template begins 5 s after the fix at the earliest, with a circle
		// of 5 s of wind: a racetrack without any delay bulges out of its inner side by less
		// than the 5 seconds that it is short.
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
	if _, _, err := (Area{}).OnGround(pattern, 0.1); !errors.Is(err, abeam.ErrInvalid) {
		t.Error("an area of nothing on the ground:", err)
	}
	if _, _, err := a.OnGround(hold.Pattern{}, 0.1); !errors.Is(err, abeam.ErrInvalid) {
		t.Error("a zero pattern:", err)
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
	if e = a.Follow(slices.Values(points[:0])); !math.IsInf(float64(e.Farthest), -1) || !e.Inside() {
		t.Errorf("%+v", e)
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

func trials(t testing.TB, turn hold.Turn) Trials {
	return Trials{
		Pattern: must[hold.Pattern](t)(hold.NewPattern(hold.Fix{}, 75, turn, hold.TimedInbound(time.Minute))),
		Flight:  hold.Flight{TAS: 160, Rate: 3}, Technique: Uncorrected(time.Minute),
		Gust: 25, Heading: 3, Timing: 4 * time.Second, Bank: 5 * time.Second, Reaction: 6 * time.Second,
		Laps: 10_000, Seed: 7,
	}
}

// The same seed gives the same odds on any number of workers, and left turns in a mirrored
// wind those of right turns.
func TestTryRepeats(t *testing.T) {
	a := must[Template](t)(Design{IAS: 140, Altitude: 6000, Wind: 30}.Template()).Hold
	ask := trials(t, hold.Right)
	first := must[Odds](t)(a.Try(t.Context(), ask))
	for workers := range 4 {
		ask.Workers = workers
		if again := must[Odds](t)(a.Try(t.Context(), ask)); again != first {
			t.Errorf("%d workers: %+v, before %+v", workers, again, first)
		}
	}
	ask.Seed = 8
	if other := must[Odds](t)(a.Try(t.Context(), ask)); other == first {
		t.Error("another seed, the same odds")
	} else if other.Low > first.High || other.High < first.Low {
		t.Errorf("another seed, odds apart: %+v, %+v", other, first)
	}
	if first.Laps+first.Unflown != ask.Laps || first.Outside == 0 || first.Farthest <= 0 {
		t.Errorf("%+v", first)
	}
	left := must[Odds](t)(a.Try(t.Context(), trials(t, hold.Left)))
	if left.Low > first.High || left.High < first.Low {
		t.Errorf("left turns %+v, right turns %+v", left, first)
	}
}

// Within the allowances and the wind of the design nothing leaves the envelope: laps without
// spread beyond it, the wind its strongest from every side.
func TestTryStaysInTheEnvelope(t *testing.T) {
	d := must[Design](t)(Design{IAS: 140, Altitude: 6000}.Filled())
	l := must[Lines](t)(d.Lines())
	e := must[Envelope](t)(d.Envelope())
	worst := math.Inf(-1)
	for from := 0.0; from < 360; from += 5 {
		ask := trials(t, hold.Right)
		ask.Flight = hold.Flight{TAS: l.TAS, Rate: l.Rate, Wind: wind.Wind{From: abeam.Bearing(from), Speed: d.Wind}}
		ask.Gust, ask.Heading, ask.Timing, ask.Laps = 0, 0, 0, 50
		for _, technique := range []Technique{Uncorrected(50 * time.Second), Uncorrected(70 * time.Second)} {
			ask.Technique = technique
			o := must[Odds](t)(e.Hold.Try(t.Context(), ask))
			worst = math.Max(worst, float64(o.Farthest))
		}
	}
	// The pilot here heads so as to make the inbound course good, and turns from that heading
	// and back to it, where the envelope has the course as heading throughout: with a crab of
	// 22 degrees the turns differ in length by what the wind carries in so many degrees.
	if worst > 0.45 || worst < -1 {
		t.Errorf("%v NM beyond the envelope", worst)
	}
}

// A pilot who corrects leaves it less often than one who does not, and one who knows the
// wind less often than one who doubts it.
func TestTechniquesRank(t *testing.T) {
	a := must[Template](t)(Design{IAS: 140, Altitude: 6000, Wind: 30}.Template()).Hold
	share := func(technique Technique, doubt abeam.Knots) Odds {
		ask := trials(t, hold.Right)
		ask.Technique, ask.Doubt = technique, doubt
		return must[Odds](t)(a.Try(t.Context(), ask))
	}
	none, triple, exact := share(Uncorrected(time.Minute), 0), share(TripleDrift(time.Minute), 0), share(Exact(), 0)
	doubtful := share(Exact(), 20)
	if !(exact.High < triple.Low && triple.High < none.Low && exact.High < doubtful.Low) {
		t.Errorf("uncorrected %+v\ntriple %+v\nexact %+v\ndoubtful %+v", none, triple, exact, doubtful)
	}
}

// Wilson's interval against the worked figures of R. G. Newcombe, Statistics in Medicine 17
// (1998) 857-872, table I, method 3 (from memory), and by its definition: the ends are where
// the observed share is 1.96 standard errors off.
func TestWilson(t *testing.T) {
	for _, c := range []struct {
		k, n      int
		low, high float64
	}{{81, 263, 0.2553, 0.3662}, {15, 148, 0.0624, 0.1605}, {0, 20, 0, 0.1611}, {1, 29, 0.0061, 0.1718}} {
		low, high := wilson(c.k, c.n)
		if !near.Equal(low, c.low, 5e-5) || !near.Equal(high, c.high, 5e-5) {
			t.Errorf("%d of %d: %.4f to %.4f, want %.4f to %.4f", c.k, c.n, low, high, c.low, c.high)
		}
		p := float64(c.k) / float64(c.n)
		for _, end := range []float64{low, high} {
			if off := math.Abs(p-end) / math.Sqrt(end*(1-end)/float64(c.n)); end > 0 && !near.Equal(off, 1.959963984540054, 1e-9) {
				t.Errorf("%d of %d: %v is %v standard errors off", c.k, c.n, end, off)
			}
		}
	}
}

func TestTryErrors(t *testing.T) {
	a := must[Template](t)(Design{IAS: 140, Altitude: 6000}.Template()).Hold
	for field, spoil := range map[string]func(*Trials){
		"flight":    func(x *Trials) { x.Flight.TAS = 0 },
		"technique": func(x *Trials) { x.Technique = nil },
		"gust":      func(x *Trials) { x.Gust = -1 },
		"doubt":     func(x *Trials) { x.Doubt = abeam.Knots(math.NaN()) },
		"heading":   func(x *Trials) { x.Heading = 31 },
		"timing":    func(x *Trials) { x.Timing = -1 },
		"reaction":  func(x *Trials) { x.Reaction = time.Hour },
		"laps":      func(x *Trials) { x.Laps = 0 },
		"many laps": func(x *Trials) { x.Laps = MaxLaps + 1 },
	} {
		ask := trials(t, hold.Right)
		spoil(&ask)
		if o, err := a.Try(t.Context(), ask); !errors.Is(err, abeam.ErrInvalid) || o != (Odds{}) {
			t.Errorf("%s: %+v, %v", field, o, err)
		}
	}
	ask := trials(t, hold.Right)
	ask.Flight.Wind = wind.Wind{From: 75, Speed: 200} // stronger than the airspeed, on the nose
	ask.Gust = 0
	if _, err := a.Try(t.Context(), ask); !errors.Is(err, abeam.ErrUnflyable) {
		t.Error(err)
	}
	done, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := a.Try(done, trials(t, hold.Right)); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
}
