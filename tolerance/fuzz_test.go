package tolerance

import (
	"bytes"
	"math"
	"testing"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// sound checks what every reader promises, and runs what comes after it.
func sound(t *testing.T, log Log) {
	if len(log.Samples) == 0 {
		t.Fatal("neither an error nor a sample")
	}
	if err := log.validate("fuzz"); err != nil {
		t.Fatal(err)
	}
	for _, f := range log.Findings {
		if f.Kind == 0 || f.Text == "" || f.Line < 0 || f.Column < 0 {
			t.Fatalf("%+v", f)
		}
	}
	p, err := hold.NewPattern(hold.Fix{Position: s2.LatLngFromDegrees(50, 8)}, 75, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		t.Fatal(err)
	}
	if in, err := Infer(log); err == nil {
		p = in.Pattern
	}
	d, err := NewDebrief(log, Clearance{Pattern: p, Altitude: 3000, IAS: 100, Guidance: GPSTerminal()}, EUInstrument())
	if err != nil {
		return
	}
	for _, r := range d.Judgement.Items {
		if s := r.Share(); !(s >= 0 && s <= 1) || math.IsNaN(r.Lowest+r.Highest) || math.IsInf(r.Lowest+r.Highest, 0) || r.Inside < 0 {
			t.Fatalf("%+v", r)
		}
	}
	for _, l := range d.Flown.Laps {
		for _, s := range l.Legs {
			if s.Length() < 0 {
				t.Fatalf("%+v", l)
			}
		}
		if math.IsNaN(float64(l.OutboundCourse + l.InboundCourse + abeam.Bearing(l.Widest+l.Astray+l.Longest))) {
			t.Fatalf("%+v", l)
		}
	}
}

func FuzzReadCSV(f *testing.F) {
	for _, seed := range []string{
		"", "time_s,lat,lon\n1,50,8\n2,50.001,8\n", "t_s;lat;lon;alt_ft;gs_kt;track_deg\n0;50;8;3000;100;90\n1;50;8;3000 m;100kt;90\n",
		"time_utc,lat,lon,ias_kt,heading_magnetic_deg,cdi_pct\n2026-07-03T17:42:05Z,50,8,100,75,5\n2026-07-03T17:42:04Z,50,8,100,75,5\n",
		"\ufeff\"time_s\",lat,lon\n\"1\",50,8\n1,50,8\n0,50,179\n# x\n\n3,50", "time_ms\tlat_rad\tlon_rad\n1\t1\t1\n1e300\tNaN\t-1\n",
		"time_s,lat,lon\n\x00,\xff,8\n", "time_s,lat,lon\n100,1,1\n101,1,1\n5,1,1\n6,1,1\n7,1,1\n8,1,1\n9,1,1\n10,1,1\n11,1,1\n12,1,1\n13,1,1\n",
	} {
		f.Add([]byte(seed))
	}
	plan := testPlan(f, hold.Right, wind.Wind{})
	plan.Step, plan.Laps = 10*time.Second, plan.Laps[2:]
	var file bytes.Buffer
	log := logOf(f, plan)
	if err := log.WriteCSV(&file); err != nil {
		f.Fatal(err)
	}
	f.Add(file.Bytes())
	f.Fuzz(func(t *testing.T, text []byte) {
		log, err := ReadCSV(bytes.NewReader(text), Mapping{"x": {Quantity: Altitude, Unit: "m"}})
		if err != nil {
			return
		}
		sound(t, log)
		// What is read can be written, and read again without a finding about its lines.
		var again bytes.Buffer
		if err := log.WriteCSV(&again); err != nil {
			t.Fatal(err)
		}
		second, err := ReadCSV(&again, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, finding := range second.Findings {
			switch finding.Kind {
			case Jump, Gap, WrongUnit, Duplicate:
			default:
				t.Fatalf("%v in what was written", finding)
			}
		}
	})
}

func FuzzReadGPX(f *testing.F) {
	for _, seed := range []string{
		"", gpxHead, gpxHead + `<trkseg><trkpt lat="50" lon="8"><ele>1</ele><time>2026-07-03T17:42:05Z</time></trkpt></trkseg></trk></gpx>`,
		gpxHead + `<trkseg><trkpt lat="50" lon="8"><time>2026-07-03T17:42:05Z</time><extensions><speed>5</speed></extensions></trkpt><trkpt lat="50" lon="8"><time>2026-07-03T17:42:06Z</time></trkpt>`,
		"<gpx>", "<?xml version='1.0'?><!DOCTYPE x [<!ENTITY a 'b'>]><gpx xmlns='http://www.topografix.com/GPX/1/1'>&a;</gpx>",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		log, err := ReadGPX(bytes.NewReader(text), Mapping{"speed": {Quantity: Groundspeed, Unit: "mps"}})
		if err == nil {
			sound(t, log)
		}
	})
}
