package wind_test

import (
	"fmt"

	"github.com/holdingfix/abeam/wind"
)

// What the aeroplane's 250 kt make at flight level 200 on a warm day.
func ExampleAir_TASFromCAS() {
	air, err := wind.StandardAir(20_000, 10)
	if err != nil {
		fmt.Println(err)
		return
	}
	tas, err := air.TASFromCAS(250)
	if err != nil {
		fmt.Println(err)
		return
	}
	m, err := air.MachFromTAS(tas)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("TAS %.0f kt, Mach %.3f\n", tas, m)
	// Output: TAS 343 kt, Mach 0.547
}

func ExampleStandardAir() {
	air, err := wind.StandardAir(6_000, 15)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(air.PressureAltitude(), air.Deviation())
	fmt.Printf("%.1f °C, %.0f hPa, %.3f kg/m³, sound %.1f kt\n",
		float64(air.Temperature()), float64(air.Pressure()), air.Density(), air.SpeedOfSound())
	// Output:
	// 6000 ft ISA+15
	// 18.1 °C, 812 hPa, 0.971 kg/m³, sound 665.0 kt
}

// The thermometer instead of the deviation.
func ExampleMeasuredAir() {
	air, err := wind.MeasuredAir(7_000, 16)
	if err != nil {
		fmt.Println(err)
		return
	}
	h, err := air.DensityAltitude()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("ISA%+.1f, density altitude %.0f ft\n", float64(air.Deviation()), h)
	// Output: ISA+14.9, density altitude 8707 ft
}

func ExampleDesignTAS() {
	tas, err := wind.DesignTAS(140, 6_000, 15)
	fmt.Printf("%.2f kt %v\n", tas, err)
	// Output: 157.23 kt <nil>
}

func ExampleCelsius() {
	fmt.Println(wind.Celsius(-56.5), wind.Celsius(15).Kelvin(), wind.Deviation(-4.5), wind.Hectopascals(1013.25), wind.Mach(0.83))
	// Output: -56.5 °C 288.15 ISA-4.5 1013.25 hPa M0.83
}
