// Package whole writes files that are whole or not there.
package whole

import (
	"io"
	"os"
	"path/filepath"
)

// Write writes a file.
func Write(name string, data []byte) error {
	return Stream(name, func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	})
}

// Stream writes a file as it is made. It goes beside the target and is renamed, so that no
// reader sees half a file and a failure leaves the old one.
func Stream(name string, data func(w io.Writer) error) (err error) {
	f, err := os.CreateTemp(filepath.Dir(name), ".part-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			os.Remove(f.Name())
		}
	}()
	if err = data(f); err != nil {
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
