package abeam

import (
	"errors"
	"fmt"
)

// The three ways in which a computation fails. Test for them with errors.Is.
var (
	// ErrInvalid reports an input outside its documented range, NaN and
	// infinities included.
	ErrInvalid = errors.New("invalid input")
	// ErrUnflyable reports inputs that are each valid but that no aeroplane can
	// fly together: a wind as strong as the airspeed, say.
	ErrUnflyable = errors.New("unflyable")
	// ErrNoConvergence reports an iteration that ended without an answer.
	ErrNoConvergence = errors.New("no convergence")
)

// FieldError says which input was at fault and what would have been accepted.
type FieldError struct {
	Op    string // the operation, as package.Function: "hold.Circuit"
	Field string // the field or argument: "TAS"
	Value any    // what was given
	Limit string // what is accepted, in words: "above 0 and at most 1000 kt"
	Err   error  // ErrInvalid, ErrUnflyable, ErrNoConvergence or the cause
}

// Error gives operation, field, value, limit and kind in one line.
func (e *FieldError) Error() string {
	return fmt.Sprintf("%s: %s is %v, must be %s: %v", e.Op, e.Field, e.Value, e.Limit, e.Err)
}

// Unwrap gives the kind of failure, so that errors.Is finds the sentinels.
func (e *FieldError) Unwrap() error { return e.Err }

func invalid(op, field string, value any, limit string) error {
	return &FieldError{Op: op, Field: field, Value: value, Limit: limit, Err: ErrInvalid}
}
