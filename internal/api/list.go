package api

import (
	"fmt"
	"go/ast"
	"go/printer"
	"go/token"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Lines lists the API of the package, sorted: every exported constant, variable,
// function, method, type, field and method of an interface, each on a line.
func (r Room) Lines() []string {
	var lines []string
	for _, f := range r.asts {
		for _, d := range f.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				if exported(d) {
					lines = append(lines, r.text(&ast.FuncDecl{Recv: d.Recv, Name: d.Name, Type: d.Type}))
				}
			case *ast.GenDecl:
				lines = append(lines, r.declared(d)...)
			}
		}
	}
	slices.Sort(lines)
	return lines
}

func (r Room) declared(d *ast.GenDecl) []string {
	var lines []string
	var last *ast.ValueSpec // whose type and value a constant without repeats
	for i, spec := range d.Specs {
		switch s := spec.(type) {
		case *ast.TypeSpec:
			if s.Name.IsExported() {
				lines = append(lines, r.typed(s)...)
			}
		case *ast.ValueSpec:
			if d.Tok == token.CONST && s.Type == nil && s.Values == nil {
				s = &ast.ValueSpec{Names: s.Names, Type: last.Type, Values: last.Values}
			}
			last = s
			for k, name := range s.Names {
				if name.IsExported() {
					lines = append(lines, r.value(d.Tok, s, k, i))
				}
			}
		}
	}
	return lines
}

// value is a constant with its value, iota in numbers, or a variable with its type.
func (r Room) value(kind token.Token, s *ast.ValueSpec, k, iota int) string {
	line := fmt.Sprintf("%v %s", kind, s.Names[k].Name)
	if s.Type != nil {
		line += " " + r.text(s.Type)
	}
	if k < len(s.Values) && (kind == token.CONST || s.Type == nil) {
		line += " = " + iotaWord.ReplaceAllString(r.text(s.Values[k]), strconv.Itoa(iota))
	}
	return line
}

var iotaWord = regexp.MustCompile(`\biota\b`)

// typed is a type, with a line for each of its exported fields or methods. That there
// are unexported ones is said, since it keeps others from writing or embedding it.
func (r Room) typed(s *ast.TypeSpec) []string {
	name := s.Name.Name
	head := "type " + name
	if s.TypeParams != nil {
		head += "[" + r.fields(s.TypeParams) + "]"
	}
	if s.Assign.IsValid() {
		head += " ="
	}
	var members *ast.FieldList
	switch t := s.Type.(type) {
	case *ast.StructType:
		head += " struct"
		members = t.Fields
	case *ast.InterfaceType:
		head += " interface"
		members = t.Methods
	default:
		return []string{head + " " + r.text(t)}
	}
	var lines []string
	hidden := false
	for _, m := range members.List {
		of := " " + r.text(m.Type)
		if _, ok := s.Type.(*ast.InterfaceType); ok {
			of = strings.TrimPrefix(of, " func")
		}
		if m.Names == nil {
			lines = append(lines, fmt.Sprintf("type %s, embedded%s", name, of))
		}
		for _, n := range m.Names {
			if n.IsExported() {
				lines = append(lines, fmt.Sprintf("type %s, %s%s", name, n.Name, of))
			} else {
				hidden = true
			}
		}
	}
	if hidden {
		head += ", with unexported members"
	}
	return append(lines, head)
}

func (r Room) fields(l *ast.FieldList) string {
	var all []string
	for _, f := range l.List {
		for _, n := range f.Names {
			all = append(all, n.Name+" "+r.text(f.Type))
		}
	}
	return strings.Join(all, ", ")
}

// text is the source of a node on one line.
func (r Room) text(node any) string {
	var b strings.Builder
	if err := printer.Fprint(&b, r.files, node); err != nil {
		return err.Error()
	}
	line := strings.Join(strings.Fields(b.String()), " ")
	return strings.NewReplacer("( ", "(", ", )", ")", " )", ")").Replace(line)
}
