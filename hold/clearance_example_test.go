package hold_test

import (
	"fmt"
	"time"

	"github.com/holdingfix/abeam/hold"
)

func ExampleParseClearance() {
	c, err := hold.ParseClearance("cleared to tarno, hold north east of tarno on the zero six three radial, two minute legs, left turns, efc 18:35Z")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(c)
	fmt.Println(c.Readback())
	fmt.Println(c.HoldingFix(), c.Direction, c.Line.Kind, c.Line.Bearing, c.LegTime, c.Turn, c.EFC, c.Validate())
	_, err = hold.ParseClearance("hold north of tarno on the 463 radial")
	fmt.Println(err)
	// Output:
	// CLEARED TO TARNO, HOLD NORTHEAST OF TARNO ON THE 063 RADIAL, 2 MINUTE LEG, LEFT TURNS, EXPECT FURTHER CLEARANCE 1835
	// CLEARED TO TARNO, HOLD NORTHEAST OF TARNO ON THE ZERO SIX THREE RADIAL, TWO MINUTE LEG, LEFT TURNS, EXPECT FURTHER CLEARANCE ONE EIGHT THREE FIVE
	// TARNO northeast radial 063° 2m0s left 1835 <nil>
	// hold.ParseClearance: word 7 at byte 27 is "463", must be three figures from 000 to 360: invalid input
}

// The pattern lies on either side of a DME fix; the direction of holding tells.
func ExampleClearance_InboundCourse() {
	for _, text := range []string{
		"HOLD WEST OF THE 15 DME FIX ON THE 266 RADIAL, 5 MILE LEGS", // beyond the fix: inbound to the station
		"HOLD EAST OF THE 15 DME FIX ON THE 266 RADIAL, 5 MILE LEGS", // before it: inbound away from the station
		"HOLD NORTH OF THE 15 DME FIX ON THE 266 RADIAL, 5 MILE LEGS",
	} {
		c, err := hold.ParseClearance(text)
		if err != nil {
			fmt.Println(err)
			return
		}
		inbound, err := c.InboundCourse(hold.Setting{})
		miles, ok := c.DistanceLeg()
		fmt.Println(inbound, err, miles, ok)
	}
	// Output:
	// 086° <nil> 5 NM true
	// 266° <nil> 5 NM true
	// 360° hold.Clearance.InboundCourse: direction of holding is north, must be along the radial 266, not across it: invalid input 5 NM true
}

func ExampleClearance_Pattern() {
	c, err := hold.ParseClearance("HOLD SOUTH OF TARNO ON THE 180 RADIAL, LEFT TURNS, EXPECT FURTHER CLEARANCE 1835")
	if err != nil {
		fmt.Println(err)
		return
	}
	s := hold.Setting{Fix: tarno, AtStation: true, Rules: hold.FAA(), Altitude: 15000}
	p, err := c.Pattern(s)
	fmt.Println(p.Fix().Ident, p.Inbound(), p.Turn(), p.Leg().Inbound(), err)
	p, err = hold.StandardPattern(s, 310) // nothing was said, and nothing is charted
	fmt.Println(p.Inbound(), p.Turn(), p.Leg().Inbound(), err)
	// Output:
	// TARNO 360° left 1m30s <nil>
	// 310° right 1m30s <nil>
}

func ExampleClearance_Findings() {
	c, err := hold.ParseClearance("HOLD WEST OF TARNO ON THE 180 RADIAL, 2 MINUTE LEG, MAXIMUM HOLDING AIRSPEED IS 230")
	if err != nil {
		fmt.Println(err)
		return
	}
	found, err := c.Findings(hold.Setting{Fix: tarno, Rules: hold.FAA(), Altitude: 5000, Now: time.Date(2026, 3, 1, 18, 0, 0, 0, time.UTC)})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range found {
		fmt.Printf("%v (to know, not to ask: %v)\n", f, f.Information())
	}
	// Output:
	// The direction of holding does not fit the line: ask which is meant (to know, not to ask: false)
	// The leg time is longer than the standard one of the altitude: it is flown as cleared (to know, not to ask: true)
	// No turn was said: turns are to the right (to know, not to ask: true)
	// The maximum holding airspeed is above the limit of the altitude: ask whether it is meant (to know, not to ask: false)
	// No EFC was given: ask for one (to know, not to ask: false)
}

func ExampleOctantOf() {
	o := hold.OctantOf(243)
	fmt.Println(o, o.Bearing(), o.Contains(247.5), o.Contains(248), hold.OctantOf(247.5))
	// Output: southwest 225° true false west
}

func ExampleClockTime_Near() {
	efc, err := hold.NewClockTime(0, 10)
	if err != nil {
		fmt.Println(err)
		return
	}
	hour, minute := efc.Clock()
	fmt.Println(efc, efc.Given(), hour, minute)
	fmt.Println(efc.Near(time.Date(2026, 12, 31, 23, 50, 0, 0, time.UTC)))
	// Output:
	// 0010 true 0 10
	// 2027-01-01 00:10:00 +0000 UTC
}
