package wind

import (
	"slices"
	"strconv"
	"strings"

	"github.com/holdingfix/abeam"
)

// headingKind is one of the lines above the stations.
type headingKind int

const (
	notHeading headingKind = iota
	sequenceLine
	transmissionLine
	productLine
	basedOnLine
	validLine
	columnLine
	headingKinds // how many
)

// aloftColumn is the place of a level in the line: from the end of the level
// before, less one blank, to the end of its own figure.
type aloftColumn struct {
	level      abeam.Feet
	start, end int
}

// headingOf tells a line above the stations by its first word.
func headingOf(text string) headingKind {
	words := strings.Fields(text)
	switch {
	case words[0] == "FT":
		return columnLine
	case words[0] == "DATA":
		return basedOnLine
	case words[0] == "VALID":
		return validLine
	case len(words) == 1 && len(text) == 3 && !strings.ContainsFunc(text, notDigit):
		return sequenceLine
	case len(words) == 1 && len(text) == 6 && strings.HasPrefix(text, "FD") && isDesignator(text):
		return productLine
	case len(words) >= 3 && len(words[0]) == 6 && strings.HasPrefix(words[0], "F"):
		return transmissionLine
	}
	return notHeading
}

// readHeading takes what a heading says. One that begins right and goes on otherwise
// must be what limit says.
func (d *aloftDecoder) readHeading(kind headingKind, text string) (limit string) {
	switch kind {
	case columnLine:
		return d.columnHeading(text)
	case basedOnLine:
		return d.basedOnHeading(strings.Fields(text))
	case validLine:
		return d.validHeading(strings.Fields(text))
	case transmissionLine:
		return transmissionHeading(strings.Fields(text))
	}
	return ""
}

// columnHeading reads the levels and their places.
func (d *aloftDecoder) columnHeading(text string) (limit string) {
	const wanted = "FT and the levels in feet, ascending, each a column"
	if !strings.HasPrefix(text, "FT ") {
		return wanted
	}
	var columns []aloftColumn
	last := abeam.Feet(0)
	start := stationName + 1
	for w := range wordsOf(text[2:]) {
		level, err := strconv.ParseUint(w.text, 10, 32)
		end := 2 + w.start + len(w.text)
		if err != nil || !(abeam.Feet(level) > last && abeam.Feet(level) <= MaxPressureAltitude) || end <= start {
			return wanted
		}
		last = abeam.Feet(level)
		columns = append(columns, aloftColumn{level: last, start: start, end: end})
		start = end + 1
	}
	if columns == nil {
		return wanted
	}
	d.columns = columns
	for _, c := range columns {
		d.Levels = append(d.Levels, c.level)
	}
	return ""
}

// basedOnHeading reads DATA BASED ON 310000Z.
func (d *aloftDecoder) basedOnHeading(words []string) (limit string) {
	if len(words) == 4 && slices.Equal(words[1:3], []string{"BASED", "ON"}) && len(words[3]) == 7 && words[3][6] == 'Z' {
		if t, ok := parseDayTime(words[3][:6]); ok {
			d.BasedOn = t
			return ""
		}
	}
	return "DATA BASED ON ddhhmmZ"
}

// validHeading reads VALID 310600Z FOR USE 0200-0900Z. TEMPS NEG ABV 24000.
func (d *aloftDecoder) validHeading(words []string) (limit string) {
	const wanted = "VALID ddhhmmZ FOR USE hhmm-hhmmZ. TEMPS NEG ABV 24000"
	if len(words) != 9 || len(words[1]) != 7 || words[1][6] != 'Z' || len(words[4]) != 11 ||
		words[2] != "FOR" || words[3] != "USE" || words[4][4] != '-' || words[4][9:] != "Z." ||
		strings.Join(words[5:], " ") != "TEMPS NEG ABV 24000" {
		return wanted
	}
	valid, ok1 := parseDayTime(words[1][:6])
	from, ok2 := parseClock(words[4][:4])
	to, ok3 := parseClock(words[4][5:9])
	if !ok1 || !ok2 || !ok3 {
		return wanted
	}
	d.Valid, d.UseFrom, d.UseTo = valid, from, to
	return ""
}

// transmissionHeading checks FBUS31 KWNO 310158, with an amendment group or without.
func transmissionHeading(words []string) (limit string) {
	if _, ok := parseDayTime(words[2]); !ok || len(words) > 4 || !isDesignator(words[0]) ||
		len(words[1]) != 4 || !isDesignator(words[1]) || len(words) == 4 && !isDesignator(words[3]) {
		return "a heading like FBUS31 KWNO 310158"
	}
	return ""
}

func isDesignator(s string) bool {
	return !strings.ContainsFunc(s, func(r rune) bool { return !(r >= 'A' && r <= 'Z' || r >= '0' && r <= '9') })
}

func notDigit(r rune) bool { return r < '0' || r > '9' }
