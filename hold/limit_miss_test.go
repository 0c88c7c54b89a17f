package hold

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

// limitNote tells whether the hold of a leg away from the station has the note that the
// uncorrected leg misses the limit; false in ok where it has no circuit.
func limitNote(tb testing.TB, turn Turn, fix, limit abeam.NM, f Flight) (noted, ok bool) {
	tb.Helper()
	p, err := NewPattern(Fix{}, 0, turn, DMELimit(Station{Course: Away, Fix: fix}, limit))
	if err != nil {
		tb.Fatal(err)
	}
	c, err := p.Circuit(f)
	return c.Notes.Has(LimitingRadial), err == nil
}

// By hand: 120 kt, 3 deg/s, inbound 000, right turns, wind from 270 at 40 kt, the station
// 8 NM behind the fix.
//
// Inbound heading -asin(1/3) = -19.471 deg, cosine 0.942809; radius 120/(60 pi) =
// 0.636620 NM. The turn to 180 is 199.471 deg, 66.490 s, in which the wind carries 66.490
// x 40/3600 = 0.738780 NM. Roll-out along 0.636620/3 = 0.212207, abreast 0.636620 x
// 1.942809 + 0.738780 = 1.975612; from the station 8.212207 and 1.975612. The track goes
// 3 back for 1 abreast, and past the station at (8.212207 + 3 x 1.975612)/sqrt(10) =
// 4.471157 NM.
func TestLimitMissedByHand(t *testing.T) {
	f := Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 270, Speed: 40}}
	for limit, want := range map[abeam.NM]bool{4.47114: true, 4.47117: false} {
		if noted, ok := limitNote(t, Right, 8, limit, f); !ok || noted != want {
			t.Errorf("limit %v: noted %v, flown %v", limit, noted, ok)
		}
	}
}

// In every wind the note turns at the range that the leg flown on the reciprocal heading
// comes to at its nearest, over an hour of it.
func TestLimitMissedAsFlown(t *testing.T) {
	turned := 0
	for _, turn := range []Turn{Right, Left} {
		for from := abeam.Bearing(3); from < 360; from += 12 {
			for _, share := range []abeam.Knots{0.1, 0.25, 0.4} {
				for _, fix := range []abeam.NM{3, 6, 12} {
					f := Flight{TAS: 140, Rate: 2.5, Wind: wind.Wind{From: from, Speed: 140 * share}}
					c, err := minutePattern(t, 0, turn).Fly(f, 180, MaxLeg)
					if err != nil {
						t.Fatal(err)
					}
					nearest := abeam.NM(nearestOnLeg(c, Point{Along: -fix}))
					if nearest >= fix {
						continue
					}
					missed, flown := limitNote(t, turn, fix, nearest*(1-1e-9), f)
					met, flown2 := limitNote(t, turn, fix, nearest*(1+1e-9), f)
					if !flown || !flown2 {
						continue
					}
					turned++
					if !missed || met {
						t.Errorf("%v turns, wind from %v at %v, fix %v DME: nearest %v, noted inside %v, outside %v",
							turn, from, f.Wind.Speed, fix, nearest, missed, met)
					}
				}
			}
		}
	}
	if turned < 100 {
		t.Errorf("only %d of the limits had a circuit on either side", turned)
	}
}

// nearestOnLeg is the least distance of a place from the outbound leg of a circuit, found
// by thirds: along a straight leg the distance falls to its least and rises.
func nearestOnLeg(c Circuit, from Point) float64 {
	at := func(share float64) float64 {
		along := float64(c.RollOut.Along) + share*float64(c.TurnIn.Along-c.RollOut.Along)
		abreast := float64(c.RollOut.Abreast) + share*float64(c.TurnIn.Abreast-c.RollOut.Abreast)
		return math.Hypot(along-float64(from.Along), abreast-float64(from.Abreast))
	}
	lo, hi := 0.0, 1.0
	for range 200 {
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		if at(a) < at(b) {
			hi = b
		} else {
			lo = a
		}
	}
	return at((lo + hi) / 2)
}

// Thirty seconds inbound and a minute to the limit are long enough; what is less by the
// smallest step is not. In calm both legs last the same.
func TestShortestUnnotedLegs(t *testing.T) {
	for _, tc := range []struct {
		leg  Leg
		note Note
		want bool
	}{
		{TimedOutbound(30 * time.Second), ShortInbound, false},
		{TimedOutbound(30*time.Second - 1), ShortInbound, true},
		// 2 NM at 120 kt, beyond the fix and short of it.
		{DMELimit(Station{Toward, 0, 0}, 2), ShortDMELeg, false},
		{DMELimit(Station{Toward, 0, 0}, before(abeam.NM(2))), ShortDMELeg, true},
		{DMELimit(Station{Away, 6, 0}, 4), ShortDMELeg, false},
		{DMELimit(Station{Away, 6, 0}, after(abeam.NM(4))), ShortDMELeg, true},
	} {
		c, err := legPattern(t, tc.leg).Circuit(Flight{TAS: 120, Rate: 3})
		if err != nil || c.Notes.Has(tc.note) != tc.want {
			t.Errorf("%v: notes %q, %v", tc.leg, c.Notes, err)
		}
	}
}

// A head wind of half the airspeed: a leg of nothing takes 60 x 120/(120 - 60) = 120 s
// inbound, at a groundspeed of 60 kt 2 NM.
func TestShortestLengthIsNamed(t *testing.T) {
	f := Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 0, Speed: 60}}
	_, err := legPattern(t, LengthInbound(1)).Circuit(f)
	at, ok := errors.AsType[*abeam.FieldError](err)
	if !ok || !errors.Is(err, abeam.ErrUnflyable) || at.Field != "inbound leg" || !strings.HasPrefix(at.Limit, "at least 2 NM:") {
		t.Errorf("%v", err)
	}
	c, err := legPattern(t, LengthInbound(2)).Circuit(f)
	if err != nil || !near.Equal(c.Inbound.Seconds(), 120, 1e-9) || !c.Notes.Has(NoOutboundLeg) {
		t.Errorf("2 NM: inbound %v, %q, %v", c.Inbound, c.Notes, err)
	}
}
