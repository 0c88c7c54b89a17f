package verification

import (
	"errors"
	"math"
	"testing"

	"github.com/holdingfix/abeam/internal/reference"
)

// The judge is judged: an answer counts at the tolerance and not beyond it, and whatever could
// not be computed or read does not pass.
func TestRecompute(t *testing.T) {
	gives := func(x float64) Figure { return func(*Reader) (Value, error) { return number(x), nil } }
	says := func(s string) Figure { return func(*Reader) (Value, error) { return Value{Text: s}, nil } }
	row := func(unit, want string) reference.Row { return reference.Row{Unit: unit, Want: want, Tol: 0.5} }
	for _, c := range []struct {
		name      string
		row       reference.Row
		figure    Figure
		ok        bool
		deviation float64
	}{
		{"exact", row("kt", "10"), gives(10), true, 0},
		{"at the tolerance", row("kt", "10"), gives(10.5), true, 0.5},
		{"at the tolerance below", row("kt", "10"), gives(9.5), true, 0.5},
		{"beyond it", row("kt", "10"), gives(10.75), false, 0.75},
		{"across north", row("deg", "359.75"), gives(0.25), true, 0.5},
		{"a circle of knots is none", row("kt", "360"), gives(0), false, 360},
		{"the words", row("text", "parallel"), says("parallel"), true, 0},
		{"other words", row("text", "parallel"), says("direct"), false, 1},
	} {
		res := recompute(c.row, c.figure)
		if res.OK() != c.ok || res.Deviation != c.deviation || res.Err != nil {
			t.Errorf("%s: OK %v, deviation %v, %v", c.name, res.OK(), res.Deviation, res.Err)
		}
	}
	for name, res := range map[string]Result{
		"no figure":             recompute(row("kt", "10"), nil),
		"a failure":             recompute(row("kt", "10"), func(*Reader) (Value, error) { return number(10.0), errors.New("no") }),
		"an input missing":      recompute(row("kt", "0"), func(in *Reader) (Value, error) { return number(in.Num("TAS")), nil }),
		"a text missing":        recompute(row("text", ""), func(in *Reader) (Value, error) { return Value{Text: in.Text("turn")}, nil }),
		"not a number":          recompute(row("kt", "10"), gives(math.NaN())),
		"infinite":              recompute(row("kt", "10"), gives(math.Inf(-1))),
		"a text for a number":   recompute(row("kt", "0"), says("calm")),
		"a want that is no one": recompute(row("kt", "ten"), gives(10)),
	} {
		if res.OK() || res.Err == nil {
			t.Errorf("%s passed: %+v", name, res)
		}
	}
}

func TestReader(t *testing.T) {
	in := &Reader{Inputs: reference.Inputs{"a": "2.5", "turn": "left", "b": "x"}}
	if in.Num("a") != 2.5 || in.Or("a", 1) != 2.5 || in.Or("c", 1) != 1 || in.Text("turn") != "left" || in.err != nil {
		t.Errorf("%+v", in)
	}
	in.Num("b")
	first := in.err
	in.Num("c")
	in.Text("d")
	if first == nil || in.err != first {
		t.Errorf("first %v, kept %v", first, in.err)
	}
}

// A figure that is given nothing, or words in every place, computes nothing.
func TestFiguresRefuse(t *testing.T) {
	rows, err := reference.Rows()
	if err != nil {
		t.Fatal(err)
	}
	figures := Figures()
	for _, row := range rows {
		if len(row.Inputs) == 0 {
			continue
		}
		empty, words := row, row
		empty.Inputs, words.Inputs = reference.Inputs{}, reference.Inputs{}
		for key := range row.Inputs {
			words.Inputs[key] = "nonsense"
		}
		for name, bad := range map[string]reference.Row{"no inputs": empty, "nonsense": words} {
			if res := recompute(bad, figures[row.Figure]); res.Err == nil {
				t.Errorf("%s %s: %s gave %+v", row.ID, row.Figure, name, res.Got)
			}
		}
	}
}
