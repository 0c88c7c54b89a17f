package hold_test

import (
	"fmt"

	"github.com/holdingfix/abeam/hold"
)

func ExampleRules_authorities() {
	for _, r := range []hold.Rules{hold.Canada(), hold.CanadaShuttle(), hold.Australia(), hold.AustraliaCategoryAB(), hold.ICAOHelicopter(), hold.FAACopter()} {
		low, err := r.SpeedLimit(6000)
		if err != nil {
			fmt.Println(err)
			return
		}
		high, err := r.SpeedLimit(14000.5)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v: %v at 6,000 ft, %v above 14,000 ft, least %v\n", r, low.Limit, high.Limit, r.Minimum)
	}
	// Output:
	// Canada (TC AIM RAC 10, since 2018): 200 KIAS at 6,000 ft, 265 KIAS above 14,000 ft, least 0 kt
	// Canada, shuttle climb (TC AIM RAC 10, since 2018): 310 KIAS at 6,000 ft, 310 KIAS above 14,000 ft, least 0 kt
	// Australia (AIP Australia ENR 1.5): 230 KIAS at 6,000 ft, 240 KIAS above 14,000 ft, least 0 kt
	// Australia, category A and B (AIP Australia ENR 1.5): 170 KIAS at 6,000 ft, 240 KIAS above 14,000 ft, least 0 kt
	// ICAO, helicopters (ICAO Doc 8168, 5th ed. 2006): 100 KIAS at 6,000 ft, 170 KIAS above 14,000 ft, least 0 kt
	// FAA, COPTER procedures (AIM 5-3-8, 2023 and later): 200 KIAS at 6,000 ft, 265 KIAS above 14,000 ft, least 90 kt
}
