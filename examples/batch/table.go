package main

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/examples/internal/form"
	"github.com/holdingfix/abeam/hold"
)

// The columns that a table must have, in any order and among others, and those that are
// put behind them.
var (
	needed   = []string{"inbound_deg", "turns", "altitude_ft", "kias", "wind_from_deg", "wind_kt"}
	appended = []string{
		"tas_kt", "inbound_heading_deg", "outbound_heading_deg", "outbound_clock_s", "inbound_s", "lap_s", "width_nm", "length_nm",
		"notes", "error",
	}
)

// count is how many rows there were, and in how many of them something was wrong.
type count struct{ rows, wrong int }

// table reads a table of flights row by row and writes it with the columns of the
// circuits. What is wrong with a row stands in it and stops nothing; an error is one of
// the whole table.
func table(in io.Reader, out io.Writer) (n count, err error) {
	r := csv.NewReader(withoutMark(in))
	r.ReuseRecord, r.FieldsPerRecord = true, -1
	w := csv.NewWriter(out)
	head, err := r.Read()
	if errors.Is(err, io.EOF) {
		return n, invalid("table", "first line", "missing", "the names of the columns")
	} else if err != nil {
		return n, fault(err)
	}
	head = slices.Clone(head)
	column, err := columns(head)
	if err != nil {
		return n, err
	}
	w.Write(slices.Concat(head, appended)) // an error stays with the writer
	var row []string
	get := func(name string) string { return strings.TrimSpace(row[column[name]]) }
	rules := hold.FAA()
	for w.Error() == nil {
		record, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		} else if err != nil && !ofOneLine(err) {
			return n, fault(err)
		}
		n.rows++
		row = fit(row, record, len(head))
		var flight hold.Flight
		var c hold.Circuit
		if err == nil && len(record) != len(head) {
			err = invalid("row", "columns", len(record), fmt.Sprintf("%d as in the first line", len(head)))
		}
		if err == nil {
			flight, c, err = circuit(rules, form.New("row", get))
		}
		if err != nil {
			n.wrong++
		}
		row = figures(row, flight, c, err)
		w.Write(row)
	}
	w.Flush()
	return n, w.Error()
}

// withoutMark skips the mark of the byte order, with which spreadsheets begin UTF-8.
func withoutMark(in io.Reader) io.Reader {
	const mark = "\ufeff"
	b := bufio.NewReader(in)
	if first, err := b.Peek(len(mark)); err == nil && string(first) == mark {
		b.Discard(len(mark))
	}
	return b
}

// columns finds the needed columns by name.
func columns(head []string) (map[string]int, error) {
	at := map[string]int{}
	for i, name := range head {
		name = strings.TrimSpace(name)
		if _, twice := at[name]; twice && slices.Contains(needed, name) {
			return nil, invalid("table", "column "+name, "there twice", "there once")
		}
		if slices.Contains(appended, name) {
			return nil, invalid("table", "column "+name, "there", "left for this program to add")
		}
		at[name] = i
	}
	for _, name := range needed {
		if _, ok := at[name]; !ok {
			return nil, invalid("table", "column "+name, "missing", "in the first line, which must have "+strings.Join(needed, ", "))
		}
	}
	return at, nil
}

// fit copies a record into a row of the table's width: what is missing stays empty, what
// is too much is left out.
func fit(row, record []string, width int) []string {
	row = append(row[:0], record[:min(width, len(record))]...)
	for len(row) < width {
		row = append(row, "")
	}
	return row
}

// figures puts the columns of a circuit behind a row, empty where there is none.
func figures(row []string, f hold.Flight, c hold.Circuit, err error) []string {
	if err != nil {
		for range appended[1:] {
			row = append(row, "")
		}
		return append(row, err.Error())
	}
	for _, x := range [...]float64{
		float64(f.TAS), float64(c.InboundHeading), float64(c.OutboundHeading), c.Clock.Seconds(), c.Inbound.Seconds(), c.Lap.Seconds(),
		float64(c.Extent.Width()), float64(c.Extent.Length()),
	} {
		row = append(row, strconv.FormatFloat(x, 'f', 2, 64))
	}
	return append(row, c.Notes.String(), "")
}

// ofOneLine reports whether an error of the CSV leaves the lines after it as they are: a
// quote that never closes takes them along.
func ofOneLine(err error) bool {
	at, ok := errors.AsType[*csv.ParseError](err)
	return ok && at.StartLine == at.Line
}

// fault makes an error of the CSV one of the input, with its line.
func fault(err error) error {
	if at, ok := errors.AsType[*csv.ParseError](err); ok {
		return invalid("table", fmt.Sprintf("line %d", at.StartLine), "not CSV ("+at.Err.Error()+")", "CSV as in RFC 4180")
	}
	return err
}

func invalid(op, field string, value any, limit string) error {
	return &abeam.FieldError{Op: op, Field: field, Value: value, Limit: limit, Err: abeam.ErrInvalid}
}
