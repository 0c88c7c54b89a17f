// Package whole writes files that are there in full or not at all.
package whole

import (
	"os"
	"path/filepath"
)

// Write writes beside the target and renames, so that no reader sees half a file and a
// failure leaves the old one.
func Write(name string, data []byte) (err error) {
	f, err := os.CreateTemp(filepath.Dir(name), ".whole-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			os.Remove(f.Name())
		}
	}()
	if _, err = f.Write(data); err != nil {
		f.Close()
		return err
	}
	if err = f.Chmod(0o644); err != nil {
		f.Close()
		return err
	}
	if err = f.Close(); err != nil {
		return err
	}
	return os.Rename(f.Name(), name)
}
