package entry

import (
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

// A teardrop that misses the inbound time misses it by no more than any that keeps to a
// track of whole degrees, from the least to the greatest; and it is held at a limit in
// most cases, elsewhere where the turns begin to go another way.
func TestTeardropMissesByTheLeast(t *testing.T) {
	var missed, within int
	for _, share := range []float64{0, 0.3, 0.6, 0.95, 0.999} {
		for i := range 1500 {
			p, f, heading, plan := scattered(t, i, share)
			if plan.Entry != Teardrop || plan.KeepAngle {
				continue
			}
			plan.OffsetLimit, f.Wind.Speed = 0, min(f.Wind.Speed, wind.MaxSpeed)
			fl, err := plan.Fly(p, f, heading, ForWind)
			if err != nil {
				t.Fatal(err)
			}
			if !fl.Notes.Has(InboundTimeMissed) || fl.Notes.Has(OffCourse) {
				continue
			}
			if missed++; !fl.Notes.Has(AngleLimited) {
				within++
			}
			miss := math.Abs((fl.Inbound - plan.Inbound).Seconds())
			var neighbour Flown
			plan.KeepAngle = true
			for plan.Teardrop = MinTeardrop; plan.Teardrop <= MaxTeardrop; plan.Teardrop++ {
				kept, err := plan.Fly(p, f, heading, ForWind)
				if err != nil {
					t.Fatal(err)
				}
				if kept.Notes.Has(OffCourse) {
					neighbour = Flown{}
					continue // no leg on this track ends on the course
				}
				if neighbour.FixTurn == kept.FixTurn && neighbour.Entry == Teardrop && (neighbour.Inbound > plan.Inbound) != (kept.Inbound > plan.Inbound) {
					t.Errorf("case %d at %v: %v lies between %v at %v and what the degree before gives, %v", i, share, plan.Inbound, kept.Inbound, plan.Teardrop, neighbour.Inbound)
				}
				neighbour = kept
				if other := math.Abs((kept.Inbound - plan.Inbound).Seconds()); other < miss-1e-6 {
					t.Errorf("case %d at %v: misses %v by %.1f s at %v, by %.1f s at %v", i, share, plan.Inbound, miss, fl.Offset(), other, plan.Teardrop)
					break
				}
			}
		}
	}
	if missed < 700 || within > missed/4 {
		t.Errorf("%d missed, %d of them between the limits", missed, within)
	}
}

// In calm at 1.5 degrees a second a minute inbound leaves no room for the turn back. On the
// track of 45 degrees, heading 135, with R = 120 s/pi, the radius in seconds of flight:
//
//	left from 220 to 135   along R (sin 220 - sin 135) = -1.349895 R   abreast R (cos 135 - cos 220) = 0.058938 R
//	right from 135 to 360  along -R sin 135 = -0.707107 R              abreast -R (1 - cos 135) = -1.707107 R
//
// The leg is 1.648169 R abreast, as much along, 2.330864 R long, and the inbound leg 3.705171 R.
func TestTeardropWithoutRoom(t *testing.T) {
	f := hold.Flight{TAS: 120, Rate: 1.5}
	fl, err := AirForce().Plan(Teardrop, time.Minute).Fly(pattern(t, 0, hold.Right), f, 220, ForWind)
	if err != nil || !fl.Notes.Has(AngleLimited) || !fl.Notes.Has(InboundTimeMissed) {
		t.Fatalf("%v, %v", fl.Notes, err)
	}
	const r = 120 / math.Pi
	if !near.Equal(fl.Offset(), 45, 1e-9) || !near.Equal(fl.EntryTime.Seconds(), 2.330864*r, 1e-4) || !near.Equal(fl.Inbound.Seconds(), 3.705171*r, 1e-4) {
		t.Errorf("track %v, leg %v, inbound %v", fl.Offset(), fl.EntryTime, fl.Inbound)
	}
}

// In calm the turns from the inbound heading back to it are a full circle, and end at the fix
// whatever track lies between: no leg, and no track nearer to the time than the least, however
// the pattern lies and whatever rounding makes of it.
func TestTeardropWithoutLeg(t *testing.T) {
	f := hold.Flight{TAS: 60, Rate: 3}
	for inbound := abeam.Bearing(0); inbound < 360; inbound += 20 {
		for _, turn := range []hold.Turn{hold.Right, hold.Left} {
			heading := inbound.Add(turn.Apply(1e-9))
			fl, err := FAA().Plan(Teardrop, time.Minute).Fly(pattern(t, inbound, turn), f, heading, ForWind)
			if err != nil || !near.Equal(fl.Offset(), MinTeardrop, 1e-8) || fl.EntryTime > time.Nanosecond || !fl.Notes.Has(AngleLimited) || fl.Notes.Has(OffCourse) {
				t.Errorf("inbound %v, %v turns: track %v, leg %v, %v, %v", inbound, turn, fl.Offset(), fl.EntryTime, fl.Notes, err)
			}
		}
	}
}
