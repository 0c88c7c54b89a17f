package area_test

import (
	"fmt"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/hold/area"
)

func ExampleDesign_Lines() {
	l, err := area.Design{IAS: 220, Altitude: 10000}.Lines()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("TAS %.1f kt, radius %.2f NM, wind %.0f kt, leg %v or %.2f NM\n",
		float64(l.TAS), float64(l.Radius), float64(l.Wind), l.Time, float64(l.L))
	fmt.Printf("longest outbound leg %.2f NM, its end within %.2f NM\n", float64(l.GI2), float64(l.Wi2))
	fmt.Printf("direct entries: %.2f NM outbound, %.2f NM to the holding side\n", float64(l.XE), float64(l.YE))
	// Output:
	// TAS 263.1 kt, radius 2.16 NM, wind 67 kt, leg 1m0s or 4.38 NM
	// longest outbound leg 5.92 NM, its end within 3.44 NM
	// direct entries: 13.28 NM outbound, 6.94 NM to the holding side
}

func ExampleDesign_Lines_notes() {
	l, err := area.Design{IAS: 290, Altitude: 10000, Length: 4}.Lines()
	if err != nil {
		fmt.Println(err)
		return
	}
	for note := range l.Notes.All() {
		fmt.Println(note)
	}
	fmt.Println(l.Notes.Has(area.AboveSpeedLimit), l.Notes)
	// Output:
	// the airspeed exceeds the holding speed limit of ICAO
	// the airspeed exceeds the holding speed limit of ICAO in turbulence
	// the outbound leg takes less than 1 min at the true airspeed
	// true the airspeed exceeds the holding speed limit of ICAO; the airspeed exceeds the holding speed limit of ICAO in turbulence; the outbound leg takes less than 1 min at the true airspeed
}

func ExampleDesign_Filled() {
	d, err := area.Design{IAS: 170, Altitude: 16000, StandardDay: true}.Filled()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(d.Warmer, d.Outbound, d.Bank, d.Wind, d.Allowances == area.PublishedAllowances())
	// Output: ISA+0 1m30s 25° 79 kt true
}

// The worked example of ICAO Doc 8168 Vol II (2006, amendment 1), table I-4-3-App C-1.
func ExampleDesign_Book() {
	d := area.Design{IAS: 140, Altitude: 6000, Outbound: 2 * time.Minute}
	lines, err := d.Book(area.NonSI)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(area.NonSI)
	for _, l := range lines[1:12] {
		fmt.Printf("%s = %s: %v %s\n", l.Name, l.Formula, l.Value, l.Unit)
	}
	// Output:
	// kt, NM, ft
	// V = K IAS: 157.23 kt
	// v = V/3600: 0.0437 NM/s
	// R = 3431 tan 25/(pi V): 3.24 deg/s
	// R used = R, at most 3: 3 deg/s
	// r = V/(20 pi R): 0.83 NM
	// h = altitude/1000: 6 1000 ft
	// w = 2 h + 47: 59 kt
	// w' = w/3600: 0.0164 NM/s
	// E = w/(3600 R): 0.00546 NM/deg
	// t = 60 times the minutes: 120 s
	// L = v t: 5.24 NM
}

func ExampleDesign_DMELimit() {
	d := area.Design{IAS: 220, Altitude: 14000}
	limit, err := d.DMELimit(hold.Station{Course: hold.Toward, Fix: 30})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(limit.Charted)
	// Output: 35 NM
}

func ExampleOverhead() {
	const height = 10000
	for _, o := range []area.Overhead{area.OverheadVOR(), area.OverheadNDB()} {
		radius, err := o.Radius(height)
		if err != nil {
			fmt.Println(err)
			return
		}
		course, err := o.OnCourse(height)
		if err != nil {
			fmt.Println(err)
			return
		}
		anywhere, err := o.AnyDirection(height)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("cone %.2f NM, disc %.2f NM\n", float64(radius), float64(anywhere.Radius()))
		for _, c := range course.Corners() {
			fmt.Printf("  along %.2f, abreast %.2f\n", float64(c.Along), float64(c.Abreast))
		}
	}
	// Output:
	// cone 1.95 NM, disc 1.95 NM
	//   along 1.95, abreast -0.51
	//   along 1.95, abreast 0.51
	//   along -1.95, abreast 0.17
	//   along -1.95, abreast -0.17
	// cone 1.38 NM, disc 1.38 NM
	//   along 1.38, abreast -0.59
	//   along 1.38, abreast 0.59
	//   along -1.38, abreast 0.35
	//   along -1.38, abreast -0.35
}

func ExampleVORDME() {
	tolerance, err := area.DMETolerance(30)
	if err != nil {
		fmt.Println(err)
		return
	}
	f, err := area.VORDME(hold.Station{Course: hold.Toward, Fix: 30}, 14000)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("30 NM within %.3f NM\n", float64(tolerance))
	for _, c := range f.Corners() {
		fmt.Printf("along %.2f, abreast %.2f\n", float64(c.Along), float64(c.Abreast))
	}
	// Output:
	// 30 NM within 0.625 NM
	// along 0.75, abreast -2.65
	// along 0.75, abreast 2.65
	// along -0.63, abreast 2.78
	// along -0.63, abreast -2.78
}

// A fix 20 NM from the station ahead, where the radial of another, 15 NM off on the holding
// side, crosses at 60 degrees.
func ExampleIntersection() {
	f, err := area.Intersection(
		area.Radial{Station: 0, Distance: 20, Accuracy: area.VORTracking},
		area.Radial{Station: 60, Distance: 15, Accuracy: area.VORCrossing},
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range f.Corners() {
		fmt.Printf("along %.2f, abreast %.2f\n", float64(c.Along), float64(c.Abreast))
	}
	_, err = area.Intersection(
		area.Radial{Station: 0, Distance: 20, Accuracy: area.VORTracking},
		area.Radial{Station: 5, Distance: 15, Accuracy: area.VORCrossing},
	)
	fmt.Println(err != nil)
	// Output:
	// along 2.08, abreast 1.63
	// along -0.17, abreast 1.84
	// along -2.86, abreast -2.08
	// along 0.46, abreast -1.78
	// true
}

func ExampleRNAV() {
	waypoint, err := area.RNAV(0.8, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	disc, err := area.Disc(1.3)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(waypoint.Corners()[1], disc.Radius())
	// Output: {0.8 NM 1 NM} 1.3 NM
}

func ExampleObstacleClearance() {
	for _, beyond := range []abeam.NM{-1, 0.5, 1.5, 2.5, 3.5, 4.5, 5.5} {
		moc, err := area.ObstacleClearance(beyond, false)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v beyond: %.0f m, %.0f ft\n", beyond, moc.Metres, float64(moc.Feet))
	}
	// Output:
	// -1 NM beyond: 300 m, 984 ft
	// 0.5 NM beyond: 300 m, 984 ft
	// 1.5 NM beyond: 150 m, 492 ft
	// 2.5 NM beyond: 120 m, 394 ft
	// 3.5 NM beyond: 90 m, 295 ft
	// 4.5 NM beyond: 60 m, 197 ft
	// 5.5 NM beyond: 0 m, 0 ft
}
