package main

import (
	_ "embed"
	"maps"
	"slices"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// Scenario is the input: a clearance, an aeroplane, the air and the arrival. Every
// field carries its unit in its name; fields that are not known are refused, and a
// pointer is a field that must be there, since its zero means something.
type Scenario struct {
	Rules string `json:"rules"` // "FAA" or "ICAO"
	// Clearance is the clearance in words; it takes the place of inbound course, turns,
	// leg and time of further clearance.
	Clearance string `json:"clearance,omitempty"`
	Fix       struct {
		Ident     string          `json:"ident"`
		Latitude  float64         `json:"latitude_deg"`
		Longitude float64         `json:"longitude_deg"`
		Variation abeam.Variation `json:"variation"`  // "14°E"
		AtStation bool            `json:"at_station"` // the fix is the station whose radials are spoken of
		// DME is what the station reads over the fix, where its reading ends a leg in
		// miles; without it they are counted along the track.
		DME       *float64 `json:"dme_nm,omitempty"`
		Elevation float64  `json:"station_elevation_ft,omitempty"`
		ToStation bool     `json:"inbound_to_station,omitempty"` // in figures; in words the radial tells
	} `json:"fix"`
	Hold struct {
		Inbound *float64    `json:"inbound_deg"`
		North   abeam.North `json:"north"` // of every direction but the wind's
		Turns   hold.Turn   `json:"turns"`
		Leg     float64     `json:"leg_s,omitempty"`  // 0: the altitude's time
		Miles   float64     `json:"leg_nm,omitempty"` // in place of the time
	} `json:"hold"`
	Aircraft struct {
		Arriving       float64 `json:"arriving_kias"`
		Holding        float64 `json:"holding_kias"`
		FlightDirector bool    `json:"flight_director"`
	} `json:"aircraft"`
	Air struct {
		Altitude  *float64 `json:"altitude_ft"`
		Deviation float64  `json:"isa_deviation_c"`
		Wind      struct {
			From  *float64    `json:"from_deg"`
			Speed *float64    `json:"kt"`
			North abeam.North `json:"north"`
		} `json:"wind"`
	} `json:"air"`
	Arrival struct {
		Heading *float64 `json:"heading_deg"`
		OverFix string   `json:"over_fix"`                 // "17:42", UTC
		EFC     string   `json:"expect_further_clearance"` // empty: none was given
	} `json:"arrival"`
}

//go:embed demo.json
var demo []byte

// task is the scenario in the terms of the library, in the one north of the hold.
type task struct {
	rules     hold.Rules
	entries   entry.Rules
	legTime   hold.LegBand // of the altitude
	pattern   hold.Pattern
	air       wind.Air
	altitude  abeam.Feet
	wind      wind.Wind
	north     abeam.North
	variation abeam.Variation
	arriving  abeam.Knots // indicated
	holding   abeam.Knots // indicated
	heading   abeam.Bearing
	overFix   time.Time
	efc       time.Time  // zero: none was given
	clearance *Clearance // nil: given in figures
}

func (s *Scenario) task() (task, error) {
	if err := s.complete(); err != nil {
		return task{}, err
	}
	t := task{
		altitude: abeam.Feet(*s.Air.Altitude), north: s.Hold.North, variation: s.Fix.Variation,
		arriving: abeam.Knots(s.Aircraft.Arriving), holding: abeam.Knots(s.Aircraft.Holding),
		heading: abeam.Bearing(*s.Arrival.Heading),
	}
	for _, step := range []func(*task) error{s.setRules, s.setTimes, s.setPattern, s.setAir} {
		if err := step(&t); err != nil {
			return task{}, err
		}
	}
	return t, nil
}

// complete reports a field that must be there and is not.
func (s *Scenario) complete() error {
	must := map[string]*float64{
		"air.altitude_ft": s.Air.Altitude, "air.wind.from_deg": s.Air.Wind.From, "air.wind.kt": s.Air.Wind.Speed,
		"arrival.heading_deg": s.Arrival.Heading,
	}
	if s.Clearance == "" {
		must["hold.inbound_deg"] = s.Hold.Inbound
	}
	for _, name := range slices.Sorted(maps.Keys(must)) {
		if must[name] == nil {
			return field(name, "missing", "given")
		}
	}
	if s.Hold.North != abeam.True && s.Hold.North != abeam.Magnetic {
		return field("hold.north", s.Hold.North, "true or magnetic")
	}
	if !(s.Hold.Leg >= 0 && s.Hold.Leg <= hold.MaxLeg.Seconds()) {
		return field("hold.leg_s", s.Hold.Leg, "from 0 to 3600")
	}
	return nil
}

func (s *Scenario) setRules(t *task) error {
	switch s.Rules {
	case "FAA":
		t.rules, t.entries = hold.FAA(), entry.FAA()
		if s.Aircraft.FlightDirector {
			t.rules.Turns = hold.FAAFlightDirectorTurn()
		}
	case "ICAO":
		t.rules, t.entries = hold.ICAO(), entry.ICAO()
	default:
		return field("rules", s.Rules, "FAA or ICAO")
	}
	var err error
	t.legTime, err = t.rules.LegTime(t.altitude)
	return err
}

func (s *Scenario) setTimes(t *task) (err error) {
	if t.overFix, err = clockTime("over_fix", s.Arrival.OverFix); err != nil || s.Arrival.EFC == "" {
		return err
	}
	if t.efc, err = clockTime("expect_further_clearance", s.Arrival.EFC); err == nil && t.efc.Before(t.overFix) {
		t.efc = t.efc.Add(24 * time.Hour) // after midnight
	}
	return err
}

func (s *Scenario) setPattern(t *task) (err error) {
	fix := hold.Fix{Ident: s.Fix.Ident, Position: s2.LatLngFromDegrees(s.Fix.Latitude, s.Fix.Longitude)}
	if t.north == abeam.Magnetic {
		fix.Variation = s.Fix.Variation
	}
	if s.Clearance != "" {
		return s.cleared(t, fix)
	}
	leg, err := s.leg(t)
	if err != nil {
		return err
	}
	t.pattern, err = hold.NewPattern(fix, abeam.Bearing(*s.Hold.Inbound), s.Hold.Turns, leg)
	return err
}

// leg is the leg in figures.
func (s *Scenario) leg(t *task) (hold.Leg, error) {
	miles := abeam.NM(s.Hold.Miles)
	switch {
	case miles != 0 && s.Hold.Leg != 0:
		return hold.Leg{}, field("hold.leg_nm", miles, "left out where leg_s is given")
	case miles != 0 && s.Fix.DME == nil:
		return hold.LengthOutbound(miles), nil
	case miles != 0:
		station := s.station()
		station.Course = hold.Away
		if s.Fix.ToStation {
			station.Course = hold.Toward
		}
		limit, err := station.Limit(miles)
		return hold.DMELimit(station, limit), err
	case s.Hold.Leg != 0:
		return t.rules.TimedLeg(time.Duration(s.Hold.Leg * float64(time.Second))), nil
	}
	return t.rules.TimedLeg(t.legTime.Time), nil
}

// station is the DME of the fix, its course not yet said; the zero Station is none.
func (s *Scenario) station() hold.Station {
	if s.Fix.DME == nil {
		return hold.Station{}
	}
	return hold.Station{Fix: abeam.NM(*s.Fix.DME), Elevation: abeam.Feet(s.Fix.Elevation)}
}

func (s *Scenario) setAir(t *task) (err error) {
	if t.air, err = wind.StandardAir(t.altitude, wind.Deviation(s.Air.Deviation)); err != nil {
		return err
	}
	w, err := wind.New(abeam.Bearing(*s.Air.Wind.From), abeam.Knots(*s.Air.Wind.Speed))
	if err != nil {
		return err
	}
	t.wind, err = wind.Reported{Wind: w, North: s.Air.Wind.North}.In(t.north, t.variation)
	return err
}

const clockLayout = "15:04"

func clockTime(name, text string) (time.Time, error) {
	at, err := time.Parse(clockLayout, text)
	if err != nil {
		return time.Time{}, field(name, text, "a time such as 17:42")
	}
	return at, nil
}

func field(name string, value any, limit string) error {
	return &abeam.FieldError{Op: "brief", Field: name, Value: value, Limit: limit, Err: abeam.ErrInvalid}
}
