package kinematics

import (
	"math"
	"testing"
)

// sweep hands over turns by two rates in winds along the course of up to nine tenths of the
// airspeed, shifted so that they cross the line at a known share of a circle, each with a
// bracket that ends a given share of a circle later.
func sweep(past float64, visit func(s Segment, hi float64)) {
	for _, rate := range []float64{3, -3, 0.2, -30} {
		circle := 360 / math.Abs(rate)
		for heading := -180.0; heading < 540; heading += 7 {
			for _, wx := range []float64{-0.027, -0.01, 0, 0.01, 0.027} {
				for _, share := range []float64{0.1, 0.35, 0.5, 0.77} {
					s := Segment{Heading: heading, Rate: rate, Speed: 0.03, WX: wx}
					s.X = -s.At(share * circle).X
					hi := math.Min(share+past, 1) * circle
					if a, b := s.X, s.At(hi).X; (a > 0) != (b > 0) {
						visit(s, hi)
					}
				}
			}
		}
	}
}

// Two or three steps where the line is near, as documented, and no search by halves (some
// forty of them) even where it is most of a circle away. A bracket that ends to the last
// digit where x is greatest or least takes most: the steps begin at nothing and triple.
func TestCrossingSteps(t *testing.T) {
	for _, c := range []struct {
		past, mean float64
		most       int
	}{{0.02, 2.5, 8}, {0.1, 3.5, 40}, {0.9, 5, 12}} {
		n, sum, most := 0, 0, 0
		sweep(c.past, func(s Segment, hi float64) {
			_, steps := s.crossing(0, hi)
			n, sum, most = n+1, sum+steps, max(most, steps)
		})
		mean := float64(sum) / float64(n)
		t.Logf("%v of a circle past the line: %.2f steps in the mean of %d, at most %d", c.past, mean, n, most)
		if n < 4000 || !(mean <= c.mean) || most > c.most {
			t.Errorf("%v of a circle past the line: %.2f steps in the mean of %d, at most %d", c.past, mean, n, most)
		}
	}
}

// The last step is below 1e-4 s, and the error of Halley's method after it is its cube times
// x"²/4x'² - x"'/6x', of which the place has x' times as much; besides that, the rounding of
// a place some radii away. Newton's method would leave x"/2 times the square, some 1e4 times
// as much.
func TestCrossingAccuracy(t *testing.T) {
	for _, past := range []float64{0.001, 0.02, 0.3, 0.9} {
		sweep(past, func(s Segment, hi float64) {
			got := s.Crossing(0, hi)
			omega := math.Abs(s.Rate * math.Pi / 180)
			d1, _ := s.Velocity(got)
			left := s.Speed * omega * omega * (s.Speed/(4*math.Abs(d1)) + 1.0/6)
			if x := s.At(got).X; !(got >= 0 && got <= hi && math.Abs(x) <= 1e-12*left+4e-15*s.Speed/omega) {
				t.Fatalf("%+v up to %v s: at %v s it is %v NM off the line", s, hi, got, x)
			}
		})
	}
}

// Where the line is not crossed, against the contract, the search ends all the same and
// inside of the bracket.
func TestCrossingWithoutALine(t *testing.T) {
	for _, x := range []float64{5, -5} {
		s := Segment{X: x, Heading: 20, Rate: 3, Speed: 0.03, WX: 0.01}
		if got := s.Crossing(10, 50); !(got >= 10 && got <= 50) {
			t.Errorf("from x = %v: %v s, want 10 to 50", x, got)
		}
	}
}
