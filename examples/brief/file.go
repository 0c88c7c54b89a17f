package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// formatOf takes the format of a file to be written from its name; no name, no format.
func formatOf(flag, name string, formats ...string) (string, error) {
	if name == "" {
		return "", nil
	}
	format := strings.TrimPrefix(strings.ToLower(filepath.Ext(name)), ".")
	if !slices.Contains(formats, format) {
		return "", field(flag, name, "a file that ends in ."+strings.Join(formats, " or ."))
	}
	return format, nil
}

// writeWhole writes beside the target and renames, so that no reader sees half a file
// and a failure leaves the old one.
func writeWhole(name string, data []byte) (err error) {
	f, err := os.CreateTemp(filepath.Dir(name), ".brief-*")
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
