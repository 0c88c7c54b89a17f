// Atlas measures the rules of thumb of the hold over the whole range in which holds are
// flown and draws how wrong they are: a table, heat maps by wind for every strategy, how
// each converges lap by lap, and all of them side by side.
//
//	atlas                    the whole range into the folder atlas
//	atlas -out maps          into another folder
//	atlas -coarse            a coarse grid, in a second or two
//	atlas -rough             flown by a pilot with errors, the wind not well known
//	atlas -laps 10 -seed 7   more laps, other errors
//
// It uses all processors, shows its progress on a terminal, and writes nothing until all
// is computed; an interrupted run leaves complete files or none. It exits with 2 for input
// it cannot use and with 1 for a run that failed or was interrupted.
//
// NOT FOR NAVIGATION. The clearance, the chart, the aircraft manual, local rules and
// licensed practice come first.
package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"syscall"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/examples/internal/whole"
	"github.com/holdingfix/abeam/timing"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}

const (
	exitOK       = 0
	exitComputed = 1 // a failed or interrupted run, or a file that cannot be written
	exitUsage    = 2
)

const caution = "NOT FOR NAVIGATION. The clearance, the chart, the aircraft manual, local rules and licensed practice come first."

func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("atlas", flag.ContinueOnError)
	flags.SetOutput(stderr)
	out := flags.String("out", "atlas", "the `folder` to write to; it is made if it is not there")
	coarse := flags.Bool("coarse", false, "a coarse grid")
	rough := flags.Bool("rough", false, "with the errors of a pilot and a wind not well known")
	laps := flags.Int("laps", 6, "how many `laps` each strategy flies, 3 to 100")
	seed := flags.Uint64("seed", 1, "of the errors and of what the fits hold out")
	workers := flags.Int("workers", 0, "how many processors to use; 0 is all")
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return exitOK
		}
		return exitUsage
	}
	fail := func(code int, err error) int {
		fmt.Fprintln(stderr, "atlas:", err)
		return code
	}
	if flags.NArg() > 0 {
		return fail(exitUsage, fmt.Errorf("what is %q? see -help", flags.Arg(0)))
	}
	if *laps < 3 || *laps > 100 {
		return fail(exitUsage, fmt.Errorf("-laps is %d, must be from 3 to 100", *laps))
	}
	study := timing.Study{
		Laps: *laps, Start: timing.AtWingsLevelOrAbeam, Intercept: timing.StandardIntercept(), Seed: *seed, Workers: *workers,
		Strategies: timing.Strategies(),
	}
	if *rough {
		study.Scatter = pilot()
	}
	bar := newBar(stderr)
	a, err := newAtlas(ctx, study, *coarse, bar)
	bar.clear()
	if err == nil {
		err = ctx.Err()
	}
	if err != nil {
		if errors.Is(err, abeam.ErrInvalid) {
			return fail(exitUsage, err)
		}
		return fail(exitComputed, err)
	}
	files, err := a.files(ctx)
	if err != nil {
		return fail(exitComputed, err)
	}
	var words bytes.Buffer
	a.write(&words)
	if err := os.MkdirAll(*out, 0o755); err != nil {
		return fail(exitComputed, err)
	}
	for _, f := range files {
		if err := ctx.Err(); err != nil {
			return fail(exitComputed, fmt.Errorf("%w; the files already written are complete", err))
		}
		if err := whole.Write(filepath.Join(*out, f.name), f.data); err != nil {
			return fail(exitComputed, err)
		}
	}
	fmt.Fprintf(&words, "\n%d files in %s\n", len(files), *out)
	if _, err := stdout.Write(words.Bytes()); err != nil {
		return fail(exitComputed, err)
	}
	return exitOK
}

// pilot is the precision of one who is neither tired nor perfect: an assumption, not a
// measurement.
func pilot() timing.Scatter {
	return timing.Scatter{Timing: 2 * time.Second, Heading: 3, Airspeed: 3, Bank: 2, WindChange: 2, WindKnown: 8}
}

// bar is a progress bar, on a terminal only.
type bar struct {
	w         io.Writer // nil: nothing is shown
	part      string
	lastShown time.Time
}

func newBar(stderr io.Writer) *bar {
	if f, ok := stderr.(*os.File); ok {
		if info, err := f.Stat(); err == nil && info.Mode()&os.ModeCharDevice != 0 {
			return &bar{w: f}
		}
	}
	return &bar{}
}

func (b *bar) show(done, total int) {
	if b.w == nil || done < total && time.Since(b.lastShown) < 100*time.Millisecond {
		return
	}
	b.lastShown = time.Now()
	const width = 30
	full := width * done / max(1, total)
	fmt.Fprintf(b.w, "\r[%-*s] %3d %%  %-40s", width, "##############################"[:full], 100*done/max(1, total), b.part)
}

func (b *bar) clear() {
	if b.w != nil {
		fmt.Fprintf(b.w, "\r%-80s\r", "")
	}
}
