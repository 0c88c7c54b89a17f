// Package verification recomputes every row of the reference tables with the
// library and says how far the answer lies from the source. It imports every room;
// no room imports it.
package verification

import (
	"fmt"
	"maps"
	"math"
	"strconv"

	"github.com/holdingfix/abeam/internal/reference"
)

// Value is what a figure computes: a number, or a text for rows of unit text.
type Value struct {
	Number float64
	Text   string
}

func number[T ~float64](x T) Value { return Value{Number: float64(x)} }

// Figure computes one kind of figure from the inputs of a row.
type Figure func(in *Reader) (Value, error)

// Figures gives every figure by its key. The rooms' tables stand in a file each.
func Figures() map[string]Figure {
	all := map[string]Figure{}
	for _, room := range []map[string]Figure{
		windFigures,
		airFigures,
		aloftFigures,
		holdFigures,
		entryFigures,
		entryFlownFigures,
		timingFigures,
		strategyFigures,
		toleranceFigures,
		geodesyFigures,
		unitFigures,
		clearanceFigures,
		legFigures,
		areaFigures,
		trackFigures,
	} {
		maps.Copy(all, room)
	}
	return all
}

// Reader takes inputs by name and keeps the first error, so that a figure reads
// its inputs in one expression each.
type Reader struct {
	Inputs reference.Inputs
	err    error
}

// Num is a numeric input.
func (r *Reader) Num(key string) float64 {
	x, err := r.Inputs.Number(key)
	if err != nil && r.err == nil {
		r.err = err
	}
	return x
}

// Or is a numeric input with a value for rows that do not give it.
func (r *Reader) Or(key string, otherwise float64) float64 {
	if !r.Inputs.Has(key) {
		return otherwise
	}
	return r.Num(key)
}

// Text is an input as it stands.
func (r *Reader) Text(key string) string {
	if !r.Inputs.Has(key) && r.err == nil {
		r.err = fmt.Errorf("input %s is missing", key)
	}
	return r.Inputs[key]
}

// Result is one row recomputed.
type Result struct {
	Row       reference.Row
	Got       Value
	Deviation float64 // |got - want| in the row's unit; 0 or 1 for a text
	Err       error   // could not be computed
}

// OK reports whether the answer is within the row's tolerance.
func (r Result) OK() bool {
	if r.Err != nil {
		return false
	}
	if r.Row.Unit == "text" {
		return r.Deviation == 0
	}
	return r.Deviation <= r.Row.Tol
}

// Run recomputes every row.
func Run() ([]Result, error) {
	rows, err := reference.Rows()
	if err != nil {
		return nil, err
	}
	figures := Figures()
	results := make([]Result, len(rows))
	for i, row := range rows {
		results[i] = recompute(row, figures[row.Figure])
	}
	return results, nil
}

func recompute(row reference.Row, figure Figure) Result {
	res := Result{Row: row}
	if figure == nil {
		res.Err = fmt.Errorf("no check computes the figure %q", row.Figure)
		return res
	}
	in := &Reader{Inputs: row.Inputs}
	res.Got, res.Err = figure(in)
	if in.err != nil {
		res.Err = in.err
	}
	if res.Err != nil {
		return res
	}
	if row.Unit != "text" && res.Got.Text != "" {
		res.Err = fmt.Errorf("the answer %q is no number", res.Got.Text)
		return res
	}
	if row.Unit == "text" {
		if res.Got.Text != row.Want {
			res.Deviation = 1
		}
		return res
	}
	want, err := strconv.ParseFloat(row.Want, 64)
	if err != nil {
		res.Err = err
		return res
	}
	d := res.Got.Number - want
	if row.Unit == "deg" {
		d = math.Remainder(d, 360)
	}
	if res.Deviation = math.Abs(d); math.IsNaN(d) || math.IsInf(d, 0) {
		res.Err = fmt.Errorf("the answer %v is not finite", res.Got.Number)
	}
	return res
}
