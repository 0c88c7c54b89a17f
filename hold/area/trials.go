package area

import (
	"context"
	"math"
	"math/rand/v2"
	"runtime"
	"sync"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/wind"
)

// Trials are laps flown at random from overhead the fix. Every distribution is stated in a
// field; a zero spread is none.
type Trials struct {
	Pattern hold.Pattern // its inbound course and turn; the leg is for the technique
	// Flight is the aeroplane, and the mean wind in the north of the pattern.
	Flight    hold.Flight
	Technique Technique

	// Gust is the standard deviation of each component of the wind, lap by lap, about the
	// mean: with a mean of calm, winds from everywhere whose strength has a Rayleigh
	// distribution.
	Gust abeam.Knots
	// Doubt is the standard deviation of each component of the wind that the pilot believes
	// in, about the one that blows.
	Doubt abeam.Knots
	// Heading and Timing are the standard deviations of the outbound heading and time.
	Heading abeam.Degrees
	Timing  time.Duration
	// Bank is the time to establish a bank; up to Reaction, uniformly, comes before each turn.
	Bank, Reaction time.Duration

	Laps    int // at most [MaxLaps]
	Seed    uint64
	Workers int // 0: as many as the machine has processors
}

// MaxLaps is the most laps of [Area.Try].
const MaxLaps = 1_000_000_000

// Odds are how often laps leave an area.
type Odds struct {
	Laps    int // flown
	Unflown int // the wind or the technique left nothing to fly
	Outside int // of those flown
	// Share is Outside/Laps, with the 95 % confidence interval of Wilson's score.
	Share, Low, High float64
	// Farthest is the greatest distance beyond the edge, or, negative, the least margin.
	Farthest abeam.NM
}

// batch is how many laps share a stream of random numbers: the odds do not depend on how
// many workers there are.
const batch = 4096

// Try flies laps at random and counts those that leave the area: a lap is followed from
// overhead the fix to wings level inbound, from where the pilot flies to the fix, which
// stays in whatever is convex. It runs on every processor, and the same seed gives the same
// odds on any number of them.
//
// The inbound leg is on the course, on the heading that makes it good in the wind that
// blows. Both turns are of the flight's rate.
//
// Accuracy: of the share, the interval; of the distance of a lap, 0.004 of the radius of
// turn, and 1e-6 NM where it decides.
//
// Errors: [abeam.ErrInvalid] for a zero pattern, an invalid flight, no technique, a spread or a time that is
// negative or beyond [wind.MaxSpeed], [MaxHeading], [MaxAllowance], laps outside 1 to [MaxLaps], or workers below 0;
// that of ctx when it is done.
func (a Area) Try(ctx context.Context, t Trials) (Odds, error) {
	if err := t.validate("area.Try"); err != nil {
		return Odds{}, err
	}
	workers := t.Workers
	if workers == 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	batches := (t.Laps + batch - 1) / batch
	workers = min(workers, batches)
	results := make(chan Odds)
	var wg sync.WaitGroup
	for w := range workers {
		wg.Go(func() {
			sum := Odds{Farthest: abeam.NM(math.Inf(-1))}
			for k := w; k < batches && ctx.Err() == nil; k += workers {
				sum.add(t.batch(a, uint64(k), min(batch, t.Laps-k*batch)))
			}
			results <- sum
		})
	}
	go func() { wg.Wait(); close(results) }()
	all := Odds{Farthest: abeam.NM(math.Inf(-1))}
	for r := range results {
		all.add(r)
	}
	if err := ctx.Err(); err != nil {
		return Odds{}, err
	}
	if all.Laps == 0 {
		return Odds{}, check.Unflyable("area.Try", "laps", t.Laps, "one that can be flown")
	}
	all.Share = float64(all.Outside) / float64(all.Laps)
	all.Low, all.High = wilson(all.Outside, all.Laps)
	return all, nil
}

func (o *Odds) add(b Odds) {
	o.Laps += b.Laps
	o.Unflown += b.Unflown
	o.Outside += b.Outside
	o.Farthest = max(o.Farthest, b.Farthest)
}

// wilson is the 95 % interval of Wilson's score for k of n.
//
// Source: E. B. Wilson, J. Am. Stat. Assoc. 22 (1927), 209-212.
func wilson(k, n int) (low, high float64) {
	const z = 1.959963984540054 // the normal deviate of 97.5 %
	p, m := float64(k)/float64(n), float64(n)
	centre := p + z*z/(2*m)
	half := z * math.Sqrt(p*(1-p)/m+z*z/(4*m*m))
	low, high = (centre-half)/(1+z*z/m), (centre+half)/(1+z*z/m)
	return math.Max(low, 0), math.Min(high, 1)
}

func (t *Trials) validate(op string) error {
	if err := t.Flight.Validate(); err != nil {
		return err
	}
	if _, err := t.Pattern.WithLeg(t.Pattern.Leg()); err != nil {
		return err
	}
	if t.Technique == nil {
		return check.Invalid(op, "technique", "none", "one that decides heading and time")
	}
	for _, f := range []struct {
		field string
		value abeam.Knots
	}{{"gust", t.Gust}, {"doubt", t.Doubt}} {
		if err := check.Within(op, f.field, f.value, 0, wind.MaxSpeed); err != nil {
			return err
		}
	}
	spreads := Allowances{Bank: t.Bank, Reaction: t.Reaction, Timing: t.Timing, Heading: t.Heading}
	if _, err := spreads.filled(op); err != nil {
		return err
	}
	if t.Laps < 1 || t.Laps > MaxLaps {
		return check.Invalid(op, "laps", t.Laps, "from 1 to 1000000000")
	}
	if t.Workers < 0 {
		return check.Invalid(op, "workers", t.Workers, "at least 0")
	}
	return nil
}

// batch flies the k-th batch of laps.
func (t *Trials) batch(a Area, k uint64, laps int) Odds {
	rng := rand.New(rand.NewPCG(t.Seed, k))
	o := Odds{Farthest: abeam.NM(math.Inf(-1))}
	for range laps {
		l, ok := t.draw(rng)
		if !ok {
			o.Unflown++
			continue
		}
		o.Laps++
		far := l.farthest(a, math.Min(0, float64(o.Farthest)))
		if far > 0 {
			o.Outside++
		}
		o.Farthest = max(o.Farthest, abeam.NM(far))
	}
	return o
}

// draw draws a lap.
func (t *Trials) draw(rng *rand.Rand) (lap, bool) {
	gust := func(w wind.Wind, sd abeam.Knots) wind.Wind {
		if sd == 0 {
			return w
		}
		c := w.Components(0)
		north, east := float64(c.Head)+float64(sd)*rng.NormFloat64(), float64(c.Cross)+float64(sd)*rng.NormFloat64()
		return wind.Wind{From: abeam.Bearing(angle.Atan2(east, north)), Speed: abeam.Knots(math.Hypot(north, east))}
	}
	f := t.Flight
	f.Wind = gust(f.Wind, t.Gust)
	believed := f
	believed.Wind = gust(f.Wind, t.Doubt)
	heading, outbound, err := t.Technique(t.Pattern, believed)
	if err != nil {
		return lap{}, false
	}
	inbound, err := wind.SolveHeading(t.Pattern.Inbound(), f.TAS, f.Wind)
	if err != nil {
		return lap{}, false
	}
	turn := t.Pattern.Turn()
	relative := func(b abeam.Bearing) float64 { return float64(turn.Apply(b.Sub(t.Pattern.Inbound()))) }
	sin, cos := math.Sincos(relative(f.Wind.From) * math.Pi / 180)
	wait := func() float64 { return t.Bank.Seconds() + t.Reaction.Seconds()*rng.Float64() }
	l := lap{
		in: relative(inbound.Heading), out: relative(heading) + float64(t.Heading)*rng.NormFloat64(),
		speed: float64(f.TAS) / 3600, rate: float64(f.Rate),
		wx: -float64(f.Wind.Speed) / 3600 * cos, wy: -float64(f.Wind.Speed) / 3600 * sin,
		wait: wait(),
	}
	l.leg = math.Max(0, outbound.Seconds()+t.Timing.Seconds()*rng.NormFloat64()) + wait()
	return l, true
}
