package wind_test

import (
	"fmt"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/wind"
)

func ExampleSolveHeading() {
	w, err := wind.New(270, 50)
	if err != nil {
		fmt.Println(err)
		return
	}
	t, err := wind.SolveHeading(230, 220, w)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("heading %.1f (%+.1f), groundspeed %.1f kt, drift %+.1f\n",
		t.Heading, t.Correction, t.Groundspeed, t.Drift())
	// Output: heading 238.4 (+8.4), groundspeed 179.3 kt, drift -8.4
}

func ExampleWind_Components() {
	c := wind.Wind{From: 30, Speed: 20}.Components(90)
	fmt.Printf("headwind %.1f kt, crosswind %.1f kt: from the left\n", c.Head, c.Cross)
	// Output: headwind 10.0 kt, crosswind -17.3 kt: from the left
}

func ExampleReported_In() {
	// A true wind, used with magnetic courses where the variation is 12 east.
	r := wind.Reported{Wind: wind.Wind{From: 260, Speed: 25}, North: abeam.True}
	w, err := r.In(abeam.Magnetic, 12)
	fmt.Println(w.From, w.Speed, err)
	// Output: 248° 25 kt <nil>
}
