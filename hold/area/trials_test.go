package area

import (
	"context"
	"errors"
	"math"
	"slices"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

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
	if testing.Short() {
		ask.Laps = 2000
	}
	first := must[Odds](t)(a.Try(t.Context(), ask))
	for _, workers := range []int{0, 1, 2, 3, 1 << 30} {
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

// A technique that has an answer for half of the winds, by where they come from: every lap is
// flown or not, and those that are not are half of them within five standard deviations.
func TestUnflownLapsAreCounted(t *testing.T) {
	ask := trials(t, hold.Right)
	ask.Laps, ask.Gust = 2000, 10
	ask.Technique = func(p hold.Pattern, f hold.Flight) (abeam.Bearing, time.Duration, error) {
		if f.Wind.Components(0).Cross > 0 {
			return 0, 0, abeam.ErrUnflyable
		}
		return p.Inbound().Reciprocal(), time.Minute, nil
	}
	odds := must[Odds](t)(FixTolerance{radius: 50}.Area().Try(t.Context(), ask))
	if odds.Laps+odds.Unflown != 2000 || math.Abs(float64(odds.Unflown-1000)) > 5*math.Sqrt(2000)/2 {
		t.Errorf("%+v", odds)
	}
}

// A lap that begins on the edge of the area and is inside it from there on has not left it: from
// the fix it turns off at once, and back to a course that lies farther inside.
func TestTheEdgeIsInside(t *testing.T) {
	ask := Trials{
		Pattern: trials(t, hold.Right).Pattern, Flight: hold.Flight{TAS: 160, Rate: 3}, Laps: 1,
		Technique: func(p hold.Pattern, _ hold.Flight) (abeam.Bearing, time.Duration, error) {
			return p.Inbound().Reciprocal().Add(-10), time.Minute, nil
		},
	}
	corners := []hold.Point{{Along: -20}, {Along: 20}, {Along: 20, Abreast: 20}, {Along: -20, Abreast: 20}}
	odds := must[Odds](t)(Around(slices.Values(corners)).Try(t.Context(), ask))
	if odds.Laps != 1 || odds.Outside != 0 || odds.Farthest != 0 {
		t.Errorf("%+v", odds)
	}
}

// Within the allowances and the wind of the design no lap leaves the envelope, and some lap
// comes to its edge. The laps are flown segment by segment, through the wind itself.
func TestLapsStayInTheEnvelope(t *testing.T) {
	d := must[Design](t)(Design{IAS: 140, Altitude: 6000}.Filled())
	m, err := d.allowed("test")
	if err != nil {
		t.Fatal(err)
	}
	e := must[Envelope](t)(d.Envelope())
	worst := math.Inf(-1)
	for from := 0.0; from < 360; from++ {
		sin, cos := math.Sincos(from * math.Pi / 180)
		for _, leg := range []float64{55, 68, 81} { // t - 5 to t + 21
			for _, wait := range []float64{5, 8, 11} {
				for _, off := range []float64{-5, 0, 5} {
					l := lap{out: 180 + off, speed: m.v, rate: 3, wx: m.w * cos, wy: m.w * sin, wait: wait, leg: leg}
					far := l.farthest(e.Hold, 0)
					if far > 1e-9 {
						t.Fatalf("%+v goes %v NM beyond the envelope", l, far)
					}
					worst = math.Max(worst, far)
				}
			}
		}
	}
	if worst < -1e-3 {
		t.Errorf("no lap comes nearer than %v NM", worst)
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
		"pattern":   func(x *Trials) { x.Pattern = hold.Pattern{} },
		"flight":    func(x *Trials) { x.Flight.TAS = 0 },
		"technique": func(x *Trials) { x.Technique = nil },
		"gust":      func(x *Trials) { x.Gust = -1 },
		"doubt":     func(x *Trials) { x.Doubt = abeam.Knots(math.NaN()) },
		"heading":   func(x *Trials) { x.Heading = 31 },
		"timing":    func(x *Trials) { x.Timing = -1 },
		"reaction":  func(x *Trials) { x.Reaction = time.Hour },
		"laps":      func(x *Trials) { x.Laps = 0 },
		"workers":   func(x *Trials) { x.Workers = -1 },
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
	for _, laps := range []int{10_000, MaxLaps} { // the most is accepted
		ask = trials(t, hold.Right)
		ask.Laps = laps
		if _, err := a.Try(done, ask); !errors.Is(err, context.Canceled) {
			t.Errorf("%d laps: %v", laps, err)
		}
	}
}
