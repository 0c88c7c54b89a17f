package main

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/examples/internal/reply"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

func get(t *testing.T, at string, values url.Values, into any) int {
	t.Helper()
	r, err := http.Get(at + path + "?" + values.Encode())
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	d := json.NewDecoder(r.Body)
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil || r.Header.Get("Content-Type") != "application/json" {
		t.Fatalf("%v: %v, %v", values, err, r.Header)
	}
	return r.StatusCode
}

func flight(more ...string) url.Values {
	v := url.Values{"tas_kt": {"118"}, "altitude_ft": {"7000"}, "wind_from_deg": {"131"}, "wind_kt": {"19"}}
	for i := 0; i < len(more); i += 2 {
		v.Set(more[i], more[i+1])
	}
	return v
}

// The answer is what the library computes for the same hold, put in by hand.
func TestAnswer(t *testing.T) {
	s := httptest.NewServer(handler())
	defer s.Close()
	for _, c := range []struct {
		asked    url.Values
		fix      string
		course   abeam.Bearing
		turn     hold.Turn
		leg      time.Duration
		tas      abeam.Knots
		rate     hold.Rate
		findings []string
	}{
		{flight("inbound_deg", "075", "turns", "right"), "", 75, hold.Right, time.Minute, 118, 3, []string{}},
		{flight("inbound_deg", "360", "turns", "left", "altitude_ft", "14001"), "", 0, hold.Left, 90 * time.Second, 118, 3, []string{}},
		{flight("clearance", "hold west of tarno on the 255 radial, efc 1805"), "TARNO", 75, hold.Right, time.Minute, 118, 3,
			[]string{hold.NoTurnSaid.String()}},
		{flight("clearance", "HOLD WEST OF TARNO ON THE 255 RADIAL, 2 MINUTE LEG, LEFT TURNS"), "TARNO", 75, hold.Left, 2 * time.Minute, 118, 3,
			[]string{hold.LegTimeLong.String(), hold.NoEFC.String()}},
	} {
		p, err := hold.NewPattern(hold.Fix{Ident: c.fix}, c.course, c.turn, hold.TimedInbound(c.leg))
		if err != nil {
			t.Fatal(err)
		}
		lap, err := p.Circuit(hold.Flight{TAS: c.tas, Rate: c.rate, Wind: wind.Wind{From: 131, Speed: 19}})
		if err != nil {
			t.Fatal(err)
		}
		want := reply.To(p, lap, nil)
		want.Findings = c.findings
		var got reply.Answer
		if status := get(t, s.URL, c.asked, &got); status != http.StatusOK {
			t.Errorf("%v: status %d", c.asked, status)
		}
		if !reflect.DeepEqual(want, got) {
			t.Errorf("%v: got %+v, want %+v", c.asked, got, want)
		}
		if got.Caution != program.Caution || got.Lap < 200 || c.turn == hold.Right && (got.InboundHeading < 75 || got.OutboundHeading > 255) {
			t.Errorf("%v: %+v", c.asked, got) // the wind is from the right of the course
		}
	}
}

// The notes of a circuit are in the answer.
func TestNotes(t *testing.T) {
	s := httptest.NewServer(handler())
	defer s.Close()
	var got reply.Answer
	status := get(t, s.URL, flight("inbound_deg", "131", "turns", "right", "wind_kt", "30"), &got)
	if want := []string{hold.AbeamInTurn.String()}; status != http.StatusOK || !slices.Equal(got.Notes, want) {
		t.Errorf("%d: notes %q, want %q", status, got.Notes, want)
	}
}

func TestRefused(t *testing.T) {
	s := httptest.NewServer(handler())
	defer s.Close()
	course := func(more ...string) url.Values {
		return flight(append([]string{"inbound_deg", "075", "turns", "right"}, more...)...)
	}
	twice := course()
	twice.Add("tas_kt", "119")
	for _, c := range []struct {
		asked               url.Values
		status              int
		field, value, limit string // part of it
	}{
		{url.Values{}, 400, "inbound_deg", "missing", "given"},
		{flight(), 400, "inbound_deg", "missing", "given"},
		{flight("clearance", ""), 400, "clearance", "missing", "given"},
		{flight("clearance", "hold"), 400, "word", "", "direction"},
		{flight("clearance", "hold west of tarno on the 463 radial"), 400, "word 7 at byte 26", `"463"`, "from 000 to 360"},
		{flight("clearance", strings.Repeat("hold ", 300)), 400, "", "", "1000"},
		{flight("clearance", "hold west of tarno on V123"), 400, "line", "airway", "stands on the chart"},
		{flight("clearance", "hold west of tarno on the 255 radial", "turns", "left"), 400, "turns", "unknown", "one of"},
		{course("inbound_deg", "361"), 400, "inbound_deg", `"361"`, "from 0 to 360"},
		{course("turns", "up"), 400, "turns", "up", "right or left"},
		{course("tas_kt", "NaN"), 400, "tas_kt", `"NaN"`, "finite number, in kt"},
		{course("tas_kt", "-1"), 400, "TAS", "-1 kt", "above 0"},
		{course("altitude_ft", "70000"), 400, "altitude", "70000 ft", "from -2000 ft to 65617 ft"},
		{course("wind_kt", "-1"), 400, "wind speed", "-1 kt", "from 0 kt"},
		{course("wind_from_deg", "north"), 400, "wind_from_deg", `"north"`, "from 0 to 360"},
		{course("tas", "118"), 400, "tas", "unknown", "one of tas_kt"},
		{twice, 400, "tas_kt", "given more than once", "given once"},
		{course("wind_kt", "118"), 422, "wind speed", "118 kt", "below the TAS of 118 kt"},
		{course("wind_from_deg", "75", "wind_kt", "70"), 422, "", "", ""},
	} {
		var got reply.Refusal
		status := get(t, s.URL, c.asked, &got)
		if status != c.status || !strings.Contains(got.Field, c.field) || !strings.Contains(got.Value, c.value) || !strings.Contains(got.Limit, c.limit) ||
			got.Field == "" || got.Value == "" || got.Limit == "" || got.Error == "" || got.Caution != program.Caution {
			t.Errorf("%v: %d, %+v", c.asked, status, got)
		}
	}
	for _, c := range []struct {
		method, at string
		status     int
	}{
		{"GET", path + "?tas_kt=%zz", http.StatusBadRequest}, {"GET", "/", http.StatusNotFound}, {"POST", path, http.StatusMethodNotAllowed},
	} {
		r, err := http.NewRequestWithContext(t.Context(), c.method, s.URL, nil)
		if err != nil {
			t.Fatal(err)
		}
		at, query, _ := strings.Cut(c.at, "?")
		r.URL.Path, r.URL.RawQuery = at, query
		answer, err := http.DefaultClient.Do(r)
		if err != nil {
			t.Fatal(err)
		}
		answer.Body.Close()
		if answer.StatusCode != c.status {
			t.Errorf("%s %s: status %d, want %d", c.method, c.at, answer.StatusCode, c.status)
		}
	}
}

// Run listens on the loopback address, answers, and ends when it is interrupted.
func TestRun(t *testing.T) {
	ctx, interrupt := context.WithCancel(t.Context())
	read, write := io.Pipe()
	var stderr bytes.Buffer
	code := make(chan int, 1)
	go func() { code <- run(ctx, []string{"-listen", "127.0.0.1:0"}, write, &stderr) }()
	said := make([]byte, 1000)
	n, err := read.Read(said)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(said[:n])), "\n")
	if len(lines) != 3 {
		t.Fatalf("%q", lines)
	}
	address, such := strings.CutSuffix(lines[1], path+", such as")
	if lines[0] != program.Caution || !such || !strings.HasPrefix(address, "http://127.0.0.1:") || lines[2] != address+path+"?"+sample {
		t.Fatalf("%q", lines)
	}
	values, err := url.ParseQuery(sample)
	if err != nil {
		t.Fatal(err)
	}
	for _, asked := range []url.Values{values, flight("inbound_deg", "075", "turns", "right")} {
		var got reply.Answer
		if status := get(t, address, asked, &got); status != http.StatusOK {
			t.Errorf("%v: status %d", asked, status)
		}
	}
	var out, complaint bytes.Buffer
	taken := strings.TrimPrefix(address, "http://")
	if c := run(ctx, []string{"-listen", taken}, &out, &complaint); c != program.Failed || out.Len() > 0 || !strings.HasPrefix(complaint.String(), "server: ") {
		t.Errorf("on an address in use: %d, %q, %q", c, out.String(), complaint.String())
	}
	if c := run(ctx, []string{"-port", "1"}, &out, io.Discard); c != program.Usage || out.Len() > 0 {
		t.Errorf("with a flag that it does not know: %d, %q", c, out.String())
	}
	interrupt()
	if c := <-code; c != program.OK || stderr.Len() > 0 {
		t.Errorf("interrupted: %d, %q", c, stderr.String())
	}
}
