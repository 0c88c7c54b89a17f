package entry_test

import (
	"fmt"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// A hold of no chart: inbound 075, right turns, a minute.
func tarno() hold.Pattern {
	fix := hold.Fix{Ident: "TARNO", Position: s2.LatLngFromDegrees(47.25, -120.5), Variation: 14}
	p, err := hold.NewPattern(fix, 75, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		panic(err)
	}
	return p
}

var breezy = hold.Flight{TAS: 120, Rate: hold.StandardRate, Wind: wind.Wind{From: 310, Speed: 20}}

func ExampleRules_Choose() {
	for _, rules := range []entry.Rules{entry.FAA(), entry.ICAO(), entry.AirForce()} {
		d, err := rules.Choose(tarno(), 188)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v: %v by %v, %.0f degrees from %v at %s, %.0f from %v at %s\n", rules, d.Entry, d.Basis,
			d.Low.Margin, d.Low.Beyond, d.Low.At.ThreeFigures(), d.High.Margin, d.High.Beyond, d.High.At.ThreeFigures())
		for kind := range d.Permitted() {
			fmt.Println(" may be flown:", kind)
		}
	}
	// Output:
	// FAA: teardrop by heading, 3 degrees from direct at 185, 67 from parallel at 255
	//  may be flown: teardrop
	//  may be flown: direct
	// ICAO: teardrop by heading, 3 degrees from direct at 185, 67 from parallel at 255
	//  may be flown: teardrop
	//  may be flown: direct
	// USAF 70 degree method: direct by heading, 183 degrees from parallel at 005, 67 from parallel at 255
	//  may be flown: direct
	//  may be flown: teardrop
}

func ExampleRules_ChooseInWind() {
	for _, rules := range []entry.Rules{entry.FAA(), entry.FAARNAV()} {
		d, err := rules.ChooseInWind(tarno(), breezy, 258)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v, by %v %s: %v (%v)\n", rules, rules.Basis(), d.Direction.ThreeFigures(), d.Entry, rules.Source())
	}
	// Output:
	// FAA, by heading 258: parallel (AIM 5-3-8 j.3, j.8(d))
	// FAA, RNAV system, by track 250: teardrop (AIM 5-3-8 j.7)
}

func ExampleRules_Plan() {
	for _, rules := range []entry.Rules{entry.FAA(), entry.FAARNAV(), entry.ICAO(), entry.AirForce()} {
		plan := rules.Plan(entry.Teardrop, 90*time.Second)
		fmt.Printf("%v: teardrop %v by %v, at most %v on it, intercept at %v\n", rules, plan.Teardrop, rules.TeardropBasis(), rules.OffsetLimit(), plan.Intercept)
	}
	plan := entry.AirForce().Plan(entry.Teardrop, time.Minute)
	plan.Teardrop = 50
	fmt.Println(plan.Validate())
	// Output:
	// FAA: teardrop 30° by heading, at most 0s on it, intercept at 45°
	// FAA, RNAV system: teardrop 30° by track, at most 0s on it, intercept at 45°
	// ICAO: teardrop 30° by track, at most 1m30s on it, intercept at 45°
	// USAF 70 degree method: teardrop 30° by track, at most 0s on it, intercept at 45°
	// entry.Plan.Validate: teardrop angle is 50°, must be from 10° to 45°: invalid input
}

func ExamplePublished() {
	for _, kind := range []entry.Kind{entry.Direct, entry.Teardrop, entry.Parallel} {
		pr, err := entry.Published(tarno(), kind, 200, time.Minute)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v: turn %v through %.0f to %.0f, %v, then %v\n", kind, pr.First, pr.Through, pr.Heading, pr.Time, pr.Return)
	}
	// Output:
	// direct: turn right through 55 to 255, 1m0s, then right
	// teardrop: turn right through 25 to 225, 1m0s, then right
	// parallel: turn right through 55 to 255, 1m0s, then left
}

func ExampleKind() {
	text, err := entry.Parallel.MarshalText()
	fmt.Println(string(text), err)
	var k entry.Kind
	fmt.Println(k)
	fmt.Println(k.UnmarshalText([]byte("teardrop")), k)
	// Output:
	// parallel <nil>
	// none
	// <nil> teardrop
}

// The same entry twice: as printed, and so that the inbound leg takes its minute.
func ExamplePlan_Fly() {
	plan := entry.FAA().Plan(entry.Teardrop, time.Minute)
	for _, manner := range []entry.Manner{entry.AsPublished, entry.ForWind} {
		fl, err := plan.Fly(tarno(), breezy, 230, manner)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v: heading %s for %.0f s (track %.0f degrees off the reciprocal), then %v\n",
			manner, fl.EntryHeading.ThreeFigures(), fl.EntryTime.Seconds(), fl.Offset(), fl.Return)
		fmt.Printf(" established after %.0f s, inbound %.0f s; %.2f NM astray, %.2f NM wide\n",
			fl.ToEstablish.Seconds(), fl.Inbound.Seconds(), fl.Extent.Astray, fl.Extent.Widest)
		for note := range fl.Notes.All() {
			fmt.Println(" note:", note)
		}
	}
	// Output:
	// as published: heading 225 for 60 s (track 40 degrees off the reciprocal), then right
	//  established after 152 s, inbound 32 s; 0.00 NM astray, 1.44 NM wide
	//  note: the turn back does not end on the inbound course, which is intercepted
	// corrected for the wind: heading 240 for 70 s (track 24 degrees off the reciprocal), then right
	//  established after 135 s, inbound 60 s; 0.00 NM astray, 1.01 NM wide
}

func ExampleFlown_Legs() {
	fl, err := entry.FAA().Plan(entry.Parallel, time.Minute).Fly(tarno(), breezy, 300, entry.AsPublished)
	if err != nil {
		fmt.Println(err)
		return
	}
	for leg := range fl.Legs() {
		if leg.Through > 0 {
			fmt.Printf("%v: %v through %.0f to %s, %.0f s\n", leg.Phase, leg.Turn, leg.Through, leg.Heading.ThreeFigures(), leg.Time.Seconds())
			continue
		}
		fmt.Printf("%v: %s, track %s at %.0f kt, %.0f s\n", leg.Phase, leg.Heading.ThreeFigures(), leg.Track.ThreeFigures(), leg.Groundspeed, leg.Time.Seconds())
	}
	fmt.Println(fl.Notes.Has(entry.OffCourse), fl.Notes)
	// Output:
	// turn at the fix: left through 45 to 255, 15 s
	// entry leg: 255, track 246 at 110 kt, 60 s
	// return turn: right through 225 to 120, 75 s
	// intercept: 120, track 121 at 140 kt, 12 s
	// turn onto the course: left through 53 to 067, 18 s
	// inbound leg: 067, track 075 at 130 kt, 17 s
	// true the turn back does not end on the inbound course, which is intercepted; the wind carries the entry leg across the course: the turn back goes towards the course
}

func ExampleFlown_Track() {
	fl, err := entry.FAA().Plan(entry.Direct, time.Minute).Fly(tarno(), breezy, 60, entry.ForWind)
	if err != nil {
		fmt.Println(err)
		return
	}
	track, err := fl.Track(time.Minute)
	if err != nil {
		fmt.Println(err)
		return
	}
	for s := range track {
		fmt.Printf("%v: %v, along %.2f, abreast %.2f, heading %s\n", s.Time.Round(time.Second), s.Phase, s.At.Along, s.At.Abreast, s.Heading.ThreeFigures())
	}
	samples, err := fl.AppendTrack(nil, 2*time.Minute)
	fmt.Println(len(samples), err)
	// Output:
	// 0s: turn at the fix, along 0.00, abreast 0.00, heading 060
	// 1m0s: turn at the fix, along 0.52, abreast 1.50, heading 240
	// 2m0s: entry leg, along -1.20, abreast 1.26, heading 273
	// 3m0s: return turn, along -2.78, abreast 0.72, heading 322
	// 4m0s: inbound leg, along -1.27, abreast 0.00, heading 067
	// 4m35s: inbound leg, along 0.00, abreast 0.00, heading 067
	// 4 <nil>
}

func ExampleFlown_Positions() {
	p := tarno()
	fl, err := entry.FAA().Plan(entry.Direct, time.Minute).Fly(p, breezy, 60, entry.ForWind)
	if err != nil {
		fmt.Println(err)
		return
	}
	positions, err := fl.Positions(p, time.Minute)
	if err != nil {
		fmt.Println(err)
		return
	}
	for s, at := range positions {
		fmt.Printf("%v %.4f %.4f\n", s.Time.Round(time.Second), at.Lat.Degrees(), at.Lng.Degrees())
	}
	// Output:
	// 0s 47.2500 -120.5000
	// 1m0s 47.2251 -120.4866
	// 2m0s 47.2287 -120.5288
	// 3m0s 47.2372 -120.5678
	// 4m0s 47.2496 -120.5311
	// 4m35s 47.2500 -120.5000
}

func ExampleRules_Compare() {
	all, err := entry.FAA().Compare(tarno(), breezy, 258, time.Minute, entry.AsPublished)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range all {
		e := c.Flown.Extent
		fmt.Printf("%v (called for: %v): %.2f NM astray, %.2f beyond, %.2f wide, established after %.0f s\n",
			c.Entry, c.Called, e.Astray, e.Beyond, e.Widest, c.Flown.ToEstablish.Seconds())
	}
	// Output:
	// teardrop (called for: false): 0.00 NM astray, 0.00 beyond, 1.54 wide, established after 166 s
	// parallel (called for: true): 0.73 NM astray, 0.00 beyond, 0.28 wide, established after 161 s
}

func ExampleVORDME() {
	dme := entry.DME{Fix: 30, Limit: 35, Height: 14000}
	f := hold.Flight{TAS: 280, Rate: 1.8}
	for route := entry.InboundRadial; route <= entry.OutboundEnd; route++ {
		a, err := entry.VORDME(tarno(), route, dme, time.Minute)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v: %v, arriving on %s, then %v to %s; parallel permitted: %v\n", a.Route, a.Entry,
			a.Track.ThreeFigures(), a.Turn, a.Leg.ThreeFigures(), a.Permits(entry.Parallel))
		if a.Notes != 0 {
			fmt.Println(" note:", a.Notes)
			continue
		}
		fl, err := a.Plan.Fly(tarno(), f, a.Track, entry.ForWind)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf(" %.0f s on the leg, established %.1f NM from the fix\n", fl.EntryTime.Seconds(), -fl.Established.Along)
	}
	// Output:
	// along the inbound radial: direct, arriving on 075, then right to 255; parallel permitted: false
	//  60 s on the leg, established 4.7 NM from the fix
	// on the reciprocal of the inbound radial: teardrop, arriving on 255, then left to 225; parallel permitted: false
	//  55 s on the leg, established 2.0 NM from the fix
	// by the DME arc from the holding side: parallel, arriving on 345, then left to 255; parallel permitted: true
	//  31 s on the leg, established 0.4 NM from the fix
	// by the DME arc from the non-holding side: direct, arriving on 165, then right to 255; parallel permitted: false
	//  31 s on the leg, established 0.4 NM from the fix
	// along the radial to the outbound end: direct, arriving on 075, then right to 075; parallel permitted: false
	//  note: direct along the radial only: parallel and offset entries are not authorised
}

func ExampleApproaching_Slow() {
	s, err := entry.Approaching{Present: 280, Limit: 230, Deceleration: 1, Tailwind: 20, ToFix: 6 * time.Minute}.Slow()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("takes %v over %.1f NM\n", s.Takes, s.Covers)
	fmt.Printf("from %.1f NM (in %v) to %.1f NM (in %v) before the fix\n",
		s.Earliest.Distance, s.Earliest.In, s.Latest.Distance, s.Latest.In.Round(time.Second))
	fmt.Println(s.TooFast, s.OverFix)
	// Output:
	// takes 50s over 3.8 NM
	// from 15.0 NM (in 3m0s) to 3.8 NM (in 5m14s) before the fix
	// false 230 kt
}

func ExampleFlown_Actions() {
	p := tarno()
	fl, err := entry.FAA().Plan(entry.Teardrop, time.Minute).Fly(p, breezy, 230, entry.ForWind)
	if err != nil {
		fmt.Println(err)
		return
	}
	actions, err := fl.Actions(p, entry.Crossing{
		Limit: hold.SpeedLimit{IAS: 200}, Altitude: 5000, Over: time.Date(2026, 11, 25, 14, 32, 0, 0, time.UTC),
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, a := range actions {
		fmt.Printf("%-8s %s\n", a.Name, a.Do)
	}
	// Output:
	// turn     right through 10 degrees to heading 240
	// time     70 s, from wings level; then turn right
	// twist    inbound course 075
	// throttle holding speed, at most 200 KIAS
	// talk     TARNO at 14:32, 5000 ft, entering the hold
}
