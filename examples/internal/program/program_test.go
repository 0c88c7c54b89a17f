package program

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/holdingfix/abeam"
)

func TestParse(t *testing.T) {
	for _, c := range []struct {
		args   string
		code   int
		ok     bool
		stderr string // part of it
	}{
		{"", OK, true, ""},
		{"-laps 3", OK, true, ""},
		{"-help", OK, false, "Usage of demo: flies laps.\n  -laps int\n"},
		{"-h", OK, false, Caution},
		{"-laps many", Usage, false, "demo: invalid value \"many\" for flag -laps: parse error; see -help\n"},
		{"-lap 3", Usage, false, "demo: flag provided but not defined: -lap; see -help\n"},
		{"-laps 3 more", Usage, false, `demo: what is "more"? see -help`},
	} {
		var stdout, stderr bytes.Buffer
		p := New("demo", "flies laps.", &stdout, &stderr)
		laps := p.Flags.Int("laps", 1, "")
		code, ok := p.Parse(strings.Fields(c.args))
		if code != c.code || ok != c.ok || !strings.Contains(stderr.String(), c.stderr) || c.ok && stderr.Len() > 0 || stdout.Len() > 0 {
			t.Errorf("%q: %d, %v, %q, %q", c.args, code, ok, stdout.String(), stderr.String())
		}
		if c.args == "-laps 3" && *laps != 3 {
			t.Errorf("-laps 3 gave %d", *laps)
		}
	}
}

func TestEnds(t *testing.T) {
	var stdout, stderr bytes.Buffer
	p := New("demo", "flies laps.", &stdout, &stderr)
	for _, c := range []struct {
		err  error
		code int
		text string
	}{
		{fmt.Errorf("in a file: %w", &abeam.FieldError{Op: "demo", Field: "laps", Value: 0, Limit: "above 0", Err: abeam.ErrInvalid}), Usage, "demo: in a file: demo: laps is 0, must be above 0: invalid input\n"},
		{&abeam.FieldError{Op: "demo", Field: "wind", Value: 90, Limit: "below 80", Err: abeam.ErrUnflyable}, Failed, "demo: wind is 90, must be below 80: unflyable\n"},
		{errors.New("no room"), Failed, "demo: no room\n"},
	} {
		stderr.Reset()
		if code := p.Refuse(c.err); code != c.code || stderr.String() != c.text {
			t.Errorf("%v: %d, %q", c.err, code, stderr.String())
		}
	}
	stderr.Reset()
	if code := p.Print([]byte("text\n")); code != OK || stdout.String() != "text\n" || stderr.Len() > 0 {
		t.Errorf("%d, %q, %q", code, stdout.String(), stderr.String())
	}
	shut, w := io.Pipe()
	shut.Close()
	if code := New("demo", "", w, &stderr).Print([]byte("text\n")); code != Failed || stderr.Len() == 0 {
		t.Errorf("written to a closed pipe: %d, %q", code, stderr.String())
	}
}

func TestWriteJSON(t *testing.T) {
	var out bytes.Buffer
	if err := WriteJSON(&out, map[string]int{"laps": 3}); err != nil || out.String() != "{\n  \"laps\": 3\n}\n" {
		t.Errorf("%q, %v", out.String(), err)
	}
	if err := WriteJSON(&out, math.NaN()); err == nil {
		t.Error("NaN was written")
	}
}
