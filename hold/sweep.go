package hold

import (
	"context"
	"iter"
	"math"
	"runtime"
	"strconv"
	"sync"
	"sync/atomic"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/wind"
)

// MaxWorkers is the largest number of workers of a sweep.
const MaxWorkers = 1024

// Sweep is a grid of circuits: every combination of its axes, the wind direction changing
// fastest, then the wind speed, the leg, the rate of turn and the airspeed.
type Sweep struct {
	Pattern  Pattern    // fix, course and turns, and the leg where there is no axis of legs
	Altitude abeam.Feet // of every flight

	TAS       []abeam.Knots // one or more
	Rates     []Rate        // one or more
	Legs      []Leg         // none is the pattern's own
	WindSpeed []abeam.Knots // none is calm
	WindFrom  []abeam.Bearing

	// Workers is how many work at a time, the goroutine that ranges over the cases among
	// them. 0 is as many as runtime.GOMAXPROCS.
	Workers int
	// Done, where it is given, counts the cases that have been handed out, some hundred at
	// a time, for another goroutine to watch.
	Done *atomic.Int64
}

// Case is one combination with its circuit.
type Case struct {
	Leg     Leg
	Flight  Flight
	Circuit Circuit // zero where there is an error
	Err     error   // as Pattern.Circuit gives it
}

// sweepChunk is how many cases are worked at a time, and sweepRing how many such chunks
// there are for each worker: enough that handing over costs little and nobody waits, few
// enough to stay near the processor.
const (
	sweepChunk = 256
	sweepRing  = 3
)

// Cases is how many combinations there are.
//
// Errors: [abeam.ErrInvalid] for an axis of airspeeds or rates without a value, more
// combinations than an int counts, or workers below 0 or above [MaxWorkers]. A value that
// is out of range is the error of its cases.
func (s Sweep) Cases() (int, error) { return s.cases("hold.Sweep.Cases") }

func (s *Sweep) cases(op string) (int, error) {
	if len(s.TAS) == 0 {
		return 0, check.Invalid(op, "TAS", s.TAS, "one value or more")
	}
	if len(s.Rates) == 0 {
		return 0, check.Invalid(op, "rates", s.Rates, "one value or more")
	}
	if !(s.Workers >= 0 && s.Workers <= MaxWorkers) {
		return 0, check.Invalid(op, "workers", s.Workers, "from 0 to "+strconv.Itoa(MaxWorkers))
	}
	n := 1
	for _, axis := range s.axes() {
		if axis > math.MaxInt/sweepChunk/n {
			return 0, check.Invalid(op, "combinations", float64(n)*float64(axis), "what an int counts")
		}
		n *= axis
	}
	return n, nil
}

// axes are the lengths of the axes, the slowest first; one that is not given has one
// value.
func (s *Sweep) axes() [5]int {
	return [5]int{len(s.TAS), len(s.Rates), max(1, len(s.Legs)), max(1, len(s.WindSpeed)), max(1, len(s.WindFrom))}
}

// All gives every case by its number, in order, whatever the number of workers. A case is
// lent: it is valid until the loop asks for the next. Memory does not grow with the number
// of cases.
//
// The sequence ends early where the context is cancelled, which its Err tells. It can be
// ranged over again.
//
// Errors: as for [Sweep.Cases].
func (s Sweep) All(ctx context.Context) (iter.Seq2[int, *Case], error) {
	n, err := s.cases("hold.Sweep.All")
	if err != nil {
		return nil, err
	}
	workers := s.Workers
	if workers == 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	chunks := (n + sweepChunk - 1) / sweepChunk
	if workers = min(workers, chunks); workers == 1 {
		return func(yield func(int, *Case) bool) { s.alone(ctx, n, yield) }, nil
	}
	return func(yield func(int, *Case) bool) { s.together(ctx, n, chunks, workers, yield) }, nil
}

// alone works and hands out in turns.
func (s *Sweep) alone(ctx context.Context, n int, yield func(int, *Case) bool) {
	cases := make([]Case, min(n, sweepChunk))
	for first := 0; first < n && ctx.Err() == nil; first += sweepChunk {
		part := cases[:min(sweepChunk, n-first)]
		s.work(part, first)
		if !s.hand(part, first, yield) {
			return
		}
	}
}

// slot holds a chunk on its way round.
type slot struct {
	cases []Case
	ready chan struct{}
}

// together works in a ring of chunks: each is handed out in its turn and given back to be
// worked again for the chunk a round later. The goroutine that hands out works too while
// the chunk it waits for is not ready: so no more goroutines are busy than there are
// workers, and what it worked itself is near when it is handed out.
func (s *Sweep) together(ctx context.Context, n, chunks, workers int, yield func(int, *Case) bool) {
	ring := make([]slot, min(sweepRing*workers, chunks))
	jobs := make(chan int, len(ring))
	for i := range ring {
		ring[i] = slot{make([]Case, sweepChunk), make(chan struct{}, 1)}
		jobs <- i
	}
	part := func(k int) (cases []Case, first int) {
		first = k * sweepChunk
		return ring[k%len(ring)].cases[:min(sweepChunk, n-first)], first
	}
	work := func(k int) {
		s.work(part(k))
		ring[k%len(ring)].ready <- struct{}{}
	}
	var wg sync.WaitGroup
	for range workers - 1 {
		wg.Go(func() {
			for k := range jobs {
				work(k)
			}
		})
	}
	defer wg.Wait()
	defer close(jobs)
	for k := range chunks {
		for ready := false; !ready; {
			select { // a chunk that is ready comes before work on another
			case <-ring[k%len(ring)].ready:
				ready = true
				continue
			default:
			}
			select {
			case <-ring[k%len(ring)].ready:
				ready = true
			case job := <-jobs:
				work(job)
			case <-ctx.Done():
				return
			}
		}
		cases, first := part(k)
		if ctx.Err() != nil || !s.hand(cases, first, yield) {
			return
		}
		if next := k + len(ring); next < chunks {
			jobs <- next
		}
	}
}

// hand yields the cases of a chunk.
func (s *Sweep) hand(cases []Case, first int, yield func(int, *Case) bool) bool {
	for i := range cases {
		if !yield(first+i, &cases[i]) {
			return false
		}
	}
	if s.Done != nil {
		s.Done.Add(int64(len(cases)))
	}
	return true
}

// work solves the cases of a chunk. The numbers of the axes are counted on like the
// wheels of an odometer: divisions for each case would cost a tenth of it.
func (s *Sweep) work(cases []Case, first int) {
	axes := s.axes()
	var at [5]int
	for k := len(axes) - 1; k >= 0; k-- {
		at[k], first = first%axes[k], first/axes[k]
	}
	p := s.Pattern
	for i := range cases {
		c := &cases[i]
		c.Leg = s.Pattern.leg
		if len(s.Legs) > 0 {
			c.Leg = s.Legs[at[2]]
		}
		p.leg = c.Leg
		c.Flight = Flight{TAS: s.TAS[at[0]], Rate: s.Rates[at[1]], Altitude: s.Altitude, Wind: s.windAt(at[3], at[4])}
		c.Err = p.circuit("hold.Pattern.Circuit", &c.Flight, &c.Circuit)
		for k := len(axes) - 1; k >= 0; k-- {
			if at[k]++; at[k] < axes[k] {
				break
			}
			at[k] = 0
		}
	}
}

func (s *Sweep) windAt(speed, from int) (w wind.Wind) {
	if len(s.WindSpeed) > 0 {
		w.Speed = s.WindSpeed[speed]
	}
	if len(s.WindFrom) > 0 {
		w.From = s.WindFrom[from]
	}
	return w
}
