package verification

import (
	"testing"

	"github.com/holdingfix/abeam/internal/reference"
)

func TestReference(t *testing.T) {
	results, err := Run()
	if err != nil {
		t.Fatal(err)
	}
	counts := map[reference.Class]int{}
	used := map[string]bool{}
	for _, r := range results {
		counts[r.Row.Class]++
		used[r.Row.Figure] = true
		t.Run(r.Row.Table+"/"+r.Row.ID, func(t *testing.T) {
			switch {
			case r.Err != nil:
				t.Errorf("%s %v: %v", r.Row.Figure, r.Row.Inputs, r.Err)
			case !r.OK():
				t.Errorf("%s %v: got %v %s, want %s %s within %g (%s)\nsource: %s [%s]", r.Row.Figure, r.Row.Inputs,
					r.Got, r.Row.Unit, r.Row.Want, r.Row.Unit, r.Row.Tol, r.Row.Why, r.Row.Source, r.Row.Class)
			}
		})
	}
	for key := range Figures() {
		if !used[key] {
			t.Errorf("the figure %q is checked by no row", key)
		}
	}
	t.Logf("%d rows: %v", len(results), counts)
}
