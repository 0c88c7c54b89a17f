// Package check words the errors of bad input, once for every room.
package check

import (
	"fmt"
	"math"

	"github.com/holdingfix/abeam"
)

// Invalid reports one field outside its limit.
func Invalid(op, field string, value any, limit string) error {
	return &abeam.FieldError{Op: op, Field: field, Value: value, Limit: limit, Err: abeam.ErrInvalid}
}

// Unflyable reports inputs that are valid each and impossible together.
func Unflyable(op, field string, value any, limit string) error {
	return &abeam.FieldError{Op: op, Field: field, Value: value, Limit: limit, Err: abeam.ErrUnflyable}
}

// NoConvergence reports an iteration without an answer.
func NoConvergence(op, field string, value any, limit string) error {
	return &abeam.FieldError{Op: op, Field: field, Value: value, Limit: limit, Err: abeam.ErrNoConvergence}
}

// Within rejects v outside [lo, hi]; written so that NaN fails.
func Within[T ~float64](op, field string, v, lo, hi T) error {
	if v >= lo && v <= hi {
		return nil
	}
	return Invalid(op, field, v, fmt.Sprintf("from %v to %v", lo, hi))
}

// Above rejects v outside (lo, hi]; written so that NaN fails.
func Above[T ~float64](op, field string, v, lo, hi T) error {
	if v > lo && v <= hi {
		return nil
	}
	return Invalid(op, field, v, fmt.Sprintf("above %v and at most %v", lo, hi))
}

// Finite rejects NaN and infinities.
func Finite[T ~float64](op, field string, v T) error {
	if f := float64(v); !math.IsNaN(f) && !math.IsInf(f, 0) {
		return nil
	}
	return Invalid(op, field, v, "finite")
}
