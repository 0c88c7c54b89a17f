package whole

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
)

func TestWrite(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "file")
	for _, text := range []string{"first", "second, and longer", ""} {
		if err := Write(name, []byte(text)); err != nil {
			t.Fatal(err)
		}
		got, err := os.ReadFile(name)
		if err != nil || !bytes.Equal(got, []byte(text)) {
			t.Fatalf("%q, %v", got, err)
		}
	}
	// What cannot be written leaves nothing beside it.
	if err := Write(filepath.Join(dir, "no", "file"), nil); err == nil {
		t.Error("written into a folder that is not there")
	}
	if err := os.Mkdir(filepath.Join(dir, "folder"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := Write(filepath.Join(dir, "folder"), nil); err == nil {
		t.Error("written over a folder")
	}
	if entries, err := os.ReadDir(dir); err != nil || len(entries) != 2 {
		t.Errorf("left behind: %v, %v", entries, err)
	}
}
