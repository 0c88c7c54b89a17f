package tolerance

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// In 1,000 seeded trials, each with its own wind, TAS, side and noise, the truth lies
// within what is stated in 95 of 100. Chance allows 950 give or take 2.6 times the root
// of 1000 x 0.95 x 0.05 in 99 of 100 repeats: 18.
func TestWindEstimateCoversTheTruth(t *testing.T) {
	trials := 1000
	if testing.Short() { // chance allows more of fewer
		trials = 200
	}
	stated := 0.95 * float64(trials)
	chance := math.Ceil(2.6 * math.Sqrt(stated*0.05))
	least, most := int(stated-chance), int(stated+chance)
	for _, noise := range []struct {
		name       string
		correlated float64 // of one second to the next
	}{{"independent", 0}, {"correlated", 0.6}} {
		var both, speed, direction, tas int
		var worst float64
		for trial := range trials {
			random := rand.New(rand.NewPCG(uint64(trial), 4))
			w := wind.Wind{From: abeam.NewBearing(360 * random.Float64()), Speed: abeam.Knots(5 + 25*random.Float64())}
			plan := testPlan(t, hold.Turn(trial&1), w)
			plan.Flight.TAS = abeam.Knots(100 + 120*random.Float64())
			plan.Before, plan.After = 0, 0
			log := logOf(t, plan)
			blur(&log, random, noise.correlated)
			got, err := EstimateWind(log, All(), 0)
			if err != nil {
				t.Fatal(err)
			}
			truth := wind.Wind{From: plan.Pattern.Fix().Variation.True(w.From), Speed: w.Speed}
			count := func(n *int, ok bool) {
				if ok {
					*n++
				}
			}
			count(&both, got.Covers(truth))
			count(&speed, abs(got.Wind.Speed-truth.Speed) <= got.SpeedError)
			count(&direction, got.Wind.From.Sub(truth.From).Abs() <= got.DirectionError)
			count(&tas, abs(got.TAS-plan.Flight.TAS) <= got.TASError)
			worst = math.Max(worst, float64(abs(got.Wind.Speed-truth.Speed)))
		}
		t.Logf("%s noise, %d trials: wind within in %d, speed %d, direction %d, TAS %d; worst speed off by %.2f kt", noise.name, trials, both, speed, direction, tas, worst)
		for name, n := range map[string]int{"wind": both, "speed": speed, "direction": direction, "TAS": tas} {
			if n < least || n > most {
				t.Errorf("%s noise: %s within in %d of %d", noise.name, name, n, trials)
			}
		}
	}
}

func abs[T ~float64](x T) T { return T(math.Abs(float64(x))) }

// blur adds noise of 1.5 kt and 1 degree, each sample's related to the one before.
func blur(log *Log, random *rand.Rand, correlated float64) {
	fresh := math.Sqrt(1 - correlated*correlated)
	a, b := random.NormFloat64(), random.NormFloat64()
	for i := range log.Samples {
		s := &log.Samples[i]
		s.Groundspeed += abeam.Knots(1.5 * a)
		s.Track = s.Track.Add(abeam.Degrees(b))
		a, b = correlated*a+fresh*random.NormFloat64(), correlated*b+fresh*random.NormFloat64()
	}
}

// Without noise the wind is the one flown in, from recorded speeds and from positions
// alone.
func TestWindEstimateIsExactWithoutNoise(t *testing.T) {
	for from := 0.0; from < 360; from += 30 {
		plan := testPlan(t, hold.Left, wind.Wind{From: abeam.Bearing(from), Speed: 22})
		log := logOf(t, plan)
		truth := plan.Pattern.Fix().Variation.True(abeam.Bearing(from))
		got, err := EstimateWind(log, All(), 0)
		if err != nil || abs(got.Wind.Speed-22) > 1e-6 || got.Wind.From.Sub(truth).Abs() > 1e-6 || abs(got.TAS-118) > 1e-6 {
			t.Errorf("from %v: %+v, %v", truth, got, err)
		}
		for i := range log.Samples {
			log.Samples[i].Has &^= Quantities(Groundspeed | Track)
		}
		// A velocity over two seconds of a turn of 3 deg/s is short by 3^2/6 parts of a
		// radian squared: 0.05 %, and leaves the wind alone.
		got, err = EstimateWind(log, All(), 0)
		if err != nil || abs(got.Wind.Speed-22) > 0.1 || got.Wind.From.Sub(truth).Abs() > 0.3 || abs(got.TAS-118) > 0.2 {
			t.Errorf("positions alone, from %v: %+v, %v", truth, got, err)
		}
	}
}

func TestWindEstimateErrors(t *testing.T) {
	plan := testPlan(t, hold.Right, wind.Wind{From: 90, Speed: 10})
	log := logOf(t, plan)
	for name, during := range map[string]Span{
		"straight": {0, 100 * time.Second}, "nothing": {-time.Hour, -time.Minute}, "backwards": {time.Minute, 0},
	} {
		if got, err := EstimateWind(log, during, 0); !errors.Is(err, abeam.ErrInvalid) || got != (WindEstimate{}) {
			t.Errorf("%s: %+v, %v", name, got, err)
		}
	}
	if _, err := EstimateWind(Log{}, All(), 0); !errors.Is(err, abeam.ErrInvalid) {
		t.Error(err)
	}
}
