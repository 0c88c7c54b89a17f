package main

import (
	"bytes"
	"strings"
	"testing"
)

func TestList(t *testing.T) {
	for _, args := range [][]string{nil, {"-rows"}} {
		var out, stderr bytes.Buffer
		if code := run(args, &out, &stderr); code != 0 {
			t.Fatalf("%v: exit %d, %s", args, code, stderr.String())
		}
		for _, want := range []string{" 0 outside their tolerance", "PUBLISHED", "AIM 5-3-8 j.8(c)"} {
			if !strings.Contains(out.String(), want) {
				t.Errorf("%v: no %q", args, want)
			}
		}
	}
	var out, stderr bytes.Buffer
	if code := run([]string{"-nothing"}, &out, &stderr); code != 2 {
		t.Errorf("exit %d", code)
	}
}
