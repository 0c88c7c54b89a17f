package wind_test

import (
	"fmt"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/wind"
)

func ExampleDecodeAloftGroup() {
	for _, code := range []string{"2435", "2435+07", "9900-18"} {
		l, err := wind.DecodeAloftGroup(code, 12_000)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(l.Wind.Wind.From, l.Wind.Wind.Speed, l.Wind.North, l.LightAndVariable, l.HasTemperature, l.Temperature)
	}
	_, err := wind.DecodeAloftGroup("2435+07", 30_000)
	fmt.Println(err)
	// Output:
	// 240° 35 kt true false false 0 °C
	// 240° 35 kt true false true 7 °C
	// 360° 0 kt true true true -18 °C
	// wind.DecodeAloftGroup: group is "2435+07", must be a temperature of two digits, without a sign above 24,000 ft: invalid input
}

// The wind for a hold at 10,000 ft, in magnetic, from a bulletin. One of its two
// stations has lost a digit on the way.
func ExampleDecodeAloftBulletin() {
	b, err := wind.DecodeAloftBulletin(`DATA BASED ON 310000Z
VALID 310600Z   FOR USE 0200-0900Z. TEMPS NEG ABV 24000
FT  3000    6000    9000   12000   18000   24000  30000  34000  39000
DEN              2918-03 3220-09 3446-20 3455-30 338044 348755 339365
PDX 2018 2416+05 242+00  2531-06 2634-19 2655-28 266744 278055 287065
`)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(b.Err())
	for _, s := range b.Stations {
		p, err := s.Profile(abeam.Magnetic, 8)
		if err != nil {
			fmt.Println(err)
			return
		}
		w, err := p.At(10_000)
		fmt.Printf("%s, valid %v: from %.0f at %.0f kt %v\n", s.Name, b.Valid, w.From, w.Speed, err)
	}
	// Output:
	// wind.DecodeAloftBulletin: line 5, PDX at 9000 ft is "242+00", must be four digits of wind, then the temperature if any: invalid input
	// DEN, valid 310600Z: from 293 at 18 kt <nil>
}

func ExampleProfile_At() {
	p, err := wind.NewProfile(
		wind.Level{Altitude: 3_000, Wind: wind.Wind{From: 180, Speed: 10}},
		wind.Level{Altitude: 6_000, Wind: wind.Wind{From: 270, Speed: 10}},
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	w, err := p.At(4_500)
	fmt.Printf("%d levels; from %.0f at %.1f kt %v\n", len(p.Levels()), w.From, w.Speed, err)
	// Output: 2 levels; from 225 at 7.1 kt <nil>
}

func ExampleMETARWind() {
	w, err := wind.METARWind("24015G27KT 210V270")
	if err != nil {
		fmt.Println(err)
		return
	}
	m, err := w.Mean.In(abeam.Magnetic, 5)
	fmt.Println(m.From, m.Speed, w.Gust, w.Left, w.Right, err)
	// Output: 235° 15 kt 27 kt 210° 270° <nil>
}

func ExampleTowerWind() {
	w, err := wind.TowerWind("VRB03KT")
	fmt.Println(w.Variable, w.Speed, w.Mean.Wind.Speed, w.Mean.North, err)
	// Output: true 3 kt 0 kt magnetic <nil>
}

func ExampleOmnidirectionalWind() {
	w, err := wind.OmnidirectionalWind(6_000)
	fmt.Println(w, err)
	// Output: 59 kt <nil>
}
