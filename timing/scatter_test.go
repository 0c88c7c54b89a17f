package timing

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// A turn flown at a bank that is off, or at another airspeed, has the rate that package hold
// gives for that bank at that airspeed; the bank stays between 1 degree and the most, the rate
// above the least.
func TestBankedIsTheRateAtThatBank(t *testing.T) {
	for _, rate := range []hold.Rate{1.5, 3} {
		for _, tas := range []abeam.Knots{90, 120, 250} {
			fl := flyer{trial: Trial{
				Pattern: pattern(t, 0, hold.Right, time.Minute), Flight: hold.Flight{TAS: tas, Rate: rate}, Start: AtAbeam, Strategy: Exact(), Scatter: Scatter{Bank: 1},
			}}
			if err := fl.begin("test"); err != nil {
				t.Fatal(err)
			}
			bank, err := hold.BankAtRate(tas, rate)
			if err != nil {
				t.Fatal(err)
			}
			for _, faster := range []abeam.Knots{-20, 0, 15} {
				for _, off := range []abeam.Degrees{-40, -4, 0, 3, 10, 70} {
					want, err := hold.RateAtBank(tas+faster, min(max(hold.MaxBank, bank), max(1, bank+off)))
					if err != nil {
						t.Fatal(err)
					}
					want = max(hold.MinRate, want)
					if got := fl.banked(tas+faster, float64(off)); math.Abs(float64(got/want)-1) > 1e-12 {
						t.Errorf("%v, %v deg/s, %v faster, bank off by %v: %v, want %v", tas, rate, faster, off, got, want)
					}
				}
			}
		}
	}
}

// A wind is shifted by two draws of the bell, north and east, times the deviation; without a
// deviation it stays, and the draws are used up all the same.
func TestShiftedByTheDraws(t *testing.T) {
	var random, again rand.PCG
	for seed := range uint64(50) {
		random.Seed(seed, 1)
		again.Seed(seed, 1)
		w := wind.Wind{From: abeam.NewBearing(float64(seed) * 31), Speed: 20}
		got := shifted(&random, w, 5)
		north, east := bell(&again), bell(&again)
		sin, cos := math.Sincos(float64(w.From) * math.Pi / 180)
		north, east = 20*cos+5*north, 20*sin+5*east
		sin, cos = math.Sincos(float64(got.From) * math.Pi / 180)
		if math.Hypot(float64(got.Speed)*cos-north, float64(got.Speed)*sin-east) > 1e-9 {
			t.Errorf("%v to %v, want from %v north and %v east", w, got, north, east)
		}
		if same := shifted(&random, w, 0); same != w {
			t.Errorf("%v to %v without a deviation", w, same)
		}
		bell(&again)
		bell(&again)
		if random.Uint64() != again.Uint64() {
			t.Fatal("another number of draws")
		}
	}
}
