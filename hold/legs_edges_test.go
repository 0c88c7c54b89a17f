package hold

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

func legPattern(tb testing.TB, leg Leg) Pattern {
	tb.Helper()
	p, err := NewPattern(Fix{}, 0, Right, leg)
	if err != nil {
		tb.Fatal(err)
	}
	return p
}

func TestBadLegs(t *testing.T) {
	nan, inf := abeam.NM(math.NaN()), abeam.NM(math.Inf(1))
	to := func(course StationCourse, fix, limit abeam.NM, elevation abeam.Feet) Leg {
		return DMELimit(Station{Course: course, Fix: fix, Elevation: elevation}, limit)
	}
	for _, tc := range []struct {
		name, field string
		leg         Leg
	}{
		{"none", "leg", Leg{}},
		{"outbound 0", "outbound leg", TimedOutbound(0)},
		{"outbound negative", "outbound leg", TimedOutbound(-1)},
		{"outbound long", "outbound leg", TimedOutbound(MaxLeg + 1)},
		{"length 0", "outbound leg", LengthOutbound(0)},
		{"length NaN", "outbound leg", LengthOutbound(nan)},
		{"length infinite", "outbound leg", LengthOutbound(inf)},
		{"length long", "outbound leg", LengthOutbound(MaxLength + 1)},
		{"inbound length 0", "inbound leg", LengthInbound(0)},
		{"inbound length NaN", "inbound leg", LengthInbound(nan)},
		{"station not said", "station course", to(0, 10, 15, 0)},
		{"fix NaN", "fix DME", to(Toward, nan, 15, 0)},
		{"fix negative", "fix DME", to(Toward, -1, 15, 0)},
		{"limit NaN", "DME limit", to(Toward, 10, nan, 0)},
		{"limit infinite", "DME limit", to(Toward, 10, inf, 0)},
		{"limit at the fix", "DME limit", to(Toward, 10, 10, 0)},
		{"limit short of the fix", "DME limit", to(Toward, 10, 5, 0)},
		{"limit beyond the fix", "DME limit", to(Away, 10, 15, 0)},
		{"limit at the station", "DME limit", to(Away, 10, 0, 0)},
		{"elevation NaN", "station elevation", to(Away, 10, 5, abeam.Feet(nan))},
	} {
		_, err := NewPattern(Fix{}, 0, Right, tc.leg)
		var field *abeam.FieldError
		if !errors.Is(err, abeam.ErrInvalid) || !errors.As(err, &field) || field.Field != tc.field || field.Limit == "" {
			t.Errorf("%s: %v, want it about %s", tc.name, err, tc.field)
		}
	}
	for _, length := range []abeam.NM{0, -1, nan, inf, 10, 501} {
		if _, err := (Station{Course: Away, Fix: 10}).Limit(length); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("limit of a leg of %v: %v", length, err)
		}
	}
	if _, err := (Station{}).Limit(5); !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("limit of no station: %v", err)
	}
	if _, err := RNPTurn(abeam.Feet(nan)); !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("RNP turn: %v", err)
	}
	for name, err := range map[string]error{
		"ground":      second(SlantRange(nan, 0)),
		"height":      second(SlantRange(1, abeam.Feet(inf))),
		"slant":       second(GroundDistance(-1, 0)),
		"design fix":  second(DesignDMELimit(nan, 220, 3, 14000, time.Minute)),
		"design TAS":  second(DesignDMELimit(30, 0, 3, 14000, time.Minute)),
		"design rate": second(DesignDMELimit(30, 220, 0, 14000, time.Minute)),
		"design h":    second(DesignDMELimit(30, 220, 3, -1, time.Minute)),
		"design time": second(DesignDMELimit(30, 220, 3, 14000, 0)),
	} {
		if !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("%s: %v", name, err)
		}
	}
	for name, err := range map[string]error{
		"slant below height":  second(GroundDistance(1, 12000)),
		"design below height": second(DesignDMELimit(2, 220, 3, 14000, time.Minute)),
	} {
		if !errors.Is(err, abeam.ErrUnflyable) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestUnflyableLegs(t *testing.T) {
	mile := abeam.Feet(abeam.FeetPerNM)
	tail := func(kt abeam.Knots) wind.Wind { return wind.Wind{From: 180, Speed: kt} }
	for _, tc := range []struct {
		name, field string
		leg         Leg
		wind        wind.Wind
		altitude    abeam.Feet
	}{
		{"fix DME below the height", "fix DME", DMELimit(Station{Toward, 2, 0}, 9), wind.Wind{}, 3 * mile},
		{"limit below the height", "DME limit", DMELimit(Station{Away, 9, 0}, 2), wind.Wind{}, 3 * mile},
		// 2 radii at 120 kt and 3 deg/s are 1.273 NM: the leg passes the station outside.
		{"away, never read", "DME limit", DMELimit(Station{Away, 5, 0}, 1.2), wind.Wind{}, 0},
		// A headwind of 40 kt on the course drifts 0.67 NM outbound in the turn.
		{"away, in the turn", "DME limit", DMELimit(Station{Away, 5, 0}, 4.99), wind.Wind{From: 0, Speed: 40}, 0},
		{"toward, in the turn", "DME limit", DMELimit(Station{Toward, 5, 0}, 5.1), wind.Wind{}, 0},
		// By hand: a minute from abeam makes 55 x 60 outbound, the turn drifts 65 x 60 back.
		{"clock in a tailwind", "outbound leg", TimedOutbound(time.Minute), tail(65), 0},
		// The turns' drift of 60 s at 50 kt each way is 0.83 NM.
		{"length in a tailwind", "outbound leg", LengthOutbound(0.8), tail(50), 0},
		{"length in a headwind", "outbound leg", LengthOutbound(0.6), wind.Wind{From: 0, Speed: 40}, 0},
		{"inbound length in a headwind", "inbound leg", LengthInbound(1), wind.Wind{From: 0, Speed: 60}, 0},
		// Across 60 of 120 kt a leg must last T w/(V - w) = 120 s to undo the turns' drift,
		// and turning into the wind the fix is abeam before wings level.
		{"clock in a crosswind", "outbound leg", TimedOutbound(115 * time.Second), wind.Wind{From: 270, Speed: 60}, 0},
	} {
		p := legPattern(t, tc.leg)
		f := Flight{TAS: 120, Rate: 3, Wind: tc.wind, Altitude: tc.altitude}
		c, err := p.Circuit(f)
		_, _, out := p.Outbound(f)
		for op, err := range map[string]error{"hold.Pattern.Circuit": err, "hold.Pattern.Outbound": out} {
			var field *abeam.FieldError
			if !errors.Is(err, abeam.ErrUnflyable) || !errors.As(err, &field) || field.Field != tc.field || field.Op != op || field.Limit == "" {
				t.Errorf("%s: %v, want it about %s", tc.name, err, tc.field)
			}
		}
		if c != (Circuit{}) {
			t.Errorf("%s: a circuit comes with the error", tc.name)
		}
		if _, err := p.ShortestInbound(f); err != nil {
			t.Errorf("%s: shortest inbound: %v", tc.name, err)
		}
	}
}

// The limits are sharp: by hand, as above.
func TestLegsAtTheirLimits(t *testing.T) {
	f := Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 180, Speed: 30}}
	for _, tc := range []struct {
		name    string
		leg     Leg
		wind    wind.Wind
		inbound float64
	}{
		// Tailwind of 30, the clock from abeam at 30 x 60/90 s. Clock 60 s: turn-in at -90 x 60, established at -5400 + 1800 = -3600, at 150: 24 s.
		{"clock in a tailwind", TimedOutbound(time.Minute), wind.Wind{From: 180, Speed: 30}, 24},
		{"and just not beyond the fix", TimedOutbound(20 * time.Second), wind.Wind{From: 180, Speed: 30}, 0},
		{"length to abeam the roll-out", LengthOutbound(0.5), wind.Wind{From: 180, Speed: 30}, 0},
		// Headwind of 40, T/2 = 60 s: shortest inbound 40 x 120/80 = 60 s, turn-in at the
		// roll-out, 40 x 60 kt s = 2/3 NM out.
		{"length at the roll-out", LengthOutbound(2.0/3 + 1e-9), wind.Wind{From: 0, Speed: 40}, 60},
		// A station under the fix: the ring of 3 NM about it is met at 1.273 NM abreast,
		// sqrt(9 - 1.621139) = 2.716406 NM out, 81.4922 s at 120 kt.
		{"DME overhead the fix", DMELimit(Station{Course: Toward}, 3), wind.Wind{}, 81.4922},
	} {
		f.Wind = tc.wind
		c, err := legPattern(t, tc.leg).Circuit(f)
		if err != nil || !near.Equal(c.Inbound.Seconds(), tc.inbound, 5e-5) {
			t.Errorf("%s: inbound %v, %v, want %v s", tc.name, c.Inbound, err, tc.inbound)
		}
	}
	// The same with the fix right above the station, at 2 NM: a reading of sqrt(13) is 3 NM.
	f.Wind, f.Altitude = wind.Wind{}, abeam.Feet(2*abeam.FeetPerNM)
	c, err := legPattern(t, DMELimit(Station{Course: Toward, Fix: 2}, abeam.NM(math.Sqrt(13)))).Circuit(f)
	if err != nil || !near.Equal(c.Inbound.Seconds(), 81.4922, 5e-5) {
		t.Errorf("fix overhead at 2 NM: inbound %v, %v", c.Inbound, err)
	}
}

func TestLegNotes(t *testing.T) {
	for _, tc := range []struct {
		name string
		leg  Leg
		wind wind.Wind
		note Note
		want bool
	}{
		{"24 s inbound", TimedOutbound(time.Minute), wind.Wind{From: 180, Speed: 30}, ShortInbound, true},
		{"34 s inbound", TimedOutbound(time.Minute), wind.Wind{From: 180, Speed: 20}, ShortInbound, false},
		{"asked for", TimedInbound(20 * time.Second), wind.Wind{}, ShortInbound, false},
		{"1.9 NM at 120 kt", DMELimit(Station{Toward, 10, 0}, 11.9), wind.Wind{}, ShortDMELeg, true},
		{"2.1 NM at 120 kt", DMELimit(Station{Toward, 10, 0}, 12.1), wind.Wind{}, ShortDMELeg, false},
		{"still air", DMELimit(Station{Away, 6, 0}, 2), wind.Wind{}, LimitingRadial, false},
		// Blown to the holding side at a third of the airspeed: 1.27 + 0.67 NM abreast
		// at the roll-out, 1 NM more for every 3 flown; the circle of 2 NM is missed.
		{"blown away", DMELimit(Station{Away, 8, 0}, 2), wind.Wind{From: 270, Speed: 40}, LimitingRadial, true},
		{"toward", DMELimit(Station{Toward, 8, 0}, 12), wind.Wind{From: 270, Speed: 40}, LimitingRadial, false},
	} {
		c, err := legPattern(t, tc.leg).Circuit(Flight{TAS: 120, Rate: 3, Wind: tc.wind})
		if err != nil || c.Notes.Has(tc.note) != tc.want {
			t.Errorf("%s: notes %q, %v", tc.name, c.Notes, err)
		}
	}
}

// The note that the limit is passed in the turn, and that it is not, against the
// readings along the sampled turn.
func TestLimitInTurn(t *testing.T) {
	seen := 0
	for from := abeam.Bearing(0); from < 360; from += 5 {
		for limit := abeam.NM(5.05); limit < 6.5; limit += 0.1 {
			p := legPattern(t, DMELimit(Station{Toward, 5, 0}, limit))
			c, err := p.Circuit(Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: from, Speed: 35}})
			if err != nil {
				continue
			}
			noted := c.Notes.Has(LimitInTurn)
			if noted {
				seen++
			}
			reading := math.Hypot(float64(c.RollOut.Along-5), float64(c.RollOut.Abreast))
			if passed := reading >= float64(limit); passed != noted {
				t.Errorf("wind from %v to %v DME: reads %v at wings level, notes %q", from, limit, reading, c.Notes)
			}
		}
	}
	if seen == 0 {
		t.Error("no limit was passed in the turn")
	}
}

func TestLegsFiniteOrError(t *testing.T) {
	values := []float64{0, math.Copysign(0, -1), 1e-300, 1e-12, 1, 59.999999, 60, 119.999999, math.Nextafter(120, 0), 120, 130, 1e300, math.NaN(), math.Inf(1), math.Inf(-1)}
	dirs := []float64{0, 90, 180, 269.9999999, 300, 1e-9, 1e17, math.NaN(), math.Inf(1)}
	legs := []Leg{
		TimedOutbound(1), TimedOutbound(time.Minute), TimedOutbound(MaxLeg),
		LengthOutbound(1e-300), LengthOutbound(3), LengthOutbound(MaxLength),
		LengthInbound(1e-300), LengthInbound(3), LengthInbound(MaxLength),
		DMELimit(Station{Toward, 10, 0}, 15), DMELimit(Station{Toward, 0, 0}, 5), DMELimit(Station{Toward, 10, 0}, 10+1e-14), DMELimit(Station{Toward, 10, 0}, MaxLength),
		DMELimit(Station{Away, 28, 0}, 20), DMELimit(Station{Away, 10, 0}, 1e-300), DMELimit(Station{Away, MaxLength, 0}, 1),
	}
	for _, leg := range legs {
		for _, speed := range values {
			for _, dir := range dirs {
				for _, tas := range []float64{120, 1e-300, 1e-9, 800} {
					p := legPattern(t, leg)
					f := Flight{TAS: abeam.Knots(tas), Rate: 3, Wind: wind.Wind{From: abeam.Bearing(dir), Speed: abeam.Knots(speed)}}
					c, err := p.Circuit(f)
					if err != nil {
						if c != (Circuit{}) {
							t.Errorf("%v %+v: a circuit comes with %v", leg, f, err)
						}
						continue
					}
					for _, x := range []float64{
						float64(c.InboundHeading), float64(c.OutboundHeading), float64(c.InboundGroundspeed), float64(c.OutboundGroundspeed),
						float64(c.RollOut.Along), float64(c.RollOut.Abreast), float64(c.TurnIn.Along), float64(c.TurnIn.Abreast),
						float64(c.Established.Along), float64(c.Extent.Beyond), float64(c.Extent.Outbound), float64(c.Extent.Widest),
					} {
						if math.IsNaN(x) || math.IsInf(x, 0) {
							t.Errorf("%v %+v: %+v", leg, f, c)
							break
						}
					}
					if c.Straight < 0 || c.Clock < 0 || c.Inbound < 0 || c.Lap < c.Inbound {
						t.Errorf("%v %+v: times of %+v", leg, f, c)
					}
				}
			}
		}
	}
}
