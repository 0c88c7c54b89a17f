package main

import (
	"bytes"
	"context"
	"strings"
	"testing"
	"time"

	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/timing"
)

func labRun(own timing.Strategy, args ...string) (code int, stdout, stderr string) {
	var out, err bytes.Buffer
	code = run(context.Background(), own, args, &out, &err)
	return code, out.String(), err.String()
}

func TestLab(t *testing.T) {
	code, out, stderr := labRun(mine)
	if code != program.OK || stderr != "" {
		t.Fatalf("exit %d, %s", code, stderr)
	}
	for _, want := range []string{"NOT FOR NAVIGATION", "\nmine\n", "lap 5:", "lopsided + triple drift", "light aircraft", "  exact "} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	// The exact strategy leaves nothing.
	exact := out[strings.Index(out, "\nexact\n"):]
	if !strings.Contains(exact, "inbound  60 s (+0), rolled out +0.00 NM") {
		t.Errorf("%s", exact)
	}
	_, again, _ := labRun(mine, "-rough", "-seed", "4")
	_, same, _ := labRun(mine, "-rough", "-seed", "4")
	_, other, _ := labRun(mine, "-rough", "-seed", "5")
	if again != same || again == other || again == out {
		t.Error("the seed does not decide")
	}
	_, right, _ := labRun(mine, "-wind", "300/20")
	_, left, _ := labRun(mine, "-wind", "060/20", "-left")
	// Mirror images over the ground: the same times, line by line.
	times := func(s string) string {
		var all []string
		for _, line := range strings.Split(s, "\n") {
			if i := strings.Index(line, " for "); i > 0 {
				all = append(all, line[i:])
			}
		}
		return strings.Join(all, "\n")
	}
	if times(right) != times(left) || times(right) == "" {
		t.Error("left turns are no mirror image")
	}
}

// A strategy that fails is named, with the lap; the others are measured all the same.
func TestBrokenStrategy(t *testing.T) {
	_, good, _ := labRun(mine)
	broken := timing.Strategy{Name: "mine", Next: func(s timing.Seen) timing.Plan {
		if s.Laps == 1 {
			panic("not thought through")
		}
		return timing.Plan{Outbound: time.Minute}
	}}
	code, out, stderr := labRun(broken)
	if code != program.OK || stderr != "" {
		t.Fatalf("exit %d, %s", code, stderr)
	}
	for _, want := range []string{`strategy "mine", lap 2: it panicked: not thought through`, "failed in 3276 of 3276 trials"} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	for _, line := range strings.Split(good, "\n") {
		if strings.HasPrefix(line, "  half") || strings.HasPrefix(line, "  exact") {
			if !strings.Contains(out, line) {
				t.Errorf("%q is lost", line)
			}
		}
	}
}

func TestBadInput(t *testing.T) {
	for _, tc := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"-nothing"}, program.Usage, "-nothing"},
		{[]string{"all"}, program.Usage, `"all"`},
		{[]string{"-laps", "0"}, program.Usage, "-laps is 0"},
		{[]string{"-laps", "21"}, program.Usage, "-laps is 21"},
		{[]string{"-wind", "270"}, program.Usage, "055/22"},
		{[]string{"-wind", "400/20"}, program.Usage, "400"},
		{[]string{"-wind", "270/strong"}, program.Usage, "strong"},
		{[]string{"-wind", "270/NaN"}, program.Usage, "NaN"},
		{[]string{"-wind", "270/-5"}, program.Usage, "-5"},
		{[]string{"-tas", "0"}, program.Usage, "TAS"},
		{[]string{"-tas", "NaN"}, program.Usage, "NaN"},
		{[]string{"-tas", "fast"}, program.Usage, "fast"},
		{[]string{"-wind", "270/105"}, program.Failed, "unflyable"},
	} {
		code, out, stderr := labRun(mine, tc.args...)
		if code != tc.code || out != "" || !strings.Contains(stderr, tc.says) {
			t.Errorf("%v: exit %d, %q, %q", tc.args, code, out, stderr)
		}
	}
	if code, _, stderr := labRun(mine, "-help"); code != program.OK || !strings.Contains(stderr, "-wind") {
		t.Errorf("exit %d, %s", code, stderr)
	}
	if code, out, stderr := labRun(timing.Strategy{Name: "mine"}); code != program.Usage || out != "" || !strings.Contains(stderr, "mine") {
		t.Errorf("exit %d, %s", code, stderr)
	}
}
