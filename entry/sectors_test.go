package entry

import (
	"testing"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
)

// The sectors for right turns, written out degree by degree from inbound 000: 30 degrees
// a line, the first from 000 to 029. The letters are explained by outcomes.
const sectorsOfAll = "DDDDDDDDDDDDDDDDDDDDDDDDDDDDDD" +
	"DDDDDDDDDDDDDDDDDDDDDDDDDDDDDD" +
	"DDDDDDDDDDDDDDDDDDDDDDDDDDDDDD" +
	"DDDDDDDDDDDDDDDddddddtttttTTTT" +
	"TTTTTTTTTTTTTTTTTTTTTTTTTTTTTT" +
	"TTTTTTTTTTTTTTTTTTTTTTTTTuuuuu" +
	"upppppPPPPPPPPPPPPPPPPPPPPPPPP" +
	"PPPPPPPPPPPPPPPPPPPPPPPPPPPPPP" +
	"PPPPPPPPPPPPPPPPPPPPPPPPPPPPPP" +
	"PPPPPPPPPPPPPPPqqqqqeeeeeeDDDD" +
	"DDDDDDDDDDDDDDDDDDDDDDDDDDDDDD" +
	"DDDDDDDDDDDDDDDDDDDDDDDDDDDDDD"

// The same by the 70 degree method of the Air Force.
const sectorsOfAirForce = "DDDDDDDDDDDDDDDDDDDDDDDDDDDDDD" +
	"DDDDDDDDDDDDDDDDDDDDDDDDDDDDDD" +
	"DDDDDDDDDDDDDDDDDDDDDDDDDDDDDD" +
	"cccccccccccccccccccccccccccccc" +
	"cccccccccccccccccccccccccccccc" +
	"cccccccccccccccccccccccccccccc" +
	"brrrrrrrrrrrrrrrrrrrrrrrrrrrrr" +
	"rrrrrrrrrrrrrrrrPPPPPPPPPPPPPP" +
	"PPPPPPPPPPPPPPPPPPPPPPPPPPPPPP" +
	"PPPPPPPPPPPPPPPPPPPPeDDDDDDDDD" +
	"DDDDDDDDDDDDDDDDDDDDDDDDDDDDDD" +
	"DDDDDDDDDDDDDDDDDDDDDDDDDDDDDD"

// outcome is what a letter stands for: the entry, the other that is acceptable too, the
// one that may be chosen.
type outcome struct{ entry, alternative, choice Kind }

var outcomes = map[byte]outcome{
	'D': {Direct, None, None}, 'd': {Direct, Teardrop, None}, 'e': {Direct, Parallel, None},
	'T': {Teardrop, None, None}, 't': {Teardrop, Direct, None}, 'u': {Teardrop, Parallel, None},
	'P': {Parallel, None, None}, 'p': {Parallel, Teardrop, None}, 'q': {Parallel, Direct, None},
	'c': {Direct, None, Teardrop}, 'b': {Direct, Parallel, Teardrop}, 'r': {Parallel, None, Teardrop},
}

// Every whole heading on every whole course, both turns, all rules.
func TestSectorsAgainstTable(t *testing.T) {
	decisions := 0
	for _, c := range []struct {
		rules Rules
		table string
	}{{FAA(), sectorsOfAll}, {FAARNAV(), sectorsOfAll}, {ICAO(), sectorsOfAll}, {AirForce(), sectorsOfAirForce}} {
		if len(c.table) != 360 {
			t.Fatalf("the table of %v has %d letters", c.rules, len(c.table))
		}
		for inbound := range 360 {
			right, left := pattern(t, abeam.Bearing(inbound), hold.Right), pattern(t, abeam.Bearing(inbound), hold.Left)
			for angle := range 360 {
				want := outcomes[c.table[angle]]
				for p, heading := range map[hold.Pattern]int{right: (inbound + angle) % 360, left: (inbound - angle + 360) % 360} {
					d, err := c.rules.Choose(p, abeam.Bearing(heading))
					if err != nil {
						t.Fatal(err)
					}
					if got := (outcome{d.Entry, d.Alternative, d.Choice}); got != want {
						t.Fatalf("%v, inbound %d, %v turns, direction %d: %v, want %v", c.rules, inbound, p.Turn(), heading, got, want)
					}
					decisions++
				}
			}
		}
	}
	t.Logf("%d decisions", decisions)
}
