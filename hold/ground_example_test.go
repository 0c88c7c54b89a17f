package hold_test

import (
	"fmt"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

func ExamplePattern_Locate() {
	p := pattern(hold.Left)
	at, err := p.Locate(s2.LatLngFromDegrees(47.26, -120.55))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f NM along, %.3f NM abreast\n", at.Along, at.Abreast)
	_, err = p.Locate(s2.LatLngFromDegrees(47.26, 120.55))
	fmt.Println(err)
	// Output:
	// -2.033 NM along, 0.637 NM abreast
	// hold.Pattern.Locate: position is [47.2600000, 120.5500000], must be within 500 NM of the fix: invalid input
}

func ExamplePattern_Place() {
	at, err := pattern(hold.Left).Place(hold.Point{Along: -2.033, Abreast: 0.637})
	fmt.Printf("%.4f %.4f %v\n", at.Lat.Degrees(), at.Lng.Degrees(), err)
	// Output: 47.2600 -120.5500 <nil>
}

func ExampleCircuit_ProgressOnTrack() {
	p := pattern(hold.Right)
	c, err := p.Circuit(hold.Flight{TAS: 110, Rate: hold.StandardRate, Wind: wind.Wind{From: 120, Speed: 25}})
	if err != nil {
		fmt.Println(err)
		return
	}
	at, err := p.Locate(s2.LatLngFromDegrees(47.2405, -120.515))
	if err != nil {
		fmt.Println(err)
		return
	}
	show := func(how string, g hold.Progress, err error) {
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s: %v, %.2f NM and %v to go on it, %.2f NM and %v to the fix, %+.2f NM off\n", how, g.Nearest.Phase,
			g.LegToGo, g.LegTime.Round(time.Second), g.ToFix, g.TimeToFix.Round(time.Second), g.Off)
	}
	g, err := c.Progress(at)
	show("by the place alone", g, err)
	g, err = c.ProgressOnTrack(at, 250)
	show("on track 250", g, err)
	g, err = c.ProgressOnHeading(at, c.InboundHeading)
	show("on the inbound heading", g, err)
	_, err = c.ProgressOnTrack(hold.Point{Along: -501}, abeam.Bearing(250))
	fmt.Println(err)
	// Output:
	// by the place alone: inbound leg, 0.62 NM and 25s to go on it, 0.62 NM and 25s to the fix, +0.56 NM off
	// on track 250: outbound leg, 0.59 NM and 19s to go on it, 4.74 NM and 2m37s to the fix, +0.58 NM off
	// on the inbound heading: inbound leg, 0.62 NM and 25s to go on it, 0.62 NM and 25s to the fix, +0.56 NM off
	// hold.Circuit.ProgressOnTrack: point is {-501 NM 0 NM}, must be within 500 NM of the fix: invalid input
}
