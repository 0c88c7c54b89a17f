// Package chromium opens pages in tests with the Chromium that is installed.
package chromium

import (
	"bytes"
	"context"
	"os/exec"
	"testing"
	"time"
)

// Browser is the Chromium that is installed; a test without one is skipped.
type Browser struct{ path string }

// Find looks for a Chromium.
func Find(t *testing.T) Browser {
	t.Helper()
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return Browser{path}
		}
	}
	t.Skip("no chromium, chromium-browser or google-chrome is installed: the page is not opened")
	return Browser{}
}

// Open opens a file without a window and gives what was printed, such as the document
// with "--dump-dom".
func (b Browser) Open(t *testing.T, file string, more ...string) []byte {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), 2*time.Minute)
	defer cancel()
	args := append([]string{
		"--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--user-data-dir=" + t.TempDir(), "--window-size=1320,2400",
	}, more...)
	var out, log bytes.Buffer
	cmd := exec.CommandContext(ctx, b.path, append(args, "file://"+file)...)
	cmd.Stdout, cmd.Stderr = &out, &log
	if err := cmd.Run(); err != nil {
		t.Fatalf("%v\n%s", err, log.String())
	}
	return out.Bytes()
}
