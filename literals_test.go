package abeam_test

import (
	"go/scanner"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A course written 070 is octal 56 to Go, and nothing says so. No file of the project
// may hold such a literal.
func TestNoOctalLiterals(t *testing.T) {
	if got := octals([]byte("package p\nvar a, b, c, d, e = 070, 0, 0x10, 0o17, 0.5\n")); len(got) != 1 {
		t.Fatalf("the search itself finds %v", got)
	}
	files := 0
	err := filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") {
			return err
		}
		source, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		files++
		for _, literal := range octals(source) {
			t.Errorf("%s: the literal %s is octal", path, literal)
		}
		return nil
	})
	if err != nil || files < 50 {
		t.Errorf("%d files searched, %v", files, err)
	}
}

func octals(source []byte) (found []string) {
	var s scanner.Scanner
	set := token.NewFileSet()
	s.Init(set.AddFile("", set.Base(), len(source)), source, nil, 0)
	for {
		_, tok, literal := s.Scan()
		if tok == token.EOF {
			return found
		}
		if tok == token.INT && len(literal) > 1 && literal[0] == '0' && strings.ContainsAny(literal[1:2], "0123456789_") {
			found = append(found, literal)
		}
	}
}
