package main

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

func batch(stdin string, args ...string) (code int, stdout, stderr string) {
	var out, err bytes.Buffer
	code = run(args, strings.NewReader(stdin), &out, &err)
	return code, out.String(), err.String()
}

// rows reads a table into one map a row.
func rows(t *testing.T, text string) (all []map[string]string) {
	t.Helper()
	records, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatalf("%v: %s", err, text)
	}
	for _, r := range records[1:] {
		row := map[string]string{}
		for i, name := range records[0] {
			row[name] = r[i]
		}
		all = append(all, row)
	}
	return all
}

// The demonstration comes out with its own columns as they were, and the figures that the
// library computes for the same holds, put in by hand.
func TestDemo(t *testing.T) {
	code, out, stderr := batch("")
	if code != program.OK || stderr != program.Caution+"\n7 rows, 2 with an error\n" {
		t.Fatalf("%d, %q", code, stderr)
	}
	given, got := rows(t, string(demo)), rows(t, out)
	if len(got) != len(given) {
		t.Fatalf("%d rows of %d", len(got), len(given))
	}
	for i, row := range given {
		for name, value := range row {
			if got[i][name] != value {
				t.Errorf("row %d: %s is %q, was %q", i, name, got[i][name], value)
			}
		}
	}
	for i, want := range []struct {
		course   abeam.Bearing
		turn     hold.Turn
		leg      time.Duration
		altitude abeam.Feet
		ias      abeam.Knots
		wind     wind.Wind
	}{
		{75, hold.Right, time.Minute, 7000, 105, wind.Wind{From: 131, Speed: 19}},
		{75, hold.Right, time.Minute, 7000, 105, wind.Wind{From: 255, Speed: 24}},
		{310, hold.Left, 90 * time.Second, 15000, 210, wind.Wind{From: 10, Speed: 48}},
		{310, hold.Left, 90 * time.Second, 15000, 210, wind.Wind{From: 310, Speed: 62}},
	} {
		air, err := wind.StandardAir(want.altitude, 0)
		if err != nil {
			t.Fatal(err)
		}
		tas, err := air.TASFromCAS(want.ias)
		if err != nil {
			t.Fatal(err)
		}
		turn, err := hold.FAA().Turns.At(tas)
		if err != nil {
			t.Fatal(err)
		}
		p, err := hold.NewPattern(hold.Fix{}, want.course, want.turn, hold.TimedInbound(want.leg))
		if err != nil {
			t.Fatal(err)
		}
		c, err := p.Circuit(hold.Flight{TAS: tas, Rate: turn.Rate, Wind: want.wind})
		if err != nil {
			t.Fatal(err)
		}
		for name, x := range map[string]float64{
			"tas_kt": float64(tas), "inbound_heading_deg": float64(c.InboundHeading), "outbound_heading_deg": float64(c.OutboundHeading),
			"outbound_clock_s": c.Clock.Seconds(), "inbound_s": c.Inbound.Seconds(), "lap_s": c.Lap.Seconds(),
			"width_nm": float64(c.Extent.Width()), "length_nm": float64(c.Extent.Length()),
		} {
			if y, err := strconv.ParseFloat(got[i][name], 64); err != nil || y-x > 0.00501 || x-y > 0.00501 {
				t.Errorf("row %d: %s is %s, computed %v", i, name, got[i][name], x)
			}
		}
		if got[i]["notes"] != c.Notes.String() || got[i]["error"] != "" {
			t.Errorf("row %d: %q, %q", i, got[i]["notes"], got[i]["error"])
		}
	}
	for i, want := range map[int]string{4: "no outbound leg gives less: unflyable", 6: "row: turns is straight, must be right or left: invalid input"} {
		if !strings.HasSuffix(got[i]["error"], want) || got[i]["lap_s"] != "" || got[i]["notes"] != "" {
			t.Errorf("row %d: %q, want %q", i, got[i], want)
		}
	}
	if got[5]["error"] != "" || got[5]["outbound_heading_deg"] != "180.00" {
		t.Errorf("the row after a wrong one: %q", got[5])
	}
}

// Columns are found by name, whatever a spreadsheet makes of the file.
func TestColumnsByName(t *testing.T) {
	const table = "\ufeffremark,wind_kt,kias,turns ,inbound_deg,wind_from_deg,altitude_ft\r\n\"says \"\"hello\"\",\nand more\", 19,105,right,075,131,7000\r\n\r\n"
	code, out, stderr := batch(table, "-flights", "-")
	if code != program.OK {
		t.Fatal(stderr)
	}
	got := rows(t, out)
	_, demo, _ := batch("")
	want := rows(t, demo)[0]
	if len(got) != 1 || got[0]["remark"] != "says \"hello\",\nand more" {
		t.Fatalf("%q", got)
	}
	for _, name := range appended {
		if got[0][name] != want[name] {
			t.Errorf("%s is %q, want %q", name, got[0][name], want[name])
		}
	}
}

const head = "inbound_deg,turns,altitude_ft,kias,wind_from_deg,wind_kt\n"
const good = "075,right,7000,105,131,19\n"

// What is wrong with a row stands in it, and the rows after it are computed.
func TestWrongRows(t *testing.T) {
	for row, want := range map[string]string{
		"075,right,7000,105,131":         "row: columns is 5, must be 6 as in the first line: invalid input",
		"075,right,7000,105,131,19,,":    "row: columns is 8, must be 6 as in the first line: invalid input",
		"075,right,7000,105,13\"1,19":    `parse error on line 2, column 22: bare " in non-quoted-field`,
		"075,right,7000,105,\"131\"1,19": `parse error on line 2, column 24: extraneous or missing " in quoted-field`,
		",right,7000,105,131,19":         "row: inbound_deg is missing, must be given: invalid input",
		"=1+2,right,7000,105,131,19":     `row: inbound_deg is "=1+2", must be a number from 0 to 360, in degrees: invalid input`,
		"075,right,7000,NaN,131,19":      `row: kias is "NaN", must be a finite number, in kt: invalid input`,
		"075,right,70000,105,131,19":     "hold.Rules.LegTime: altitude is 70000 ft, must be from -2000 ft to 65617 ft: invalid input",
		"075,right,7000,105,131,119":     "hold.NewFlight: wind speed is 119 kt, must be below the TAS of ",
	} {
		code, out, stderr := batch(head+row+"\n"+good, "-flights", "-")
		if code != program.OK || !strings.HasSuffix(stderr, "\n2 rows, 1 with an error\n") {
			t.Errorf("%q: %d, %q", row, code, stderr)
			continue
		}
		got := rows(t, out)
		if !strings.HasPrefix(got[0]["error"], want) || got[0]["lap_s"] != "" || got[1]["error"] != "" || got[1]["inbound_s"] != "60.00" {
			t.Errorf("%q: %q, want %q", row, got, want)
		}
	}
}

// A table that cannot be used leaves the file as it was.
func TestWrongTables(t *testing.T) {
	file := filepath.Join(t.TempDir(), "circuits.csv")
	if err := os.WriteFile(file, []byte("before"), 0o644); err != nil {
		t.Fatal(err)
	}
	for table, want := range map[string]string{
		"":                                "batch: table: first line is missing, must be the names of the columns",
		"\n\n":                            "batch: table: first line is missing",
		strings.Replace(head, "k", "", 1): "batch: table: column kias is missing, must be in the first line, which must have inbound_deg, turns",
		"kias," + head:                    "batch: table: column kias is there twice, must be there once",
		"error," + head:                   "batch: table: column error is there, must be left for this program to add",
		"\"kias\"x," + head:               "batch: table: line 1 is not CSV (extraneous",
		head + good + "\"075,right\n" + good + good: "batch: table: line 3 is not CSV (extraneous",
	} {
		code, out, stderr := batch(table, "-flights", "-", "-out", file)
		if code != program.Usage || out != "" || !strings.HasPrefix(stderr, want) {
			t.Errorf("%q: %d, %q, %q", table, code, out, stderr)
		}
		if text, err := os.ReadFile(file); err != nil || string(text) != "before" {
			t.Errorf("%q: the file is now %q, %v", table, text, err)
		}
	}
	if code, out, stderr := batch("", "-flights", filepath.Join(t.TempDir(), "none.csv")); code != program.Usage || out != "" || stderr == "" {
		t.Errorf("no such file: %d, %q, %q", code, out, stderr)
	}
	if code, _, stderr := batch(head+good, "-flights", "-", "-out", file); code != program.OK || stderr == "" {
		t.Errorf("%d, %q", code, stderr)
	}
	if code, _, stderr := batch("", "-flights", file, "-out", file); code != program.Usage {
		t.Errorf("a table that was computed already: %d, %q", code, stderr)
	}
	if left, err := os.ReadDir(filepath.Dir(file)); err != nil || len(left) != 1 {
		t.Errorf("left behind: %v, %v", left, err)
	}
}

type broken struct{}

var errBroken = errors.New("the line is down")

func (broken) Read([]byte) (int, error)  { return 0, errBroken }
func (broken) Write([]byte) (int, error) { return 0, errBroken }

func TestBrokenEnds(t *testing.T) {
	var out, stderr bytes.Buffer
	if code := run([]string{"-flights", "-"}, broken{}, &out, &stderr); code != program.Failed || out.Len() > 0 || stderr.String() != "batch: the line is down\n" {
		t.Errorf("%d, %q, %q", code, out.String(), stderr.String())
	}
	stderr.Reset()
	if code := run(nil, nil, broken{}, &stderr); code != program.Failed || stderr.String() != "batch: the line is down\n" {
		t.Errorf("%d, %q", code, stderr.String())
	}
	// A million rows into nothing end with the first that cannot be written.
	n, err := table(io.MultiReader(strings.NewReader(head), &endless{}), broken{})
	if !errors.Is(err, errBroken) || n.rows > 1000 {
		t.Errorf("%d rows, %v", n.rows, err)
	}
}

// endless gives good rows for ever.
type endless struct{ rest []byte }

func (e *endless) Read(p []byte) (int, error) {
	if len(e.rest) == 0 {
		e.rest = bytes.Repeat([]byte(good), 100)
	}
	n := copy(p, e.rest)
	e.rest = e.rest[n:]
	return n, nil
}

// Rows come out while others still go in.
func TestStreams(t *testing.T) {
	in, feed := io.Pipe()
	read, out := io.Pipe()
	ended := make(chan error, 1)
	go func() {
		_, err := table(in, out)
		out.Close()
		ended <- err
	}()
	fed := make(chan error, 1)
	go func() {
		_, err := fmt.Fprint(feed, head, strings.Repeat(good, 1000))
		fed <- err
	}()
	first := make([]byte, len(head))
	if _, err := io.ReadFull(read, first); err != nil || !slices.Equal(first[:len(head)-1], []byte(head[:len(head)-1])) {
		t.Fatalf("%q, %v", first, err)
	}
	go io.Copy(io.Discard, read)
	if err := <-fed; err != nil {
		t.Fatal(err)
	}
	feed.Close()
	if err := <-ended; err != nil {
		t.Fatal(err)
	}
}

func BenchmarkRows(b *testing.B) {
	const n = 10_000
	text := head + strings.Repeat(good, n)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := table(strings.NewReader(text), io.Discard); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(n*b.N)/b.Elapsed().Seconds(), "rows/s")
}
