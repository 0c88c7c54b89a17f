package wind

import (
	"strconv"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// SignedTemperatures is the highest level at which a winds-aloft forecast writes the
// sign of a temperature; above it all are negative.
const SignedTemperatures abeam.Feet = 24_000

// AloftLevel is one group of a winds-and-temperatures-aloft forecast: the wind, and
// mostly the temperature, at a level.
type AloftLevel struct {
	Level            abeam.Feet
	Wind             Reported // from true north; calm where light and variable
	LightAndVariable bool     // below 5 kt
	OrMore           bool     // the speed is 199 kt or more
	HasTemperature   bool     // none at 3,000 ft nor near the ground
	Temperature      Celsius
}

// DecodeAloftGroup decodes one group of a US winds-and-temperatures-aloft forecast
// (FB, formerly FD) for a level:
//
//	2435      from 240 degrees true at 35 kt, no temperature
//	2435+07   the same at +7 °C, a sign up to and at 24,000 ft
//	274650    from 270 at 46 kt, -50 °C, above 24,000 ft
//	731960    from 230 at 119 kt: 50 is added to the direction for 100 kt and more
//	7799      from 270 at 199 kt or more
//	9900      light and variable
//
// Source: US Navy CNATRA P-304 ch. 2 and P-1246 p. 2-50; FAA AC 00-45, winds and
// temperatures aloft forecast.
//
// Level is above 0 and at most [MaxPressureAltitude].
//
// Errors: [abeam.ErrInvalid] for a level out of range or any other group; nothing
// is guessed, neither a sign nor a case.
func DecodeAloftGroup(code string, level abeam.Feet) (AloftLevel, error) {
	const op = "wind.DecodeAloftGroup"
	if err := check.Above(op, "level", level, 0, MaxPressureAltitude); err != nil {
		return AloftLevel{}, err
	}
	l, limit := decodeAloftGroup(code, level)
	if limit != "" {
		return AloftLevel{}, check.Invalid(op, "group", quote(code), limit)
	}
	return l, nil
}

// decodeAloftGroup says what a group must be instead of an error, so that a bulletin
// can add where it stands.
func decodeAloftGroup(code string, level abeam.Feet) (l AloftLevel, limit string) {
	tens, ok1 := twoDigits(code, 0)
	speed, ok2 := twoDigits(code, 2)
	if !ok1 || !ok2 {
		return AloftLevel{}, "four digits of wind, then the temperature if any"
	}
	l = AloftLevel{Level: level, Wind: Reported{North: abeam.True}}
	switch {
	case tens == 99 && speed == 0:
		l.LightAndVariable = true
	case tens >= 1 && tens <= 36:
		l.Wind.Wind = Wind{From: abeam.NewBearing(float64(10 * tens)), Speed: abeam.Knots(speed)}
	case tens >= 51 && tens <= 86:
		l.Wind.Wind = Wind{From: abeam.NewBearing(float64(10 * (tens - 50))), Speed: abeam.Knots(100 + speed)}
		l.OrMore = speed == 99
	default:
		return AloftLevel{}, "a wind from 01 to 36 tens of degrees, 51 to 86 at 100 kt and more, or 9900"
	}
	rest := code[4:]
	if rest == "" {
		return l, ""
	}
	sign := -1
	if level <= SignedTemperatures {
		switch rest[0] {
		case '+':
			sign = 1
		case '-':
		default:
			return AloftLevel{}, "a temperature with its sign up to 24,000 ft"
		}
		rest = rest[1:]
	}
	temperature, ok := twoDigits(rest, 0)
	if !ok || len(rest) != 2 {
		return AloftLevel{}, "a temperature of two digits, without a sign above 24,000 ft"
	}
	l.HasTemperature, l.Temperature = true, Celsius(sign*temperature)
	return l, ""
}

// twoDigits reads the number of two digits at i; false where there is none.
func twoDigits(s string, i int) (int, bool) {
	if len(s) < i+2 || !isDigit(s[i]) || !isDigit(s[i+1]) {
		return 0, false
	}
	return 10*int(s[i]-'0') + int(s[i+1]-'0'), true
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

// quote shows what was read, unprintable bytes escaped, without letting a whole file
// into an error.
func quote(s string) string {
	const most = 40
	if len(s) > most {
		return strconv.Quote(s[:most]) + "..."
	}
	return strconv.Quote(s)
}
