package wind_test

import (
	"fmt"

	"github.com/holdingfix/abeam/wind"
)

func ExampleProfile_AppendLevels() {
	p, err := wind.NewProfile(
		wind.Level{Altitude: 9000, Wind: wind.Wind{From: 270, Speed: 30}},
		wind.Level{Altitude: 3000, Wind: wind.Wind{From: 240, Speed: 15}},
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	var room [8]wind.Level
	for _, l := range p.AppendLevels(room[:0]) {
		fmt.Println(l.Altitude, l.Wind.From, l.Wind.Speed)
	}
	// Output:
	// 3000 ft 240° 15 kt
	// 9000 ft 270° 30 kt
}
