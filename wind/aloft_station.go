package wind

import (
	"fmt"
	"iter"
	"strings"

	"github.com/holdingfix/abeam"
)

// stationName is how many characters a station's name has.
const stationName = 3

// station decodes the line of a station.
func (d *aloftDecoder) station(l Line) {
	name := l.Text[:min(stationName, len(l.Text))]
	if len(name) < stationName || !isDesignator(name) || len(l.Text) > stationName && l.Text[stationName] != ' ' {
		d.fail(l, "", l.Text, "a heading, or a station of three capital letters or digits and its groups")
		return
	}
	if d.columns == nil {
		d.fail(l, name, l.Text, "below a line of levels, FT and the altitudes")
		return
	}
	if first := d.stationLine[name]; first != 0 {
		d.fail(l, name, l.Text, "given once; it stands on line %d too", first)
		return
	}
	levels := make([]AloftLevel, 0, len(d.columns))
	i := 0 // the column that the next group may stand in
	for w := range wordsOf(l.Text[stationName:]) {
		start := stationName + w.start
		for i < len(d.columns) && start >= d.columns[i].end {
			if len(levels) > 0 {
				break // a gap
			}
			i++
		}
		if i == len(d.columns) || start < d.columns[i].start || start+len(w.text) > d.columns[i].end {
			d.fail(l, name, w.text, "in the column of a level, with none missing but the lowest; it stands in column %d", start+1)
			return
		}
		level, limit := decodeAloftGroup(w.text, d.columns[i].level)
		if limit != "" {
			d.fail(l, fmt.Sprintf("%s at %v", name, d.columns[i].level), w.text, "%s", limit)
			return
		}
		levels = append(levels, level)
		i++
	}
	if i < len(d.columns) {
		d.fail(l, fmt.Sprintf("%s at %v", name, d.columns[i].level), "", "a group; the line ends before it")
		return
	}
	d.stationLine[name] = l.Number
	d.Stations = append(d.Stations, AloftStation{Name: name, Line: l.Number, Levels: levels})
}

// Profile is the forecast as a profile in the north of the computation; true winds
// cross to magnetic by the variation at the station. Light and variable is calm, and
// 199 kt or more is 199.
//
// Errors: [abeam.ErrInvalid] as for [Reported.In] and [NewProfile].
func (s AloftStation) Profile(north abeam.North, v abeam.Variation) (Profile, error) {
	levels := make([]Level, len(s.Levels))
	for i, l := range s.Levels {
		w, err := l.Wind.In(north, v)
		if err != nil {
			return Profile{}, err
		}
		levels[i] = Level{Altitude: l.Level, Wind: w}
	}
	return NewProfile(levels...)
}

// word is a run of characters between blanks, and where it starts.
type word struct {
	text  string
	start int
}

// wordsOf gives the words of a line with their places, which strings.Fields loses.
func wordsOf(line string) iter.Seq[word] {
	return func(yield func(word) bool) {
		for i := 0; i < len(line); {
			if line[i] == ' ' {
				i++
				continue
			}
			end := strings.IndexByte(line[i:], ' ')
			if end < 0 {
				end = len(line) - i
			}
			if !yield(word{line[i : i+end], i}) {
				return
			}
			i += end
		}
	}
}
