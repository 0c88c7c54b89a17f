package timing

import (
	"math"

	"gonum.org/v1/gonum/stat"
)

// Spread is the distribution of a quantity, kept as counts in bins of equal width: its size
// does not grow with what is added, and the order of adding does not show. Beyond its reach
// a value counts in the outermost bin, so that a quantile there is a bound: the quantity
// is at least so large. The zero Spread holds nothing and takes nothing.
type Spread struct {
	width  float64
	counts []uint64 // the middle bin is centred on 0
	n      uint64
}

// newSpread covers -reach to reach in bins of the width.
func newSpread(width, reach float64) Spread {
	return Spread{width: width, counts: make([]uint64, 2*int(math.Ceil(reach/width))+1)}
}

func (s *Spread) add(x float64) {
	mid := len(s.counts) / 2
	i := math.RoundToEven(x / s.width)
	s.counts[mid+int(min(float64(mid), max(-float64(mid), i)))]++
	s.n++
}

func (s *Spread) merge(o *Spread) {
	for i, c := range o.counts {
		s.counts[i] += c
	}
	s.n += o.n
}

// N is how many values were counted.
func (s Spread) N() uint64 { return s.n }

// Reach is the largest value told apart; beyond it a quantile is a bound.
func (s Spread) Reach() float64 { return s.width * float64(len(s.counts)/2) }

// Quantile is the value below or at which the share p, 0 to 1, of the values lies, to half
// a bin: 0.05 s of time, 0.005 NM of distance. It is 0 for an empty Spread or a p out of
// range.
func (s Spread) Quantile(p float64) float64 { return s.quantile(p, false) }

// AbsQuantile is Quantile of the sizes without their signs: 0.5 gives the median error,
// 0.95 the error that one in twenty exceeds.
func (s Spread) AbsQuantile(p float64) float64 { return s.quantile(p, true) }

func (s Spread) quantile(p float64, abs bool) float64 {
	if s.n == 0 || !(p >= 0 && p <= 1) {
		return 0
	}
	mid := len(s.counts) / 2
	var x, weights []float64
	take := func(at int, count uint64) {
		if count > 0 {
			x, weights = append(x, float64(at)*s.width), append(weights, float64(count))
		}
	}
	if abs {
		take(0, s.counts[mid])
		for i := 1; i <= mid; i++ {
			take(i, s.counts[mid+i]+s.counts[mid-i])
		}
	} else {
		for i, c := range s.counts {
			take(i-mid, c)
		}
	}
	return stat.Quantile(p, stat.Empirical, x, weights)
}
