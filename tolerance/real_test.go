package tolerance

import (
	"bytes"
	"compress/gzip"
	"encoding/csv"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
)

// byHand is what a person read off the plots; see testdata/tracks/README.md.
type byHand struct {
	file     string
	isHold   bool
	turns    hold.Turn
	inbound  float64
	passages []float64
	laps     []float64
}

func handTable(t *testing.T) []byHand {
	t.Helper()
	text, err := os.ReadFile("testdata/tracks/by_hand.csv")
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	floats := func(s string) (out []float64) {
		for _, f := range strings.Fields(s) {
			x, err := strconv.ParseFloat(f, 64)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, x)
		}
		return out
	}
	var table []byHand
	for _, r := range rows[1:] {
		h := byHand{file: r[0], isHold: r[1] == "yes", passages: floats(r[5]), laps: floats(r[6])}
		if err := h.turns.UnmarshalText([]byte(r[2])); err != nil {
			t.Fatal(err)
		}
		if h.isHold {
			h.inbound = floats(r[3])[0]
			if second := floats(r[7]); len(second) > 0 {
				h.laps = second
			}
			if n := strconv.Itoa(len(h.laps)); r[4] != n {
				t.Fatalf("%s: %s circuits but %s lap times", h.file, r[4], n)
			}
		}
		table = append(table, h)
	}
	if len(table) != 13 {
		t.Fatalf("%d tracks", len(table))
	}
	return table
}

func realTrack(t testing.TB, name string) Log {
	t.Helper()
	packed, err := os.ReadFile(filepath.Join("testdata/tracks", name+".csv.gz"))
	if err != nil {
		t.Fatal(err)
	}
	z, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	log, err := ReadCSV(bytes.NewReader(text), nil)
	if err != nil {
		t.Fatal(err)
	}
	return log
}

var stacks = map[string][2]float64{
	"bnn": {51.726111, -0.549722}, "lam": {51.646111, 0.151667}, "big": {51.330875, 0.034811}, "ock": {51.305, -0.447222},
}

func stackFix(file string) (hold.Fix, bool) {
	for name, at := range stacks {
		if strings.Contains(file, name) {
			return hold.Fix{Ident: strings.ToUpper(name), Position: s2.LatLngFromDegrees(at[0], at[1])}, true
		}
	}
	return hold.Fix{}, false
}

// What a person reads off the plot is what the code reads out of the track. A time read
// off a plot is good to 5 s, a lap is the difference of two, and the samples are 5 s
// apart: 15 s.
func TestRealTracksAsReadByHand(t *testing.T) {
	const courseTol, lapTol = 5, 15
	var worstCourse, worstLap, worstFix float64
	laps := 0
	for _, h := range handTable(t) {
		log := realTrack(t, h.file)
		alone, err := Infer(log)
		if !h.isHold {
			if err == nil {
				t.Errorf("%s: a hold is inferred where there is none: %+v", h.file, alone)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", h.file, err)
			continue
		}
		for _, how := range []string{"from the track alone", "at the fix"} {
			in := alone
			if how == "at the fix" {
				fix, ok := stackFix(h.file)
				if !ok {
					continue
				}
				worstFix = math.Max(worstFix, alone.Pattern.Fix().Position.Distance(fix.Position).Radians()*3440)
				if in, err = InferAt(log, fix); err != nil {
					t.Errorf("%s: %v", h.file, err)
					continue
				}
			}
			f, err := Cut(log, in.Pattern)
			if err != nil {
				t.Errorf("%s %s: %v", h.file, how, err)
				continue
			}
			off := math.Abs(float64(in.Pattern.Inbound().Sub(abeam.NewBearing(h.inbound))))
			worstCourse = math.Max(worstCourse, off)
			if in.Pattern.Turn() != h.turns || off > courseTol || len(f.Laps) != len(h.laps) {
				t.Errorf("%s %s: %v turns, inbound %.1f, %d circuits (%v); by hand %v, %.0f, %d", h.file, how,
					in.Pattern.Turn(), float64(in.Pattern.Inbound()), len(f.Laps), f.Passages, h.turns, h.inbound, len(h.laps))
				continue
			}
			for i, lap := range f.Laps {
				d := lap.Span().Length() - time.Duration(h.laps[i])*time.Second
				worstLap = math.Max(worstLap, math.Abs(d.Seconds()))
				laps++
				if math.Abs(d.Seconds()) > lapTol {
					t.Errorf("%s %s: lap %d took %v, by hand %v s", h.file, how, i+1, lap.Span().Length(), h.laps[i])
				}
			}
		}
	}
	t.Logf("%d laps, worst %.1f s; worst course %.1f degrees; worst inferred fix %.2f NM", laps, worstLap, worstCourse, worstFix)
}
