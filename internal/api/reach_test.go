package api

import (
	"context"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// excused are exported functions that no reference row and no Example reaches, with the
// reason. There is none.
var excused = map[string]string{}

// TestReached runs the Examples with an output and the reference rows with coverage of
// all rooms. It starts the go tool on the rooms and on internal/verification, not on
// this package, so that it does not start itself. The tool caches the inner run; the
// outer one is cached as long as no file of the module changes, all of which it looks
// at.
func TestReached(t *testing.T) {
	tool, err := exec.LookPath("go")
	if err != nil {
		t.Skipf("no process can be started here, or there is no go tool, which is needed to run the Examples with coverage: %v", err)
	}
	const root = "../.."
	rooms, err := Rooms(root)
	if err != nil {
		t.Fatal(err)
	}
	lookAt(t, root)
	var paths []string
	var funcs []Func
	for _, r := range rooms {
		paths = append(paths, r.Path)
		funcs = append(funcs, r.Funcs()...)
	}
	ctx := t.Context()
	if end, ok := t.Deadline(); ok { // so that the tool does not outlive the test
		var cancel context.CancelFunc
		ctx, cancel = context.WithDeadline(ctx, end.Add(-5*time.Second))
		defer cancel()
	}
	profile := filepath.Join(t.TempDir(), "profile")
	args := []string{"test", "-run", "^(Example|TestReference$)", "-coverpkg", strings.Join(paths, ","), "-coverprofile", profile}
	cmd := exec.CommandContext(ctx, tool, append(append(args, paths...), Module+"/internal/verification")...)
	cmd.Dir = root
	// For this machine, whatever machine the test was built for: what is reached is the
	// same, and the tool would not know how to run the other's programs.
	cmd.Env = append(os.Environ(), "GOOS=", "GOARCH=", "GOAMD64=")
	start := time.Now()
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v: %v\n%s", cmd, err, out)
	}
	text, err := os.ReadFile(profile)
	if err != nil {
		t.Fatal(err)
	}
	reached, err := Reached(funcs, string(text))
	if err != nil {
		t.Fatal(err)
	}
	for _, complaint := range Complaints(funcs, reached, excused) {
		t.Error(complaint)
	}
	t.Logf("%d of %d exported functions and methods of %d packages are reached; the go tool took %v", len(reached), len(funcs), len(rooms), time.Since(start).Round(time.Second))
}

// lookAt opens every folder of the module: the go tool notes what a test opens and runs
// it again when a file there has changed, of which it would not know from the process
// that the test starts.
func lookAt(t *testing.T, root string) {
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if d != nil && d.IsDir() && (d.Name() == ".git" || d.Name() == "examples") {
			return fs.SkipDir
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// The functions of demo.go below, and what is said where they are missed.
func TestComplaints(t *testing.T) {
	dir := t.TempDir()
	const source = `package demo
func One() int { return 1 }
func two() int { return 2 }
type T[K any] struct{}
func (t *T[K]) Three() int {
	return 3 }
func (t T[K]) four() {}
type u struct{}
func (u) Five() {}
`
	for name, text := range map[string]string{"demo.go": source, "demo_test.go": "package demo\nfunc Six() {}\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	r, err := parse(dir, "x/demo")
	if err != nil {
		t.Fatal(err)
	}
	funcs := r.Funcs()
	if len(funcs) != 2 || funcs[0].Name != "demo.One" || funcs[1].Name != "demo.T.Three" || funcs[0].File != "x/demo/demo.go" {
		t.Fatalf("%+v", funcs)
	}
	const head = "mode: set\n"
	one, other, three := "x/demo/demo.go:2.16,2.28 1 1\n", "x/demo/demo.go:3.16,3.28 1 1\n", "x/demo/demo.go:5.28,6.11 1 1\n"
	missedOne, missedThree := "demo.One is reached by no reference row and no Example with an output", "demo.T.Three is reached by no reference row and no Example with an output"
	for name, c := range map[string]struct {
		profile string
		excused map[string]string
		want    []string
	}{
		"both reached":           {head + one + three, nil, nil},
		"one missed":             {head + three, nil, []string{missedOne}},
		"one not run":            {head + strings.Replace(one, "1 1\n", "1 0\n", 1) + three, nil, []string{missedOne}},
		"not run, then run":      {head + strings.Replace(one, "1 1\n", "1 0\n", 1) + one + three, nil, nil},
		"another file":           {head + strings.Replace(one, "x/", "y/", 1) + three, nil, []string{missedOne}},
		"its neighbour":          {head + other + three, nil, []string{missedOne}},
		"nothing":                {head, nil, []string{missedOne, missedThree}},
		"excused":                {head + three, map[string]string{"demo.One": "a reason"}, nil},
		"excused but reached":    {head + one + three, map[string]string{"demo.One": "a reason"}, []string{"demo.One is excused but reached"}},
		"excused, not there":     {head + one + three, map[string]string{"demo.two": "a reason"}, []string{"demo.two is excused but does not exist"}},
		"excused, not exported":  {head + one + three, map[string]string{"demo.u.Five": "a reason"}, []string{"demo.u.Five is excused but does not exist"}},
		"excused, without cause": {head + three, map[string]string{"demo.One": ""}, []string{"demo.One is excused without a reason"}},
	} {
		reached, err := Reached(funcs, c.profile)
		if err != nil {
			t.Fatal(err)
		}
		if got := Complaints(funcs, reached, c.excused); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
	for _, bad := range []string{"x/demo/demo.go\n", "x/demo/demo.go:2.16 1 1\n", "\n"} {
		if reached, err := Reached(funcs, head+bad); err == nil {
			t.Errorf("%q: %v", bad, reached)
		}
	}
}
