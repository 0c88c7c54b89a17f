package tolerance

import (
	"fmt"
	"strings"
	"testing"

	"github.com/holdingfix/abeam/internal/near"
)

// The text of an element is read up to as many bytes as a line may have, in one run or in several;
// one that is longer is found and not used, nor told by its beginning.
func TestLongestElement(t *testing.T) {
	blanks := func(n int) string { return strings.Repeat(" ", n) }
	const value = "914.4" // metres: 3000 ft
	for name, tc := range map[string]struct {
		text string
		read bool
	}{
		"short":               {value, true},
		"just as long":        {blanks(MaxLine-len(value)) + value, true},
		"one more":            {blanks(MaxLine-len(value)+1) + value, false},
		"two runs":            {blanks(100) + "<!-- -->" + value, true},
		"two, just as long":   {blanks(60_000) + "<!-- -->" + blanks(MaxLine-60_000-len(value)) + value, true},
		"two, one more":       {blanks(60_000) + "<!-- -->" + blanks(MaxLine-60_000-len(value)+1) + value, false},
		"the second too long": {value + "<!-- -->" + blanks(MaxLine), false},
	} {
		const after = `<time>2026-07-03T17:42:05Z</time></trkpt></trkseg></trk></gpx>`
		text := gpxHead + `<trkseg><trkpt lat="50" lon="8"><ele>` + tc.text + `</ele>` + after
		log, err := ReadGPX(strings.NewReader(text), nil)
		if err != nil || len(log.Samples) != 1 {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if s := log.Samples[0]; s.Has.Has(Altitude) != tc.read || tc.read && !near.Equal(s.Altitude, 3000, 1e-9) {
			t.Errorf("%s: %+v, %v", name, s, log.Findings)
		}
		if f := found(log, BadValue); (f.Kind == 0) != tc.read || (len(log.Findings) == 0) != tc.read || !tc.read && (f.Line != 5 || f.Column != len(text)-strings.LastIndexByte(text, '\n')-len(after) || !strings.Contains(f.Text, `"ele" is longer than 65536 bytes`)) {
			t.Errorf("%s: %v", name, log.Findings)
		}
	}
}

// Of extensions that no mapping names a hundred are found by name; more would be a flood.
func TestUnreadExtensionsAreBounded(t *testing.T) {
	for n, want := range map[int]int{99: 99, 100: 100, 101: 100, 150: 100} {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, "<e%d>1</e%d>", i, i)
		}
		text := gpxHead + `<trkseg><trkpt lat="50" lon="8"><time>2026-07-03T17:42:05Z</time><extensions>` + b.String() + `</extensions></trkpt></trkseg></trk></gpx>`
		log, err := ReadGPX(strings.NewReader(text), nil)
		if err != nil {
			t.Fatal(err)
		}
		got := len(log.Findings)
		for _, f := range log.Findings {
			got += f.More
		}
		if got != want || len(log.Findings) != listed {
			t.Errorf("%d: %d found, %d listed", n, got, len(log.Findings))
		}
	}
}
