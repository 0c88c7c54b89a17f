package wind

import "strconv"

// Celsius is an air temperature in degrees Celsius. The zero value is the melting
// point of ice.
type Celsius float64

// absoluteZero is 0 K in degrees Celsius.
const absoluteZero = -273.15

// Kelvin is the absolute temperature.
func (c Celsius) Kelvin() float64 { return float64(c) - absoluteZero }

// String gives c exactly, with its unit: "-56.5 °C".
func (c Celsius) String() string { return strconv.FormatFloat(float64(c), 'f', -1, 64) + " °C" }

// Deviation is how much warmer the air is than the standard atmosphere at the same
// pressure altitude, in degrees Celsius; colder is negative. The zero value is a
// standard day.
type Deviation float64

// String gives d as it is spoken, to the last digit: "ISA+15", "ISA-4.5".
func (d Deviation) String() string {
	text := strconv.FormatFloat(float64(d), 'f', -1, 64)
	if text[0] != '-' && text[0] != '+' {
		text = "+" + text
	}
	return "ISA" + text
}
