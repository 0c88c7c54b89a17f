package hold

import (
	"context"
	"errors"
	"flag"
	"math"
	"runtime"
	"sync/atomic"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
)

// long runs the sweep of ten million circuits.
var long = flag.Bool("long", false, "sweep ten million circuits and measure the memory")

func grid(tb testing.TB, speeds, directions int) Sweep {
	tb.Helper()
	s := Sweep{
		Pattern: minutePattern(tb, 70, Left), Altitude: 5000,
		TAS:   []abeam.Knots{90, 120, 180, 250},
		Rates: []Rate{3, 2.5},
		Legs:  []Leg{TimedInbound(time.Minute), TimedInbound(90 * time.Second), TimedInbound(2 * time.Minute)},
	}
	for i := range speeds {
		s.WindSpeed = append(s.WindSpeed, abeam.Knots(25*float64(i)/float64(speeds)))
	}
	for i := range directions {
		s.WindFrom = append(s.WindFrom, abeam.Bearing(360*float64(i)/float64(directions)))
	}
	return s
}

// Every case in order, with any number of workers, as five nested loops give it.
func TestSweepIsTheGrid(t *testing.T) {
	s := grid(t, 5, 17)
	s.Legs = append(s.Legs, DMELimit(Station{Course: Toward, Fix: 9}, 14), TimedOutbound(time.Minute), Leg{})
	s.WindSpeed = append(s.WindSpeed, 100, 500, abeam.Knots(math.NaN()))
	want, err := s.Cases()
	if err != nil || want != 4*2*6*8*17 {
		t.Fatalf("%d cases, %v", want, err)
	}
	for _, workers := range []int{0, 1, 2, 3, 7, 1000} {
		s.Workers = workers
		s.Done = new(atomic.Int64)
		all, err := s.All(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		for range 2 { // restartable
			n := 0
			next := func(c *Case, i int) {
				per := 17
				from := s.WindFrom[i%per]
				speed := s.WindSpeed[i/per%8]
				leg := s.Legs[i/per/8%6]
				rate := s.Rates[i/per/8/6%2]
				tas := s.TAS[i/per/8/6/2]
				f := Flight{TAS: tas, Rate: rate, Altitude: 5000}
				f.Wind.From, f.Wind.Speed = from, speed
				p := s.Pattern
				p.leg = leg
				circuit, err := p.Circuit(f)
				same := c.Leg == leg && (c.Flight == f || math.IsNaN(float64(speed))) && c.Circuit == circuit && (c.Err == nil) == (err == nil)
				if !same || err != nil && !errors.Is(c.Err, errors.Unwrap(err)) {
					t.Fatalf("%d workers, case %d: %+v, want %+v %v", workers, i, c, circuit, err)
				}
			}
			for i, c := range all {
				if i != n {
					t.Fatalf("%d workers: case %d after %d", workers, i, n-1)
				}
				next(c, i)
				n++
			}
			if n != want {
				t.Fatalf("%d workers: %d cases", workers, n)
			}
		}
		if got := s.Done.Load(); got != int64(2*want) {
			t.Errorf("%d workers: counted %d of %d", workers, got, 2*want)
		}
	}
}

func TestSweepStops(t *testing.T) {
	for _, workers := range []int{1, 2, 4} {
		before := runtime.NumGoroutine()
		s := grid(t, 40, 100)
		s.Workers = workers
		all, err := s.All(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		for range all {
			if n++; n == 1000 {
				break
			}
		}
		ctx, cancel := context.WithCancel(context.Background())
		defer cancel()
		if all, err = s.All(ctx); err != nil {
			t.Fatal(err)
		}
		n = 0
		for range all {
			if n++; n == 500 {
				cancel()
			}
		}
		if want, _ := s.Cases(); n >= want || n < 500 || ctx.Err() == nil {
			t.Errorf("%d workers: cancelled after %d of %d", workers, n, want)
		}
		for range all {
			t.Errorf("%d workers: a case after the context was cancelled", workers)
		}
		// A goroutine is counted until a moment after it has said that it is done.
		after := runtime.NumGoroutine()
		for i := 0; i < 100 && after > before; i++ {
			time.Sleep(time.Millisecond)
			after = runtime.NumGoroutine()
		}
		if after > before {
			t.Errorf("%d workers: %d goroutines, %d before", workers, after, before)
		}
	}
}

func TestSweepErrors(t *testing.T) {
	for name, change := range map[string]func(*Sweep){
		"TAS":     func(s *Sweep) { s.TAS = nil },
		"rates":   func(s *Sweep) { s.Rates = nil },
		"workers": func(s *Sweep) { s.Workers = -1 },
		"combinations": func(s *Sweep) { // 2 to the 70
			const n = 1 << 14
			s.TAS, s.Rates, s.Legs = make([]abeam.Knots, n), make([]Rate, n), make([]Leg, n)
			s.WindSpeed, s.WindFrom = make([]abeam.Knots, n), make([]abeam.Bearing, n)
		},
	} {
		s := grid(t, 1, 1)
		change(&s)
		_, cases := s.Cases()
		_, all := s.All(context.Background())
		for _, err := range []error{cases, all} {
			var field *abeam.FieldError
			if !errors.Is(err, abeam.ErrInvalid) || !errors.As(err, &field) || field.Field != name {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
	// What is counted at most, an int over the chunk of 256: 2^55 - 1, of these factors, or
	// 2^23 - 1 where an int has 32 bits.
	axes := [5]int{23 * 31, 89, 881, 3191, 201961}
	if math.MaxInt == math.MaxInt32 {
		axes = [5]int{47, 1, 1, 1, 178481}
	}
	s := grid(t, 1, 1)
	s.TAS, s.Rates, s.Legs = make([]abeam.Knots, axes[0]), make([]Rate, axes[1]), make([]Leg, axes[2])
	s.WindSpeed, s.WindFrom = make([]abeam.Knots, axes[3]), make([]abeam.Bearing, axes[4])
	s.Workers = MaxWorkers
	if got, err := s.Cases(); err != nil || got != math.MaxInt/256 {
		t.Errorf("the most cases: %d, %v", got, err)
	}
	s.WindFrom = append(s.WindFrom, 0)
	var field *abeam.FieldError
	if _, err := s.Cases(); !errors.As(err, &field) || field.Field != "combinations" {
		t.Errorf("too many cases: %v", err)
	} else if n, ok := field.Value.(float64); !ok || n < math.MaxInt/256 {
		t.Errorf("too many cases: %v", field.Value)
	}
	s.Workers = MaxWorkers + 1
	if _, err := s.Cases(); !errors.As(err, &field) || field.Field != "workers" {
		t.Errorf("too many workers: %v", err)
	}
	// Axes that are not given: calm, and the pattern's leg.
	all, err := Sweep{Pattern: minutePattern(t, 70, Left), TAS: []abeam.Knots{120}, Rates: []Rate{3}}.All(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range all {
		if i != 0 || c.Err != nil || c.Circuit.Lap != 4*time.Minute {
			t.Errorf("case %d: %v, %v", i, c.Circuit.Lap, c.Err)
		}
	}
}

// The goroutine that ranges is one of the workers, and there are no more workers than
// chunks: 511 cases make two chunks.
func TestSweepWorkers(t *testing.T) {
	for _, tc := range []struct{ workers, cases, want int }{{1, 511, 0}, {2, 511, 1}, {7, 511, 1}, {2, 256, 0}, {3, 1024, 2}} {
		s := Sweep{
			Pattern: minutePattern(t, 70, Left), TAS: []abeam.Knots{120}, Rates: []Rate{3},
			WindFrom: make([]abeam.Bearing, tc.cases), Workers: tc.workers,
		}
		all, err := s.All(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		// Goroutines that are done are counted until a moment later, of this test and of others:
		// a count that is off is taken again.
		got := -1
		for try := 0; try < 50 && got != tc.want; try++ {
			time.Sleep(time.Duration(try) * time.Millisecond)
			before := runtime.NumGoroutine()
			n := 0
			for range all {
				if n++; n == 1 {
					got = runtime.NumGoroutine() - before
				}
			}
			if n != tc.cases {
				t.Fatalf("%d workers: %d of %d cases", tc.workers, n, tc.cases)
			}
		}
		if got != tc.want {
			t.Errorf("%d workers: %d goroutines more, want %d", tc.workers, got, tc.want)
		}
	}
}

// Memory does not grow with the number of cases: a sweep of a hundred thousand, ten
// million with -long.
func TestSweepMemory(t *testing.T) {
	speeds, directions := 12, 360
	if *long {
		speeds, directions = 1160, 360 // 10,022,400
	}
	s := grid(t, speeds, directions)
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	start := time.Now()
	all, err := s.All(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	var peak uint64
	for i, c := range all {
		n++
		sink += float64(c.Circuit.Lap)
		if i%1_000_000 == 0 {
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			peak = max(peak, m.Sys)
		}
	}
	spent := time.Since(start)
	runtime.ReadMemStats(&after)
	grown := after.TotalAlloc - before.TotalAlloc
	t.Logf("%d circuits in %v, %.0f ns each; %d bytes allocated in all, at most %d MB from the system; %s",
		n, spent.Round(time.Millisecond), float64(spent)/float64(n), grown, max(peak, after.Sys)>>20, peakResident())
	// The ring of chunks, some 100 kB a chunk, and nothing for each case.
	if want, _ := s.Cases(); n != want || grown > 8<<20 || *long && n < 10_000_000 {
		t.Errorf("%d of %d cases, %d bytes allocated", n, want, grown)
	}
}

// BenchmarkSweep takes turns between the bare circuit over the grid, one worker and two,
// and reports the cost of a case in bare circuits and what the second worker brings; the
// least of each, since on a machine shared with others the mean measures them.
func BenchmarkSweep(b *testing.B) {
	s := grid(b, 20, 180)
	n, err := s.Cases()
	if err != nil {
		b.Fatal(err)
	}
	bare := func() {
		p := s.Pattern
		for _, tas := range s.TAS {
			for _, rate := range s.Rates {
				for _, leg := range s.Legs {
					p.leg = leg
					for _, speed := range s.WindSpeed {
						for _, from := range s.WindFrom {
							f := Flight{TAS: tas, Rate: rate, Altitude: s.Altitude}
							f.Wind.From, f.Wind.Speed = from, speed
							c, _ := p.Circuit(f)
							sink += float64(c.Lap)
						}
					}
				}
			}
		}
	}
	sweep := func(workers int) func() {
		s := s
		s.Workers = workers
		all, err := s.All(context.Background())
		if err != nil {
			b.Fatal(err)
		}
		return func() {
			for _, c := range all {
				sink += float64(c.Circuit.Lap)
			}
		}
	}
	least := [3]time.Duration{math.MaxInt64, math.MaxInt64, math.MaxInt64}
	runs := [3]func(){bare, sweep(1), sweep(2)}
	for b.Loop() {
		for k, run := range runs {
			start := time.Now()
			run()
			least[k] = min(least[k], time.Since(start))
		}
	}
	b.ReportMetric(0, "ns/op")
	b.ReportMetric(float64(least[0])/float64(n), "ns/bare-circuit")
	b.ReportMetric(float64(least[1])/float64(least[0]), "sweep/bare")
	b.ReportMetric(float64(least[1])/float64(least[2]), "one-worker/two")
}
