package timing_test

import (
	"fmt"
	"time"

	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/timing"
	"github.com/holdingfix/abeam/wind"
)

// One lap by the rules of thumb, and what they ask for on the next.
func Example() {
	p, err := hold.NewPattern(hold.Fix{}, 75, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		fmt.Println(err)
		return
	}
	f := hold.Flight{TAS: 110, Rate: hold.StandardRate, Wind: wind.Wind{From: 120, Speed: 15}}
	exact, err := p.Circuit(f)
	if err != nil {
		fmt.Println(err)
		return
	}
	correction, err := timing.TripleDrift(exact.InboundCorrection)
	if err != nil {
		fmt.Println(err)
		return
	}
	lap, err := p.Fly(f, p.Outward().Add(correction), time.Minute)
	if err != nil {
		fmt.Println(err)
		return
	}
	full, err := timing.FullDiscrepancy(time.Minute, lap.Inbound, time.Minute)
	if err != nil {
		fmt.Println(err)
		return
	}
	half, err := timing.HalfDiscrepancy(time.Minute, lap.Inbound, time.Minute)
	if err != nil {
		fmt.Println(err)
		return
	}
	s := func(d time.Duration) string { return fmt.Sprintf("%.0f s", d.Seconds()) }
	fmt.Printf("triple drift, 1 minute: heading %.0f, inbound %s\n", lap.OutboundHeading, s(lap.Inbound))
	fmt.Printf("next outbound by the full discrepancy %s, by half %s\n", s(full), s(half))
	fmt.Printf("exact: heading %.0f, outbound %s by the clock\n", exact.OutboundHeading, s(exact.Clock))
	// Output:
	// triple drift, 1 minute: heading 238, inbound 83 s
	// next outbound by the full discrepancy 37 s, by half 48 s
	// exact: heading 233, outbound 41 s by the clock
}

func ExampleStart() {
	p, err := hold.NewPattern(hold.Fix{}, 75, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := p.Circuit(hold.Flight{TAS: 110, Rate: hold.StandardRate, Wind: wind.Wind{From: 75, Speed: 15}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range []timing.Start{timing.AtAbeam, timing.AtTurnComplete, timing.AtWingsLevelOrAbeam} {
		after, err := s.After(c)
		if err != nil {
			fmt.Println(err)
			return
		}
		reads, err := s.Outbound(c)
		fmt.Printf("%v: %.0f s from wings level, reads %.0f s %v\n", s, after.Seconds(), reads.Seconds(), err)
	}
	// Output:
	// over or abeam the fix, whichever is later: -7 s from wings level, reads 39 s <nil>
	// when the outbound turn is complete: 0 s from wings level, reads 31 s <nil>
	// wings level or abeam the fix, whichever is later: 0 s from wings level, reads 31 s <nil>
}

func ExampleSlowAt() {
	d, err := timing.SlowAt(240)
	fmt.Println(d, timing.SlowWithin, err)
	// Output: 12 NM 3m0s <nil>
}
