package main

import (
	"fmt"
	"html"
	"image"
	_ "image/png"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/holdingfix/abeam/examples/internal/chromium"
)

// The page opened in a browser shows the figures of the JSON, and its lines, bands and
// marks are there to be seen.
func TestPageInABrowser(t *testing.T) {
	browser := chromium.Find(t)
	dir := t.TempDir()
	page := filepath.Join(dir, "page.html")
	r := reportOf(t, "-html", page)
	dom := browser.Open(t, page, "--dump-dom")
	shown := map[string]string{}
	for _, m := range regexp.MustCompile(`data-figure="([^"]+)"[^>]*>([^<]*)<`).FindAllSubmatch(dom, -1) {
		shown[html.UnescapeString(string(m[1]))] = html.UnescapeString(string(m[2]))
	}
	want := map[string]string{
		"verdict": r.Verdict, "standard": r.Hold.Standard, "samples": fmt.Sprint(r.Log.Samples), "log name": r.Log.Name,
		"wind from": fmt.Sprint(r.Wind.From), "wind speed": fmt.Sprint(r.Wind.Speed), "margin": fmt.Sprint(r.Protected.Margin),
	}
	for _, l := range r.Laps {
		want[fmt.Sprintf("lap %d inbound", l.Lap)] = fmt.Sprintf("%.1f", l.Inbound)
	}
	for i, e := range r.Excursions {
		want[fmt.Sprintf("excursion %d for", i)] = fmt.Sprintf("%.1f", e.For)
	}
	for _, i := range r.Items {
		want[i.Item+" verdict"] = i.Verdict
		if i.Why == "" {
			want[i.Item+" within"] = fmt.Sprintf("%.1f", i.Share)
		}
	}
	for name, w := range want {
		if got, ok := shown[name]; !ok || got != w {
			t.Errorf("%s: shown %q, computed %q", name, got, w)
		}
	}
	if len(shown) != len(want) {
		t.Errorf("%d figures shown, %d computed", len(shown), len(want))
	}
	shot := filepath.Join(dir, "page.png")
	browser.Open(t, page, "--screenshot="+shot)
	f, err := os.Open(shot)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, _, err := image.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]int{}
	for y := range img.Bounds().Dy() {
		for x := range img.Bounds().Dx() {
			red, green, blue, _ := img.At(x, y).RGBA()
			seen[fmt.Sprintf("#%02x%02x%02x", red>>8, green>>8, blue>>8)]++
		}
	}
	for name, c := range map[string]struct {
		colour string
		least  int // pixels
	}{
		"track and bars": {inkTrack, 3000}, "exact circuit": {inkExact, 300}, "limits": {inkWithin, 20000}, "excursions": {inkBeyond, 100},
	} {
		if seen[c.colour] < c.least {
			t.Errorf("%s: %d pixels of %s", name, seen[c.colour], c.colour)
		}
	}
	if keep := os.Getenv("DEBRIEF_KEEP_SCREENSHOT"); keep != "" {
		text, err := os.ReadFile(shot)
		if err == nil {
			err = os.WriteFile(keep, text, 0o644)
		}
		if err != nil {
			t.Error(err)
		}
	}
}
