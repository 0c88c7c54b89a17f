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

// What the documentation of [Plan.Fly] says of entries corrected for the wind, in winds up to
// the airspeed: where the tracks of their legs may lie, which way they turn back, when the
// inbound time is given up, and which notes say so.
func TestForWindAsDocumented(t *testing.T) {
	count := map[string]int{}
	for _, share := range []float64{0.6, 0.95, 0.999} {
		for i := range 1500 {
			p, f, heading, plan := scattered(t, i, share)
			f.Wind.Speed = min(f.Wind.Speed, wind.MaxSpeed)
			fl, err := plan.Fly(p, f, heading, ForWind)
			if err != nil {
				t.Fatalf("case %d at %v: %v", i, share, err)
			}
			offset, missed := fl.Offset(), fl.Notes.Has(InboundTimeMissed)
			limited, crossed, cut := fl.Notes.Has(AngleLimited), fl.Notes.Has(OffCourse), fl.Notes.Has(OffsetTimeLimited)
			if met := near.Equal(fl.Inbound.Seconds(), plan.Inbound.Seconds(), 1e-5); met == missed {
				t.Errorf("case %d at %v: inbound %v of %v: %v", i, share, fl.Inbound, plan.Inbound, fl.Notes)
			}
			at := func(angles ...abeam.Degrees) bool {
				for _, a := range angles {
					if near.Equal(offset, a, 1e-7) {
						return true
					}
				}
				return false
			}
			var good bool
			var how string
			turnsBack := p.Turn()
			switch plan.Entry {
			case Parallel: // a track on the reciprocal, for as long as the time asks for
				good, how = at(0) && crossed && !limited && !cut && missed == (fl.EntryTime == 0), "parallel"
				turnsBack = p.Turn().Opposite()
			case Direct:
				switch {
				case crossed: // closes in no other way: as parallel
					good, how = at(0) && !limited && missed == (fl.EntryTime == 0), "direct on the reciprocal"
				case limited:
					good, how = at(-90, 90) && missed, "direct at the limit"
				default:
					good, how = offset.Abs() < 90 && !missed, "direct"
				}
			case Teardrop:
				out := outbound(p, fl)
				switch {
				case cut:
					good, how = at(plan.Teardrop) && fl.EntryTime == plan.OffsetLimit && out.Abs() <= 90+1e-7, "teardrop, offset limited"
					if limited {
						good, how = good && near.Equal(out.Abs(), 90, 1e-7), how+" at the limit"
					} else if crossed {
						good, how = good && near.Equal(out, 0, 1e-7), how+" and on the reciprocal"
					}
				case plan.KeepAngle:
					good, how = at(plan.Teardrop) && !limited, "teardrop, angle kept"
				case limited:
					good, how = at(MinTeardrop, MaxTeardrop) && missed, "teardrop at the limit"
				default:
					good, how = offset > MinTeardrop && offset < MaxTeardrop, "teardrop"
				}
				if plan.OffsetLimit > 0 && fl.EntryTime > plan.OffsetLimit {
					good = false
				}
			}
			if count[how]++; !good || fl.Return != turnsBack {
				t.Errorf("case %d at %v, %s: offset %v, %v on the leg, turns back %v, %v", i, share, how, offset, fl.EntryTime, fl.Return, fl.Notes)
			}
		}
	}
	t.Log(count)
	for how, least := range map[string]int{
		"parallel": 1000, "direct": 500, "direct at the limit": 100, "direct on the reciprocal": 100, "teardrop": 200,
		"teardrop at the limit": 200, "teardrop, angle kept": 100, "teardrop, offset limited": 50,
		"teardrop, offset limited at the limit": 20, "teardrop, offset limited and on the reciprocal": 10,
	} {
		if count[how] < least {
			t.Errorf("%s: only %d", how, count[how])
		}
	}
}

// outbound is how far from the reciprocal the track of the leg after the offset track lies.
func outbound(p hold.Pattern, fl Flown) abeam.Degrees {
	for leg := range fl.Legs() {
		if leg.Phase == OutboundLeg {
			return p.Turn().Apply(p.Inbound().Reciprocal().Sub(leg.Track))
		}
	}
	return 0
}

// Straight about, neither way is the shorter: parallel turns by the non-holding side, as
// published and in a wind along the course. The leg of the direct entry by hand: with a headwind
// of w inbound the turns lose 120 w (in seconds), and V 60 - w 60 = (V + w) t + 120 w.
func TestStraightAboutForWind(t *testing.T) {
	for _, turn := range []hold.Turn{hold.Right, hold.Left} {
		p := pattern(t, 90, turn)
		for speed, leg := range map[abeam.Knots]float64{0: 60, 20: 3600.0 / 140, -20: 10800.0 / 100} {
			f := hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 90, Speed: speed}}
			if speed < 0 {
				f.Wind = wind.Wind{From: 270, Speed: -speed}
			}
			for kind, want := range map[Kind]hold.Turn{Direct: turn, Parallel: turn.Opposite()} {
				for _, m := range []Manner{AsPublished, ForWind} {
					fl, err := FAA().Plan(kind, time.Minute).Fly(p, f, 90, m)
					if err != nil || fl.FixTurn != want || !near.Equal(fl.Through, 180, 1e-9) || fl.EntryTrack.Sub(270).Abs() > 1e-9 {
						t.Errorf("%v, %v turns, %v, %v wind: %v through %v, %v", kind, turn, m, speed, fl.FixTurn, fl.Through, err)
					}
					if kind == Direct && m == ForWind && (!near.Equal(fl.EntryTime.Seconds(), leg, 1e-8) || fl.Inbound != time.Minute || fl.Notes != 0) {
						t.Errorf("%v turns, %v wind: %v on the leg, by hand %v s; %v inbound, %v", turn, speed, fl.EntryTime, leg, fl.Inbound, fl.Notes)
					}
				}
			}
		}
	}
}

// In still air, by hand. A teardrop on the reciprocal less 30 degrees for 90 s, then a leg
// that gives two and a half minutes inbound: the notes say no more than that the offset ended.
func TestOffsetLimitForWind(t *testing.T) {
	plan := ICAO().Plan(Teardrop, 150*time.Second)
	fl, err := plan.Fly(pattern(t, 0, hold.Right), hold.Flight{TAS: 120, Rate: 3}, 150, ForWind)
	if err != nil || fl.EntryTime != 90*time.Second || fl.Notes != Notes(OffsetTimeLimited) || !near.Equal(fl.Inbound.Seconds(), 150, 1e-6) {
		t.Fatalf("%+v, %v", fl, err)
	}
	// The leg runs from the end of the turn off the offset track to the start of the turn back;
	// both turns go right and end on 000, so they are as wide as one from 150: the end of the
	// leg lies 2.5 minutes south of the fix less what a turn from 150 to 000 makes good.
	const r = 2 / math.Pi
	s, c := math.Sincos(150 * math.Pi / 180)
	north, east := -5-r*(0-s), 0-r*(c-1)
	dn, de := north-3*c, east-3*s // what the outbound leg covers
	var leg Leg
	for l := range fl.Legs() {
		if l.Phase == OutboundLeg {
			leg = l
		}
	}
	if !near.Equal(leg.Time.Seconds(), math.Hypot(dn, de)*30, 1e-6) || !near.Angle(leg.Track, abeam.NewBearing(math.Atan2(de, dn)*180/math.Pi), 1e-7) {
		t.Errorf("%+v, by hand %v s on %v", leg, math.Hypot(dn, de)*30, math.Atan2(de, dn)*180/math.Pi)
	}
}
