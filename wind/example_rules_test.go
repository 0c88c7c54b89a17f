package wind_test

import (
	"fmt"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/wind"
)

func ExampleMaxDrift() {
	exact, err := wind.MaxDrift(120, 20)
	if err != nil {
		fmt.Println(err)
		return
	}
	rule, err := wind.MaxDriftRule(120, 20)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("exact %.1f, by the rule %.0f degrees\n", exact, rule)
	// Output: exact 9.6, by the rule 10 degrees
}

// A wind 30 degrees off the nose, three ways; all of them and the sine make a half.
func ExampleClockCode() {
	for _, rule := range []func(abeam.Degrees) (float64, error){wind.ClockCode, wind.Sixths, wind.AnglePlus20} {
		share, err := rule(30)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.2f of the wind\n", share)
	}
	// Output:
	// 0.50 of the wind
	// 0.50 of the wind
	// 0.50 of the wind
}

// Two miles right of course after thirty miles.
func ExampleOneInSixty() {
	off, err := wind.OneInSixty(2, 30)
	fmt.Println(off, err)
	// Output: 4° <nil>
}
