// Batch computes a hold a row: it reads flights from a table in CSV and writes the table
// with the columns of the circuit behind its own. Circuit.go is the library at work; the
// rest is what a table needs.
//
//	batch                                         the built-in invented flights
//	batch -flights flights.csv -out circuits.csv  from a file into a file
//	batch -flights - <flights.csv >circuits.csv   from standard input
//
// The first line names the columns, among which in any order must be
//
//	inbound_deg turns altitude_ft kias wind_from_deg wind_kt
//
// with turns right or left and course and wind in one north. Air is standard; turns and leg
// times are the FAA's. Rows are read and written one by one, so that a table may be of any
// length; a row that is wrong has the reason in the column error, and the others go on.
//
// It exits with 2 for a table that it cannot use and with 1 for one that it cannot read or
// write; a file of its own is then not there.
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

	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/examples/internal/whole"
)

//go:embed demo.csv
var demo []byte

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	p := program.New("batch", "computes a hold for each row of a table in CSV and adds it in new columns.", stdout, stderr)
	flights := p.Flags.String("flights", "", "a table `file` in CSV, - for standard input (default: a built-in invented one)")
	out := p.Flags.String("out", "", "the `file` to write to (default: standard output)")
	if code, ok := p.Parse(args); !ok {
		return code
	}
	in := stdin
	switch *flights {
	case "-":
	case "":
		in = bytes.NewReader(demo)
	default:
		f, err := os.Open(*flights)
		if err != nil {
			return p.Fail(program.Usage, err)
		}
		defer f.Close()
		in = f
	}
	var n count
	compute := func(w io.Writer) (err error) {
		n, err = table(in, w)
		return err
	}
	var err error
	if *out == "" {
		err = compute(stdout)
	} else {
		err = whole.Stream(*out, compute)
	}
	if err != nil {
		return p.Refuse(err)
	}
	fmt.Fprintf(stderr, "%s\n%d rows, %d with an error\n", program.Caution, n.rows, n.wrong)
	return program.OK
}
