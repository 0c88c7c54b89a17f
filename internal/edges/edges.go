// Package edges tries the documented range of an input from both sides of its ends.
package edges

import (
	"errors"
	"math"
	"testing"

	"github.com/holdingfix/abeam"
)

// Input is the range that a function documents for one of its inputs.
type Input struct {
	op, field   string
	least, most float64
	whole       bool
	call        func(x float64) error
}

// Real is an input from least to most, both accepted; op and field are what the error names.
func Real(op, field string, least, most float64, call func(x float64) error) Input {
	return Input{op, field, least, most, false, call}
}

// Whole is one of nanoseconds or counts, which have neighbours a whole one away.
func Whole(op, field string, least, most float64, call func(x float64) error) Input {
	return Input{op, field, least, most, true, call}
}

// Check holds every input to its range: the ends are accepted, that is not refused as invalid,
// and their neighbours beyond are refused with an error that names operation and field. NaN is
// refused where the input is not whole.
func Check(t testing.TB, inputs []Input) {
	t.Helper()
	for _, in := range inputs {
		beyond := []float64{math.Nextafter(in.least, math.Inf(-1)), math.Nextafter(in.most, math.Inf(1)), math.NaN()}
		if in.whole {
			beyond = []float64{in.least - 1, in.most + 1}
		}
		for _, x := range []float64{in.least, in.most} {
			if err := in.call(x); errors.Is(err, abeam.ErrInvalid) {
				t.Errorf("%s, %s of %v: %v", in.op, in.field, x, err)
			}
		}
		for _, x := range beyond {
			err := in.call(x)
			if e, ok := errors.AsType[*abeam.FieldError](err); !ok || !errors.Is(err, abeam.ErrInvalid) || e.Op != in.op || e.Field != in.field || e.Limit == "" {
				t.Errorf("%s, %s of %v: %v", in.op, in.field, x, err)
			}
		}
	}
}
