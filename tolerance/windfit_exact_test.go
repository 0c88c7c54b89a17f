package tolerance

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/wind"
)

// ringed is a log of a sample a second, from 0 s on, whose velocities lie on a circle at
// directions spread evenly over an arc, each off it by an amount.
func ringed(count int, w wind.Wind, tas, from, arc float64, off func(i int) float64) Log {
	s, c := math.Sincos(float64(w.From) * math.Pi / 180)
	we, wn := -float64(w.Speed)*s, -float64(w.Speed)*c
	log := Log{TrackNorth: abeam.True}
	for i := range count {
		s, c := math.Sincos((from + arc*float64(i)/float64(count)) * math.Pi / 180)
		r := tas + off(i)
		e, n := we+r*s, wn+r*c
		log.Samples = append(log.Samples, Sample{
			Time: time.Duration(i) * time.Second, Groundspeed: abeam.Knots(math.Hypot(e, n)), Track: abeam.NewBearing(math.Atan2(e, n) * 180 / math.Pi),
			Has: Quantities(Time | Latitude | Longitude | Groundspeed | Track),
		})
	}
	return log
}

func none(int) float64 { return 0 }

// The 97.5 % quantile of t and the 95 % quantile of F at 2 and 29 degrees of freedom.
// Source: published tables, which have 2.045 and 3.33 (from memory); that they are the ones to
// take is shown by trial in TestWindEstimateCoversTheTruth.
const (
	t29 = 2.0452
	f29 = 3.3277
)

// Around the whole circle with residuals of 2 kt, one up, one down, everything is known by
// hand. They have no part in common with wind or TAS, so that the fit is exact; J'J is
// diagonal, 16, 16 and 32 for 32 samples; s^2 is 32 x 2^2 / 29. The half widths are t times
// the roots of s^2/16 and s^2/32, and that of direction is what the first is across the wind.
func TestWindEstimateByHand(t *testing.T) {
	updown := func(i int) float64 { return 2 - 4*float64(i%2) }
	s2 := 32 * 4.0 / 29
	for _, w := range []wind.Wind{{From: 30, Speed: 20}, {From: 200, Speed: 3}, {From: 290, Speed: 35}, {Speed: 0}, {From: 75, Speed: 0.9}, {From: 75, Speed: 1.2}} {
		got, err := EstimateWind(ringed(32, w, 120, 7, 360, updown), All(), 0)
		if err != nil {
			t.Fatal(err)
		}
		across := t29 * math.Sqrt(s2/16)
		direction := 180.0
		if across < float64(w.Speed) {
			direction = math.Asin(across/float64(w.Speed)) * 180 / math.Pi
		}
		for what, c := range map[string][2]float64{
			"speed": {float64(got.Wind.Speed), float64(w.Speed)}, "TAS": {float64(got.TAS), 120}, "RMS": {float64(got.RMS), 2},
			"samples": {float64(got.Samples), 32}, "independent": {got.Independent, 32},
			"speed error": {float64(got.SpeedError), across}, "TAS error": {float64(got.TASError), t29 * math.Sqrt(s2/32)},
			"direction error": {float64(got.DirectionError), direction},
		} {
			if math.Abs(c[0]-c[1]) > 1e-4*math.Max(1, c[1]) {
				t.Errorf("%v: %s %v, want %v", w, what, c[0], c[1])
			}
		}
		// The region is a circle: its radius squared is 2 F s^2/16.
		radius := math.Sqrt(2 * f29 * s2 / 16)
		s, c := math.Sincos(float64(w.From) * math.Pi / 180)
		for towards := 0.0; towards < 360; towards += 45 {
			for share, inside := range map[float64]bool{0.999: true, 1.001: false} {
				ds, dc := math.Sincos(towards * math.Pi / 180)
				e, n := float64(w.Speed)*s+share*radius*ds, float64(w.Speed)*c+share*radius*dc
				other := wind.Wind{From: abeam.NewBearing(math.Atan2(e, n) * 180 / math.Pi), Speed: abeam.Knots(math.Hypot(e, n))}
				if got.Covers(other) != inside {
					t.Errorf("%v: %v of the radius towards %v: %v", w, share, towards, !inside)
				}
			}
		}
	}
}

// Over an arc the uncertainty leans. Its covariance is s^2 times the inverse of J'J, here by
// cofactors from the circle as it was made; neighbours have nothing in common.
func TestWindEstimateOverAnArc(t *testing.T) {
	const count, v = 400, 120.0
	for from := 10.0; from < 360; from += 70 {
		random := rand.New(rand.NewPCG(uint64(from), 1))
		w := wind.Wind{From: 110, Speed: 25}
		got, err := EstimateWind(ringed(count, w, v, from, 200, func(i int) float64 { return math.Copysign(0.5+random.Float64(), float64(i%2)-0.5) }), All(), 0)
		if err != nil {
			t.Fatal(err)
		}
		var ee, en, nn, e1, n1 float64
		for i := range count {
			s, c := math.Sincos((from + 200*float64(i)/count) * math.Pi / 180)
			ee, en, nn, e1, n1 = ee+s*s, en+s*c, nn+c*c, e1+s, n1+c
		}
		det := ee*(nn*count-n1*n1) - en*(en*count-n1*e1) + e1*(en*n1-nn*e1)
		s2 := float64(got.RMS) * float64(got.RMS) * count / (count - 3) * count / got.Independent
		ce, cen, cn, cv := s2*(nn*count-n1*n1)/det, s2*(e1*n1-en*count)/det, s2*(ee*count-e1*e1)/det, s2*(ee*nn-en*en)/det
		// 1.966 is the quantile of t at 397 degrees of freedom: 1.960 and (1.96^3 + 1.96)/(4 x 397).
		if got.Independent != count {
			t.Fatalf("%v independent", got.Independent)
		}
		u, d := math.Sincos(float64(got.Wind.From) * math.Pi / 180)
		along, across := 1.966*math.Sqrt(u*u*ce+2*u*d*cen+d*d*cn), 1.966*math.Sqrt(d*d*ce-2*u*d*cen+u*u*cn)
		direction := math.Asin(across/float64(got.Wind.Speed)) * 180 / math.Pi
		for what, c := range map[string][2]float64{
			"speed error": {float64(got.SpeedError), along}, "TAS error": {float64(got.TASError), 1.966 * math.Sqrt(cv)}, "direction error": {float64(got.DirectionError), direction},
		} {
			if math.Abs(c[0]/c[1]-1) > 0.02 { // the Jacobian is that of the circle fitted, not made
				t.Errorf("from %v: %s %v, want %v", from, what, c[0], c[1])
			}
		}
		// The ellipse by its own form, on rays to all sides: F is 3.0184 at 2 and 397 degrees
		// of freedom, where tables have 3.02 at 400 (from memory).
		for towards := 0.0; towards < 360; towards += 30 {
			ds, dc := math.Sincos(towards * math.Pi / 180)
			radius := math.Sqrt(2 * 3.0184 * (ce*cn - cen*cen) / (ds*ds*cn - 2*ds*dc*cen + dc*dc*ce))
			for share, inside := range map[float64]bool{0.97: true, 1.03: false} {
				e, n := float64(got.Wind.Speed)*u+share*radius*ds, float64(got.Wind.Speed)*d+share*radius*dc
				other := wind.Wind{From: abeam.NewBearing(math.Atan2(e, n) * 180 / math.Pi), Speed: abeam.Knots(math.Hypot(e, n))}
				if got.Covers(other) != inside {
					t.Errorf("from %v: %v of the radius towards %v: %v", from, share, towards, !inside)
				}
			}
		}
	}
}

// At the least sum of squares of the distances its derivatives vanish: the residuals are at
// right angles to each column of the Jacobian.
func TestWindEstimateIsTheLeast(t *testing.T) {
	for seed := range uint64(20) {
		random := rand.New(rand.NewPCG(seed, 2))
		w := wind.Wind{From: abeam.Bearing(360 * random.Float64()), Speed: 30}
		log := ringed(60, w, 100, 20, 150+150*random.Float64(), func(int) float64 { return 6 * random.NormFloat64() })
		got, err := EstimateWind(log, All(), 0)
		if err != nil {
			t.Fatal(err)
		}
		s, c := math.Sincos(float64(got.Wind.From) * math.Pi / 180)
		we, wn := -float64(got.Wind.Speed)*s, -float64(got.Wind.Speed)*c
		var east, north, sum float64
		for _, sample := range log.Samples {
			s, c := math.Sincos(float64(sample.Track) * math.Pi / 180)
			de, dn := float64(sample.Groundspeed)*s-we, float64(sample.Groundspeed)*c-wn
			d := math.Hypot(de, dn)
			r := d - float64(got.TAS)
			east, north, sum = east+r*de/d, north+r*dn/d, sum+r
		}
		if math.Abs(east)+math.Abs(north)+math.Abs(sum) > 1e-6 {
			t.Errorf("seed %d: %v, %v, %v are left", seed, east, north, sum)
		}
	}
}

// On a circle the algebraic fit is that circle.
func TestAlgebraicCircle(t *testing.T) {
	var e, n []float64
	for i := range 20 {
		s, c := math.Sincos(float64(i) / 5)
		e, n = append(e, 0.3+1.7*s), append(n, -0.4+1.7*c)
	}
	if we, wn, v, ok := algebraic(e, n); !ok || math.Abs(we-0.3) > 1e-9 || math.Abs(wn+0.4) > 1e-9 || math.Abs(v-1.7) > 1e-9 {
		t.Errorf("%v, %v, %v", we, wn, v)
	}
	if _, _, _, ok := algebraic(make([]float64, 20), make([]float64, 20)); ok {
		t.Error("a circle of one point")
	}
}

// Samples count from the one time to the other, both among them, while they move at more
// than a knot; 10 must be left, over 120 degrees.
func TestSamplesOfTheWind(t *testing.T) {
	calm := wind.Wind{}
	for name, tc := range map[string]struct {
		log    Log
		during Span
		want   int
		field  string
	}{
		"all":            {ringed(60, calm, 100, 5, 360, none), All(), 60, ""},
		"both ends":      {ringed(60, calm, 100, 5, 360, none), Span{10 * time.Second, 49 * time.Second}, 40, ""},
		"10":             {ringed(10, calm, 100, 5, 360, none), All(), 10, ""},
		"9":              {ringed(9, calm, 100, 5, 360, none), All(), 9, "samples"},
		"12 tens":        {ringed(12, calm, 100, 5, 120, none), All(), 12, ""},
		"11 tens":        {ringed(11, calm, 100, 5, 110, none), All(), 0, "tracks"},
		"4,000":          {ringed(4000, calm, 100, 5, 360, none), All(), 4000, ""},
		"4,001":          {ringed(4001, calm, 100, 5, 360, none), All(), 2001, ""},
		"4,000 of more":  {ringed(6000, calm, 100, 5, 720, none), Span{2000 * time.Second, time.Hour + 2399*time.Second}, 4000, ""},
		"faster than 1":  {ringed(60, calm, 1.001, 5, 360, none), All(), 60, ""},
		"no faster":      {ringed(60, calm, 0.999, 5, 360, none), All(), 0, "samples"},
		"after its end":  {ringed(60, calm, 100, 5, 360, none), Span{time.Minute, time.Hour}, 0, "samples"},
		"before it":      {ringed(60, calm, 100, 5, 360, none), Span{-time.Hour, -1}, 0, "samples"},
		"stronger wind":  {ringed(60, wind.Wind{Speed: 100.5}, 100, 0, 360, none), All(), 0, "wind speed"},
		"weaker wind":    {ringed(60, wind.Wind{Speed: 98}, 100, 0, 360, none), All(), 60, ""},
		"above all TAS":  {ringed(60, calm, float64(wind.MaxTAS)+1, 0, 360, none), All(), 0, "wind speed"},
		"below all TAS":  {ringed(60, calm, float64(wind.MaxTAS)-1, 0, 360, none), All(), 60, ""},
		"above all wind": {ringed(60, wind.Wind{Speed: wind.MaxSpeed + 1}, 500, 0, 360, none), All(), 0, "wind speed"},
		"below all wind": {ringed(60, wind.Wind{Speed: wind.MaxSpeed - 1}, 500, 0, 360, none), All(), 60, ""},
	} {
		got, err := EstimateWind(tc.log, tc.during, 0)
		var e *abeam.FieldError
		if tc.field == "" {
			if err != nil || got.Samples != tc.want {
				t.Errorf("%s: %d samples, want %d, %v", name, got.Samples, tc.want, err)
			}
		} else if !errors.As(err, &e) || e.Field != tc.field || tc.field == "samples" && e.Value != tc.want || got != (WindEstimate{}) {
			t.Errorf("%s: %v", name, err)
		}
	}
	// At exactly 1 kt a sample does not move.
	log := ringed(60, calm, 100, 5, 360, none)
	log.Samples[7].Groundspeed, log.Samples[7].Track = 1, 0
	if got, err := EstimateWind(log, All(), 0); err != nil || got.Samples != 59 {
		t.Errorf("%d samples, %v", got.Samples, err)
	}
}
