package noteset

import (
	"slices"
	"testing"
)

type note uint16

func (n note) String() string { return string(rune('a' + n)) }

func TestAll(t *testing.T) {
	for set, want := range map[uint16][]note{0: nil, 1: {1}, 6: {2, 4}, 0xffff: {1, 2, 4}} {
		if got := slices.Collect(All(set, note(8))); !slices.Equal(got, want) {
			t.Errorf("%b: %v, want %v", set, got, want)
		}
	}
	for n := range All(7, note(8)) { // a consumer that stops is not called again
		if n != 1 {
			t.Fatal(n)
		}
		break
	}
	if got := Join(6, note(8)); got != "c; e" {
		t.Errorf("%q", got)
	}
	if got := Join(0, note(8)); got != "" {
		t.Errorf("%q", got)
	}
}
