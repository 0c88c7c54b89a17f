package hold_test

import (
	"context"
	"fmt"
	"math"
	"sync/atomic"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// A flight of no aircraft in a wind of no day.
func climbing() hold.Varying {
	winds, err := wind.NewProfile(
		wind.Level{Altitude: 3000, Wind: wind.Wind{From: 150, Speed: 12}},
		wind.Level{Altitude: 9000, Wind: wind.Wind{From: 180, Speed: 30}},
		wind.Level{Altitude: 18000, Wind: wind.Wind{From: 200, Speed: 55}},
	)
	if err != nil {
		panic(err)
	}
	return hold.Varying{
		CAS: 210, Deviation: 8,
		Ascent:       hold.Ascent{From: 7000, To: 13000, PerMinute: 1200},
		Winds:        winds,
		OutboundTurn: hold.FAATurn(), InboundTurn: hold.FAAFlightDirectorTurn(),
		RollRate: 5, Delay: 3 * time.Second,
	}
}

func ExamplePattern_VaryingCircuit() {
	v := climbing()
	fmt.Println(v.Validate())
	c, err := pattern(hold.Right).VaryingCircuit(v)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("outbound %.0f for %.0f s by the clock, lap %v\n", c.OutboundHeading, c.Clock.Seconds(), c.Lap.Round(time.Second))
	fmt.Printf("over the fix at %.0f ft and %.0f kt true, again at %.0f ft and %.0f kt\n",
		float64(c.OverFix.Altitude), float64(c.OverFix.TAS), float64(c.End.Altitude), float64(c.End.TAS))
	fmt.Printf("the heading inbound goes from %.1f to %.1f\n", c.Established.Heading, c.End.Heading)
	// Output:
	// <nil>
	// outbound 226 for 75 s by the clock, lap 5m29s
	// over the fix at 7000 ft and 236 kt true, again at 13000 ft and 258 kt
	// the heading inbound goes from 82.9 to 83.0
}

func ExampleVaryingCircuit_Track() {
	c, err := pattern(hold.Left).VaryingCircuit(climbing())
	if err != nil {
		fmt.Println(err)
		return
	}
	track, err := c.Track(90 * time.Second)
	if err != nil {
		fmt.Println(err)
		return
	}
	// The lap ends at the fix but for rounding, whose sign is not shown.
	hundredths := func(x abeam.NM) float64 { return math.Round(100*float64(x))/100 + 0 }
	for phase, m := range track {
		fmt.Printf("%.0f s: %v, along %.2f, abreast %.2f, %.0f ft\n", m.Time.Seconds(), phase, hundredths(m.At.Along), hundredths(m.At.Abreast), float64(m.Altitude))
	}
	// Output:
	// 0 s: outbound turn, along 0.00, abreast 0.00, 7000 ft
	// 90 s: outbound leg, along -0.26, abreast 3.36, 8800 ft
	// 180 s: inbound turn, along -5.98, abreast 2.87, 10600 ft
	// 270 s: inbound leg, along -2.88, abreast 0.00, 12400 ft
	// 308 s: inbound leg, along 0.00, abreast 0.00, 13000 ft
}

func ExamplePattern_Shuttle() {
	v := climbing()
	v.Ascent.To = 17000
	s, err := pattern(hold.Right).Shuttle(v, hold.FAAClimb())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("17,000 ft after %v, over the fix after %v\n", s.Reached, s.Time.Round(time.Second))
	for i, c := range s.Laps {
		fmt.Printf("lap %d: to %.0f ft, outbound %.0f, too fast: %v\n", i+1, float64(c.End.Altitude), c.OutboundHeading, c.Notes.Has(hold.AboveSpeedLimit))
	}
	track, err := s.Track(3 * time.Minute)
	if err != nil {
		fmt.Println(err)
		return
	}
	for lap, m := range track {
		fmt.Printf("lap %d, %v: %.0f ft\n", lap+1, m.Time.Round(time.Second), float64(m.Altitude))
	}
	// Output:
	// 17,000 ft after 8m20s, over the fix after 11m33s
	// lap 1: to 13576 ft, outbound 226, too fast: false
	// lap 2: to 17000 ft, outbound 224, too fast: false
	// lap 1, 0s: 7000 ft
	// lap 1, 3m0s: 10600 ft
	// lap 2, 5m29s: 13576 ft
	// lap 2, 8m29s: 17000 ft
	// lap 2, 11m29s: 17000 ft
	// lap 2, 11m33s: 17000 ft
}

func ExampleNewFlight() {
	air, err := wind.MeasuredAir(15000, -10)
	if err != nil {
		fmt.Println(err)
		return
	}
	f, err := hold.NewFlight(220, air, hold.ICAOTurn(), wind.Wind{From: 300, Speed: 40})
	fmt.Printf("%.1f kt true, %.2f deg/s at %v %v\n", f.TAS, f.Rate, f.Altitude, err)
	// Output:
	// 277.0 kt true, 1.84 deg/s at 15000 ft <nil>
}

func ExampleSweep_All() {
	var done atomic.Int64
	s := hold.Sweep{
		Pattern: pattern(hold.Right), TAS: []abeam.Knots{100, 120, 140}, Rates: []hold.Rate{hold.StandardRate},
		Legs:      []hold.Leg{hold.TimedInbound(time.Minute), hold.LengthOutbound(3)},
		WindSpeed: []abeam.Knots{10, 20, 30, 40}, WindFrom: []abeam.Bearing{0, 45, 90, 135, 180, 225, 270, 315},
		Done: &done,
	}
	n, err := s.Cases()
	if err != nil {
		fmt.Println(err)
		return
	}
	all, err := s.All(context.Background())
	if err != nil {
		fmt.Println(err)
		return
	}
	unflyable, at, widest := 0, 0, abeam.NM(0)
	var worst hold.Case
	for i, c := range all {
		if c.Err != nil {
			unflyable++
		} else if w := c.Circuit.Extent.Width(); w > widest+1e-9 {
			at, widest, worst = i, w, *c
		}
	}
	fmt.Printf("%d cases, %d counted, %d unflyable\n", n, done.Load(), unflyable)
	fmt.Printf("widest %.2f NM: case %d, TAS %v, %v, wind from %v at %v\n", widest, at, worst.Flight.TAS, worst.Leg, worst.Flight.Wind.From, worst.Flight.Wind.Speed)
	// Output:
	// 192 cases, 192 counted, 2 unflyable
	// widest 2.19 NM: case 152, TAS 140 kt, 1m0s inbound, wind from 360° at 40 kt
}
