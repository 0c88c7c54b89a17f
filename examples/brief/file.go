package main

import (
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
