package abeam_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// The table of rules in the package comment names functions and tables that exist.
func TestTheTableOfRulesIsTrue(t *testing.T) {
	source, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	_, table, found := strings.Cut(string(source), "# Rules of the trade")
	names := regexp.MustCompile(`\b(wind|hold|area|entry|timing|tolerance)\.([A-Z]\w*(?:\.[A-Z]\w*)?)`).FindAllStringSubmatch(table, -1)
	files := regexp.MustCompile(`\w+\.csv`).FindAllString(table, -1)
	if !found || len(names) < 18 || len(files) < 14 {
		t.Fatalf("%d functions and %d tables", len(names), len(files))
	}
	declared := map[string]map[string]bool{}
	for _, name := range names {
		room := name[1]
		if declared[room] == nil {
			declared[room] = declarations(t, room)
		}
		if !declared[room][name[2]] {
			t.Errorf("%s is not there", name[0])
		}
	}
	for _, file := range files {
		if _, err := os.Stat(filepath.Join("internal", "reference", file)); err != nil {
			t.Error(err)
		}
	}
}

// declarations gives the functions and types of a room, methods as Type.Method.
func declarations(t *testing.T, room string) map[string]bool {
	t.Helper()
	found := map[string]bool{}
	if room == "area" {
		room = "hold/area"
	}
	files, err := filepath.Glob(filepath.Join(room, "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		f, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range f.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				name := d.Name.Name
				if d.Recv != nil {
					switch typ := d.Recv.List[0].Type.(type) {
					case *ast.Ident:
						name = typ.Name + "." + name
					case *ast.StarExpr:
						name = typ.X.(*ast.Ident).Name + "." + name
					}
				}
				found[name] = true
			case *ast.GenDecl:
				for _, s := range d.Specs {
					if s, ok := s.(*ast.TypeSpec); ok {
						found[s.Name.Name] = true
					}
				}
			}
		}
	}
	return found
}
