package main

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"image"
	_ "image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/hold"
)

func TestPlots(t *testing.T) {
	dir := t.TempDir()
	png := filepath.Join(dir, "hold.png")
	for _, args := range [][]string{nil, {"-wind", "0/0"}, {"-turns", "left", "-course", "360"}, {"-wind", "89/60"}} {
		if code, _, stderr := brief(append([]string{"-plot", png}, args...)...); code != program.OK {
			t.Fatalf("%v: %s", args, stderr)
		}
		f, err := os.Open(png)
		if err != nil {
			t.Fatal(err)
		}
		img, _, err := image.Decode(f)
		f.Close()
		if err != nil || img.Bounds().Dx() < 300 || img.Bounds().Dy() < 300 {
			t.Fatalf("%v: %v", args, err)
		}
		// The three tracks are there, each in its colour.
		seen := map[string]bool{}
		for y := range img.Bounds().Dy() {
			for x := range img.Bounds().Dx() {
				r, g, b, _ := img.At(x, y).RGBA()
				seen[fmt.Sprint(r>>8, g>>8, b>>8)] = true
			}
		}
		for name, c := range map[string]string{"still air": "130 130 130", "exact": "0 90 160"} {
			if !seen[c] {
				t.Errorf("%v: no track of %s", args, name)
			}
		}
	}
	svg := filepath.Join(dir, "hold.svg")
	if code, _, stderr := brief("-plot", svg); code != program.OK {
		t.Fatal(stderr)
	}
	text, err := os.ReadFile(svg)
	if err != nil {
		t.Fatal(err)
	}
	d := xml.NewDecoder(bytes.NewReader(text))
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
	}
	for _, want := range []string{"TARNO", "exact", "still air", "not for navigation"} {
		if !bytes.Contains(text, []byte(want)) {
			t.Errorf("the drawing has no %q", want)
		}
	}
	// A failure leaves what was there, and nothing beside it.
	if code, _, _ := brief("-plot", svg, "-wind", "270/130"); code != program.Failed {
		t.Errorf("exit %d", code)
	}
	after, err := os.ReadFile(svg)
	if err != nil || !bytes.Equal(after, text) {
		t.Errorf("the old drawing is gone: %v", err)
	}
	if entries, _ := os.ReadDir(dir); len(entries) != 2 {
		t.Errorf("left behind: %v", entries)
	}
}

// The drawing keeps its proportions: a mile east is as long as a mile north.
func TestMapFollowsTheCompass(t *testing.T) {
	for _, tc := range []struct {
		inbound       float64
		turns         hold.Turn
		east, northly float64 // of a point one mile along and half a mile abreast
	}{
		{0, hold.Right, 0.5, 1}, {90, hold.Right, 1, -0.5}, {180, hold.Right, -0.5, -1}, {0, hold.Left, -0.5, 1}, {270, hold.Left, -1, -0.5},
	} {
		b := &Briefing{Hold: Hold{Inbound: tc.inbound, Turns: tc.turns}}
		p := b.onMap(hold.Point{Along: 1, Abreast: 0.5})
		if math.Hypot(p.X-tc.east, p.Y-tc.northly) > 1e-12 {
			t.Errorf("inbound %v, %v turns: %v", tc.inbound, tc.turns, p)
		}
	}
}

type brokenPipe struct{}

func (brokenPipe) Write([]byte) (int, error) { return 0, errors.New("broken pipe") }

func TestBrokenOutput(t *testing.T) {
	var stderr bytes.Buffer
	if code := run(nil, brokenPipe{}, &stderr); code != program.Failed || !strings.Contains(stderr.String(), "broken pipe") {
		t.Errorf("exit %d, %s", code, stderr.String())
	}
}
