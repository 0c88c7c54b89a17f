// Package program is what the programs have in common: the caution, the flags, the exit
// codes, and what is said where something fails.
package program

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"syscall"

	"github.com/holdingfix/abeam"
)

// Caution stands on everything that a program puts out.
const Caution = "NOT FOR NAVIGATION. The clearance, the chart, the aircraft manual, local rules and licensed practice come first."

// The exit codes.
const (
	OK     = 0
	Failed = 1 // a failed or interrupted computation, or a file that cannot be written
	Usage  = 2 // input that cannot be used
)

// Program is one run of a program.
type Program struct {
	Flags          *flag.FlagSet
	about          string
	stdout, stderr io.Writer
}

// New gives the run of a program by its name; about says what it does, for its help.
func New(name, about string, stdout, stderr io.Writer) Program {
	flags := flag.NewFlagSet(name, flag.ContinueOnError)
	// Its own way with an error is to print all the flags after it.
	flags.SetOutput(io.Discard)
	return Program{Flags: flags, about: about, stdout: stdout, stderr: stderr}
}

// Run runs a program from its command line and ends it with its code. An interrupt, or a request
// to end, ends the context, so that what computes for long can stop and say so.
func Run(run func(ctx context.Context, args []string, stdout, stderr io.Writer) int) {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}

// Parse reads the flags, of which nothing may be left over. Where it gives false the
// program ends with the code: help was asked for, or a flag cannot be used.
func (p Program) Parse(args []string) (code int, ok bool) {
	if err := p.Flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			p.help()
			return OK, false
		}
		return p.Fail(Usage, fmt.Errorf("%w; see -help", err)), false
	}
	if p.Flags.NArg() > 0 {
		return p.Fail(Usage, fmt.Errorf("what is %q? see -help", p.Flags.Arg(0))), false
	}
	return OK, true
}

func (p Program) help() {
	fmt.Fprintf(p.stderr, "Usage of %s: %s\n", p.Flags.Name(), p.about)
	p.Flags.SetOutput(p.stderr)
	p.Flags.PrintDefaults()
	fmt.Fprintln(p.stderr, Caution)
}

// Fail says the error under the name of the program, which stands there once, and gives
// the code.
func (p Program) Fail(code int, err error) int {
	name := p.Flags.Name() + ": "
	fmt.Fprintf(p.stderr, "%s%s\n", name, strings.TrimPrefix(err.Error(), name))
	return code
}

// Refuse is Fail with the code that the library's error calls for: [Usage] for an input
// out of its range, [Failed] for anything else.
func (p Program) Refuse(err error) int {
	if errors.Is(err, abeam.ErrInvalid) {
		return p.Fail(Usage, err)
	}
	return p.Fail(Failed, err)
}

// Print writes what was made and gives the last code of the run. Everything is computed
// before it is called, so that a run that fails prints nothing.
func (p Program) Print(text []byte) int {
	if _, err := p.stdout.Write(text); err != nil {
		return p.Fail(Failed, err)
	}
	return OK
}

// WriteJSON writes a value as the programs lay out JSON.
func WriteJSON(w io.Writer, value any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(value)
}
