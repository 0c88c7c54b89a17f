// Debrief judges a flown hold: from the log of a flight and the clearance to what was
// flown, how it compares with a standard, and what to change on the next lap.
//
//	debrief                                     the built-in invented flight
//	debrief -log flight.csv -clearance c.json   another; demo.csv and demo.json are the form
//	debrief -log flight.gpx                     the hold itself read off the track
//	debrief -standard eu-instrument             by another standard
//	debrief -html page.html                     writes a page with the track and the strips
//	debrief -json                               the same figures as JSON
//	debrief -map "Speed=groundspeed:mps"        names a column that the reader does not know
//
// It exits with 2 for input it cannot use and with 1 for a computation that fails or a
// file that cannot be written.
//
// NOT FOR NAVIGATION. The clearance, the chart, the aircraft manual, local rules and
// licensed practice come first.
package main

import (
	"bytes"
	_ "embed"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/holdingfix/abeam/examples/internal/jsonfile"
	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/examples/internal/whole"
	"github.com/holdingfix/abeam/tolerance"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

//go:embed demo.csv
var demoLog []byte

func run(args []string, stdout, stderr io.Writer) int {
	p := program.New("debrief", "judges a flown hold, from its log to what to change on the next lap.", stdout, stderr)
	logName := p.Flags.String("log", "", "a log `file`, .csv or .gpx (default: a built-in invented flight)")
	clearance := p.Flags.String("clearance", "", "a clearance `file` in JSON (default: the demo's, or read off the track of a -log)")
	standard := p.Flags.String("standard", "", "the `name` of the standard (default: the clearance's, or faa-instrument): "+names())
	page := p.Flags.String("html", "", "write a self-contained page to a `file`")
	asJSON := p.Flags.Bool("json", false, "print JSON instead of text")
	mapping := tolerance.Mapping{}
	p.Flags.Func("map", "read a column: `header=quantity:unit[:north]`, such as Speed=groundspeed:mps; may be given again", func(text string) error {
		return addMapping(mapping, text)
	})
	if code, ok := p.Parse(args); !ok {
		return code
	}
	log, err := readLog(*logName, mapping)
	if err != nil {
		return p.Fail(program.Usage, err)
	}
	c := Clearance{Standard: "faa-instrument"} // of a hold read off its track
	if *logName == "" || *clearance != "" {
		if c, err = jsonfile.Read[Clearance]("clearance", *clearance, demoClearance); err != nil {
			return p.Fail(program.Usage, err)
		}
	}
	if *standard != "" {
		c.Standard = *standard
	}
	t, err := c.task(log)
	var d tolerance.Debrief
	if err == nil {
		d, err = tolerance.NewDebrief(log, t.clearance, t.standard)
	}
	if err != nil {
		return p.Refuse(err)
	}
	// Everything is computed before anything is written.
	r := newReport(nameOf(*logName), log, t, d)
	var out bytes.Buffer
	if *asJSON {
		if err := program.WriteJSON(&out, r); err != nil {
			return p.Fail(program.Failed, err)
		}
	} else {
		r.writeText(&out)
	}
	if *page != "" {
		text, err := r.page(log, d)
		if err == nil {
			err = whole.Write(*page, text)
		}
		if err != nil {
			return p.Fail(program.Failed, err)
		}
	}
	return p.Print(out.Bytes())
}

func nameOf(path string) string {
	if path == "" {
		return "the built-in invented flight"
	}
	return filepath.Base(path)
}

func readLog(name string, m tolerance.Mapping) (tolerance.Log, error) {
	if name == "" {
		return tolerance.ReadCSV(bytes.NewReader(demoLog), m)
	}
	f, err := os.Open(name)
	if err != nil {
		return tolerance.Log{}, fmt.Errorf("log: %w", err)
	}
	defer f.Close()
	if strings.EqualFold(filepath.Ext(name), ".gpx") {
		return tolerance.ReadGPX(f, m)
	}
	return tolerance.ReadCSV(f, m)
}

// addMapping reads "header=quantity:unit" or "header=quantity:unit:north".
func addMapping(m tolerance.Mapping, text string) error {
	header, what, ok := strings.Cut(text, "=")
	parts := strings.Split(what, ":")
	if !ok || len(parts) < 2 || len(parts) > 3 {
		return fmt.Errorf("%q is not header=quantity:unit or header=quantity:unit:north", text)
	}
	c := tolerance.Column{Unit: parts[1]}
	for q := tolerance.Time; q <= tolerance.CDI; q <<= 1 {
		if q.String() == parts[0] {
			c.Quantity = q
		}
	}
	if c.Quantity == 0 {
		return fmt.Errorf("%q is no quantity: time, latitude, longitude, altitude, indicated airspeed, heading, groundspeed, track or course deviation", parts[0])
	}
	if len(parts) == 3 {
		if err := c.North.UnmarshalText([]byte(parts[2])); err != nil {
			return err
		}
	}
	m[header] = c
	return nil
}
