// Package noteset is what sets of notes share: a note is one bit, its text its String.
package noteset

import (
	"fmt"
	"iter"
	"strings"
)

// Note is a remark whose value is a single bit.
type Note interface {
	~uint16
	fmt.Stringer
}

// All gives the notes of a set below the bit end, in their order.
func All[N Note](set uint16, end N) iter.Seq[N] {
	return func(yield func(N) bool) {
		for n := N(1); n < end; n <<= 1 {
			if set&uint16(n) != 0 && !yield(n) {
				return
			}
		}
	}
}

// Join gives the texts of the notes with semicolons.
func Join[N Note](set uint16, end N) string {
	var all []string
	for n := range All(set, end) {
		all = append(all, n.String())
	}
	return strings.Join(all, "; ")
}
