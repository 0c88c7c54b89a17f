package reference

import (
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"
	"testing"
)

// data are the files that a test could take figures from, with who reads them.
var data = map[string]string{
	"internal/reference/*.csv":              "tables, read by Rows",
	"internal/reference/aloft_*.txt":        "inputs of rows, read by Bulletin",
	"internal/reference/tracks/*.csv.gz":    "inputs of rows, read by Track",
	"internal/reference/holds/*.csv.gz":     "data sets of one source each, read by the package holds",
	"tolerance/testdata/fuzz/FuzzReadCSV/*": "logs without a figure",
	"internal/api/api.txt":                  "the library's own names, no figure",
}

// A table of figures has one reader, which wants a source and a class of every row. So
// no data file lies elsewhere in internal or in a testdata folder.
func TestNoTablesElsewhere(t *testing.T) {
	used := map[string]bool{}
	err := fs.WalkDir(os.DirFS("../.."), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if name != "." && strings.HasPrefix(d.Name(), ".") || d.Name() == "rapid" { // what a failed property leaves
				return fs.SkipDir
			}
			return nil
		}
		parts := strings.Split(name, "/")
		if parts[0] != "internal" && !slices.Contains(parts, "testdata") || slices.Contains([]string{".go", ".md"}, path.Ext(name)) {
			return nil
		}
		for pattern := range data {
			if ok, err := path.Match(pattern, name); err != nil || ok {
				used[pattern] = true
				return err
			}
		}
		t.Errorf("%s: a table belongs into internal/reference; any other file is to be named here with its reader", name)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for pattern, reader := range data {
		if !used[pattern] {
			t.Errorf("there is no %s (%s)", pattern, reader)
		}
	}
}
