// Package holds is the holding patterns that a government has published, frozen for
// verification. NOT FOR NAVIGATION: the snapshots are out of date.
//
// # Published
//
// Half of the holding patterns of the FAA NASR subscription file HPF, effective
// 2025-10-30 (US Government work, public domain); coordinates from its FIX and NAV files
// of 2026-04-16. The direction of holding is where the pattern lies from the fix: the
// octant of the reciprocal of the inbound course. The azimuth is of an RNAV track, a
// radial (RAD), a localizer course (CRS) or an NDB bearing (BRG); of a radial it is the
// radial itself, the reciprocal of the inbound course in six sevenths of the rows and
// the inbound course in the rest, where the pattern lies between the station and the
// fix. North is written both 0 and 360. A leg without a distance is timed. The speed is
// the one that the airspace was evaluated for, not a charted restriction. The variation
// is the declination of the station to which its radials are slaved.
//
// # Anomalies
//
// The rows of Published whose source data contradict themselves, with the reason.
//
// # Coded
//
// Half of the hold legs of the FAA Coded Instrument Flight Procedures, cycle of
// 2026-05-14 (public domain): HM until terminated, HF one circuit, HA climb to an
// altitude; each with a time or a distance.
//
// The files are as they came, compressed.
package holds

import (
	"bytes"
	"compress/gzip"
	_ "embed"
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
)

//go:embed published_holds.csv.gz
var published []byte

//go:embed coded_holds.csv.gz
var coded []byte

//go:embed published_holds_anomalies.csv.gz
var anomalies []byte

// Number is a field that may be blank.
type Number struct {
	Value float64
	Given bool
}

// Hold is a row of Published.
type Hold struct {
	ID        string
	FixType   string
	Ident     string
	Lat, Lon  Number
	Direction string // N, NE ... or blank
	Azimuth   string // RNAV, RAD, CRS or BRG
	// Degrees of the azimuth; not given where the source has no number.
	Degrees        Number
	Inbound        float64
	Turn           string // R or L
	Miles          Number
	MinAlt, MaxAlt Number
	Speed          Number
	NavType        string
	NavLat, NavLon Number
	Variation      Number // east positive
}

// CodedHold is a row of Coded.
type CodedHold struct {
	ID             string
	LegType        string // HM, HF or HA
	Ident          string
	Lat, Lon       float64
	Inbound        float64
	Turn           string
	Minutes, Miles Number
	Speed          Number
	Variation      float64 // of the airport
}

// Anomaly is a row of Anomalies.
type Anomaly struct {
	ID, Reason string
}

// Published reads the published patterns.
func Published() ([]Hold, error) {
	return read(published, func(r *record) Hold {
		return Hold{
			ID: r.text("id"), FixType: r.text("fix_type"), Ident: r.text("fix_ident"),
			Lat: r.maybe("lat"), Lon: r.maybe("lon"), Direction: r.text("hold_direction"),
			Azimuth: r.text("azimuth_type"), Degrees: r.numeric("azimuth_deg"),
			Inbound: r.number("inbound_course_deg"), Turn: r.text("turn"), Miles: r.maybe("leg_dist_nm"),
			MinAlt: r.maybe("min_alt_ft"), MaxAlt: r.maybe("max_alt_ft"), Speed: r.maybe("max_speed_kt"),
			NavType: r.text("nav_type"), NavLat: r.maybe("nav_lat"), NavLon: r.maybe("nav_lon"),
			Variation: r.maybe("nav_magvar_east_deg"),
		}
	})
}

// Coded reads the coded hold legs.
func Coded() ([]CodedHold, error) {
	return read(coded, func(r *record) CodedHold {
		return CodedHold{
			ID: r.text("id"), LegType: r.text("leg_type"), Ident: r.text("fix_ident"), Lat: r.number("lat"), Lon: r.number("lon"),
			Inbound: r.number("inbound_course_deg"), Turn: r.text("turn"), Minutes: r.maybe("leg_time_min"), Miles: r.maybe("leg_dist_nm"),
			Speed: r.maybe("max_speed_kt"), Variation: r.number("airport_magvar_east_deg"),
		}
	})
}

// Anomalies reads the list of the published rows that contradict themselves.
func Anomalies() ([]Anomaly, error) {
	return read(anomalies, func(r *record) Anomaly { return Anomaly{r.text("id"), r.text("reason")} })
}

func read[T any](compressed []byte, row func(*record) T) ([]T, error) {
	plain, err := gzip.NewReader(bytes.NewReader(compressed))
	if err != nil {
		return nil, err
	}
	return parse(plain, row)
}

// parse gives every row, or the first error with its line.
func parse[T any](table io.Reader, row func(*record) T) ([]T, error) {
	lines, err := csv.NewReader(table).ReadAll()
	if err != nil {
		return nil, err
	}
	r := record{columns: map[string]int{}}
	for i, name := range lines[0] {
		r.columns[name] = i
	}
	var rows []T
	for i, fields := range lines[1:] {
		r.fields = fields
		rows = append(rows, row(&r))
		if r.err != nil {
			return nil, fmt.Errorf("line %d: %w", i+2, r.err)
		}
	}
	return rows, nil
}

// record reads fields by the names of their columns and keeps the first error.
type record struct {
	columns map[string]int
	fields  []string
	err     error
}

func (r *record) text(column string) string {
	i, ok := r.columns[column]
	if !ok {
		r.err = fmt.Errorf("no column %s", column)
		return ""
	}
	return r.fields[i]
}

func (r *record) number(column string) float64 {
	x, err := strconv.ParseFloat(r.text(column), 64)
	if err != nil && r.err == nil {
		r.err = fmt.Errorf("%s: %w", column, err)
	}
	return x
}

// maybe reads a number that may be blank.
func (r *record) maybe(column string) Number {
	if r.text(column) == "" {
		return Number{}
	}
	return Number{r.number(column), true}
}

// numeric reads a field that holds a number in most rows.
func (r *record) numeric(column string) Number {
	x, err := strconv.ParseFloat(r.text(column), 64)
	return Number{x, err == nil}
}
