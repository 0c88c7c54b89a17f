package hold

import (
	"fmt"
	"strings"

	"github.com/holdingfix/abeam/internal/check"
)

// reader goes through the words of a clearance once, from left to right.
type reader struct {
	words []word
	next  int
}

func (r *reader) done() bool { return r.next >= len(r.words) }

// peek gives the next word, or nothing at the end.
func (r *reader) peek() string {
	if r.done() {
		return ""
	}
	return r.words[r.next].text
}

// ended reports whether the last word read ends what it belongs to.
func (r *reader) ended() bool { return r.next == 0 || r.words[r.next-1].last }

// take reads the next word if it is one of those given.
func (r *reader) take(any ...string) bool {
	for _, w := range any {
		if !r.done() && r.words[r.next].text == w {
			r.next++
			return true
		}
	}
	return false
}

// need reads words that must follow.
func (r *reader) need(all ...string) error {
	for _, w := range all {
		if !r.take(w) {
			return r.fail(r.next, w)
		}
	}
	return nil
}

const opParse = "hold.ParseClearance"

// fail names a word and its place, and what would have been read there.
func (r *reader) fail(i int, limit string) error {
	if i >= len(r.words) {
		return check.Invalid(opParse, fmt.Sprintf("end after word %d", i), `""`, limit)
	}
	return check.Invalid(opParse, fmt.Sprintf("word %d at byte %d", i+1, r.words[i].at), clip(r.words[i].text), limit)
}

// ends are the words that end a name: each begins another item.
var ends = map[string]bool{
	"CLEARED": true, "HOLD": true, "OF": true, "FROM": true, "ON": true, "AS": true, "LEFT": true, "RIGHT": true,
	"EXPECT": true, "EFC": true, "MAXIMUM": true, "NO": true,
	"RADIAL": true, "COURSE": true, "BEARING": true, "TRACK": true, "AIRWAY": true, "ROUTE": true,
}

// maxName keeps a clearance that was read short enough to be read again, with its
// numbers in words.
const maxName = 40

// name reads the name of a fix, a station or a route, up to punctuation, a number or
// the next item. Of numbers only a DME distance belongs to a name: 15 DME FIX.
func (r *reader) name() string {
	name := ""
	for !r.done() && !ends[r.peek()] {
		begin := r.next
		part := r.number()
		if part != "" {
			if len(part) > 3 || strings.Contains(part, ".") || r.ended() || !r.take("DME") {
				r.next = begin
				break
			}
			part += " DME"
		} else {
			part = r.peek()
			r.next++
		}
		longer := name
		if part != "THE" {
			longer = strings.TrimLeft(name+" "+part, " ")
		}
		if !plain(strings.ReplaceAll(part, " ", "")) || len(longer) > maxName {
			r.next = begin
			break
		}
		name = longer
		if r.ended() {
			break
		}
	}
	return name
}

// number reads a number up to punctuation: written, "063" or "1.5", or in single
// figures and words with at most one point, "ZERO SIX THREE", "1 POINT 5", "TWENTY".
func (r *reader) number() string {
	if w := r.peek(); len(w) > 1 && written(w) {
		r.next++
		return w
	}
	n := r.figures()
	for n != "" && !r.ended() {
		begin := r.next
		point := ""
		if !strings.Contains(n, ".") && r.take("POINT", "DECIMAL") {
			point = "."
		}
		part := r.figures()
		if part == "" || point != "" && r.words[begin].last {
			r.next = begin
			break
		}
		n += point + part
	}
	return n
}

// written reports a number in figures, with a point or without.
func written(w string) bool {
	return strings.Trim(w, "0123456789.") == "" && strings.Count(w, ".") <= 1
}

// figures reads one written figure, or one spoken word or two: FIVE, TEN, TWENTY THREE.
func (r *reader) figures() string {
	w := r.peek()
	if len(w) == 1 && figure(w[0]) {
		r.next++
		return w
	}
	n := spoken[w]
	if n == "" {
		return ""
	}
	r.next++
	if n != "10" && strings.HasSuffix(n, "0") && len(n) == 2 && !r.ended() {
		if unit := spoken[r.peek()]; len(unit) == 1 && unit != "0" {
			r.next++
			return n[:1] + unit
		}
	}
	return n
}
