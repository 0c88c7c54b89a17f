package main

import (
	"math"
	"testing"
	"time"
)

// way is one way of doing something, with what it is in words.
type way[T any] struct {
	is string
	do func(*T) float64
}

// path is something that is done often.
type path struct {
	name       string
	floor      string // what the floor does
	general    string // what the general way does; "" where there is none
	units      float64
	fewUnits   float64   // in a turn of the general way
	turns      [3]func() // of the path, of the floor and of the general way
	difference func() float64
}

// sink takes the results, so that none is left out.
var sink float64

// compared is a path over many cases. Run, floor and general way are each called for a
// case in the same manner; units says how much a call does where that is not one of what
// is counted. The general way is slow and takes the first few cases only; what it gives
// is what run gives, which the test of this program holds it to.
func compared[T any](name string, cases []T, units func(*T) float64, run func(*T) float64, floor, general way[T], few int) path {
	over := func(cases []T, do func(*T) float64) func() {
		return func() {
			for i := range cases {
				sink += do(&cases[i])
			}
		}
	}
	count := func(cases []T) float64 {
		if units == nil {
			return float64(len(cases))
		}
		n := 0.0
		for i := range cases {
			n += units(&cases[i])
		}
		return n
	}
	p := path{
		name: name, floor: floor.is, general: general.is, units: count(cases),
		turns: [3]func(){over(cases, run), over(cases, floor.do), nil},
	}
	if general.do == nil {
		return p
	}
	some := cases[:few]
	p.fewUnits = count(some)
	p.turns[2] = over(some, general.do)
	p.difference = func() float64 {
		worst := 0.0
		for i := range some {
			d := math.Abs(run(&some[i]) - general.do(&some[i]))
			if math.IsNaN(d) {
				return d
			}
			worst = max(worst, d)
		}
		return worst
	}
	return p
}

// result is what was measured of a path, in nanoseconds.
type result struct {
	path
	ns, floorNS, generalNS float64 // generalNS is 0 where there is no general way
	allocs                 float64
}

// fast turns are taken together before a slow one.
const fast = 20

// measure takes turns until the budget is spent, once at least, and keeps the fastest of
// each.
func (p path) measure(budget time.Duration) result {
	var least [3]time.Duration
	turn := func(k int) {
		start := time.Now()
		p.turns[k]()
		if d := time.Since(start); least[k] == 0 || d < least[k] {
			least[k] = d
		}
	}
	for start := time.Now(); least[0] == 0 || time.Since(start) < budget; {
		for range fast {
			turn(0)
			turn(1)
		}
		if p.turns[2] != nil {
			turn(2)
		}
	}
	ns := func(k int) float64 { return float64(least[k].Nanoseconds()) }
	r := result{path: p, ns: ns(0) / p.units, floorNS: ns(1) / p.units}
	if p.turns[2] != nil {
		r.generalNS = ns(2) / p.fewUnits
	}
	r.allocs = testing.AllocsPerRun(2, p.turns[0]) / p.units
	return r
}
