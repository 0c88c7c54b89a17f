package timing

import (
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

// deviation is the standard deviation.
func deviation(all []float64) float64 {
	var sum, squares float64
	for _, x := range all {
		sum += x
		squares += x * x
	}
	n := float64(len(all))
	return math.Sqrt(squares/n - sum*sum/(n*n))
}

// What is scattered spreads by what was asked. Of 4,000 draws the standard deviation is within
// 5 % by more than four of its own (1/sqrt(8000) each).
func TestScatterSpreads(t *testing.T) {
	p := pattern(t, 0, hold.Right, time.Minute)
	const trials = 4000
	var read, turns []float64
	for seed := range uint64(trials) {
		var seen time.Duration
		watch := Strategy{Name: "watch", Next: func(s Seen) Plan {
			seen = s.Inbound
			return Plan{Outbound: time.Minute, Start: AtTurnComplete}
		}}
		trial := Trial{Pattern: p, Flight: hold.Flight{TAS: 120, Rate: 3}, Start: AtTurnComplete, Strategy: watch, Seed: seed}
		trial.Scatter = Scatter{Timing: 2 * time.Second}
		laps, err := trial.AppendLaps(nil, 2)
		if err != nil {
			t.Fatal(err)
		}
		read = append(read, (seen - laps[0].Inbound).Seconds())
		trial.Scatter = Scatter{Bank: 0.5}
		if laps, err = trial.AppendLaps(nil, 1); err != nil {
			t.Fatal(err)
		}
		turns = append(turns, (laps[0].Lap - laps[0].Straight - laps[0].Inbound).Seconds())
	}
	if got := deviation(read); !near.Relative(got, 2, 0.05) {
		t.Errorf("the inbound leg is read with a deviation of %v s, want 2", got)
	}
	// tan(bank) = V rate/g, and the time of half a turn goes with 1/tan(bank): a degree more is
	// 2/sin(2 bank) of a radian less of it. Both turns are 60 s, each with its own error.
	bank := math.Atan(120 * 1852.0 / 3600 * 3 * math.Pi / 180 / 9.80665)
	want := math.Sqrt2 * 60 * 2 / math.Sin(2*bank) * 0.5 * math.Pi / 180
	if got := deviation(turns); !near.Relative(got, want, 0.05) {
		t.Errorf("both turns take %v s more or less, want %v", got, want)
	}
}

// The wind changes from lap to lap: the first is flown in the wind given.
func TestWindChangesAfterTheFirstLap(t *testing.T) {
	f := hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 300, Speed: 20}}
	for seed := range uint64(20) {
		trial := Trial{Pattern: pattern(t, 0, hold.Right, time.Minute), Flight: f, Start: AtTurnComplete, Seed: seed,
			Strategy: fixed(Plan{Outbound: time.Minute, Start: AtTurnComplete}), Scatter: Scatter{WindChange: 3}}
		laps, err := trial.AppendLaps(nil, 3)
		if err != nil {
			t.Fatal(err)
		}
		if laps[0].Wind != f.Wind || laps[1].Wind == f.Wind || laps[2].Wind == laps[1].Wind {
			t.Errorf("winds %v, %v, %v", laps[0].Wind, laps[1].Wind, laps[2].Wind)
		}
	}
}
