package hold_test

import (
	"errors"
	"fmt"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// A fix of no chart.
var tarno = hold.Fix{Ident: "TARNO", Position: s2.LatLngFromDegrees(47.25, -120.5), Variation: 14}

func pattern(turn hold.Turn) hold.Pattern {
	p, err := hold.NewPattern(tarno, 75, turn, hold.TimedInbound(time.Minute))
	if err != nil {
		panic(err)
	}
	return p
}

// The lap that closes on the fix in a wind, and its shape.
func ExamplePattern_Circuit() {
	c, err := pattern(hold.Right).Circuit(hold.Flight{TAS: 110, Rate: hold.StandardRate, Wind: wind.Wind{From: 120, Speed: 25}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("inbound %.0f, outbound %.0f (%+.0f from still air)\n", c.InboundHeading, c.OutboundHeading, c.OutboundCorrection)
	fmt.Printf("outbound %.0f s after wings level, %.0f s by the clock\n", c.Straight.Seconds(), c.Clock.Seconds())
	fmt.Printf("turns of %.0f and %.0f degrees, lap %v\n", c.OutboundTurn.Angle, c.InboundTurn.Angle, c.Lap.Round(time.Second))
	fmt.Printf("widest %.2f NM, longest %.2f NM\n", c.Extent.Width(), c.Extent.Length())
	// Output:
	// inbound 84, outbound 210 (-45 from still air)
	// outbound 35 s after wings level, 31 s by the clock
	// turns of 125 and 235 degrees, lap 3m35s
	// widest 1.48 NM, longest 2.40 NM
}

// The outbound heading and time alone, in still air.
func ExamplePattern_Outbound() {
	p := pattern(hold.Left)
	heading, straight, err := p.Outbound(hold.Flight{TAS: 110, Rate: hold.StandardRate})
	fmt.Println(heading, straight, err)
	fmt.Println(p.Inbound(), p.Outward(), p.Turn(), p.Leg().Inbound(), p.Fix().Ident)
	fmt.Println(p)
	fmt.Println(hold.Pattern{})
	// Output:
	// 255° 1m0s <nil>
	// 075° 255° left 1m0s TARNO
	// TARNO, inbound 075°, left turns, 1m0s inbound
	// inbound 360°, right turns, no leg
}

// In a headwind of half the airspeed no outbound leg gives a minute inbound; what can be had.
func ExamplePattern_ShortestInbound() {
	p := pattern(hold.Right)
	f := hold.Flight{TAS: 90, Rate: hold.StandardRate, Wind: wind.Wind{From: 75, Speed: 45}}
	_, err := p.Circuit(f)
	fmt.Println(errors.Is(err, abeam.ErrUnflyable))
	shortest, err := p.ShortestInbound(f)
	if err != nil {
		fmt.Println(err)
		return
	}
	longer, err := p.WithLeg(hold.TimedInbound(shortest))
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := longer.Circuit(f)
	fmt.Println(shortest, c.Lap, err)
	for note := range c.Notes.All() {
		fmt.Println(note)
	}
	fmt.Println(c.Notes.Has(hold.NoOutboundLeg), len(c.Notes.String()) > 0)
	// Output:
	// true
	// 2m0s 4m0s <nil>
	// abeam the fix is passed in the outbound turn: the clock starts wings level
	// the turns join without an outbound leg
	// true true
}

// What comes of a heading and a time that are not the exact ones.
func ExamplePattern_Fly() {
	// A minute on the reciprocal, without any correction for the wind.
	p := pattern(hold.Right)
	f := hold.Flight{TAS: 110, Rate: hold.StandardRate, Wind: wind.Wind{From: 120, Speed: 25}}
	c, err := p.Fly(f, p.Outward(), time.Minute)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("inbound %.0f s, rolled out %.2f NM off the course, on the non-holding side: %v\n",
		c.Inbound.Seconds(), -c.Established.Abreast, c.Notes.Has(hold.NonHoldingSide))
	// Output: inbound 108 s, rolled out 0.88 NM off the course, on the non-holding side: true
}

// Where the aeroplane is at each minute of a lap.
func ExampleCircuit_Track() {
	c, err := pattern(hold.Left).Circuit(hold.Flight{TAS: 110, Rate: hold.StandardRate})
	if err != nil {
		fmt.Println(err)
		return
	}
	track, err := c.Track(time.Minute)
	if err != nil {
		fmt.Println(err)
		return
	}
	for s := range track {
		fmt.Printf("%v: %v, along %.2f, abreast %.2f, heading %.0f\n", s.Time, s.Phase, s.At.Along, s.At.Abreast, s.Heading)
	}
	samples, err := c.AppendTrack(nil, 2*time.Minute)
	fmt.Println(len(samples), err)
	// Output:
	// 0s: outbound turn, along 0.00, abreast 0.00, heading 75
	// 1m0s: outbound leg, along 0.00, abreast 1.17, heading 255
	// 2m0s: inbound turn, along -1.83, abreast 1.17, heading 255
	// 3m0s: inbound leg, along -1.83, abreast 0.00, heading 75
	// 4m0s: inbound leg, along 0.00, abreast 0.00, heading 75
	// 3 <nil>
}

// A lap as latitude and longitude, for a map.
func ExampleCircuit_Positions() {
	c, err := pattern(hold.Right).Circuit(hold.Flight{TAS: 110, Rate: hold.StandardRate})
	if err != nil {
		fmt.Println(err)
		return
	}
	positions, err := c.Positions(tarno, time.Minute)
	if err != nil {
		fmt.Println(err)
		return
	}
	for s, at := range positions {
		fmt.Printf("%v %.4f %.4f\n", s.Time, at.Lat.Degrees(), at.Lng.Degrees())
	}
	// Output:
	// 0s 47.2500 -120.5000
	// 1m0s 47.2306 -120.4995
	// 2m0s 47.2300 -120.5443
	// 3m0s 47.2495 -120.5448
	// 4m0s 47.2500 -120.5000
}

// Speed limits at 13,000 ft and leg times at 15,000 ft, by authority.
func ExampleRules() {
	for _, r := range []hold.Rules{hold.FAA(), hold.FAA210(), hold.FAA().Charted(175), hold.FAAClimb(), hold.FAAAirForce(), hold.FAANavy(), hold.ICAO(), hold.ICAOCategoryAB(), hold.ICAOTurbulence(), hold.ICAOTurbulenceAB(), hold.ICAOEarlier()} {
		speed, err := r.SpeedLimit(13000)
		if err != nil {
			fmt.Println(err)
			return
		}
		leg, err := r.LegTime(15000)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v: %v; %v %v\n", r, speed.Limit, leg.Time, r.LegTimeIs)
	}
	// Output:
	// FAA (AIM 5-3-8, 2023 and later): 230 KIAS; 1m30s inbound leg
	// FAA (AIM 5-3-8, 2023 and later): 210 KIAS; 1m30s inbound leg
	// FAA (AIM 5-3-8, 2023 and later): 175 KIAS; 1m30s inbound leg
	// FAA, climb in the hold (AIM 5-3-8, 2023 and later): 310 KIAS; 1m30s inbound leg
	// FAA, USAF field (AIM 5-3-8, 2023 and later): 310 KIAS; 1m30s inbound leg
	// FAA, Navy field (AIM 5-3-8, 2023 and later): 230 KIAS; 1m30s inbound leg
	// ICAO (ICAO Doc 8168, 5th ed. 2006): 230 KIAS; 1m30s outbound leg in still air
	// ICAO, category A and B (ICAO Doc 8168, 5th ed. 2006): 170 KIAS; 1m30s outbound leg in still air
	// ICAO, turbulence (ICAO Doc 8168, 5th ed. 2006): 280 KIAS; 1m30s outbound leg in still air
	// ICAO, turbulence, category A and B (ICAO Doc 8168, 5th ed. 2006): 170 KIAS; 1m30s outbound leg in still air
	// ICAO (earlier edition): 220 KIAS; 1m30s outbound leg in still air
}

// At 260 kt the bank limit governs; a steeper limit makes a tighter turn.
func ExampleTurnRule_At() {
	for _, rule := range []hold.TurnRule{hold.FAATurn(), hold.FAAFlightDirectorTurn(), hold.ICAOTurn()} {
		t, err := rule.At(260)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.2f deg/s at %.0f degrees of bank, radius %.2f NM, by the bank limit: %v\n", t.Rate, t.Bank, t.Radius, t.ByBank)
	}
	// Output:
	// 2.43 deg/s at 30 degrees of bank, radius 1.71 NM, by the bank limit: true
	// 1.96 deg/s at 25 degrees of bank, radius 2.11 NM, by the bank limit: true
	// 1.96 deg/s at 25 degrees of bank, radius 2.11 NM, by the bank limit: true
}

func ExampleRateAtBank() {
	rate, err := hold.RateAtBank(157.23, 25)
	if err != nil {
		fmt.Println(err)
		return
	}
	bank, err := hold.BankAtRate(157.23, rate)
	if err != nil {
		fmt.Println(err)
		return
	}
	radius, err := hold.Radius(157.23, hold.StandardRate)
	fmt.Printf("%.2f deg/s, back to %.1f degrees; at %v the radius is %.2f NM %v\n", rate, bank, hold.StandardRate, radius, err)
	// Output: 3.24 deg/s, back to 25.0 degrees; at 3 deg/s the radius is 0.83 NM <nil>
}

func ExampleTurn() {
	var t hold.Turn
	fmt.Println(t, t.Opposite(), t.Validate(), t.Apply(20), t.Opposite().Apply(20))
	text, err := hold.Left.MarshalText()
	fmt.Println(string(text), err, t.UnmarshalText([]byte("left")) == nil, t == hold.Left)
	// Output:
	// right left <nil> 20° -20°
	// left <nil> true true
}

func ExampleFlight_Validate() {
	fmt.Println(hold.Flight{TAS: 90, Rate: 3, Wind: wind.Wind{From: 200, Speed: 90}}.Validate())
	// Output: hold.Flight.Validate: wind speed is 90 kt, must be below the TAS of 90 kt: unflyable
}
