package tolerance

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"github.com/holdingfix/abeam"
)

// An error of the reader itself comes out as it is, wherever it strikes: in the header, in a
// line, while a line too long is passed over, in the middle of a GPX file.
func TestErrorsOfTheReaderComeOut(t *testing.T) {
	broken := errors.New("broken")
	then := func(text string) io.Reader { return io.MultiReader(strings.NewReader(text), iotest.ErrReader(broken)) }
	const head = "time_s,lat,lon\n1,50,8\n"
	for name, text := range map[string]string{
		"in the header": "time_s,lat", "in a line": head + "2,50", "in a line too long": head + strings.Repeat("9", 3*MaxLine), "between lines": head,
	} {
		if log, err := ReadCSV(then(text), nil); !errors.Is(err, broken) || log.Samples != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	for name, text := range map[string]string{
		"before the root": "<?xml version=\"1.0\"?>\n", "in a point": gpxHead + `<trkseg><trkpt lat="50" lon="8"><time>2026`,
		"after a point": gpxHead + `<trkseg><trkpt lat="50" lon="8"><time>2026-07-03T17:42:05Z</time></trkpt>`,
	} {
		if log, err := ReadGPX(then(text), nil); !errors.Is(err, broken) || log.Samples != nil {
			t.Errorf("GPX, %s: %v", name, err)
		}
	}
}

// A line of just the most bytes is read, with its end; one byte more is not, nor is a last line
// without an end that is too long. What comes after is read all the same.
func TestLongestLine(t *testing.T) {
	const head, tail = "time_s,lat,lon,note\n", "3,50.001,8,\n"
	line := func(bytes int) string { return "1,50,8," + strings.Repeat("x", bytes-len("1,50,8,")-1) + "\n" }
	for extra, used := range map[int]int{-1: 2, 0: 2, 1: 1} {
		log := readText(t, head+line(MaxLine+extra)+tail)
		if len(log.Samples) != used || log.Unused != 2-used || log.Samples[used-1].Line != 3 {
			t.Errorf("%d bytes: %d samples, %d unused, %v", MaxLine+extra, len(log.Samples), log.Unused, log.Findings)
		}
	}
	log := readText(t, head+tail+strings.TrimSuffix(line(3*MaxLine), "\n"))
	if f := found(log, BadLine); len(log.Samples) != 1 || log.Unused != 1 || f.Line != 3 {
		t.Errorf("%v", log.Findings)
	}
}

// A header cell that is not read says why, at its place.
func TestHeaderFaults(t *testing.T) {
	for _, tc := range []struct {
		header, says string
		column       int
	}{
		{"time_s,lat,lon,altitude_kt", "the unit is not one of altitude", 16},
		{"time_s,lat,lon,altitude", "the header gives no unit", 16},
		{"time_s,lat,lon,weather_ft", "no quantity of this name", 16},
		{"time_s,lat,lon,heading_deg", "does not say whether true or magnetic", 16},
		{"time_s,lat,lon,alt_ft,Altitude (m)", "the column alt_ft already gives the altitude", 23},
		{"time_s,lat,lon,utc_ft", "no quantity of this name", 16},
	} {
		log := readText(t, tc.header+"\n"+"1,50,8,"+strings.Repeat(",", strings.Count(tc.header, ",")-3)+"\n")
		if f := found(log, UnreadColumn); !strings.Contains(f.Text, tc.says) || f.Line != 1 || f.Column != tc.column || len(log.Findings) != 1 {
			t.Errorf("%s: %v", tc.header, log.Findings)
		}
	}
	if _, err := ReadCSV(strings.NewReader("time_s,lat,lon,track\n1,50,8,90\n"), Mapping{"track": {Quantity: Track, Unit: "deg", North: 9}}); !errors.Is(err, abeam.ErrInvalid) {
		t.Error(err)
	}
	// The unit behind the name counts.
	if log := readText(t, "time_min,lat,lon\n1,50,8\n"); log.Samples[0].Time != time.Minute {
		t.Error(log.Samples)
	}
}

// Values at the ends of what can be are read, those beyond are not, in the unit of the column.
func TestValuesAtTheEnds(t *testing.T) {
	for _, tc := range []struct {
		column string
		q      Quantity
		least  string
		most   string
		beyond []string
	}{
		{"altitude_ft", Altitude, "-2000", "65617", []string{"-2000.01", "65617.01"}},
		{"ias_kt", IAS, "0", "800", []string{"-0.01", "800.01"}},
		{"gs_kt", Groundspeed, "0", "1200", []string{"-0.01", "1200.01"}},
		{"heading_true_deg", Heading, "0", "360", []string{"-0.01", "360.01"}},
		{"track_true_deg", Track, "0", "360", []string{"-0.01", "360.01"}},
		{"cdi_fullscale", CDI, "-10", "10", []string{"-10.01", "10.01"}},
	} {
		for _, cell := range append([]string{tc.least, tc.most}, tc.beyond...) {
			log := readText(t, "time_s,lat,lon,"+tc.column+"\n1,50,8,"+cell+"\n")
			good := cell == tc.least || cell == tc.most
			if log.Samples[0].Has.Has(tc.q) != good || (len(log.Findings) == 0) != good {
				t.Errorf("%s of %s: %+v, %v", tc.column, cell, log.Samples[0], log.Findings)
			}
		}
	}
	for line, good := range map[string]bool{
		"0,90,180": true, "4e9,-90,-180": true, "-0.1,0,0": false, "4.0000001e9,0,0": false, "0,90.1,0": false, "0,-90.1,0": false, "0,0,180.1": false, "0,0,-180.1": false,
	} {
		if log, err := ReadCSV(strings.NewReader("time_s,lat,lon\n"+line+"\n"), nil); (err == nil) != good || good && len(log.Findings) != 0 {
			t.Errorf("%s: %v, %v", line, log.Findings, err)
		}
	}
}

// The tracks of a GPX file may carry headings by a mapping, attributes of other names are passed
// over, and a point within a point is none.
func TestGPXBesideTheStandard(t *testing.T) {
	text := gpxHead + `<trkseg><trkpt lat="50" lon="8" odd="7"><time>2026-07-03T17:42:05Z</time>
<extensions><heading>75</heading></extensions></trkpt></trkseg></trk></gpx>`
	log, err := ReadGPX(strings.NewReader(text), Mapping{"heading": {Quantity: Heading, Unit: "deg", North: abeam.Magnetic}})
	if err != nil || log.HeadingNorth != abeam.Magnetic || log.Samples[0].Heading != 75 || !log.Samples[0].Has.Has(Heading) || log.Samples[0].Lat != 50 {
		t.Errorf("%+v, %v", log, err)
	}
	// 64 elements deep is read, 65 is not.
	for depth, good := range map[int]bool{61: true, 62: false} { // below gpx, trk and trkpt
		text := gpxHead + `<trkpt lat="50" lon="8"><time>2026-07-03T17:42:05Z</time>` + strings.Repeat("<a>", depth) + strings.Repeat("</a>", depth) + "</trkpt></trk></gpx>"
		_, err := ReadGPX(strings.NewReader(text), nil)
		var e *abeam.FieldError
		if (err == nil) != good || err != nil && (!errors.As(err, &e) || e.Limit != "nested at most 64 deep") {
			t.Errorf("%d deep: %v", depth+3, err)
		}
	}
}

// Names of unread extensions are found once each.
func TestUnreadExtensionsAreFoundOnce(t *testing.T) {
	var b strings.Builder
	b.WriteString(gpxHead + "<trkseg>")
	for i := range 3 {
		b.WriteString(`<trkpt lat="50" lon="8"><time>2026-07-03T17:42:0` + string(rune('5'+i)) + `Z</time><extensions><a>1</a><b>2</b><c> </c></extensions></trkpt>`)
	}
	b.WriteString("</trkseg></trk></gpx>")
	log, err := ReadGPX(strings.NewReader(b.String()), nil)
	if err != nil || len(log.Samples) != 3 || len(log.Findings) != 2 {
		t.Errorf("%v, %v", log.Findings, err)
	}
}

// A log is written only with the north of its headings, and an error of the writer comes out.
func TestWriteErrors(t *testing.T) {
	log := Log{Samples: []Sample{{Heading: 90, Has: Quantities(Time | Latitude | Longitude | Heading)}, {Time: time.Second, Has: Quantities(Time | Latitude | Longitude | Heading)}}}
	var e *abeam.FieldError
	if err := log.WriteCSV(io.Discard); !errors.As(err, &e) || e.Field != "heading north" || e.Op != "tolerance.Log.WriteCSV" {
		t.Error(err)
	}
	log.HeadingNorth = abeam.Magnetic
	for room := range 3 { // the header and two samples, one after the other
		if err := log.WriteCSV(&narrow{room}); !errors.Is(err, io.ErrShortWrite) {
			t.Errorf("after %d lines: %v", room, err)
		}
	}
	log.TrackNorth = abeam.Magnetic
	log.Samples[0].Has |= Quantities(Track)
	var file bytes.Buffer
	if err := log.WriteCSV(&file); err != nil || !strings.HasPrefix(file.String(), "time_s,lat_deg,lon_deg,heading_magnetic_deg,track_magnetic_deg\n") {
		t.Errorf("%s, %v", file.String(), err)
	}
}

// narrow takes so many writes.
type narrow struct{ room int }

func (n *narrow) Write(p []byte) (int, error) {
	if n.room--; n.room < 0 {
		return 0, io.ErrShortWrite
	}
	return len(p), nil
}
