package main

import (
	_ "embed"
	"strings"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/tolerance"
)

//go:embed demo.json
var demoClearance []byte

// Clearance is the input beside the log. Fields that are not known are refused; without
// an inbound course, or without a file, the hold is read off the track.
type Clearance struct {
	Standard string `json:"standard"`
	Fix      *struct {
		Ident     string          `json:"ident"`
		Latitude  float64         `json:"latitude_deg"`
		Longitude float64         `json:"longitude_deg"`
		Variation abeam.Variation `json:"variation"` // "9°W"
	} `json:"fix"`
	Hold struct {
		Inbound *float64    `json:"inbound_deg"`
		North   abeam.North `json:"north"`
		Turns   hold.Turn   `json:"turns"`
		Leg     float64     `json:"leg_s"` // inbound
	} `json:"hold"`
	Altitude float64 `json:"altitude_ft"` // 0: not judged
	IAS      float64 `json:"ias_kt"`      // 0: not judged
	Guidance string  `json:"guidance"`    // empty: none
	Station  float64 `json:"station_nm"`  // ahead of the fix, behind it negative
	Leave    float64 `json:"leave_s"`     // since the start of the log; 0: none
	// Own are limits of one's own, each either way, in place of the standard's or beside it.
	Own struct {
		Airspeed    float64 `json:"airspeed_kt"`
		Altitude    float64 `json:"altitude_ft"`
		Heading     float64 `json:"heading_deg"`
		Course      float64 `json:"course_scale"`
		LegTime     float64 `json:"leg_time_s"`
		Leaving     float64 `json:"leaving_s"`
		HoldingSide float64 `json:"non_holding_side_nm"`
	} `json:"own_limits"`
}

// applyOwn puts limits of one's own into a standard, and its name.
func (c Clearance) applyOwn(s *tolerance.Standard) error {
	o := c.Own
	for name, x := range map[string]float64{
		"airspeed_kt": o.Airspeed, "altitude_ft": o.Altitude, "heading_deg": o.Heading, "course_scale": o.Course,
		"leg_time_s": o.LegTime, "leaving_s": o.Leaving, "non_holding_side_nm": o.HoldingSide,
	} {
		if !(x >= 0 && x <= 1e5) {
			return field("own_limits."+name, x, "from 0 to 100000")
		}
	}
	before := *s
	if x := abeam.Knots(o.Airspeed); x > 0 {
		s.Airspeed = tolerance.Limit[abeam.Knots]{Under: x, Over: x, Source: own}
	}
	if x := abeam.Feet(o.Altitude); x > 0 {
		s.Altitude = tolerance.Limit[abeam.Feet]{Under: x, Over: x, Source: own}
	}
	if x := abeam.Degrees(o.Heading); x > 0 {
		s.Heading = tolerance.Limit[abeam.Degrees]{Under: x, Over: x, Source: own}
	}
	if o.Course > 0 {
		s.Course = tolerance.CourseLimit{Scale: o.Course, Source: own}
	}
	if x := time.Duration(o.LegTime * float64(time.Second)); x > 0 {
		s.LegTime = tolerance.Limit[time.Duration]{Under: x, Over: x, Source: own}
	}
	if x := time.Duration(o.Leaving * float64(time.Second)); x > 0 {
		s.Arrival = tolerance.Limit[time.Duration]{Under: x, Over: x, Source: own}
	}
	if x := abeam.NM(o.HoldingSide); x > 0 {
		s.HoldingSide = tolerance.Limit[abeam.NM]{Over: x, Source: own}
	}
	if *s != before {
		s.Edition += ", with own limits"
	}
	return nil
}

// own is the source of a limit that the standard does not have.
const own = "own limit"

var standards = map[string]func() tolerance.Standard{
	"faa-instrument": tolerance.FAAInstrument, "faa-atp": tolerance.FAAAirlineTransport,
	"eu-instrument": tolerance.EUInstrument, "eu-engine-out": tolerance.EUInstrumentEngineOut, "eu-en-route": tolerance.EUEnRoute,
}

// guidance by name; the station is a distance that angular guidance needs.
func guidance(name string, station abeam.NM) (tolerance.Guidance, bool) {
	g, ok := map[string]tolerance.Guidance{
		"": {}, "vor": tolerance.VORRadial(station), "localizer": tolerance.Localizer(station),
		"gps-en-route": tolerance.GPSEnRoute(), "waas-en-route": tolerance.WAASEnRoute(),
		"gps-terminal": tolerance.GPSTerminal(), "gps-approach": tolerance.GPSApproach(),
	}[name]
	return g, ok
}

// task is the clearance in the terms of the library.
type task struct {
	standard  tolerance.Standard
	clearance tolerance.Clearance
	north     abeam.North
	inferred  *tolerance.Inferred
}

func (c Clearance) task(log tolerance.Log) (task, error) {
	t := task{north: abeam.True}
	name := c.Standard
	if name == "" {
		return task{}, field("standard", "missing", "one of "+names())
	}
	standard, ok := standards[name]
	if !ok {
		return task{}, field("standard", name, "one of "+names())
	}
	t.standard = standard()
	if err := c.applyOwn(&t.standard); err != nil {
		return task{}, err
	}
	g, ok := guidance(c.Guidance, abeam.NM(c.Station))
	if !ok {
		return task{}, field("guidance", c.Guidance, "vor, localizer, gps-en-route, waas-en-route, gps-terminal, gps-approach or empty")
	}
	if !(c.Leave >= 0 && c.Leave <= 1e8) {
		return task{}, field("leave_s", c.Leave, "0 or more")
	}
	t.clearance = tolerance.Clearance{
		Altitude: abeam.Feet(c.Altitude), IAS: abeam.Knots(c.IAS), Guidance: g, Leave: time.Duration(c.Leave * float64(time.Second)),
	}
	var err error
	if c.Hold.Inbound == nil {
		t.inferred, err = c.infer(log)
		if err == nil {
			t.clearance.Pattern = t.inferred.Pattern
		}
		return t, err
	}
	if c.Fix == nil {
		return task{}, field("fix", "missing", "given with an inbound course")
	}
	if t.north = c.Hold.North; t.north != abeam.True && t.north != abeam.Magnetic {
		return task{}, field("hold.north", t.north, "true or magnetic")
	}
	fix := c.fix()
	if t.north == abeam.Magnetic {
		fix.Variation = c.Fix.Variation
	}
	if !(c.Hold.Leg > 0 && c.Hold.Leg <= hold.MaxLeg.Seconds()) {
		return task{}, field("hold.leg_s", c.Hold.Leg, "above 0 and at most 3600")
	}
	t.clearance.Pattern, err = hold.NewPattern(fix, abeam.Bearing(*c.Hold.Inbound), c.Hold.Turns,
		hold.TimedInbound(time.Duration(c.Hold.Leg*float64(time.Second))))
	return t, err
}

func (c Clearance) fix() hold.Fix {
	return hold.Fix{Ident: c.Fix.Ident, Position: s2.LatLngFromDegrees(c.Fix.Latitude, c.Fix.Longitude)}
}

func (c Clearance) infer(log tolerance.Log) (*tolerance.Inferred, error) {
	if c.Fix == nil {
		in, err := tolerance.Infer(log)
		return &in, err
	}
	in, err := tolerance.InferAt(log, c.fix())
	return &in, err
}

func names() string {
	return strings.Join([]string{"faa-instrument", "faa-atp", "eu-instrument", "eu-engine-out", "eu-en-route"}, ", ")
}

func field(name string, value any, limit string) error {
	return &abeam.FieldError{Op: "debrief", Field: name, Value: value, Limit: limit, Err: abeam.ErrInvalid}
}
