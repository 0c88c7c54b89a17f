package api

import (
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write api.txt as the API now is")

// A change of the API shows as a change of api.txt, which is part of the commit.
func TestAPI(t *testing.T) {
	rooms, err := Rooms("../..")
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, r := range rooms {
		lines = append(append(lines, "package "+r.Path), r.Lines()...)
		lines = append(lines, "")
	}
	now := strings.Join(lines, "\n")
	if *update {
		if err := os.WriteFile("api.txt", []byte(now), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	listed, err := os.ReadFile("api.txt")
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(listed), "\n"), lines); diff != "" {
		t.Errorf("the API is not as listed (- listed, + now):\n%s\nIf the change is meant: go test ./internal/api -run TestAPI -update", diff)
	}
}

func TestLines(t *testing.T) {
	dir := t.TempDir()
	const source = `package demo

import "errors"

// Doc is left out.
const (
	A Kind = 1 << iota // so is this
	b
	C
	D, E = 1, "two"
)

const F = 3

var (
	ErrG       = errors.New("g")
	H, i int   = 1, 2
)

type Kind int

type Alias = Kind

type J[T any] struct {
	K, L float64
	M    func(x int) error
	n    int
	Kind
}

type O struct {
	P int
}

type Q interface {
	R(a, b int,
		c string) (x int, err error)
	s()
}

func (j *J[T]) U(
	v int,
	w ...string,
) (x, y float64, err error) {
	return
}

func (j J[T]) x() {}

func (k hidden) Y() {}

type hidden int

func Z(f func() int) [2]J[int] { return [2]J[int]{} }
`
	if err := os.WriteFile(filepath.Join(dir, "demo.go"), []byte(source), 0o644); err != nil {
		t.Fatal(err)
	}
	r, err := parse(dir, "x/demo")
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"const A Kind = 1 << 0",
		"const C Kind = 1 << 2",
		"const D = 1",
		`const E = "two"`,
		"const F = 3",
		"func (j *J[T]) U(v int, w ...string) (x, y float64, err error)",
		"func Z(f func() int) [2]J[int]",
		"type Alias = Kind",
		"type J[T any] struct, with unexported members",
		"type J, K float64",
		"type J, L float64",
		"type J, M func(x int) error",
		"type J, embedded Kind",
		"type Kind int",
		"type O struct",
		"type O, P int",
		"type Q interface, with unexported members",
		"type Q, R(a, b int, c string) (x int, err error)",
		`var ErrG = errors.New("g")`,
		"var H int",
	}
	slices.Sort(want)
	if diff := cmp.Diff(want, r.Lines()); diff != "" {
		t.Error(diff)
	}
}

func TestParseRefuses(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "demo.go"), []byte("package"), 0o644); err != nil {
		t.Fatal(err)
	}
	if r, err := parse(dir, "x/demo"); err == nil {
		t.Errorf("%+v", r)
	}
	if rooms, err := Rooms(filepath.Join(dir, "none")); err == nil {
		t.Errorf("%v", rooms)
	}
}
