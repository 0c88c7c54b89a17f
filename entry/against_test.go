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

// A teardrop whose first turn goes against the pattern, worked backwards: from the heading of
// its leg follow the time on it, for the turn back to end on the course, and where on the course
// that is, and so the inbound time. Asked for that time, the entry has that leg.
//
// Inbound 000, right turns; V = 1, times in seconds, r = 60/pi at 3 deg/s; the wind blows towards
// (n, e). Left from h to u, t on u, right from u to the inbound heading i with sin i = -e:
//
//	north = -r(sin u - sin h) + t cos u + r(sin i - sin u) + n T
//	east  = r(cos u - cos h) + t sin u + r(cos u - cos i) + e T = 0
//
// with T = t + (h - u + 360 + i - u)/3.
func TestTeardropAgainstThePattern(t *testing.T) {
	const r, v = 60 / math.Pi, 120.0
	sincos := func(deg float64) (s, c float64) { return math.Sincos(deg * math.Pi / 180) }
	flown := 0
	for _, blow := range [][2]float64{{0, 0}, {0.1, 0}, {-0.2, 0}, {0, 0.15}, {0, -0.2}, {0.1, -0.1}, {-0.4, 0.3}, {0.5, 0.2}, {0.2, -0.5}} {
		n, e := blow[0], blow[1]
		i := math.Asin(-e) * 180 / math.Pi
		for h := 160.0; h <= 330; h += 10 {
			for u := 120.0; u < h && u <= 200; u += 4 {
				sh, ch := sincos(h)
				su, cu := sincos(u)
				si, ci := sincos(i)
				turns := (h - u + 360 + i - u) / 3
				leg := -(r*(cu-ch) + r*(cu-ci) + e*turns) / (su + e)
				north := -r*(su-sh) + leg*cu + r*(si-su) + n*(turns+leg)
				in := -north / (ci + n)
				track := 180 - math.Atan2(su+e, cu+n)*180/math.Pi
				if leg < 1 || leg > 600 || in < 5 || in > 600 || track < 10.1 || track > 44.9 || h-u > 179 {
					continue
				}
				flown++
				for _, turn := range []hold.Turn{hold.Right, hold.Left} {
					mirrored := func(deg float64) abeam.Bearing { return abeam.NewBearing(float64(turn.Apply(abeam.Degrees(deg)))) }
					plan := FAA().Plan(Teardrop, time.Minute)
					plan.Inbound = time.Duration(in * 1e9)
					f := hold.Flight{TAS: v, Rate: 3, Wind: wind.Wind{From: mirrored(math.Atan2(-e, -n) * 180 / math.Pi), Speed: abeam.Knots(v * math.Hypot(n, e))}}
					fl, err := plan.Fly(pattern(t, 0, turn), f, mirrored(h), ForWind)
					if err != nil || fl.Notes != 0 || fl.FixTurn != turn.Opposite() || !near.Angle(fl.EntryHeading, mirrored(u), 1e-6) ||
						!near.Equal(float64(fl.Through), h-u, 1e-6) || !near.Equal(fl.EntryTime.Seconds(), leg, 1e-6) ||
						!near.Equal(fl.Inbound.Seconds(), in, 1e-6) || !near.Equal(fl.Total.Seconds(), turns+leg+in, 1e-6) {
						t.Errorf("wind towards %v, from %v, %v turns: %v on %v for %v, %v inbound, %v, %v; by hand %v for %v s, %v s inbound",
							blow, h, turn, fl.FixTurn, fl.EntryHeading, fl.EntryTime, fl.Inbound, fl.Notes, err, u, leg, in)
					}
				}
			}
		}
	}
	t.Logf("%d teardrops", flown)
	if flown < 100 {
		t.Errorf("only %d teardrops", flown)
	}
}

// The same after an offset track at its time limit, from a heading that already makes it good:
// 90 s on h, then left to u, and the rest as above from where that leg ends.
func TestOffsetThenAgainstThePattern(t *testing.T) {
	const r, v, limit = 60 / math.Pi, 120.0, 90.0
	sincos := func(deg float64) (s, c float64) { return math.Sincos(deg * math.Pi / 180) }
	flown := 0
	for _, blow := range [][2]float64{{0, 0}, {0.1, 0}, {-0.2, 0}, {0, 0.15}, {0, -0.2}, {-0.2, 0.2}} {
		n, e := blow[0], blow[1]
		i := math.Asin(-e) * 180 / math.Pi
		for _, offset := range []float64{10, 12, 15} {
			st, ct := sincos(180 - offset)
			h := 180 - offset - math.Asin(e*ct-n*st)*180/math.Pi
			for u := h - 40; u < h-2; u += 4 {
				sh, ch := sincos(h)
				su, cu := sincos(u)
				si, ci := sincos(i)
				turns := (h - u + 360 + i - u) / 3
				leg := -(limit*(sh+e) + r*(cu-ch) + r*(cu-ci) + e*turns) / (su + e)
				north := limit*(ch+n) - r*(su-sh) + leg*cu + r*(si-su) + n*(turns+leg)
				in := -north / (ci + n)
				if leg < 1 || leg > 600 || in < 5 || in > 600 {
					continue
				}
				flown++
				plan := ICAO().Plan(Teardrop, time.Minute)
				plan.Teardrop, plan.Inbound = abeam.Degrees(offset), time.Duration(in*1e9)
				f := hold.Flight{TAS: v, Rate: 3, Wind: wind.Wind{From: abeam.NewBearing(math.Atan2(-e, -n) * 180 / math.Pi), Speed: abeam.Knots(v * math.Hypot(n, e))}}
				fl, err := plan.Fly(pattern(t, 0, hold.Right), f, abeam.NewBearing(h), ForWind)
				var turn, out Leg
				for leg := range fl.Legs() {
					switch leg.Phase {
					case OffsetTurn:
						turn = leg
					case OutboundLeg:
						out = leg
					}
				}
				if err != nil || fl.Notes != Notes(OffsetTimeLimited) || turn.Turn != hold.Left || !near.Equal(float64(turn.Through), h-u, 1e-6) ||
					!near.Equal(out.Time.Seconds(), leg, 1e-6) || !near.Equal(fl.Inbound.Seconds(), in, 1e-6) {
					t.Errorf("wind towards %v, offset %v: %v through %v, %v on the leg, %v inbound, %v, %v; by hand through %v, %v s, %v s",
						blow, offset, turn.Turn, turn.Through, out.Time, fl.Inbound, fl.Notes, err, h-u, leg, in)
				}
			}
		}
	}
	t.Logf("%d flown", flown)
	if flown < 20 {
		t.Errorf("only %d flown", flown)
	}
}
