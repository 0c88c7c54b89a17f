package abeam_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"github.com/holdingfix/abeam"
)

// The values in these examples are invented.

// Reduce a heading that was counted past north.
func ExampleNewBearing() {
	fmt.Println(abeam.NewBearing(375), abeam.NewBearing(-90), abeam.NewBearing(360))
	// Output: 015° 270° 360°
}

// Read a course as it is spoken. North may be written 000 or 360.
func ExampleParseBearing() {
	for _, s := range []string{"070", "70.5°", "000", "400"} {
		b, err := abeam.ParseBearing(s)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(b)
	}
	// Output:
	// 070°
	// 070.5°
	// 360°
	// abeam.ParseBearing: bearing is "400", must be a number from 0 to 360, in degrees: invalid input
}

// The heading 30 degrees right of 350, and 30 degrees left of 010.
func ExampleBearing_Add() {
	fmt.Println(abeam.Bearing(350).Add(30), abeam.Bearing(10).Add(-30))
	// Output: 020° 340°
}

// How far to turn, and to which side, from the heading flown to the inbound course.
func ExampleBearing_Sub() {
	heading, inbound := abeam.Bearing(340), abeam.Bearing(20)
	fmt.Println(inbound.Sub(heading), heading.Sub(inbound))
	// Output: 40° -40°
}

// The outbound course of a pattern with the inbound course 245.
func ExampleBearing_Reciprocal() {
	fmt.Println(abeam.Bearing(245).Reciprocal())
	// Output: 065°
}

// A heading to set on the bug.
func ExampleBearing_ThreeFigures() {
	fmt.Println(abeam.Bearing(8.4).ThreeFigures(), abeam.Bearing(359.7).ThreeFigures())
	// Output: 008 360
}

// What is printed reads back as the same bearing.
func ExampleBearing_String() {
	b := abeam.Bearing(7.25)
	back, err := abeam.ParseBearing(b.String())
	fmt.Println(b, back == b, err)
	// Output: 007.25° true <nil>
}

// Write into a buffer that is used again for each line of a log.
func ExampleBearing_AppendText() {
	line := make([]byte, 0, 64)
	for _, b := range []abeam.Bearing{0, 90} {
		line = append(line[:0], "heading "...)
		line, err := b.AppendText(line)
		fmt.Println(string(line), err)
	}
	// Output:
	// heading 360° <nil>
	// heading 090° <nil>
}

func ExampleBearing_MarshalText() {
	text, err := abeam.Bearing(45).MarshalText()
	fmt.Println(string(text), err)
	// Output: 045° <nil>
}

func ExampleBearing_UnmarshalText() {
	var b abeam.Bearing
	err := b.UnmarshalText([]byte("045"))
	fmt.Println(b, err)
	// Output: 045° <nil>
}

// Reduce the difference of two angles that were not bearings.
func ExampleNewDegrees() {
	fmt.Println(abeam.NewDegrees(200), abeam.NewDegrees(-180), abeam.NewDegrees(725))
	// Output: -160° 180° 5°
}

// A heading exactly on the edge of a sector 70 degrees wide. Neither tenth of a degree
// is a binary fraction, so the plain difference lands beside the edge.
func ExampleDegrees_Rounded() {
	d := abeam.Bearing(128.3).Sub(58.3)
	fmt.Println(d <= 70, d.Rounded() <= 70, d.Rounded())
	// Output: false true 70°
}

func ExampleDegrees_Abs() {
	fmt.Println(abeam.Degrees(-35).Abs())
	// Output: 35°
}

func ExampleDegrees_String() {
	fmt.Println(abeam.Degrees(-12.5).String())
	// Output: -12.5°
}

func ExampleDegrees_AppendText() {
	text, err := abeam.Degrees(8).AppendText([]byte("correction "))
	fmt.Println(string(text), err)
	// Output: correction 8° <nil>
}

func ExampleDegrees_MarshalText() {
	text, err := abeam.Degrees(-8).MarshalText()
	fmt.Println(string(text), err)
	// Output: -8° <nil>
}

// A turn of more than half a circle is read as written.
func ExampleDegrees_UnmarshalText() {
	var d abeam.Degrees
	err := d.UnmarshalText([]byte("210°"))
	fmt.Println(d, err)
	// Output: 210° <nil>
}

// The length of a one-minute leg at a groundspeed of 150 kt.
func ExampleKnots_In() {
	fmt.Printf("%.2f NM\n", abeam.Knots(150).In(time.Minute))
	// Output: 2.50 NM
}

func ExampleKnots_String() {
	fmt.Println(abeam.Knots(118.5).String())
	// Output: 118.5 kt
}

func ExampleKnots_AppendText() {
	text, err := abeam.Knots(118.5).AppendText([]byte("TAS "))
	fmt.Println(string(text), err)
	// Output: TAS 118.5 kt <nil>
}

func ExampleKnots_MarshalText() {
	text, err := abeam.Knots(90).MarshalText()
	fmt.Println(string(text), err)
	// Output: 90 kt <nil>
}

// The unit may be left out; another one is refused, and the speed stays.
func ExampleKnots_UnmarshalText() {
	var k abeam.Knots
	fmt.Println(k.UnmarshalText([]byte("95")), k)
	fmt.Println(k.UnmarshalText([]byte("95 km/h")), k)
	// Output:
	// <nil> 95 kt
	// abeam.Knots.UnmarshalText: speed is "95 km/h", must be a finite number, in kt: invalid input 95 kt
}

func ExampleNM_Metres() {
	fmt.Printf("%.0f m\n", abeam.NM(2.5).Metres())
	// Output: 4630 m
}

func ExampleNM_String() {
	fmt.Println(abeam.NM(4.5).String())
	// Output: 4.5 NM
}

func ExampleNM_AppendText() {
	text, err := abeam.NM(4.5).AppendText([]byte("leg "))
	fmt.Println(string(text), err)
	// Output: leg 4.5 NM <nil>
}

func ExampleNM_MarshalText() {
	text, err := abeam.NM(10).MarshalText()
	fmt.Println(string(text), err)
	// Output: 10 NM <nil>
}

func ExampleNM_UnmarshalText() {
	var d abeam.NM
	err := d.UnmarshalText([]byte("10 NM"))
	fmt.Println(d, err)
	// Output: 10 NM <nil>
}

func ExampleFeet_Metres() {
	fmt.Printf("%.1f m\n", abeam.Feet(6500).Metres())
	// Output: 1981.2 m
}

// The smallest distance a DME can show from overhead at 12,000 ft above it.
func ExampleFeet_NM() {
	fmt.Printf("%.2f NM\n", abeam.Feet(12_000).NM())
	// Output: 1.97 NM
}

func ExampleFeet_String() {
	fmt.Println(abeam.Feet(6000).String())
	// Output: 6000 ft
}

func ExampleFeet_AppendText() {
	text, err := abeam.Feet(6000).AppendText([]byte("hold at "))
	fmt.Println(string(text), err)
	// Output: hold at 6000 ft <nil>
}

func ExampleFeet_MarshalText() {
	text, err := abeam.Feet(-50).MarshalText()
	fmt.Println(string(text), err)
	// Output: -50 ft <nil>
}

func ExampleFeet_UnmarshalText() {
	var f abeam.Feet
	err := f.UnmarshalText([]byte("6000ft"))
	fmt.Println(f, err)
	// Output: 6000 ft <nil>
}

// A charted course of 100 where the variation is 12 east: east, magnetic least.
func ExampleVariation_True() {
	fmt.Println(abeam.Variation(12).True(100))
	// Output: 112°
}

// A forecast wind from 260 true where the variation is 4 west.
func ExampleVariation_Magnetic() {
	fmt.Println(abeam.Variation(-4).Magnetic(260))
	// Output: 264°
}

// Cross takes any pair of norths, and insists on both being said.
func ExampleVariation_Cross() {
	var v abeam.Variation = 12
	fmt.Println(v.Cross(100, abeam.Magnetic, abeam.True))
	fmt.Println(v.Cross(112, abeam.True, abeam.Magnetic))
	fmt.Println(v.Cross(100, abeam.Magnetic, abeam.Magnetic))

	var unsaid abeam.North
	_, err := v.Cross(100, unsaid, abeam.True)
	fmt.Println(err)
	// Output:
	// 112° <nil>
	// 100° <nil>
	// 100° <nil>
	// abeam.Variation.Cross: from is not said, must be true or magnetic: invalid input
}

func ExampleVariation_String() {
	fmt.Println(abeam.Variation(12.5).String(), abeam.Variation(-4), abeam.Variation(0))
	// Output: 12.5°E 4°W 0°
}

func ExampleVariation_AppendText() {
	text, err := abeam.Variation(-4).AppendText([]byte("variation "))
	fmt.Println(string(text), err)
	// Output: variation 4°W <nil>
}

func ExampleVariation_MarshalText() {
	text, err := abeam.Variation(4).MarshalText()
	fmt.Println(string(text), err)
	// Output: 4°E <nil>
}

// A sign is not accepted: which side it means is for the letter to say.
func ExampleVariation_UnmarshalText() {
	var v abeam.Variation
	fmt.Println(v.UnmarshalText([]byte("4W")), float64(v))
	fmt.Println(v.UnmarshalText([]byte("-4")))
	// Output:
	// <nil> -4
	// abeam.Variation.UnmarshalText: variation is "-4", must be a size from 0 to 180 degrees followed by E or W: invalid input
}

func ExampleNorth_String() {
	var unsaid abeam.North
	fmt.Println(abeam.True.String(), abeam.Magnetic, unsaid)
	// Output: true magnetic not said
}

func ExampleNorth_MarshalText() {
	text, err := abeam.True.MarshalText()
	fmt.Println(string(text), err)
	// Output: true <nil>
}

func ExampleNorth_UnmarshalText() {
	var n abeam.North
	err := n.UnmarshalText([]byte("magnetic"))
	fmt.Println(n, err)
	// Output: magnetic <nil>
}

// Every computation wraps its failure in a FieldError, for a form to mark the field.
func ExampleFieldError() {
	_, err := abeam.ParseBearing("north")
	if fe, ok := errors.AsType[*abeam.FieldError](err); ok {
		fmt.Printf("%s: %v is not %s\n", fe.Field, fe.Value, fe.Limit)
	}
	// Output: bearing: "north" is not a number from 0 to 360, in degrees
}

func ExampleFieldError_Error() {
	err := &abeam.FieldError{Op: "hold.Demo", Field: "TAS", Value: abeam.Knots(0), Limit: "above 0 kt", Err: abeam.ErrInvalid}
	fmt.Println(err.Error())
	// Output: hold.Demo: TAS is 0 kt, must be above 0 kt: invalid input
}

// Ask for the kind of failure with errors.Is.
func ExampleFieldError_Unwrap() {
	var err error = &abeam.FieldError{Op: "hold.Demo", Field: "wind", Value: abeam.Knots(130), Limit: "below the TAS", Err: abeam.ErrUnflyable}
	fmt.Println(errors.Is(err, abeam.ErrUnflyable), errors.Is(err, abeam.ErrInvalid))
	// Output: true false
}

// Store a pattern as text. Each value carries its unit.
func Example_json() {
	type fix struct {
		Inbound   abeam.Bearing   `json:"inbound"`
		North     abeam.North     `json:"north"`
		Variation abeam.Variation `json:"variation"`
		Leg       abeam.NM        `json:"leg"`
		Altitude  abeam.Feet      `json:"altitude"`
	}
	text, err := json.Marshal(fix{Inbound: 70, North: abeam.Magnetic, Variation: -4, Leg: 4.5, Altitude: 6000})
	fmt.Println(string(text), err)

	var back fix
	err = json.Unmarshal([]byte(`{"inbound": "250", "north": "true"}`), &back)
	fmt.Println(back.Inbound, back.North, err)
	// Output:
	// {"inbound":"070°","north":"magnetic","variation":"4°W","leg":"4.5 NM","altitude":"6000 ft"} <nil>
	// 250° true <nil>
}
