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

// An hour inbound with 40 kt behind takes longer than an hour outbound against them: the turns
// gain 120 s at 40 kt, (120+40) 3600 = (120-40) t - 40 120.
func TestLegBeyondAnHour(t *testing.T) {
	f := hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 180, Speed: 40}}
	fl, err := FAA().Plan(Direct, hold.MaxLeg).Fly(pattern(t, 0, hold.Right), f, 0, ForWind)
	if err != nil || !near.Equal(fl.EntryTime.Seconds(), (160*3600+40*120)/80, 1e-6) || fl.Inbound != hold.MaxLeg || fl.Notes != 0 {
		t.Errorf("%v on the leg, %v inbound, %v, %v", fl.EntryTime, fl.Inbound, fl.Notes, err)
	}
}

// The same off the reciprocal, worked backwards from 5000 s on the leg. The wind blows a third of
// the airspeed north and a fifth east; right turns at 3 deg/s, from the inbound heading round to
// it, take 120 s and end where they began in the air. On the leg's heading u
//
//	east   5000 (sin u + 1/5) + 120/5 = 0
//	north  5000 (cos u + 1/3) + 120/3 = -(inbound groundspeed) (inbound time)
func TestLegBeyondAnHourAcrossTheWind(t *testing.T) {
	const leg, n, e = 5000.0, 1.0 / 3, 1.0 / 5
	u := math.Pi + math.Asin(e*(leg+120)/leg)
	in := -(leg*(math.Cos(u)+n) + 120*n) / (math.Sqrt(1-e*e) + n)
	plan := FAA().Plan(Direct, time.Minute)
	plan.Inbound = time.Duration(in * 1e9)
	f := hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{
		From: abeam.NewBearing(math.Atan2(-e, -n) * 180 / math.Pi), Speed: abeam.Knots(120 * math.Hypot(n, e)),
	}}
	at := abeam.NewBearing(-math.Asin(e) * 180 / math.Pi)
	fl, err := plan.Fly(pattern(t, 0, hold.Right), f, at, ForWind)
	if err != nil || !near.Equal(fl.EntryTime.Seconds(), leg, 1e-6) || !near.Angle(fl.EntryHeading, abeam.NewBearing(u*180/math.Pi), 1e-9) ||
		!near.Equal(fl.Inbound.Seconds(), in, 1e-6) || fl.Notes != 0 {
		t.Errorf("%v for %v, %v inbound, %v, %v; by hand %v s inbound", fl.EntryHeading, fl.EntryTime, fl.Inbound, fl.Notes, err, in)
	}
}
