package verification

import (
	"math"
	"testing"

	"github.com/holdingfix/abeam/internal/reference"
)

// A row that cannot be computed, or whose answer is nothing to compare, is not OK.
func TestRefuses(t *testing.T) {
	row := reference.Row{Figure: "sum", Inputs: reference.Inputs{"a": "1"}, Want: "0", Unit: "kt", Tol: 0.5}
	sum := func(in *Reader) (Value, error) { return number(in.Num("a") - 1), nil }
	if r := recompute(row, sum); !r.OK() {
		t.Fatalf("a good row: %+v", r)
	}
	for name, figure := range map[string]Figure{
		"computed by no code": nil,
		"not a number":        func(*Reader) (Value, error) { return number(math.NaN()), nil },
		"infinite":            func(*Reader) (Value, error) { return number(math.Inf(-1)), nil },
		"a text":              func(*Reader) (Value, error) { return Value{Text: "calm"}, nil },
		"an input missing":    func(in *Reader) (Value, error) { return number(in.Num("b")), nil },
		"a text missing":      func(in *Reader) (Value, error) { in.Text("b"); return Value{}, nil },
	} {
		if r := recompute(row, figure); r.OK() || r.Err == nil {
			t.Errorf("%s: %+v", name, r)
		}
	}
	words := reference.Row{Want: "calm", Unit: "text"}
	if r := recompute(words, sum); r.OK() {
		t.Errorf("a number for a text: %+v", r)
	}
}
