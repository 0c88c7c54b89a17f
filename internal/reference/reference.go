// Package reference holds the figures from outside the project that the library
// is checked against, as tables with a source and a class for every row. [Rows] is
// the one reader of them all. The library never imports it; tests do, and the program
// that prints the list.
//
// A table is a CSV file in this folder with the columns
//
//	id      unique over all tables
//	class   see Class
//	source  the document with its edition, or the tool; rows are listed by it
//	place   in the document: paragraph, page, row; or how the figure was derived
//	figure  what is computed: a key of the checks in internal/verification
//	inputs  key=value pairs separated by blanks; a value may not hold a blank, nor a
//	        key occur twice; a number is finite
//	want    the figure as the source has it; a number is finite
//	unit    deg (compared as an angle), text (compared as it stands), or the unit
//	tol     how far the answer may be from want, above 0 and finite; empty for text
//	why     where the tolerance comes from. [HalfUnit] is the usual reason and is held
//	        to: the tolerance must be that. Of a text, what is compared
//
// All but place and inputs must be there. A published number is never changed to make
// a check pass.
//
// Three kinds of file here are no tables of figures. The bulletins and the tracks are
// inputs, as they came, of rows that name them ([Bulletin], [Track]). The folder holds
// is two data sets of thousands of holding patterns as their publisher has them, with
// one source and one class each; the tests that compare them, whole degree for whole
// degree, list every row that differs.
package reference

import (
	"bytes"
	"embed"
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"slices"
	"strconv"
	"strings"
)

//go:embed *.csv
var tables embed.FS

// Class says what kind of evidence a figure is.
type Class string

// The classes, strongest first. Practice and Memory are labelled as such wherever
// they are shown; Memory is never the only check of a figure, or [Rows] fails.
const (
	Published Class = "PUBLISHED" // read in the named document or a page-for-page copy
	Secondary Class = "SECONDARY" // read in a text that reproduces or cites the document
	Derived   Class = "DERIVED"   // computed by an independent tool or worked in the row
	Practice  Class = "PRACTICE"  // common practice, no single source
	Memory    Class = "MEMORY"    // from memory
)

// Classes lists them in order.
func Classes() []Class { return []Class{Published, Secondary, Derived, Practice, Memory} }

// Meaning says what the class is, for a reader of the list.
func (c Class) Meaning() string {
	switch c {
	case Published:
		return "read in the named document or a page-for-page copy"
	case Secondary:
		return "read in a text that reproduces or cites the document"
	case Derived:
		return "computed by an independent tool, or worked beside the row"
	case Practice:
		return "common practice, no single source"
	case Memory:
		return "from memory, never the only check"
	}
	return "unknown"
}

// Row is one figure.
type Row struct {
	Table  string
	ID     string
	Class  Class
	Source string
	Place  string
	Figure string
	Inputs Inputs
	Want   string
	Unit   string
	Tol    float64
	Why    string
}

// HalfUnit is the reason of a tolerance that is what rounding to the printed digits
// leaves open.
const HalfUnit = "half a unit of the last printed digit"

var columns = []string{"id", "class", "source", "place", "figure", "inputs", "want", "unit", "tol", "why"}

// optional columns may be empty; tol is looked at by unit.
var optional = []string{"place", "inputs", "tol"}

// Rows reads all tables, in the order of their names. A row that breaks the rules
// above is an error, so that none is passed over in silence.
func Rows() ([]Row, error) { return read(tables) }

// read is Rows on any set of tables, so that a test can hand it bad ones.
func read(tables fs.FS) ([]Row, error) {
	names, err := fs.Glob(tables, "*.csv")
	if err != nil {
		return nil, err
	}
	if len(names) == 0 {
		return nil, errors.New("no tables")
	}
	var rows []Row
	seen := map[string]bool{}
	for _, name := range names {
		text, err := fs.ReadFile(tables, name)
		if err != nil {
			return nil, err
		}
		records, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		if len(records) < 2 || !slices.Equal(records[0], columns) {
			return nil, fmt.Errorf("%s: want the header %q and at least one row", name, columns)
		}
		for i, rec := range records[1:] {
			row, err := parse(rec)
			if err == nil && seen[row.ID] {
				err = fmt.Errorf("id %q is not unique", row.ID)
			}
			if err != nil {
				return nil, fmt.Errorf("%s row %d: %w", name, i+2, err)
			}
			row.Table = strings.TrimSuffix(name, ".csv")
			seen[row.ID] = true
			rows = append(rows, row)
		}
	}
	if err := supported(rows); err != nil {
		return nil, err
	}
	return rows, nil
}

// supported refuses a figure that is checked only from memory.
func supported(rows []Row) error {
	strong := map[string]bool{}
	for _, r := range rows {
		if r.Class != Memory {
			strong[r.Figure] = true
		}
	}
	for _, r := range rows {
		if !strong[r.Figure] {
			return fmt.Errorf("%s.csv: %q: the figure %q is checked only from memory", r.Table, r.ID, r.Figure)
		}
	}
	return nil
}

func parse(rec []string) (Row, error) {
	row := Row{
		ID: rec[0], Class: Class(rec[1]), Source: rec[2], Place: rec[3], Figure: rec[4],
		Want: rec[6], Unit: rec[7], Why: rec[9],
	}
	for i, column := range columns {
		if strings.TrimSpace(rec[i]) == "" && !slices.Contains(optional, column) {
			return Row{}, fmt.Errorf("%q has no %s", rec[0], column)
		}
	}
	if !slices.Contains(Classes(), row.Class) {
		return Row{}, fmt.Errorf("%q has the unknown class %q", row.ID, row.Class)
	}
	var err error
	if row.Inputs, err = inputs(rec[5]); err != nil {
		return Row{}, fmt.Errorf("%q: %w", row.ID, err)
	}
	if row.Unit == "text" {
		if rec[8] != "" || row.Why == HalfUnit {
			return Row{}, fmt.Errorf("%q: a text has no tolerance", row.ID)
		}
		return row, nil
	}
	var ok bool
	if row.Tol, ok = finite(rec[8]); !ok || row.Tol <= 0 {
		return Row{}, fmt.Errorf("%q: tolerance %q is not a positive finite number", row.ID, rec[8])
	}
	if row.Unit == "deg" && row.Tol >= 180 {
		return Row{}, fmt.Errorf("%q: every direction is within %s deg", row.ID, rec[8])
	}
	if _, ok = finite(row.Want); !ok {
		return Row{}, fmt.Errorf("%q: want %q is not a finite number", row.ID, row.Want)
	}
	if row.Why == HalfUnit && row.Tol != halfUnit(row.Want) {
		return Row{}, fmt.Errorf("%q: tolerance %s is not half a unit of the last digit of %s", row.ID, rec[8], row.Want)
	}
	return row, nil
}

func inputs(pairs string) (Inputs, error) {
	in := Inputs{}
	for pair := range strings.FieldsSeq(pairs) {
		key, value, ok := strings.Cut(pair, "=")
		if !ok || key == "" || value == "" {
			return nil, fmt.Errorf("input %q is not key=value", pair)
		}
		if in.Has(key) {
			return nil, fmt.Errorf("input %s is given twice", key)
		}
		if _, err := strconv.ParseFloat(value, 64); !errors.Is(err, strconv.ErrSyntax) { // a number
			if _, ok := finite(value); !ok {
				return nil, fmt.Errorf("input %q is not finite", pair)
			}
		}
		in[key] = value
	}
	return in, nil
}

// finite reads a number that something can be compared with: every answer is within
// an infinite tolerance, and none is near NaN.
func finite(s string) (float64, bool) {
	x, err := strconv.ParseFloat(s, 64)
	return x, err == nil && !math.IsNaN(x) && !math.IsInf(x, 0)
}

// halfUnit of the last digit of a number in decimals; NaN of one in another notation.
func halfUnit(number string) float64 {
	if strings.Trim(number, "+-.0123456789") != "" {
		return math.NaN()
	}
	_, decimals, _ := strings.Cut(number, ".")
	half, _ := finite("5e-" + strconv.Itoa(len(decimals)+1))
	return half
}

// Inputs are the named inputs of a row.
type Inputs map[string]string

// Has reports whether the row gives the input.
func (in Inputs) Has(key string) bool { _, ok := in[key]; return ok }

// Number reads a numeric input; a missing or malformed one is an error.
func (in Inputs) Number(key string) (float64, error) {
	x, err := strconv.ParseFloat(in[key], 64)
	if err != nil {
		return 0, fmt.Errorf("input %s=%q: %w", key, in[key], err)
	}
	return x, nil
}
