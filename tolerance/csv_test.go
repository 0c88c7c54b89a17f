package tolerance

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

func readText(t *testing.T, text string) Log {
	t.Helper()
	log, err := ReadCSV(strings.NewReader(text), nil)
	if err != nil {
		t.Fatal(err)
	}
	return log
}

// found is the first finding of a kind.
func found(l Log, k Kind) Finding {
	for _, f := range l.Findings {
		if f.Kind == k {
			return f
		}
	}
	return Finding{}
}

// What is written is read back.
func TestCSVRoundTrip(t *testing.T) {
	plan := testPlan(t, hold.Left, wind.Wind{From: 200, Speed: 15})
	plan.Noise = Noise{Altitude: 20, IAS: 2, Heading: 1, Groundspeed: 1, Track: 1}
	want := logOf(t, plan)
	want.Samples[7].Has &^= Quantities(Altitude)
	var file bytes.Buffer
	if err := want.WriteCSV(&file); err != nil {
		t.Fatal(err)
	}
	got, err := ReadCSV(&file, nil)
	if err != nil || len(got.Findings) != 0 || len(got.Samples) != len(want.Samples) || got.HeadingNorth != abeam.Magnetic || got.TrackNorth != abeam.True {
		t.Fatalf("%d samples, %v, %v", len(got.Samples), got.Findings, err)
	}
	for i, g := range got.Samples {
		w := want.Samples[i]
		if i != 7 && g.Has != w.Has || i == 7 && g.Has.Has(Altitude) || g.Time != w.Time || int(g.Line) != i+2 ||
			math.Abs(g.Lat-w.Lat) > 5.1e-8 || math.Abs(g.Lon-w.Lon) > 5.1e-8 || i != 7 && abs(g.Altitude-w.Altitude) > 0.0051 ||
			abs(g.IAS-w.IAS) > 0.0051 || g.Heading.Sub(w.Heading).Abs() > 0.0051 || abs(g.Groundspeed-w.Groundspeed) > 0.0051 || g.Track.Sub(w.Track).Abs() > 0.0051 {
			t.Fatalf("sample %d: %+v, written %+v", i, g, w)
		}
	}
}

// Headers in many hands, with their units.
func TestHeaders(t *testing.T) {
	for _, c := range []struct {
		header, cells string
		want          Sample
	}{
		{"t_s,lat,lon,alt_ft,gs_kt,track_true_deg", "1,50,8,3000,100,90", Sample{Altitude: 3000, Groundspeed: 100, Track: 90}},
		{"Time (ms),Latitude,Longitude,Altitude [m],IAS (km/h)", "1000,50,8,304.8,185.2", Sample{Altitude: 1000, IAS: 100}},
		{"elapsed_min;LAT;LNG;heading magnetic °;Ground Speed m/s", "0.016666666666666666;50;8;360;51.444444444444444", Sample{Heading: 0, Groundspeed: 100}},
		{"time_s\tlat_rad\tlon_rad\talt_fl", "1\t0.8726646259971648\t0.13962634015954636\t95", Sample{Altitude: 9500}},
		{"\ufefftime,lat,lon,cdi %", "2026-07-03T17:42:05Z,50,8,-50", Sample{CDI: -0.5}},
		{"time_s,lat,lon,\"airspeed, mph\"", "1,50,8,\"115.0779448\"", Sample{IAS: 100}},
		{"time_s,lat,lon,cdi_full_scale", "1,50,8,0.25", Sample{CDI: 0.25}},
	} {
		got := readText(t, c.header+"\n"+c.cells+"\n").Samples[0]
		for name, pair := range map[string][2]float64{
			"latitude": {got.Lat, 50}, "longitude": {got.Lon, 8}, "altitude": {float64(got.Altitude), float64(c.want.Altitude)},
			"airspeed": {float64(got.IAS), float64(c.want.IAS)}, "heading": {float64(got.Heading), float64(c.want.Heading)},
			"groundspeed": {float64(got.Groundspeed), float64(c.want.Groundspeed)}, "track": {float64(got.Track), float64(c.want.Track)},
			"deviation": {got.CDI, c.want.CDI},
		} {
			if math.Abs(pair[0]-pair[1]) > 1e-6 {
				t.Errorf("%s: %s %v, want %v", c.header, name, pair[0], pair[1])
			}
		}
	}
}

// A column that is not read is found with its place, and a mapping makes it one that is.
func TestMapping(t *testing.T) {
	const text = "t_s,lat,lon,alt,speed,heading_deg,note\n1,50,8,900,50,10,x\n"
	log := readText(t, text)
	var places []int
	for _, f := range log.Findings {
		if f.Kind != UnreadColumn || f.Line != 1 {
			t.Errorf("%v", f)
		}
		places = append(places, f.Column)
	}
	if fmt.Sprint(places) != "[13 17 23 35]" || log.Samples[0].Has.Has(Altitude) {
		t.Errorf("%v", log.Findings)
	}
	log, err := ReadCSV(strings.NewReader(text), Mapping{
		"alt": {Quantity: Altitude, Unit: "m"}, "speed": {Quantity: Groundspeed, Unit: "mps"}, "heading_deg": {Quantity: Heading, Unit: "deg", North: abeam.Magnetic},
	})
	if s := log.Samples[0]; err != nil || math.Abs(float64(s.Altitude)-900/0.3048) > 1e-9 || math.Abs(float64(s.Groundspeed)-97.19222) > 1e-4 || s.Heading != 10 || log.HeadingNorth != abeam.Magnetic {
		t.Errorf("%+v, %v", s, err)
	}
	for _, bad := range []Column{{}, {Quantity: Altitude, Unit: "kt"}, {Quantity: Track, Unit: "deg"}, {Quantity: 1 << 14, Unit: "ft"}} {
		if _, err := ReadCSV(strings.NewReader(text), Mapping{"alt": bad}); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("%+v: %v", bad, err)
		}
	}
}

// Bad files are errors that name a place.
func TestCSVErrors(t *testing.T) {
	for name, c := range map[string]struct{ text, place string }{
		"empty":         {"", "line 1, column 1"},
		"blank":         {"\n\n  \n# nothing\n", "line 1, column 1"},
		"binary":        {"time,\x00\x01\x02", "line 1, column 6"},
		"not UTF-8":     {"time_s,lat,lon,\xff\xfe\n", "line 1, column 1"},
		"wrong header":  {"\na,b,c\n1,2,3\n", "line 2, column 1"},
		"no longitude":  {"time_s,lat\n1,2\n", "line 1, column 1"},
		"header alone":  {"time_s,lat,lon\n", "line 2, column 1"},
		"nothing good":  {"time_s,lat,lon\nx,y,z\n", "line 2, column 1"},
		"broken quotes": {"time_s,lat,\"lon\n", "line 1, column 1"},
		"longest line":  {strings.Repeat("x", 3*MaxLine), "line 1, column 1"},
		"off the globe": {"time_s,lat,lon\n1,91,0\n2,0,181\n", "line 2, column 3"},
	} {
		log, err := ReadCSV(strings.NewReader(c.text), nil)
		var field *abeam.FieldError
		if !errors.As(err, &field) || !errors.Is(err, abeam.ErrInvalid) || !strings.HasPrefix(field.Field, c.place) || log.Samples != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	broken := errors.New("broken")
	for _, head := range []string{"", "time_s,lat,lon\n1,2,3\n"} {
		if _, err := ReadCSV(io.MultiReader(strings.NewReader(head), iotest.ErrReader(broken)), nil); !errors.Is(err, broken) {
			t.Errorf("after %q: %v", head, err)
		}
	}
}

// A log beyond the bound is refused at the line that passes it.
func TestTooManySamples(t *testing.T) {
	text := "time_s,lat,lon\n1,50,8\n2,50,8\n3,50,8\n"
	if log, err := readCSV(strings.NewReader(text), nil, 3); err != nil || len(log.Samples) != 3 {
		t.Error(err)
	}
	var field *abeam.FieldError
	if _, err := readCSV(strings.NewReader(text), nil, 2); !errors.As(err, &field) || field.Field != "line 4, column 1" {
		t.Error(err)
	}
	point := `<trkpt lat="50" lon="8"><time>2026-07-03T17:42:0%dZ</time></trkpt>` + "\n"
	gpx := gpxHead + "<trkseg>\n" + fmt.Sprintf(point, 1) + fmt.Sprintf(point, 2)
	if log, err := readGPX(strings.NewReader(gpx), nil, 2); err != nil || len(log.Samples) != 2 {
		t.Error(err)
	}
	if _, err := readGPX(strings.NewReader(gpx), nil, 1); !errors.As(err, &field) || !strings.HasPrefix(field.Field, "line 7, column ") {
		t.Error(err)
	}
}

// What is wrong with a line is found with line and column, and the rest is read.
func TestCSVFindings(t *testing.T) {
	const head = "time_s,lat,lon,altitude_ft,ias_kt\n1,50,8,3000,100\n"
	for name, c := range map[string]struct {
		lines  string
		want   Finding
		unused int
		text   string
	}{
		"not a number":  {"2,50,8,abc,100\n", Finding{Kind: BadValue, Line: 3, Column: 8}, 0, "not a number"},
		"out of range":  {"2,50,8,99999,100\n", Finding{Kind: BadValue, Line: 3, Column: 8}, 0, "outside -2000 to 65617"},
		"NaN":           {"2,50,8,NaN,100\n", Finding{Kind: BadValue, Line: 3, Column: 8}, 0, "outside"},
		"infinite":      {"2,50,8,3000,1e999\n", Finding{Kind: BadValue, Line: 3, Column: 13}, 0, "not a number"},
		"another unit":  {"2,50,8,914.4 m,100\n", Finding{Kind: MixedUnit, Line: 3, Column: 8}, 0, "converted"},
		"too few":       {"2,50,8\n", Finding{Kind: BadLine, Line: 3, Column: 7}, 1, "3 fields, not the 5"},
		"too many":      {"2,50,8,1,2,3\n", Finding{Kind: BadLine, Line: 3, Column: 13}, 1, "6 fields"},
		"cut off":       {"2,50,8,30", Finding{Kind: Truncated, Line: 3, Column: 10}, 1, "4 fields"},
		"no position":   {"2,,8,3000,100\n", Finding{Kind: BadLine, Line: 3}, 1, "no position"},
		"bad latitude":  {"2,950,8,3000,100\n", Finding{Kind: BadValue, Line: 3, Column: 3}, 1, "latitude"},
		"binary":        {"\x00\x01,\x02,\x03,\x04,\x05\n", Finding{Kind: BadValue, Line: 3, Column: 1}, 1, "time"},
		"long line":     {"2,50,8,3000," + strings.Repeat("9", 3*MaxLine) + "\n", Finding{Kind: BadLine, Line: 3}, 1, "longer than"},
		"broken quotes": {"2,50,8,\"3000,100\n", Finding{Kind: BadLine, Line: 3, Column: 17}, 1, "fields"},
	} {
		log := readText(t, head+c.lines)
		got := found(log, c.want.Kind)
		if got.Line != c.want.Line || got.Column != c.want.Column || !strings.Contains(got.Text, c.text) || log.Unused != c.unused {
			t.Errorf("%s: %v, unused %d", name, log.Findings, log.Unused)
		}
		if used := 2 - c.unused; len(log.Samples) != used {
			t.Errorf("%s: %d samples", name, len(log.Samples))
		}
	}
	// "914.4 m" is 3000 ft, "3,000" is two fields, "100kt" says what the header says.
	log := readText(t, head+"2,50,8,914.4 m,100kt\n")
	if s := log.Samples[1]; math.Abs(float64(s.Altitude)-3000) > 1e-9 || s.IAS != 100 || len(log.Findings) != 1 {
		t.Errorf("%+v, %v", s, log.Findings)
	}
}

// A flood of faults is counted, not listed.
func TestFindingsAreBounded(t *testing.T) {
	text := "time_s,lat,lon,altitude_ft\n1,50,8,1\n" + strings.Repeat("2,50,8,x\n", 5000)
	log := readText(t, text)
	bad, more := 0, 0
	for _, f := range log.Findings {
		if f.Kind == BadValue {
			bad++
			more += f.More
		}
	}
	if bad != listed || bad+more != 5000 {
		t.Errorf("%d listed and %d more", bad, more)
	}
}

// Clocks: duplicates, stragglers, steps, gaps, and seconds since 1970.
func TestClocks(t *testing.T) {
	line := func(s float64, minute int) string {
		return fmt.Sprintf("%.1f,%.6f,8\n", s, 50+float64(minute)*0.0005)
	}
	build := func(times ...float64) Log {
		text := "time_s,lat,lon\n"
		for i, s := range times {
			text += line(s, i)
		}
		return readText(t, text)
	}
	times := func(l Log) (out []float64) {
		for _, s := range l.Samples {
			out = append(out, s.Time.Seconds())
		}
		return out
	}
	for name, c := range map[string]struct {
		in, want []float64
		kind     Kind
		line     int
		unused   int
	}{
		"duplicate":     {[]float64{1, 2, 2, 3}, []float64{1, 2, 3}, Duplicate, 4, 1},
		"straggler":     {[]float64{1, 2, 3, 2.5, 4}, []float64{1, 2, 3, 4}, OutOfOrder, 5, 1},
		"set back":      {[]float64{100, 101, 102, 40, 41, 42, 43, 44, 45, 46, 47, 48}, []float64{100, 101, 102, 103, 104, 105, 106, 107, 108, 109, 110, 111}, ClockStep, 5, 0},
		"gap":           {[]float64{1, 2, 3, 4, 33, 34}, []float64{1, 2, 3, 4, 33, 34}, Gap, 6, 0},
		"since 1970":    {[]float64{1.78e9, 1.78e9 + 1}, []float64{0, 1}, 0, 0, 0},
		"twice set":     {[]float64{50, 51, 10, 11, 12, 13, 14, 15, 16, 17, 18, 2, 3, 4, 5, 6, 7, 8, 9, 10}, []float64{50, 51, 52, 53, 54, 55, 56, 57, 58, 59, 60, 61, 62, 63, 64, 65, 66, 67, 68, 69}, ClockStep, 4, 0},
		"late straggle": {[]float64{1, 2, 3, 1.5}, []float64{1, 2, 3}, OutOfOrder, 5, 1},
	} {
		got := build(c.in...)
		f := found(got, c.kind)
		if fmt.Sprint(times(got)) != fmt.Sprint(c.want) || c.kind != 0 && f.Line != c.line || got.Unused != c.unused {
			t.Errorf("%s: %v, %v, unused %d", name, times(got), got.Findings, got.Unused)
		}
	}
	if got := build(1.78e9, 1.78e9+1); !got.Start.Equal(time.Unix(1780000000, 0)) {
		t.Errorf("start %v", got.Start)
	}
	utc := readText(t, "time_utc,lat,lon\n2026-07-03T17:42:05.5Z,50,8\n2026-07-03T19:42:07.5+02:00,50,8\n")
	if utc.Start.Format(time.RFC3339) != "2026-07-03T17:42:05Z" || utc.Samples[1].Time != 2*time.Second {
		t.Errorf("%v %v", utc.Start, utc.Samples)
	}
	// The start is that of the first sample that counts, whatever stands before it.
	utc = readText(t, "time_utc,lat,lon\n2027-07-03T17:42:05Z,,\n2026-07-03T17:42:05Z,50,8\n2026-07-03T17:42:06Z,50,8\n")
	if utc.Start.Format(time.RFC3339) != "2026-07-03T17:42:05Z" || utc.Samples[0].Time != 0 || utc.Samples[1].Time != time.Second {
		t.Errorf("%v %v", utc.Start, utc.Samples)
	}
	if log := readText(t, "time_utc,lat,lon\n2026-07-03T17:42:05Z,50,8\n17:42,50,8\n0001-01-01T00:00:00Z,50,8\n"); len(log.Samples) != 1 || log.Unused != 2 {
		t.Errorf("%+v", log)
	}
}

// Positions: a spike is left out, a shift is reported and kept.
func TestJumps(t *testing.T) {
	log := readText(t, "time_s,lat,lon\n1,50,8\n2,50.0005,8\n3,50.5,8\n4,50.0015,8\n5,50.002,8\n")
	if f := found(log, Jump); f.Line != 4 || len(log.Samples) != 4 || log.Unused != 1 || !strings.Contains(f.Text, "30.00 NM") {
		t.Errorf("%v", log.Findings)
	}
	log = readText(t, "time_s,lat,lon\n1,50,179.9999\n2,50,-179.9999\n3,50.5,8\n4,50.5005,8\n")
	if f := found(log, Jump); f.Line != 4 || len(log.Samples) != 4 || log.Unused != 0 {
		t.Errorf("%v", log.Findings)
	}
}

// Units and norths that contradict the positions are found.
func TestWrongUnits(t *testing.T) {
	plan := testPlan(t, hold.Right, wind.Wind{From: 200, Speed: 15})
	for name, c := range map[string]struct {
		change func(s *Sample)
		says   string
	}{
		"right":    {func(*Sample) {}, ""},
		"m/s":      {func(s *Sample) { s.Groundspeed *= 1852.0 / 3600 }, "m/s read as knots"},
		"km/h":     {func(s *Sample) { s.Groundspeed *= 1.852 }, "km/h read as knots"},
		"half":     {func(s *Sample) { s.Groundspeed /= 1.4 }, "a unit of one of them is wrong"},
		"magnetic": {func(s *Sample) { s.Track = s.Track.Add(-14) }, "the track lies -14 degrees"},
	} {
		log := logOf(t, plan)
		for i := range log.Samples {
			c.change(&log.Samples[i])
		}
		var file bytes.Buffer
		if err := log.WriteCSV(&file); err != nil {
			t.Fatal(err)
		}
		got, err := ReadCSV(&file, nil)
		if err != nil {
			t.Fatal(err)
		}
		f := found(got, WrongUnit)
		if (c.says == "") != (f.Kind == 0) || !strings.Contains(f.Text, c.says) {
			t.Errorf("%s: %v", name, got.Findings)
		}
	}
}

// A clock that leaps decades to and fro makes no time that a Duration cannot hold.
func TestClocksThatLeap(t *testing.T) {
	var b strings.Builder
	b.WriteString("time_s,lat,lon\n")
	for range 10 {
		b.WriteString("3999999999,50,8\n")
		for i := range back + 2 {
			fmt.Fprintf(&b, "%d,50,8\n", i)
		}
	}
	log := readText(t, b.String())
	if err := log.validate("test"); err != nil {
		t.Error(err)
	}
	if last := log.Samples[len(log.Samples)-1].Time; last > longest || log.Unused == 0 && len(log.Samples) < 100 {
		t.Errorf("%v, unused %d", last, log.Unused)
	}
}
