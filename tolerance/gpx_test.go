package tolerance

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/reference"
)

const gpxHead = `<?xml version="1.0" encoding="UTF-8"?>
<gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1" creator="a person">
<wpt lat="1" lon="2"><time>2026-07-03T17:00:00Z</time></wpt>
<trk><name>hold</name>
`

func TestGPX(t *testing.T) {
	text := gpxHead + `<trkseg>
<trkpt lat="50.000" lon="8.0"><ele>914.4</ele><time>2026-07-03T17:42:05Z</time><hdop>1.2</hdop></trkpt>
<trkpt lat="50.001" lon="8.0"><time>2026-07-03T17:42:07Z</time><extensions><x:log xmlns:x="urn:own"><x:speed>51.4444444</x:speed><x:course>10</x:course><x:odd>1</x:odd></x:log></extensions></trkpt>
</trkseg><trkseg>
<trkpt lat="50.002" lon="8.0"><time>2026-07-03T17:42:09Z</time></trkpt>
</trkseg></trk></gpx>
`
	log, err := ReadGPX(strings.NewReader(text), Mapping{
		"speed": {Quantity: Groundspeed, Unit: "mps"}, "course": {Quantity: Track, Unit: "deg", North: abeam.True},
	})
	if err != nil || len(log.Samples) != 3 || log.Start.Format(time.RFC3339) != "2026-07-03T17:42:05Z" || log.TrackNorth != abeam.True {
		t.Fatalf("%+v, %v", log, err)
	}
	a, b, c := log.Samples[0], log.Samples[1], log.Samples[2]
	if math.Abs(float64(a.Altitude)-3000) > 1e-9 || a.Lat != 50 || a.Lon != 8 || a.Has.Has(Groundspeed) || a.Line != 6 ||
		math.Abs(float64(b.Groundspeed)-100) > 1e-5 || b.Track != 10 || b.Has.Has(Altitude) || c.Time != 4*time.Second {
		t.Errorf("%+v", log.Samples)
	}
	if f := found(log, UnreadColumn); f.Line != 7 || !strings.Contains(f.Text, `"odd"`) || len(log.Findings) != 1 {
		t.Errorf("%v", log.Findings)
	}
}

func TestGPXFindings(t *testing.T) {
	for name, c := range map[string]struct {
		points string
		want   Finding
		text   string
		unused int
	}{
		"no time":       {`<trkpt lat="50" lon="8"/>`, Finding{Kind: BadLine, Line: 7, Column: 26}, "without time", 1},
		"bad latitude":  {`<trkpt lat="x" lon="8"><time>2026-07-03T17:42:07Z</time></trkpt>`, Finding{Kind: BadValue, Line: 7, Column: 24}, "latitude", 1},
		"bad time":      {`<trkpt lat="50" lon="8"><time>noon</time></trkpt>`, Finding{Kind: BadValue, Line: 7, Column: 42}, "noon", 1},
		"bad elevation": {`<trkpt lat="50" lon="8"><ele>1e9</ele><time>2026-07-03T17:42:07Z</time></trkpt>`, Finding{Kind: BadValue, Line: 7, Column: 39}, "altitude", 0},
		"breaks off":    {`<trkpt lat="50" lon="8"><ti`, Finding{Kind: Truncated, Line: 7}, "from here on", 1},
		"no end":        {``, Finding{Kind: Truncated, Line: 7}, "from here on", 0},
		"wrong end":     {`<trkpt lat="50" lon="8"></gpx>`, Finding{Kind: Truncated, Line: 7}, "from here on", 1},
	} {
		text := gpxHead + "<trkseg>\n" + `<trkpt lat="50" lon="8"><time>2026-07-03T17:42:05Z</time></trkpt>` + "\n" + c.points
		if name != "breaks off" && name != "no end" && name != "wrong end" {
			text += "</trkseg></trk></gpx>"
		}
		log, err := ReadGPX(strings.NewReader(text), nil)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		f := found(log, c.want.Kind)
		if f.Line != c.want.Line || c.want.Column != 0 && f.Column != c.want.Column || f.Column == 0 || !strings.Contains(f.Text, c.text) || log.Unused != c.unused {
			t.Errorf("%s: %v, unused %d", name, log.Findings, log.Unused)
		}
	}
}

func TestGPXErrors(t *testing.T) {
	for name, text := range map[string]string{
		"empty":       "",
		"not XML":     "time,lat,lon\n",
		"binary":      "\x00\x01\x02",
		"other XML":   "<kml/>",
		"GPX 1.0":     `<gpx xmlns="http://www.topografix.com/GPX/1/0"></gpx>`,
		"no points":   gpxHead + "</trk></gpx>",
		"no times":    gpxHead + `<trkseg><trkpt lat="1" lon="2"/></trkseg></trk></gpx>`,
		"bottomless":  gpxHead + strings.Repeat("<a>", 100),
		"other coded": `<?xml version="1.0" encoding="latin9"?><gpx/>`,
	} {
		log, err := ReadGPX(strings.NewReader(text), nil)
		if err == nil || log.Samples != nil {
			t.Errorf("%s: no error", name)
			continue
		}
		var field *abeam.FieldError
		if !errors.As(err, &field) || !strings.HasPrefix(field.Field, "line ") || !strings.Contains(field.Field, "column ") {
			t.Errorf("%s: %v", name, err)
		}
	}
	broken := errors.New("broken")
	if _, err := ReadGPX(iotest.ErrReader(broken), nil); !errors.Is(err, broken) {
		t.Error(err)
	}
	if _, err := ReadGPX(strings.NewReader(gpxHead), Mapping{"x": {}}); !errors.Is(err, abeam.ErrInvalid) {
		t.Error(err)
	}
}

// The same flight by either reader cuts to the same laps.
func TestGPXAndCSVAgree(t *testing.T) {
	text, err := reference.Track("nl_hold_01")
	if err != nil {
		t.Fatal(err)
	}
	log, err := ReadCSV(bytes.NewReader(text), nil)
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	b.WriteString(gpxHead + "<trkseg>\n")
	start := time.Date(2018, 5, 30, 9, 0, 0, 0, time.UTC)
	for _, s := range log.Samples {
		fmt.Fprintf(&b, "<trkpt lat=\"%v\" lon=\"%v\"><ele>%v</ele><time>%s</time></trkpt>\n", s.Lat, s.Lon, s.Altitude.Metres(), start.Add(s.Time).Format(time.RFC3339Nano))
	}
	b.WriteString("</trkseg></trk></gpx>\n")
	points, err := ReadGPX(strings.NewReader(b.String()), nil)
	if err != nil {
		t.Fatal(err)
	}
	a, err := Infer(log)
	if err != nil {
		t.Fatal(err)
	}
	// By positions alone, without recorded tracks, the course and the lap are nearly the same.
	p, err := Infer(points)
	if err != nil {
		t.Fatal(err)
	}
	if d := a.Pattern.Inbound().Sub(p.Pattern.Inbound()).Abs(); d > 2 || a.Pattern.Turn() != p.Pattern.Turn() {
		t.Errorf("by tracks %+v, by positions %+v", a, p)
	}
	fa, err := Cut(log, a.Pattern)
	if err != nil {
		t.Fatal(err)
	}
	fp, err := Cut(points, a.Pattern)
	if err != nil {
		t.Fatal(err)
	}
	if len(fa.Laps) != 1 || len(fp.Laps) != 1 || (fa.Laps[0].Span().Length()-fp.Laps[0].Span().Length()).Abs() > 2*time.Second || fa.Entry.Kind != fp.Entry.Kind {
		t.Errorf("by tracks %+v, by positions %+v", fa, fp)
	}
}
