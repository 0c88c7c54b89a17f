package tolerance_test

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/tolerance"
	"github.com/holdingfix/abeam/wind"
)

// invented is a flight of two exact laps in a wind of 15 kt, with 130 ft lost for 12 s
// from 300 s on.
func invented() (tolerance.Plan, error) {
	fix := hold.Fix{Ident: "DRIVA", Position: s2.LatLngFromDegrees(45.2, -30.5)}
	p, err := hold.NewPattern(fix, 205, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		return tolerance.Plan{}, err
	}
	f := hold.Flight{TAS: 120, Rate: hold.StandardRate, Wind: wind.Wind{From: 270, Speed: 15}}
	exact, err := p.Circuit(f)
	if err != nil {
		return tolerance.Plan{}, err
	}
	lap := tolerance.PlannedLap{Heading: exact.OutboundHeading, Outbound: exact.Clock}
	return tolerance.Plan{
		Pattern: p, Flight: f, Altitude: 6000, Arrival: exact.InboundHeading, Before: 2 * time.Minute,
		Laps: []tolerance.PlannedLap{lap, lap}, After: 30 * time.Second, Step: time.Second, HeadingNorth: abeam.True,
		Slips: []tolerance.Slip{{Quantity: tolerance.Altitude, From: 300 * time.Second, For: 12 * time.Second, By: -130}},
	}, nil
}

// From a log to a verdict: what was put into the flight is what comes out.
func Example() {
	plan, err := invented()
	if err != nil {
		fmt.Println(err)
		return
	}
	log, err := plan.Log()
	if err != nil {
		fmt.Println(err)
		return
	}
	d, err := tolerance.NewDebrief(log, tolerance.Clearance{
		Pattern: plan.Pattern, Altitude: 6000, Guidance: tolerance.GPSTerminal(),
	}, tolerance.FAAInstrument())
	if err != nil {
		fmt.Println(err)
		return
	}
	j := d.Judgement
	fmt.Printf("%s: %s\n", j.Standard, j.Standard.Words(j.Overall))
	for _, e := range j.Excursions {
		fmt.Printf("%v: %v from %v for %v, limit %v %s\n", e.Item, e.Worst, e.Span.From, e.Span.Length(), e.Limit, e.Item.Unit())
	}
	altitude := j.Item(tolerance.AltitudeItem)
	fmt.Println(altitude.Judged-altitude.Inside, "outside, share within below 1:", altitude.Share() < 1)
	fmt.Printf("%v entry, %d laps, wind %.0f at %.1f kt, TAS %.1f kt\n", d.Flown.Entry.Kind, len(d.Flown.Laps),
		float64(d.Wind.Wind.From), float64(d.Wind.Wind.Speed), float64(d.Wind.TAS))
	fmt.Println("the truth is within what is stated:", d.Wind.Covers(plan.Flight.Wind), d.Wind.In(0) == d.Wind.Wind)
	fmt.Printf("inbound %.0f s and %.0f s\n", d.Flown.Laps[0].Inbound.Seconds(), d.Flown.Laps[1].Inbound.Seconds())
	// Output:
	// FAA instrument rating (FAA-S-ACS-8): unsatisfactory
	// altitude: -130 from 5m0s for 12s, limit -100 ft
	// 12s outside, share within below 1: true
	// direct entry, 2 laps, wind 270 at 15.0 kt, TAS 120.0 kt
	// the truth is within what is stated: true true
	// inbound 60 s and 60 s
}

// The steps one by one, and the next lap.
func ExampleAdvise() {
	plan, err := invented()
	if err != nil {
		fmt.Println(err)
		return
	}
	// The pilot corrects for nothing and flies a minute outbound.
	plan.Laps = []tolerance.PlannedLap{{Heading: plan.Pattern.Outward(), Outbound: time.Minute}}
	log, err := plan.Log()
	if err != nil {
		fmt.Println(err)
		return
	}
	flown, err := tolerance.Cut(log, plan.Pattern)
	if err != nil {
		fmt.Println(err)
		return
	}
	judged, err := tolerance.Judge(log, flown, tolerance.EUInstrument(), tolerance.Clearance{Pattern: plan.Pattern, Altitude: 6000})
	if err != nil {
		fmt.Println(err)
		return
	}
	w, err := tolerance.EstimateWind(log, tolerance.All(), 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	exact, err := tolerance.ExactLap(flown, w)
	if err != nil {
		fmt.Println(err)
		return
	}
	corrections, err := tolerance.Corrections(flown, exact)
	if err != nil {
		fmt.Println(err)
		return
	}
	advice, err := tolerance.Advise(flown, exact, corrections)
	if err != nil {
		fmt.Println(err)
		return
	}
	want, err := plan.Pattern.Circuit(plan.Flight)
	if err != nil {
		fmt.Println(err)
		return
	}
	near := func(a, b float64) bool { return math.Abs(a-b) < 1.5 }
	fmt.Println(judged.Standard.Words(judged.Overall), "by", judged.Standard)
	fmt.Println("the exact lap is that of the wind flown in:",
		near(float64(exact.Circuit.OutboundHeading), float64(want.OutboundHeading)), near(exact.Circuit.Clock.Seconds(), want.Clock.Seconds()))
	fmt.Println("corrected outbound by nothing:", near(float64(corrections[0].Outbound), 0), "exact:", near(float64(corrections[0].ExactOut), float64(want.OutboundCorrection)))
	for _, a := range advice {
		fmt.Println(a.Topic, "-", a.Source)
	}
	// Output:
	// fail by UK/EU instrument rating (Part-FCL Appendix 7)
	// the exact lap is that of the wind flown in: true true
	// corrected outbound by nothing: true exact: true
	// outbound time - closed form
	// outbound time - common practice; CNATRA P-871
	// outbound heading - closed form
	// outbound heading - AIM 5-3-8 j.8(c)
	// inbound heading - closed form
}

// The hold read off a track, with the fix known and without.
func ExampleInfer() {
	plan, err := invented()
	if err != nil {
		fmt.Println(err)
		return
	}
	log, err := plan.Log()
	if err != nil {
		fmt.Println(err)
		return
	}
	alone, err := tolerance.Infer(log)
	if err != nil {
		fmt.Println(err)
		return
	}
	at, err := tolerance.InferAt(log, plan.Pattern.Fix())
	if err != nil {
		fmt.Println(err)
		return
	}
	off := alone.Pattern.Fix().Position.Distance(plan.Pattern.Fix().Position).Radians() * 3440
	for _, in := range []tolerance.Inferred{alone, at} {
		p := in.Pattern
		fmt.Printf("inbound %s, %v turns, %v inbound\n", p.Inbound().ThreeFigures(), p.Turn(), p.Leg().Inbound())
	}
	fmt.Println("the fix within a tenth of a mile:", off < 0.1)
	// Output:
	// inbound 205, right turns, 1m0s inbound
	// inbound 205, right turns, 1m0s inbound
	// the fix within a tenth of a mile: true
}

func ExampleReadCSV() {
	const file = `time_s,lat,lon,Altitude (ft),ias_kt,heading_magnetic_deg,Speed
0,45.2000,-30.5,6000,112,205,58.6
1,45.1995,-30.5,6010,abc,205,58.6
2,45.1990,-30.5,1800 m,113,205,58.6
`
	log, err := tolerance.ReadCSV(strings.NewReader(file), tolerance.Mapping{
		"Speed": {Quantity: tolerance.Groundspeed, Unit: "mps"},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range log.Samples {
		fmt.Printf("%v: %.0f ft, %.1f kt over the ground, airspeed known: %v\n", s.Time, float64(s.Altitude), float64(s.Groundspeed), s.Has.Has(tolerance.IAS))
	}
	fmt.Println(log.Has())
	for _, f := range log.Findings {
		kind, err := f.Kind.MarshalText()
		fmt.Println(f, string(kind) == f.Kind.String(), err)
	}
	_, err = tolerance.ReadCSV(strings.NewReader("a,b,c\n1,2,3\n"), nil)
	fmt.Println(err)
	// Output:
	// 0s: 6000 ft, 113.9 kt over the ground, airspeed known: true
	// 1s: 6010 ft, 113.9 kt over the ground, airspeed known: false
	// 2s: 5906 ft, 113.9 kt over the ground, airspeed known: true
	// time, latitude, longitude, altitude, indicated airspeed, heading, groundspeed
	// line 3, column 22: bad value: indicated airspeed "abc" is not a number: not used true <nil>
	// line 4, column 17: mixed unit: altitude "1800 m" in a column of another unit: converted true <nil>
	// tolerance.ReadCSV: line 1, column 1 is a,b,c, must be a header with a column of time: invalid input
}

func ExampleReadGPX() {
	const file = `<gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1" creator="a recorder"><trk><trkseg>
<trkpt lat="45.2000" lon="-30.5"><ele>1828.8</ele><time>2026-07-03T17:42:00Z</time></trkpt>
<trkpt lat="45.1995" lon="-30.5"><ele>1828.8</ele><time>2026-07-03T17:42:01Z</time></trkpt>
<trkpt lat="45.1990" lon="-30.5"><ele>1828.8</ele>`
	log, err := tolerance.ReadGPX(strings.NewReader(file), nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(log.Start.Format(time.RFC3339), len(log.Samples), "samples,", log.Samples[1].Altitude.String())
	for _, f := range log.Findings {
		fmt.Println(f.Kind, "in line", f.Line)
	}
	// Output:
	// 2026-07-03T17:42:00Z 2 samples, 6000 ft
	// truncated in line 4
}

func ExampleLog_WriteCSV() {
	log := tolerance.Log{Samples: []tolerance.Sample{{
		Time: 1500 * time.Millisecond, Lat: 45.2, Lon: -30.5, Altitude: 6000,
		Has: tolerance.Quantities(tolerance.Time | tolerance.Latitude | tolerance.Longitude | tolerance.Altitude),
	}}}
	var file bytes.Buffer
	if err := log.WriteCSV(&file); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(file.String())
	// Output:
	// time_s,lat_deg,lon_deg,altitude_ft
	// 1.5,45.2000000,-30.5000000,6000.00
}

// A standard of one's own, from a published one.
func ExampleStandard() {
	s := tolerance.FAAInstrument()
	s.Authority, s.Edition = "our school", "2026"
	s.LegTime = tolerance.Limit[time.Duration]{Under: 5 * time.Second, Over: 5 * time.Second, Source: "our school"}
	fmt.Println(s, s.Validate(), s.LegTime.Set(), s.Arrival.Set(), s.Course.Set())
	fmt.Println(s.Words(tolerance.Within), "or", s.Words(tolerance.Beyond), "or", s.Words(tolerance.NotJudged))
	fmt.Println(tolerance.Standard{}, tolerance.Guidance{}, tolerance.VORRadial(0))
	// Output:
	// our school (2026) <nil> true false true
	// satisfactory or unsatisfactory or not judged
	// no standard no guidance VOR radial
}

// Laps one by one: spans, ranges, names.
func ExampleFlownLap() {
	plan, err := invented()
	if err != nil {
		fmt.Println(err)
		return
	}
	log, err := plan.Log()
	if err != nil {
		fmt.Println(err)
		return
	}
	d, err := tolerance.NewDebrief(log, tolerance.Clearance{Pattern: plan.Pattern}, tolerance.EUInstrumentEngineOut())
	if err != nil {
		fmt.Println(err)
		return
	}
	exact, err := plan.Pattern.Circuit(plan.Flight)
	if err != nil {
		fmt.Println(err)
		return
	}
	lap := d.Flown.Laps[0]
	for phase := hold.OutboundTurn; phase <= hold.InboundLeg; phase++ {
		fmt.Println(phase, "within a second of the exact:", (lap.Legs[phase].Length()-[...]time.Duration{
			exact.OutboundTurn.Time, exact.Straight, exact.InboundTurn.Time, exact.Inbound}[phase]).Abs() < time.Second)
	}
	fmt.Println("laps as long as the exact:", (lap.Span().Length()-exact.Lap).Abs() < time.Second, (d.Flown.Span().Length()-2*exact.Lap).Abs() < time.Second)
	altitude := tolerance.Range{}
	for _, leg := range d.Judgement.Laps[0].Legs {
		altitude = altitude.With(leg.Altitude)
	}
	fmt.Println("altitude from", altitude.Least, "to", altitude.Most)
	fmt.Println("the clock reads", tolerance.Clock(61*time.Second))
	// Output:
	// outbound turn within a second of the exact: true
	// outbound leg within a second of the exact: true
	// inbound turn within a second of the exact: true
	// inbound leg within a second of the exact: true
	// laps as long as the exact: true true
	// altitude from 5870 to 6000
	// the clock reads 1:01
}

func ExampleItem() {
	item := tolerance.AirspeedItem
	text, err := item.MarshalText()
	fmt.Println(item, item.Unit(), string(text), err)
	err = item.UnmarshalText([]byte("inbound course"))
	fmt.Println(item, item.Unit(), err)
	verdict := tolerance.Beyond
	text, err = verdict.MarshalText()
	fmt.Println(verdict, string(text), err)
	err = verdict.UnmarshalText([]byte("not judged"))
	fmt.Println(verdict, err)
	fmt.Println(tolerance.Quantities(tolerance.Altitude|tolerance.CDI), "-", tolerance.CDI)
	// Output:
	// airspeed kt airspeed <nil>
	// inbound course of full scale <nil>
	// beyond beyond <nil>
	// not judged <nil>
	// altitude, course deviation - course deviation
}
