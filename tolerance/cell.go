package tolerance

import (
	"bytes"
	"strconv"
	"strings"
	"time"

	"github.com/holdingfix/abeam/internal/clock"
)

// cellReader reads values into samples. It keeps the date that civil times count from.
type cellReader struct {
	started bool
}

// read puts one cell into the sample; an empty cell is no value and no fault, anything
// else that is no value is a finding.
func (r *cellReader) read(log *Log, s *Sample, col *column, cell []byte, line, at int) {
	cell = bytes.TrimSpace(cell)
	if len(cell) == 0 {
		return
	}
	if col.quantity == Time && col.unit.dimension == civilTime {
		r.civil(log, s, cell, line, at)
		return
	}
	x, err := strconv.ParseFloat(string(cell), 64)
	factor := col.unit.factor
	if err != nil {
		var ok bool
		if x, factor, ok = withUnit(log, col, cell, line, at); !ok {
			log.find(Finding{Kind: BadValue, Line: line, Column: at}, "%s %q is not a number: not used", col.quantity, truncate(string(cell)))
			return
		}
	}
	x *= factor
	if lo, hi := col.quantity.bounds(); !(x >= lo && x <= hi) {
		log.find(Finding{Kind: BadValue, Line: line, Column: at}, "%s %s is outside %v to %v: not used", col.quantity, truncate(string(cell)), lo, hi)
		return
	}
	if col.quantity == Time {
		s.Time, _ = clock.Duration(x) // within bounds
		s.Has |= Quantities(Time)
		return
	}
	s.set(col.quantity, x)
}

// withUnit reads a number that carries its own unit, "3000 m" in a column of feet.
func withUnit(log *Log, col *column, cell []byte, line, at int) (x, factor float64, ok bool) {
	text := spelled.Replace(strings.ToLower(string(cell)))
	i := len(text)
	for i > 0 && (text[i-1] < '0' || text[i-1] > '9') && text[i-1] != '.' {
		i--
	}
	u, known := units[strings.TrimSpace(text[i:])]
	x, err := strconv.ParseFloat(strings.TrimSpace(text[:i]), 64)
	if err != nil || !known || u.dimension != col.unit.dimension {
		return 0, 0, false
	}
	if u != col.unit {
		log.find(Finding{Kind: MixedUnit, Line: line, Column: at}, "%s %q in a column of another unit: converted", col.quantity, truncate(string(cell)))
	}
	return x, u.factor, true
}

// civil reads a date and time. The first of a log is its start.
func (r *cellReader) civil(log *Log, s *Sample, cell []byte, line, at int) {
	t, err := time.Parse(time.RFC3339Nano, string(cell))
	if err != nil {
		log.find(Finding{Kind: BadValue, Line: line, Column: at}, "time %q is not a date and time as 2026-07-03T17:42:05Z: not used", truncate(string(cell)))
		return
	}
	if !r.started {
		log.Start, r.started = t.UTC(), true
	}
	d := t.Sub(log.Start)
	if _, hi := Time.bounds(); d.Seconds() < -hi || d.Seconds() > hi {
		log.find(Finding{Kind: BadValue, Line: line, Column: at}, "time %q is not within %v s of the start: not used", truncate(string(cell)), hi)
		return
	}
	s.Time = d
	s.Has |= Quantities(Time)
}
