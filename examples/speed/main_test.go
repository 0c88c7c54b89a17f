package main

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"github.com/holdingfix/abeam/examples/internal/program"
)

func speed(args ...string) (code int, stdout, stderr string) {
	var out, err bytes.Buffer
	code = run(context.Background(), args, &out, &err)
	return code, out.String(), err.String()
}

// The general way does what the path does: it gives the same in NM, knots, degrees or
// seconds. Only so is its time the price of the same thing.
func TestGeneralWayAgrees(t *testing.T) {
	all, err := paths()
	if err != nil {
		t.Fatal(err)
	}
	compared := 0
	for _, p := range all {
		if p.difference == nil {
			continue
		}
		compared++
		if d := p.difference(); !(d < 1e-7) {
			t.Errorf("%s: %s gives something else by %g", p.name, p.general, d)
		}
	}
	if compared < 15 || compared == len(all) {
		t.Errorf("%d of %d paths have a general way", compared, len(all))
	}
}

// A hot path allocates nothing; a judgement is a result of its own.
func TestTable(t *testing.T) {
	code, out, stderr := speed("-time", "0")
	if code != program.OK || stderr != "" || !strings.HasPrefix(out, program.Caution) {
		t.Fatalf("exit %d, %s\n%s", code, stderr, out)
	}
	all, err := paths()
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(out, "\n")[3:]
	words := strings.Join(strings.Fields(out), " ")
	for i, p := range all {
		fields := strings.Fields(strings.TrimPrefix(lines[i], p.name))
		cells := 3
		if p.general != "" {
			cells = 5
		}
		if !strings.HasPrefix(lines[i], p.name+" ") || len(fields) != cells || !strings.Contains(words, p.floor) {
			t.Errorf("%s: %q", p.name, lines[i])
		} else if fields[1] != "0" && p.name != "tolerance: judging, a sample" {
			t.Errorf("%s allocates: %q", p.name, lines[i])
		}
		if len(p.name) > 33 {
			t.Errorf("%s does not fit", p.name)
		}
	}
	code, out, _ = speed("-time", "0", "-only", "entry", "-markdown")
	if code != program.OK || strings.Count(out, "\n| entry: ") != 4 || strings.Contains(out, "| wind") || !strings.Contains(out, program.Caution) {
		t.Errorf("exit %d\n%s", code, out)
	}
}

func TestRefuses(t *testing.T) {
	for _, args := range [][]string{{"-nothing"}, {"more"}, {"-time", "-1s"}, {"-only", "no such path"}} {
		if code, out, stderr := speed(args...); code != program.Usage || out != "" || stderr == "" {
			t.Errorf("%v: exit %d, %q, %q", args, code, out, stderr)
		}
	}
	stopped, stop := context.WithCancel(context.Background())
	stop()
	var out, stderr bytes.Buffer
	if code := run(stopped, nil, &out, &stderr); code != program.Failed || out.Len() > 0 || !strings.Contains(stderr.String(), "canceled") {
		t.Errorf("interrupted: exit %d, %q, %q", code, out.String(), stderr.String())
	}
}
