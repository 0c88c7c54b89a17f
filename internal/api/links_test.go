package api

import (
	"go/parser"
	"go/token"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var (
	link     = regexp.MustCompile(`\[\*?([A-Za-z]\w*(?:\.[A-Za-z]\w*){0,2})\]`)
	declared = regexp.MustCompile(`^(?:const|var|func|type) (?:\(\w+ \*?(\w+)(?:\[\w+\])?\) )?(\w+)(?:\[[^\]]*\])?(?:, (\w+))?`)
)

// broken lists the links of a comment that name nothing of the API. The names are those of
// a package, as in hold.Pattern.Circuit; what is of no package of the module is left alone.
func broken(room, comment string, names, rooms map[string]bool) []string {
	var all []string
	for _, m := range link.FindAllStringSubmatch(comment, -1) {
		name := m[1]
		first, _, dotted := strings.Cut(name, ".")
		switch {
		case dotted && rooms[first]:
		case token.IsExported(first):
			name = room + "." + name
		default:
			continue
		}
		if !names[name] {
			all = append(all, m[0])
		}
	}
	return all
}

// Every link in a comment of the library leads to something exported.
func TestLinks(t *testing.T) {
	const root = "../.."
	all, err := Rooms(root)
	if err != nil {
		t.Fatal(err)
	}
	names, rooms := map[string]bool{}, map[string]bool{}
	for _, r := range all {
		room := path.Base(r.Path)
		rooms[room] = true
		for _, line := range r.Lines() {
			m := declared.FindStringSubmatch(line)
			if m == nil {
				t.Fatalf("%q is not understood", line)
			}
			name := room + "."
			if m[1] != "" {
				name += m[1] + "."
			}
			name += m[2]
			names[name] = true
			if m[3] != "" && m[3] != "with" && m[3] != "embedded" {
				names[name+"."+m[3]] = true
			}
		}
	}
	links := 0
	for _, r := range all {
		folder := filepath.Join(root, strings.TrimPrefix(r.Path, Module))
		sources, err := filepath.Glob(filepath.Join(folder, "*.go"))
		if err != nil {
			t.Fatal(err)
		}
		for _, source := range sources {
			if strings.HasSuffix(source, "_test.go") {
				continue
			}
			f, err := parser.ParseFile(token.NewFileSet(), source, nil, parser.ParseComments|parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			for _, c := range f.Comments {
				links += len(link.FindAllString(c.Text(), -1))
				for _, l := range broken(path.Base(r.Path), c.Text(), names, rooms) {
					t.Errorf("%s: %s leads nowhere", source, l)
				}
			}
		}
	}
	if links < 500 {
		t.Errorf("only %d links were found", links)
	}
}

func TestBroken(t *testing.T) {
	names := map[string]bool{"hold.Leg": true, "hold.Pattern.Circuit": true, "abeam.Knots": true}
	rooms := map[string]bool{"hold": true, "abeam": true}
	const comment = "[Leg] [*Leg] [Pattern.Circuit] [abeam.Knots] [hold.Leg] [time.Time] [kt]"
	if got := broken("hold", comment, names, rooms); len(got) > 0 {
		t.Error(got)
	}
	for _, bad := range []string{"[Legs]", "[Pattern.Fly]", "[abeam.Leg]", "[hold.Pattern.Fly]"} {
		if got := broken("hold", "see "+bad, names, rooms); len(got) != 1 || got[0] != bad {
			t.Errorf("%s: %q", bad, got)
		}
	}
}
