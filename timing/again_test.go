package timing

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/near"
)

// A lap that passed the fix on the straight of its cut leaves the next one on that heading: in
// still air its first turn is shorter or longer by the cut, 10 s for 30 degrees at 3 degrees a
// second.
func TestNextLapBeginsOnTheCut(t *testing.T) {
	p := pattern(t, 0, hold.Right, time.Minute)
	sides := map[bool]int{}
	for correction := abeam.Degrees(-40); correction <= 40; correction += 5 {
		plan := Plan{Correction: correction, Outbound: 40 * time.Second, Start: AtTurnComplete}
		laps, err := Trial{Pattern: p, Start: AtTurnComplete, Flight: hold.Flight{TAS: 120, Rate: 3}, Strategy: fixed(plan), Intercept: Intercept{Cut: 30}}.AppendLaps(nil, 2)
		if err != nil {
			t.Fatal(err)
		}
		// Of 120 kt 2 NM a minute: the turn by 30 degrees gains 0.318 NM, r sin 30, and what is
		// left of the way to the fix must be flown before the turn back begins.
		first, x, y := laps[0], float64(laps[0].RollOut.Along), float64(laps[0].RollOut.Abreast)
		const radius = 2 / math.Pi // V over the rate: 2 NM a minute, pi radians a minute
		turn := radius * (1 - math.Cos(math.Pi/6))
		room := (math.Abs(y) - 2*turn) / math.Tan(math.Pi/6) // along, on the straight
		if first.Cut.Abs() != 30 || x+radius/2 >= 0 || x+radius/2+room <= 0 {
			continue
		}
		sides[first.Cut > 0]++
		outbound := 180 + float64(correction)
		second := laps[1]
		turned := (second.Lap - second.Straight - second.Inbound).Seconds() - (360-outbound)/3
		if want := (outbound - float64(first.Cut)) / 3; !near.Equal(turned, want, 1e-6) {
			t.Errorf("correction %v, cut %v: the next lap begins with a turn of %v s, want %v", correction, first.Cut, turned, want)
		}
	}
	if len(sides) != 2 {
		t.Errorf("cuts to the right (true) and left that met the fix: %v", sides)
	}
}

func TestCellSaysItsNumbers(t *testing.T) {
	g := smallGrid()
	_, err := g.Cell(g.Len())
	if want := fmt.Sprintf("number is %d, must be from 0 to %d", g.Len(), g.Len()-1); err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("%v, want %q", err, want)
	}
}
