package area_test

import (
	"context"
	"fmt"
	"slices"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/hold/area"
	"github.com/holdingfix/abeam/wind"
)

// The template of a hold at 8,000 ft for 180 KIAS, laid on a waypoint's tolerance, with its
// buffer; the invented waypoint is known to 0.8 NM along and 1 NM across the course.
func ExampleDesign_Template() {
	template, err := area.Design{IAS: 180, Altitude: 8000}.Template()
	if err != nil {
		fmt.Println(err)
		return
	}
	waypoint, err := area.RNAV(0.8, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	basic := template.Hold.Over(waypoint)
	buffered, err := basic.Grown(area.BufferWidth)
	if err != nil {
		fmt.Println(err)
		return
	}
	r := basic.Rectangle()
	fmt.Printf("basic area: %.2f NM inbound, %.2f outbound, %.2f and %.2f to the sides\n", r.Inbound, r.Outbound, r.Holding, r.NonHolding)
	fmt.Printf("with entries %.2f NM outbound\n", template.Entries.Over(waypoint).Reach(180))
	at := hold.Point{Along: -4, Abreast: -6}
	fmt.Printf("4 NM back and 6 NM to the non-holding side: %.2f NM outside, in the buffer: %v\n", basic.Distance(at), buffered.Contains(at))
	edge := basic.Edge(-90)
	fmt.Printf("the edge is nearest that side at %.2f, %.2f\n", edge.Along, edge.Abreast)
	fmt.Printf("%.0f square miles; the tolerance alone %.1f\n", basic.Size(), waypoint.Area().Size())
	// Output:
	// basic area: 3.70 NM inbound, 9.80 outbound, 7.09 and 5.60 to the sides
	// with entries 10.77 NM outbound
	// 4 NM back and 6 NM to the non-holding side: 0.40 NM outside, in the buffer: true
	// the edge is nearest that side at -3.24, -5.60
	// 139 square miles; the tolerance alone 3.2
}

// How much of the template permitted flights need, and where they leave it.
func ExampleDesign_Envelope() {
	design := area.Design{IAS: 140, Altitude: 6000}
	template, err := design.Template()
	if err != nil {
		fmt.Println(err)
		return
	}
	envelope, err := design.Envelope()
	if err != nil {
		fmt.Println(err)
		return
	}
	out, at := template.Hold.Beyond(envelope.Hold)
	fmt.Printf("a permitted flight leaves the template by %.2f NM at %.0f degrees\n", out, at)
	spare, _ := envelope.Hold.Beyond(template.Hold)
	fmt.Printf("it is generous anywhere: %v\n", spare > 1e-9)
	entries, at := template.Entries.Beyond(envelope.All())
	fmt.Printf("an entry goes %.2f NM beyond it at %.0f degrees\n", entries, at)
	both := template.Hold.With(envelope.Hold)
	fmt.Printf("template %.0f, both %.0f square miles\n", template.Hold.Size(), both.Size())
	// Output:
	// a permitted flight leaves the template by 0.18 NM at 180 degrees
	// it is generous anywhere: false
	// an entry goes 1.64 NM beyond it at -64 degrees
	// template 56, both 57 square miles
}

// An area drawn for its highest airspeed, and slower aeroplanes that do not correct.
func ExampleDesign_Slower() {
	design := area.Design{IAS: 140, Altitude: 6000}
	one, err := design.Envelope()
	if err != nil {
		fmt.Println(err)
		return
	}
	all, airspeeds, err := design.Slower(90)
	if err != nil {
		fmt.Println(err)
		return
	}
	beyond, at := one.Hold.Beyond(all.Hold)
	fmt.Printf("from 90 to 140 KIAS: %.2f NM beyond that of 140 at %.0f degrees, found with %d airspeeds\n", beyond, at, airspeeds)
	// Output:
	// from 90 to 140 KIAS: 0.56 NM beyond that of 140 at -25 degrees, found with 9 airspeeds
}

// How often a pilot leaves an area, by technique: winds of 20 kt a component at random, the
// heading held to 3 degrees and the time to 4 seconds, one standard deviation each.
func ExampleArea_Try() {
	template, err := area.Design{IAS: 140, Altitude: 6000, Wind: 30}.Template()
	if err != nil {
		fmt.Println(err)
		return
	}
	pattern, err := hold.NewPattern(hold.Fix{Ident: "TARNO"}, 75, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, technique := range []struct {
		name string
		fly  area.Technique
	}{
		{"uncorrected", area.Uncorrected(time.Minute)},
		{"triple drift", area.TripleDrift(time.Minute)},
		{"exact", area.Exact()},
	} {
		odds, err := template.Hold.Try(context.Background(), area.Trials{
			Pattern: pattern, Flight: hold.Flight{TAS: 157, Rate: hold.StandardRate}, Technique: technique.fly,
			Gust: 20, Doubt: 5, Heading: 3, Timing: 4 * time.Second,
			Bank: 5 * time.Second, Reaction: 6 * time.Second, Laps: 20_000, Seed: 1,
		})
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s: %.2f %% (%.2f to %.2f)\n", technique.name, 100*odds.Share, 100*odds.Low, 100*odds.High)
	}
	// Output:
	// uncorrected: 15.13 % (14.64 to 15.63)
	// triple drift: 9.65 % (9.25 to 10.07)
	// exact: 8.96 % (8.57 to 9.36)
}

// The margin that a flight leaves: the exact circuit of 120 kt in 25 kt of wind, in an area
// for 160 KIAS.
func ExampleArea_Follow() {
	template, err := area.Design{IAS: 160, Altitude: 4000}.Template()
	if err != nil {
		fmt.Println(err)
		return
	}
	pattern, err := hold.NewPattern(hold.Fix{Ident: "TARNO"}, 75, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		fmt.Println(err)
		return
	}
	circuit, err := pattern.Circuit(hold.Flight{TAS: 120, Rate: hold.StandardRate, Wind: wind.Wind{From: 140, Speed: 25}})
	if err != nil {
		fmt.Println(err)
		return
	}
	track, err := circuit.Track(time.Second)
	if err != nil {
		fmt.Println(err)
		return
	}
	var points []hold.Point
	for s := range track {
		points = append(points, s.At)
	}
	e := template.Hold.Follow(slices.Values(points))
	fmt.Printf("inside: %v, margin %.2f NM at point %d of %d\n", e.Inside(), -e.Farthest, e.Index, e.Points)
	// Output:
	// inside: true, margin 1.13 NM at point 15 of 232
}

// The outline on the ground, across the antimeridian.
func ExampleArea_OnGround() {
	template, err := area.Design{IAS: 160, Altitude: 4000}.Template()
	if err != nil {
		fmt.Println(err)
		return
	}
	fix := hold.Fix{Ident: "BREMKA", Position: s2.LatLngFromDegrees(-16, 179.98)}
	pattern, err := hold.NewPattern(fix, 310, hold.Left, hold.TimedInbound(time.Minute))
	if err != nil {
		fmt.Println(err)
		return
	}
	places, polygon, err := template.Hold.OnGround(pattern, 0.05)
	if err != nil {
		fmt.Println(err)
		return
	}
	outline, err := template.Hold.Outline(0.05)
	if err != nil {
		fmt.Println(err)
		return
	}
	n := 0
	for range outline {
		n++
	}
	west := slices.ContainsFunc(places, func(at s2.LatLng) bool { return at.Lng < 0 })
	east := slices.ContainsFunc(places, func(at s2.LatLng) bool { return at.Lng > 0 })
	fmt.Printf("%d corners, as many on the ground: %v; on both sides of the antimeridian: %v\n", n, len(places) == n, east && west)
	fmt.Printf("the fix is inside: %v\n", polygon.ContainsPoint(s2.PointFromLatLng(fix.Position)))
	// Output:
	// 26 corners, as many on the ground: true; on both sides of the antimeridian: true
	// the fix is inside: true
}

// How much of the template a hold needs when it is flown exactly: the laps of the closed form in every
// wind of up to 50 kt, from every 15 degrees.
func ExampleAround() {
	template, err := area.Design{IAS: 160, Altitude: 4000}.Template()
	if err != nil {
		fmt.Println(err)
		return
	}
	pattern, err := hold.NewPattern(hold.Fix{Ident: "TARNO"}, 75, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		fmt.Println(err)
		return
	}
	l := template.Lines
	var points []hold.Point
	for speed := abeam.Knots(0); speed <= 50; speed += 10 {
		for from := abeam.Bearing(0); from < 360; from += 15 {
			circuit, err := pattern.Circuit(hold.Flight{TAS: l.TAS, Rate: l.Rate, Wind: wind.Wind{From: from, Speed: speed}})
			if err != nil {
				fmt.Println(err)
				return
			}
			track, err := circuit.Track(2 * time.Second)
			if err != nil {
				fmt.Println(err)
				return
			}
			for s := range track {
				points = append(points, s.At)
			}
		}
	}
	needed := area.Around(slices.Values(points))
	beyond, _ := template.Hold.Beyond(needed)
	fmt.Printf("template %.0f square miles, needed %.0f, beyond the template: %v\n", template.Hold.Size(), needed.Size(), beyond > 0)
	// Output:
	// template 57 square miles, needed 17, beyond the template: false
}
