// Atlas measures the rules of thumb of the hold over the whole range in which holds are
// flown and draws how wrong they are: a table, heat maps by wind for every strategy, how
// each converges lap by lap, and all of them side by side.
//
//	atlas                    the whole range into the folder atlas-out
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
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"github.com/holdingfix/abeam/examples/internal/pilot"
	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/examples/internal/whole"
	"github.com/holdingfix/abeam/timing"
)

func main() {
	program.Run(run)
}

func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	p := program.New("atlas", "measures and draws how wrong the rules of thumb are, in all winds.", stdout, stderr)
	out := p.Flags.String("out", "atlas-out", "the `folder` to write to; it is made if it is not there")
	coarse := p.Flags.Bool("coarse", false, "a coarse grid")
	rough := p.Flags.Bool("rough", false, "with the errors of a pilot and a wind not well known")
	laps := p.Flags.Int("laps", 6, "how many `laps` each strategy flies, 3 to 100")
	seed := p.Flags.Uint64("seed", 1, "of the errors and of what the fits hold out")
	workers := p.Flags.Int("workers", 0, "how many processors to use; 0 is all")
	if code, ok := p.Parse(args); !ok {
		return code
	}
	if *laps < 3 || *laps > 100 {
		return p.Fail(program.Usage, fmt.Errorf("-laps is %d, must be from 3 to 100", *laps))
	}
	study := timing.Study{
		Laps: *laps, Start: timing.AtWingsLevelOrAbeam, Intercept: timing.StandardIntercept(), Seed: *seed, Workers: *workers,
		Strategies: timing.Strategies(),
	}
	if *rough {
		study.Scatter = pilot.Errors()
	}
	bar := newBar(stderr)
	a, err := newAtlas(ctx, study, *coarse, bar)
	bar.clear()
	if err == nil {
		err = ctx.Err()
	}
	if err != nil {
		return p.Refuse(err)
	}
	files, err := a.files(ctx)
	if err != nil {
		return p.Fail(program.Failed, err)
	}
	var words bytes.Buffer
	a.write(&words)
	if err := os.MkdirAll(*out, 0o755); err != nil {
		return p.Fail(program.Failed, err)
	}
	for _, f := range files {
		if err := ctx.Err(); err != nil {
			return p.Fail(program.Failed, fmt.Errorf("%w; the files already written are complete", err))
		}
		if err := whole.Write(filepath.Join(*out, f.name), f.data); err != nil {
			return p.Fail(program.Failed, err)
		}
	}
	fmt.Fprintf(&words, "\n%d files in %s\n", len(files), *out)
	return p.Print(words.Bytes())
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
