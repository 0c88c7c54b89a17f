package tolerance

import (
	"fmt"
	"time"
)

// Kind is what a finding is about.
type Kind uint8

// The kinds of findings.
const (
	_ Kind = iota
	// BadValue: a cell that is not a number, or outside what can be.
	BadValue
	// BadLine: a line that is not a record: too few or too many fields, too long.
	BadLine
	// Truncated: the file ends inside a record.
	Truncated
	// UnreadColumn: a column that no quantity is read from.
	UnreadColumn
	// NorthNotSaid: a direction without its north; the text says which was taken.
	NorthNotSaid
	// MixedUnit: a cell in another unit than its column.
	MixedUnit
	// WrongUnit: values that contradict the positions, so that a unit or a north is
	// likely to be another than the header says.
	WrongUnit
	// Duplicate: a second sample at the same time.
	Duplicate
	// OutOfOrder: a sample earlier than the one before it.
	OutOfOrder
	// ClockStep: the clock was set back; later times are shifted to go on.
	ClockStep
	// Gap: no samples for longer than usual.
	Gap
	// Jump: a position that no flight reaches from the one before.
	Jump
)

// String names the kind.
func (k Kind) String() string {
	names := [...]string{"", "bad value", "bad line", "truncated", "unread column", "north not said", "mixed unit", "wrong unit",
		"duplicate", "out of order", "clock step", "gap", "jump"}
	if k == 0 || int(k) >= len(names) {
		return "not a kind"
	}
	return names[k]
}

// MarshalText gives the form of [Kind.String].
func (k Kind) MarshalText() ([]byte, error) { return []byte(k.String()), nil }

// Finding is something about a log that its user should know. Nothing is mended or
// left out without one.
type Finding struct {
	Kind   Kind          `json:"kind"`
	Line   int           `json:"line,omitempty"`   // from 1; 0 where it is about no line
	Column int           `json:"column,omitempty"` // in bytes, from 1; 0 for the whole line
	Time   time.Duration `json:"time,omitempty"`   // since the start of the log, where it is known
	Text   string        `json:"text"`
	// More counts the later findings of the same kind that are not listed one by one.
	More int `json:"more,omitempty"`
}

// String gives place, kind and text in one line.
func (f Finding) String() string {
	place := ""
	if f.Line > 0 {
		place = fmt.Sprintf("line %d: ", f.Line)
		if f.Column > 0 {
			place = fmt.Sprintf("line %d, column %d: ", f.Line, f.Column)
		}
	}
	text := place + f.Kind.String() + ": " + f.Text
	if f.More > 0 {
		text += fmt.Sprintf(" (and %d more of this kind)", f.More)
	}
	return text
}

// listed is how many findings of one kind are given one by one: enough to see what is
// wrong with a log, and a bound on what a hostile one can make of them.
const listed = 20

// find adds a finding, or counts it where the list of its kind is full. The text is
// put together only where it is kept.
func (l *Log) find(f Finding, format string, args ...any) {
	var n, last int
	for i := range l.Findings {
		if l.Findings[i].Kind == f.Kind {
			n++
			last = i
		}
	}
	if n >= listed {
		l.Findings[last].More++
		return
	}
	f.Text = fmt.Sprintf(format, args...)
	l.Findings = append(l.Findings, f)
}
