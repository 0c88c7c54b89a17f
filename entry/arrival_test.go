package entry

import (
	"errors"
	"math"
	"slices"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

// A DME limit ends the leg where the distance from the station, worked out here from the
// place and the height, is the limit: towards the station and away from it.
func TestDMELimit(t *testing.T) {
	for _, c := range []struct {
		dme     DME
		station float64 // along the course from the fix, at the given height
	}{
		{DME{Fix: 10, Limit: 15}, 10},  // AIM FIG 5-3-5
		{DME{Fix: 28, Limit: 20}, -28}, // AIM FIG 5-3-6
		{DME{Fix: 30, Limit: 35, Height: 14000}, math.Sqrt(900 - math.Pow(14000*0.3048/1852, 2))},  // Doc 8168 App C-15
		{DME{Fix: 28, Limit: 20, Height: 9000}, -math.Sqrt(28*28 - math.Pow(9000*0.3048/1852, 2))}, // slant
	} {
		for _, turn := range []hold.Turn{hold.Right, hold.Left} {
			for _, kind := range []Kind{Direct, Teardrop, Parallel} {
				for _, m := range []Manner{AsPublished, ForWind} {
					plan := ICAO().Plan(kind, time.Minute)
					plan.DME, plan.OffsetLimit = c.dme, 0
					fl, err := plan.Fly(pattern(t, 310, turn), hold.Flight{TAS: 220, Rate: 2.3, Wind: wind.Wind{From: 30, Speed: 25}}, 170, m)
					if err != nil {
						t.Fatal(err)
					}
					for leg := range fl.Legs() {
						if leg.Phase != ReturnTurn {
							continue
						}
						got := math.Sqrt(math.Pow(float64(leg.From.Along)-c.station, 2) + math.Pow(float64(leg.From.Abreast), 2) +
							math.Pow(float64(c.dme.Height.NM()), 2))
						if !near.Equal(got, float64(c.dme.Limit), 1e-9) {
							t.Errorf("%+v %v %v: turns back at %v DME", c.dme, kind, m, got)
						}
					}
					if m == ForWind && kind == Teardrop && !near.Equal(fl.Offset(), 30, 1e-9) {
						t.Errorf("%+v: offset track %v from the reciprocal", c.dme, fl.Offset())
					}
				}
			}
		}
	}
	// Long after the offset's time limit, the rest of the way parallel to the outbound.
	plan := ICAO().Plan(Teardrop, time.Minute)
	plan.DME = DME{Fix: 10, Limit: 25}
	fl, err := plan.Fly(pattern(t, 310, hold.Right), hold.Flight{TAS: 220, Rate: 2.3}, 130, ForWind)
	if err != nil || !fl.Notes.Has(OffsetTimeLimited) || fl.EntryTime != 90*time.Second {
		t.Errorf("offset limit: %v, %v, %v", fl.EntryTime, fl.Notes, err)
	}
	// A teardrop that passes the station wide of the limit never reads it.
	plan.DME, plan.OffsetLimit, plan.Teardrop = DME{Fix: 20, Limit: 1}, 0, 45
	if _, err := plan.Fly(pattern(t, 310, hold.Right), hold.Flight{TAS: 220, Rate: 2.3}, 130, ForWind); !errors.Is(err, abeam.ErrUnflyable) {
		t.Errorf("limit never read: %v", err)
	}
}

// Over the station itself the reading is the height, and no reading is less.
func TestDMEOverhead(t *testing.T) {
	h := abeam.Feet(12000).NM()
	for _, dme := range []DME{{Fix: h, Limit: 9, Height: 12000}, {Fix: 9, Limit: h, Height: 12000}} {
		plan := ICAO().Plan(Direct, time.Minute)
		plan.DME = dme
		if err := plan.Validate(); err != nil {
			t.Errorf("%+v: %v", dme, err)
		}
		if s, limit, _ := dme.station(); dme.Fix == h && s != 0 || dme.Limit == h && limit != 0 {
			t.Errorf("%+v: station %v NM along, limit at %v", dme, s, limit)
		}
		for _, reading := range []*abeam.NM{&plan.DME.Fix, &plan.DME.Limit} {
			if *reading != h {
				continue
			}
			if *reading = abeam.NM(math.Nextafter(float64(h), 0)); !errors.Is(plan.Validate(), abeam.ErrUnflyable) {
				t.Errorf("%+v: %v", plan.DME, plan.Validate())
			}
		}
	}
}

func TestVORDME(t *testing.T) {
	dme := DME{Fix: 30, Limit: 35, Height: 14000}
	for _, turn := range []hold.Turn{hold.Right, hold.Left} {
		p := pattern(t, 90, turn)
		for _, c := range []struct {
			route      Route
			entry      Kind
			track, leg abeam.Bearing // right turns
			first      hold.Turn
			notes      Notes
		}{
			{InboundRadial, Direct, 90, 270, hold.Right, 0},
			{ReciprocalRadial, Teardrop, 270, 240, hold.Left, 0},
			{ArcFromHoldingSide, Parallel, 0, 270, hold.Left, 0},
			{ArcFromOtherSide, Direct, 180, 270, hold.Right, 0},
			{OutboundEnd, Direct, 90, 90, hold.Right, Notes(OnlyDirect)},
		} {
			a, err := VORDME(p, c.route, dme, time.Minute)
			if err != nil {
				t.Fatal(err)
			}
			track, leg, first := c.track, c.leg, c.first
			if turn == hold.Left { // mirrored in the course 090
				track, leg, first = abeam.NewBearing(180-float64(track)), abeam.NewBearing(180-float64(leg)), first.Opposite()
			}
			if a.Entry != c.entry || a.Track != track || a.Leg != leg || a.Turn != first || a.Notes != c.notes {
				t.Errorf("%v, %v turns: %+v", c.route, turn, a)
			}
			for _, k := range []Kind{None, Direct, Teardrop, Parallel} {
				if a.Permits(k) != (k == c.entry) {
					t.Errorf("%v permits %v: %v", c.route, k, a.Permits(k))
				}
			}
			// The sectors agree with the route.
			d, err := ICAO().Choose(p, a.Track)
			if err != nil || !slices.Contains(slices.Collect(d.Permitted()), a.Entry) {
				t.Errorf("%v: by its sector %+v, %v", c.route, d, err)
			}
			if c.route == OutboundEnd {
				if a.Plan != (Plan{}) {
					t.Errorf("outbound end: %+v", a.Plan)
				}
				continue
			}
			fl, err := a.Plan.Fly(p, hold.Flight{TAS: 220, Rate: 2.3}, a.Track, AsPublished)
			if err != nil || !near.Angle(fl.EntryTrack, a.Leg, 1e-9) || fl.FixTurn != a.Turn {
				t.Errorf("%v: %+v, %v", c.route, fl, err)
			}
		}
	}
	p := pattern(t, 90, hold.Right)
	for name, err := range map[string]error{
		"route":   second(VORDME(p, 0, dme, time.Minute)),
		"route 6": second(VORDME(p, 6, dme, time.Minute)),
		"DME":     second(VORDME(p, InboundRadial, DME{}, time.Minute)),
		"limit":   second(VORDME(p, InboundRadial, DME{Fix: 3}, time.Minute)),
		"leg":     second(VORDME(p, InboundRadial, dme, 0)),
		"pattern": second(VORDME(hold.Pattern{}, InboundRadial, dme, time.Minute)),
	} {
		if !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// CNATRA P-801 p133: holding course 360, a parallel planned on 180. The crosswind pushes
// to the right, west, and across the course: turn left instead of right. That a parallel
// would turn right there makes it a pattern of left turns.
func TestBlownAcross(t *testing.T) {
	p := pattern(t, 360, hold.Left)
	plan := FAA().Plan(Parallel, time.Minute)
	for _, c := range []struct {
		from abeam.Bearing
		back hold.Turn
	}{{90, hold.Left}, {270, hold.Right}, {180, hold.Right}} {
		fl, err := plan.Fly(p, hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: c.from, Speed: 25}}, 170, AsPublished)
		if err != nil || fl.Return != c.back || fl.Notes.Has(BlownAcross) != (c.back == hold.Left) {
			t.Errorf("wind from %v: turns back %v, %v, %v", c.from, fl.Return, fl.Notes, err)
		}
	}
}

// What may be flown, the one that strays least first.
func TestCompare(t *testing.T) {
	p := pattern(t, 0, hold.Right)
	f := hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 90, Speed: 20}}
	for _, c := range []struct {
		rules   Rules
		heading abeam.Bearing
		kinds   []Kind
	}{
		{FAA(), 20, []Kind{Direct}},
		{FAA(), 108, []Kind{Direct, Teardrop}},
		{FAA(), 182, []Kind{Parallel, Teardrop}},
		{ICAO(), 287, []Kind{Parallel, Direct}},
		{AirForce(), 150, []Kind{Direct, Teardrop}},
		{AirForce(), 180, []Kind{Direct, Parallel, Teardrop}},
	} {
		for _, m := range []Manner{AsPublished, ForWind} {
			all, err := c.rules.Compare(p, f, c.heading, time.Minute, m)
			if err != nil {
				t.Fatal(err)
			}
			var kinds []Kind
			called := 0
			for i, cand := range all {
				kinds = append(kinds, cand.Entry)
				if cand.Called {
					called++
				}
				if cand.Err != nil || cand.Flown.Entry != cand.Entry || cand.Flown.Manner != m {
					t.Errorf("%v %v %v: %+v", c.rules, c.heading, m, cand)
				}
				if i > 0 && cand.Flown.Extent.Astray < all[i-1].Flown.Extent.Astray {
					t.Errorf("%v %v %v: %v strays less than the one before", c.rules, c.heading, m, cand.Entry)
				}
			}
			slices.Sort(kinds)
			slices.Sort(c.kinds)
			if !slices.Equal(kinds, c.kinds) || called != 1 {
				t.Errorf("%v %v: %v, want %v", c.rules, c.heading, kinds, c.kinds)
			}
		}
	}
	// Neither can be flown as published in nine tenths of the airspeed from the holding
	// side: the course is never reached, which is said of each.
	f.Wind.Speed = 108
	all, err := FAA().Compare(p, f, 108, time.Minute, AsPublished)
	if err != nil || len(all) != 2 || !errors.Is(all[0].Err, abeam.ErrUnflyable) || !errors.Is(all[1].Err, abeam.ErrUnflyable) {
		t.Errorf("%+v, %v", all, err)
	}
	for name, err := range map[string]error{
		"heading": second(FAA().Compare(p, f, abeam.Bearing(math.NaN()), time.Minute, ForWind)),
		"leg":     second(FAA().Compare(p, f, 0, 0, ForWind)),
		"manner":  second(FAA().Compare(p, f, 0, time.Minute, 0)),
		"rules":   second(Rules{}.Compare(p, f, 0, time.Minute, ForWind)),
	} {
		if !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// By hand, calm: 300 to 200 kt at 2 kt/s takes 50 s and covers 250 kt times that, 3.4722
// NM. Three minutes at 300 kt are 15 NM.
func TestSlow(t *testing.T) {
	a := Approaching{Present: 300, Limit: 200, Deceleration: 2, ToFix: 10 * time.Minute}
	s, err := a.Slow()
	if err != nil {
		t.Fatal(err)
	}
	covers := 250.0 * 50 / 3600
	check := func(name string, got SlowStart, in, distance, arrival float64) {
		t.Helper()
		if !near.Equal(got.In.Seconds(), in, 1e-6) || !near.Equal(float64(got.Distance), distance, 1e-9) || !near.Equal(got.Arrival.Seconds(), arrival, 1e-6) {
			t.Errorf("%s: %+v, by hand %v %v %v", name, got, in, distance, arrival)
		}
	}
	if !s.Needed || s.TooFast || s.Takes != 50*time.Second || !near.Equal(float64(s.Covers), covers, 1e-9) || s.OverFix != 200 {
		t.Errorf("%+v", s)
	}
	// 50 NM to go. From 15 NM: 420 s until then, 50 s, and 15 - 3.4722 NM at 200 kt.
	check("earliest", s.Earliest, 420, 15, 420+50+(15-covers)*18)
	check("latest", s.Latest, (50-covers)*12, covers, (50-covers)*12+50)

	// With notice: at 200 kt from 10 NM, three minutes.
	a.Notice = true
	if s, err = a.Slow(); err != nil || s.TooFast {
		t.Errorf("%+v, %v", s, err)
	}
	check("earliest with notice", s.Earliest, 0, 50, 50+(50-covers)*18)
	check("latest with notice", s.Latest, (40-covers)*12, 10+covers, (40-covers)*12+50+180)

	// A headwind of 50 kt: 250 to 150 kt over the ground, 200 kt for 50 s.
	a.Notice, a.Tailwind = false, -50
	if s, err = a.Slow(); err != nil || !near.Equal(float64(s.Covers), 200.0*50/3600, 1e-9) {
		t.Errorf("%+v, %v", s, err)
	}

	// 30 s to go, 2.5 NM: 300 t - t2 = 9000 (kt, s) at t = 33.666... From 300 kt, 2 kt/s
	// less: 300 - 2 (150 - sqrt(150^2 - 9000)) kt.
	a.Tailwind, a.ToFix = 0, 30*time.Second
	if s, err = a.Slow(); err != nil || !s.TooFast || !near.Equal(float64(s.OverFix), 300-2*(150-math.Sqrt(150*150-9000)), 1e-9) || s.Latest.In >= 0 {
		t.Errorf("%+v, %v", s, err)
	}
	a.Limit = 300
	if s, err = a.Slow(); err != nil || s != (Slowing{OverFix: 300}) {
		t.Errorf("no need: %+v, %v", s, err)
	}

	good := Approaching{Present: 300, Limit: 200, Deceleration: 2, ToFix: time.Minute}
	for field, change := range map[string]func(*Approaching){
		"present speed":   func(a *Approaching) { a.Present = abeam.Knots(math.NaN()) },
		"speed limit":     func(a *Approaching) { a.Limit = 0 },
		"deceleration":    func(a *Approaching) { a.Deceleration = 0 },
		"tailwind":        func(a *Approaching) { a.Tailwind = abeam.Knots(math.Inf(1)) },
		"time to the fix": func(a *Approaching) { a.ToFix = 0 },
		"headwind":        func(a *Approaching) { a.Tailwind = -200 },
	} {
		bad := good
		change(&bad)
		s, err := bad.Slow()
		want := abeam.ErrInvalid
		if field == "headwind" {
			want = abeam.ErrUnflyable
		}
		var fe *abeam.FieldError
		if !errors.As(err, &fe) || !errors.Is(err, want) || fe.Field != field || s != (Slowing{}) {
			t.Errorf("%s: %+v, %v", field, s, err)
		}
	}
	tiny := good
	tiny.Tailwind = abeam.Knots(math.Nextafter(-200, 0))
	if s, err := tiny.Slow(); !errors.Is(err, abeam.ErrUnflyable) || s != (Slowing{}) {
		t.Errorf("%+v, %v", s, err)
	}
}
