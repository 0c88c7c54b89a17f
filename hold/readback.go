package hold

import (
	"math"
	"strconv"
	"strings"
)

// String writes the clearance in the words of the phraseology, with figures:
//
//	HOLD WEST OF TARNO ON THE 270 RADIAL, 5 MILE LEG, LEFT TURNS
//
// in the order of the items in AIM 5-3-8 i. A valid clearance is read back the same by
// [ParseClearance]; the zero Clearance is empty.
func (c Clearance) String() string { return c.write(inFigures) }

// Readback writes the clearance as it is read back: as [Clearance.String], with every
// number figure by figure in words, "ZERO SIX THREE", and V123 as "VICTOR ONE TWO
// THREE". A valid clearance is read the same from it too.
func (c Clearance) Readback() string { return c.write(inWords) }

// voice says how numbers are written.
type voice bool

const (
	inFigures voice = false
	inWords   voice = true
)

func (c Clearance) write(v voice) string {
	var items []string
	item := func(given bool, words ...string) {
		if given {
			items = append(items, strings.Join(words, " "))
		}
	}
	item(c.ClearedTo != "", "CLEARED TO", v.name(c.ClearedTo))
	held := c.held(v)
	item(held != "", held)
	item(c.AsPublished, "AS PUBLISHED")
	item(c.LegTime > 0, v.hundredths(float64(c.LegTime/minuteHundredth)), "MINUTE LEG")
	item(c.LegMiles > 0, v.hundredths(float64(c.LegMiles)*100), "MILE LEG")
	item(c.TurnSaid, upper(c.Turn.String()), "TURNS")
	item(c.MaxIAS > 0, "MAXIMUM HOLDING AIRSPEED IS", v.number(strconv.FormatFloat(float64(c.MaxIAS), 'f', 0, 64)))
	item(c.EFC.Given(), "EXPECT FURTHER CLEARANCE", v.number(c.EFC.String()))
	item(c.NoDelay, "NO DELAY EXPECTED")
	return strings.Join(items, ", ")
}

// held is the one item of direction, fix and line.
func (c Clearance) held(v voice) string {
	var words []string
	if c.Direction.known() {
		words = append(words, "HOLD", upper(c.Direction.String()))
		if c.Fix != "" {
			words = append(words, "OF", v.name(c.Fix))
		}
	}
	switch l := c.Line; {
	case l.Kind == Airway:
		words = append(words, "ON AIRWAY", v.airway(l.Name))
	case l.Kind == Route:
		words = append(words, "ON ROUTE", v.name(l.Name))
	case l.Kind.numbered():
		words = append(words, "ON THE", v.number(l.Bearing.ThreeFigures()), upper(l.Kind.String()))
		if l.Name != "" { // last: a station called V12 would be an airway before the number
			words = append(words, l.Kind.of(), v.name(l.Name))
		}
	}
	return strings.Join(words, " ")
}

// of is the word before the name of a station: radials are of it, bearings from it.
func (k LineKind) of() string {
	if k == Radial {
		return "OF"
	}
	return "FROM"
}

func (v voice) number(figures string) string {
	if v == inWords {
		return speak(figures)
	}
	return figures
}

// hundredths writes a number of hundredths as a decimal without needless zeros.
func (v voice) hundredths(h float64) string {
	return v.number(strconv.FormatFloat(math.Round(h)/100, 'f', -1, 64))
}

// name says the numbers of a name.
func (v voice) name(name string) string {
	words := strings.Split(name, " ")
	for i, w := range words {
		if written(w) {
			words[i] = v.number(w)
		}
	}
	return strings.Join(words, " ")
}

func (v voice) airway(name string) string {
	if number := strings.TrimPrefix(name, "V"); v == inWords && written(number) {
		return "VICTOR " + speak(number)
	}
	return name
}
