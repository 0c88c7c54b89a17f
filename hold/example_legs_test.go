package hold_test

import (
	"fmt"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

func ExampleDMELimit() {
	// AIM FIG 5-3-5: inbound toward the station, the fix at 10 DME, a leg of 5 NM.
	station := hold.Station{Course: hold.Toward, Fix: 10, Elevation: 1200}
	limit, err := station.Limit(5)
	if err != nil {
		fmt.Println(err)
		return
	}
	p, err := pattern(hold.Right).WithLeg(hold.DMELimit(station, limit))
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := p.Circuit(hold.Flight{TAS: 180, Rate: hold.StandardRate, Wind: wind.Wind{From: 120, Speed: 25}, Altitude: 9000})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%v: %v, heading %.0f, %.0f s by the clock, then %.0f s inbound\n",
		p.Leg().Kind(), p.Leg(), c.OutboundHeading, c.Clock.Seconds(), c.Inbound.Seconds())
	s, l := p.Leg().DME()
	fmt.Println(s.Course, s.Fix, l, s.Validate())
	// Output:
	// outbound leg to a DME limit: to 15 NM DME, heading 242, 88 s by the clock, then 119 s inbound
	// toward the station 10 NM 15 NM <nil>
}

func ExampleStation_Limit() {
	toward, err := hold.Station{Course: hold.Toward, Fix: 10}.Limit(5)
	fmt.Println(toward, err)
	away, err := hold.Station{Course: hold.Away, Fix: 28}.Limit(8)
	fmt.Println(away, err)
	_, err = hold.Station{Course: hold.Away, Fix: 5}.Limit(8)
	fmt.Println(err)
	// Output:
	// 15 NM <nil>
	// 20 NM <nil>
	// hold.Station.Limit: DME limit is -3 NM, must be above 0 NM and below the 5 NM of the fix: inbound away from the station: invalid input
}

func ExampleTimedOutbound() {
	// The minute outbound is the same in every wind; the minute inbound is not.
	p, err := pattern(hold.Left).WithLeg(hold.TimedOutbound(time.Minute))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(p.Leg(), p.Leg().Outbound(), p.Leg().Inbound())
	for _, speed := range []abeam.Knots{0, 15, 30} {
		c, err := p.Circuit(hold.Flight{TAS: 120, Rate: hold.StandardRate, Wind: wind.Wind{From: 120, Speed: speed}})
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v: outbound %.0f, clock %.0f s, inbound %.0f s\n", speed, c.OutboundHeading, c.Clock.Seconds(), c.Inbound.Seconds())
	}
	// Output:
	// 1m0s outbound 1m0s 0s
	// 0 kt: outbound 255, clock 60 s, inbound 60 s
	// 15 kt: outbound 240, clock 60 s, inbound 81 s
	// 30 kt: outbound 223, clock 60 s, inbound 102 s
}

func ExampleLengthOutbound() {
	f := hold.Flight{TAS: 210, Rate: hold.StandardRate, Wind: wind.Wind{From: 75, Speed: 40}}
	for _, leg := range []hold.Leg{hold.LengthOutbound(4), hold.LengthInbound(4)} {
		p, err := pattern(hold.Right).WithLeg(leg)
		if err != nil {
			fmt.Println(err)
			return
		}
		c, err := p.Circuit(f)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v of %v: turn in at %.2f NM, wings level inbound at %.2f NM\n",
			leg.Kind(), leg.Length(), -c.TurnIn.Along, -c.Established.Along)
	}
	// Output:
	// outbound leg by length of 4 NM: turn in at 4.00 NM, wings level inbound at 4.67 NM
	// inbound leg by length of 4 NM: turn in at 3.33 NM, wings level inbound at 4.00 NM
}

func ExampleLengthInbound() {
	p, err := pattern(hold.Right).WithLeg(hold.LengthInbound(4))
	if err != nil {
		fmt.Println(err)
		return
	}
	heading, straight, err := p.Outbound(hold.Flight{TAS: 240, Rate: hold.StandardRate})
	fmt.Println(heading, straight, err)
	// Output: 255° 1m0s <nil>
}

func ExampleSlantRange() {
	slant, err := hold.SlantRange(5, 18000)
	if err != nil {
		fmt.Println(err)
		return
	}
	ground, err := hold.GroundDistance(slant, 18000)
	fmt.Printf("reads %.3f NM at %.3f NM %v\n", slant, ground, err)
	_, err = hold.GroundDistance(2, 18000)
	fmt.Println(err != nil)
	// Output:
	// reads 5.812 NM at 5.000 NM <nil>
	// true
}

func ExampleDesignDMELimit() {
	// ICAO Doc 8168 Vol II, Diagram I-4-3-App C-15: 30 NM, 220 KIAS, 14,000 ft, ISA+15.
	tas, err := wind.DesignTAS(220, 14000, 15)
	if err != nil {
		fmt.Println(err)
		return
	}
	turn, err := hold.ICAOTurn().At(tas)
	if err != nil {
		fmt.Println(err)
		return
	}
	limit, err := hold.DesignDMELimit(30, tas, turn.Rate, 14000, time.Minute)
	fmt.Printf("%.3f NM, charted as %v %v\n", limit.Exact, limit.Charted, err)
	// Output: 35.013 NM, charted as 35 NM <nil>
}

func ExampleRNPTurn() {
	for _, altitude := range []abeam.Feet{24500, 25000} {
		rule, err := hold.RNPTurn(altitude)
		if err != nil {
			fmt.Println(err)
			return
		}
		t, err := rule.At(380)
		fmt.Printf("%.0f ft: %.0f degrees of bank, %.2f NM %v\n", float64(altitude), t.Bank, t.Radius, err)
	}
	// Output:
	// 24500 ft: 23 degrees of bank, 4.96 NM <nil>
	// 25000 ft: 15 degrees of bank, 7.85 NM <nil>
}
