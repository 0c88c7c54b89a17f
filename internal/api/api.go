// Package api reads the library's own API from its source: what api.txt lists, so that
// every change of it is seen in review, and which exported functions the Examples and
// the reference rows reach. Only its tests use it.
package api

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// Module is the path of the module whose API it is.
const Module = "github.com/holdingfix/abeam"

// Room is a package that others may import.
type Room struct {
	Path  string // of the import
	files *token.FileSet
	asts  []*ast.File
}

// Rooms parses every package under the root of the module that is not internal, nor of
// another module, in the order of their paths.
func Rooms(root string) ([]Room, error) {
	var rooms []Room
	err := filepath.WalkDir(root, func(dir string, d fs.DirEntry, err error) error {
		if err != nil || !d.IsDir() {
			return err
		}
		if dir != root {
			_, err := os.Stat(filepath.Join(dir, "go.mod"))
			if err == nil || strings.HasPrefix(d.Name(), ".") || d.Name() == "internal" || d.Name() == "testdata" {
				return fs.SkipDir
			}
		}
		relative, err := filepath.Rel(root, dir)
		if err != nil {
			return err
		}
		r, err := parse(dir, path.Join(Module, filepath.ToSlash(relative)))
		if len(r.asts) > 0 {
			rooms = append(rooms, r)
		}
		return err
	})
	return rooms, err
}

// parse reads the files of a package but for its tests.
func parse(dir, importPath string) (Room, error) {
	r := Room{Path: importPath, files: token.NewFileSet()}
	names, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		return Room{}, err
	}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(r.files, name, nil, parser.SkipObjectResolution)
		if err != nil {
			return Room{}, err
		}
		r.asts = append(r.asts, f)
	}
	return r, nil
}

// Func is an exported function, or an exported method of an exported type.
type Func struct {
	Name     string // as in hold.Pattern.Circuit
	File     string // under the path of its package, as a coverage profile has it
	From, To Place  // of its body
}

// Place is where something stands in a file, counted from 1.
type Place struct{ Line, Column int }

// before reports whether p is no further on in the file than q.
func (p Place) before(q Place) bool {
	return p.Line < q.Line || p.Line == q.Line && p.Column <= q.Column
}

// Funcs lists the functions and methods in the order of their names.
func (r Room) Funcs() []Func {
	var all []Func
	for _, f := range r.asts {
		for _, d := range f.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if !ok || !exported(fn) {
				continue
			}
			name := path.Base(r.Path) + "."
			if on := receiver(fn); on != "" {
				name += on + "."
			}
			all = append(all, Func{
				Name: name + fn.Name.Name,
				File: path.Join(r.Path, filepath.Base(r.files.Position(fn.Pos()).Filename)),
				From: r.place(fn.Body.Lbrace), To: r.place(fn.Body.Rbrace),
			})
		}
	}
	slices.SortFunc(all, func(a, b Func) int { return strings.Compare(a.Name, b.Name) })
	return all
}

func (r Room) place(p token.Pos) Place {
	at := r.files.Position(p)
	return Place{at.Line, at.Column}
}

func exported(fn *ast.FuncDecl) bool {
	on := receiver(fn)
	return fn.Name.IsExported() && (on == "" || ast.IsExported(on))
}

// receiver is the type whose method it is, "" for a function.
func receiver(fn *ast.FuncDecl) string {
	if fn.Recv == nil {
		return ""
	}
	t := fn.Recv.List[0].Type
	for {
		switch x := t.(type) {
		case *ast.StarExpr:
			t = x.X
		case *ast.IndexExpr:
			t = x.X
		case *ast.Ident:
			return x.Name
		default:
			return ""
		}
	}
}
