package tolerance

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"unicode/utf8"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// ReadCSV reads a log with a header line. A header names a quantity and its unit, and
// the north of a direction: "time_s", "lat", "lon", "Altitude (ft)", "IAS [kt]",
// "heading_magnetic_deg", "gs_kt", "track_true_deg", "cdi_pct". A mapping, which may be
// nil, names other headers. Fields are parted by whichever of comma, semicolon and
// tabulator is in the header most; lines that are blank or begin with # are passed over.
//
// A track without a north is taken as true, and a finding says so; a heading without
// one is not read. Seconds above 10^8 count from 1970. Everything that is wrong with a
// line is a finding with line and column, which count from 1, columns in bytes.
//
// Errors: [abeam.ErrInvalid], naming line and column, for a file without a header of
// time, latitude and longitude, one that is not text, one without a usable line, or one
// beyond [MaxSamples]; the error of r as it is.
func ReadCSV(r io.Reader, m Mapping) (Log, error) { return readCSV(r, m, MaxSamples) }

func readCSV(r io.Reader, m Mapping, most int) (Log, error) {
	c := csvReader{in: bufio.NewReaderSize(r, MaxLine), op: "tolerance.ReadCSV", most: most}
	if err := c.header(m); err != nil {
		return Log{}, err
	}
	if err := c.lines(); err != nil {
		return Log{}, err
	}
	if len(c.log.Samples) == 0 {
		return Log{}, c.nothing()
	}
	c.log.tidy()
	return c.log, nil
}

// nothing is the error of a file without a sample, at the place where the first line
// went wrong, or at the end.
func (c *csvReader) nothing() error {
	for _, f := range c.log.Findings {
		if f.Kind == BadLine || f.Kind == BadValue || f.Kind == Truncated {
			return check.Invalid(c.op, fmt.Sprintf("line %d, column %d", f.Line, max(1, f.Column)), f.Kind.String()+": "+f.Text, "a log with samples that can be used")
		}
	}
	return check.Invalid(c.op, fmt.Sprintf("line %d, column 1", c.line+1), "the end of the file", "a sample")
}

type csvReader struct {
	in      *bufio.Reader
	op      string
	most    int // samples
	line    int
	comma   byte
	columns []column
	cells   cellReader
	log     Log
	fields  [][]byte
	whole   bool // the last line ended with a newline
}

// next is the next line that is neither blank nor a comment, without its end. It is
// valid until the next call. A line that is too long is skipped with a finding.
func (c *csvReader) next() ([]byte, error) {
	for {
		text, err := c.in.ReadSlice('\n')
		if len(text) == 0 && err != nil {
			return nil, err
		}
		c.line++
		c.whole = err == nil
		if errors.Is(err, bufio.ErrBufferFull) {
			c.log.find(Finding{Kind: BadLine, Line: c.line}, "longer than %d bytes: not used", MaxLine)
			c.log.Unused++
			for errors.Is(err, bufio.ErrBufferFull) {
				_, err = c.in.ReadSlice('\n')
			}
			if err != nil && !errors.Is(err, io.EOF) {
				return nil, err
			}
			continue
		}
		if err != nil && !errors.Is(err, io.EOF) {
			return nil, err
		}
		text = bytes.TrimRight(text, "\r\n")
		if trimmed := bytes.TrimSpace(text); len(trimmed) == 0 || trimmed[0] == '#' {
			continue
		}
		return text, nil
	}
}

func (c *csvReader) header(m Mapping) error {
	text, err := c.next()
	if err != nil && !errors.Is(err, io.EOF) {
		return err
	}
	if err != nil {
		return check.Invalid(c.op, "line 1, column 1", "the end of the file", "a header line")
	}
	text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))
	if i := bytes.IndexByte(text, 0); i >= 0 || !utf8.Valid(text) {
		return check.Invalid(c.op, fmt.Sprintf("line %d, column %d", c.line, max(0, i)+1), "binary", "a header line of text")
	}
	c.comma = ','
	for _, b := range []byte{';', '\t'} {
		if bytes.Count(text, []byte{b}) > bytes.Count(text, []byte{c.comma}) {
			c.comma = b
		}
	}
	cells, ok := c.split(text)
	if !ok {
		return check.Invalid(c.op, fmt.Sprintf("line %d, column 1", c.line), "broken quotes", "a header line")
	}
	seen := map[Quantity]string{}
	at := 1
	for _, cell := range cells {
		col, err := c.name(string(cell), at, m, seen)
		if err != nil {
			return err
		}
		c.columns = append(c.columns, col)
		at += len(cell) + 1
	}
	for _, q := range []Quantity{Time, Latitude, Longitude} {
		if seen[q] == "" {
			return check.Invalid(c.op, fmt.Sprintf("line %d, column 1", c.line), truncate(string(text)), "a header with a column of "+q.String())
		}
	}
	return nil
}

// name understands one cell of the header.
func (c *csvReader) name(text string, at int, m Mapping, seen map[Quantity]string) (column, error) {
	text = strings.TrimSpace(text)
	col, fault := readHeader(text)
	if mapped, ok := m[text]; ok {
		var err error
		if col, err = mapped.resolve(c.op, text); err != nil {
			return column{}, err
		}
		fault = ""
	}
	here := Finding{Kind: UnreadColumn, Line: c.line, Column: at}
	if fault == "" && seen[col.quantity] != "" {
		fault = "the column " + seen[col.quantity] + " already gives the " + col.quantity.String()
		col.quantity = 0
	}
	if fault != "" {
		c.log.find(here, "%q is not read: %s", truncate(text), fault)
		return col, nil
	}
	seen[col.quantity] = text
	switch col.quantity {
	case Track:
		if col.north == 0 {
			col.north = abeam.True
			here.Kind = NorthNotSaid
			c.log.find(here, "%q does not say whether true or magnetic: taken as true", truncate(text))
		}
		c.log.TrackNorth = col.north
	case Heading:
		c.log.HeadingNorth = col.north
	}
	return col, nil
}

// split parts a line at the separators. Lines with quotes go the slow way.
func (c *csvReader) split(text []byte) ([][]byte, bool) {
	c.fields = c.fields[:0]
	if bytes.IndexByte(text, '"') >= 0 {
		r := csv.NewReader(bytes.NewReader(text))
		r.Comma = rune(c.comma)
		record, err := r.Read()
		for _, f := range record {
			c.fields = append(c.fields, []byte(f))
		}
		return c.fields, err == nil
	}
	for {
		i := bytes.IndexByte(text, c.comma)
		if i < 0 {
			return append(c.fields, text), true
		}
		c.fields = append(c.fields, text[:i])
		text = text[i+1:]
	}
}

func (c *csvReader) lines() error {
	for {
		text, err := c.next()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		if len(c.log.Samples) == c.most {
			return check.Invalid(c.op, fmt.Sprintf("line %d, column 1", c.line), "another sample", fmt.Sprintf("at most %d", c.most))
		}
		cells, ok := c.split(text)
		c.fields = cells
		if !ok || len(cells) != len(c.columns) {
			kind := BadLine
			if !c.whole {
				kind = Truncated
			}
			c.log.find(Finding{Kind: kind, Line: c.line, Column: len(text) + 1}, "%d fields, not the %d of the header: the line is not used", len(cells), len(c.columns))
			c.log.Unused++
			continue
		}
		c.record(cells)
	}
}

// record makes a sample of a line; without time and position it is none.
func (c *csvReader) record(cells [][]byte) {
	s := Sample{Line: int32(min(c.line, math.MaxInt32))}
	at := 1
	for i := range c.columns {
		if col := &c.columns[i]; col.quantity != 0 {
			c.cells.read(&c.log, &s, col, cells[i], c.line, at)
		}
		at += len(cells[i]) + 1
	}
	if !s.Has.Has(Time | Latitude | Longitude) {
		c.log.find(Finding{Kind: BadLine, Line: c.line}, "no time or no position: the line is not used")
		c.log.Unused++
		return
	}
	c.log.Samples = append(c.log.Samples, s)
}

// truncate keeps what a file holds from flooding a message.
func truncate(s string) string {
	const most = 60
	if len(s) <= most {
		return s
	}
	return strings.ToValidUTF8(s[:most], "?") + "..."
}
