package abeam_test

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/holdingfix/abeam"
)

// wantFieldError fails unless err is an invalid input that names operation, field
// and limit, both as values and in the one line of its message.
func wantFieldError(t *testing.T, err error, op, field, limit string) {
	t.Helper()
	fe, ok := errors.AsType[*abeam.FieldError](err)
	if !ok || !errors.Is(err, abeam.ErrInvalid) || errors.Is(err, abeam.ErrUnflyable) || errors.Is(err, abeam.ErrNoConvergence) {
		t.Errorf("got the error %v, want a FieldError of ErrInvalid alone", err)
		return
	}
	if fe.Op != op || fe.Field != field || !strings.Contains(fe.Limit, limit) || fe.Value == nil {
		t.Errorf("got %#v, want operation %q, field %q, limit %q and a value", fe, op, field, limit)
	}
	message := err.Error()
	for _, part := range []string{op, field, limit, fmt.Sprint(fe.Value), "invalid input"} {
		if !strings.Contains(message, part) {
			t.Errorf("the message %q does not hold %q", message, part)
		}
	}
	if strings.ContainsAny(message, "\n\r\x00") || len(message) > 400 {
		t.Errorf("the message is not one short line: %q", message)
	}
}

func TestFieldError(t *testing.T) {
	for _, kind := range []error{abeam.ErrInvalid, abeam.ErrUnflyable, abeam.ErrNoConvergence, io.EOF} {
		var err error = &abeam.FieldError{Op: "hold.Circuit", Field: "TAS", Value: abeam.Knots(1200), Limit: "at most 1000 kt", Err: kind}
		want := "hold.Circuit: TAS is 1200 kt, must be at most 1000 kt: " + kind.Error()
		if got := err.Error(); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
		err = fmt.Errorf("leg 3: %w", err)
		var fe *abeam.FieldError
		if !errors.As(err, &fe) || fe.Field != "TAS" || fe.Value != abeam.Knots(1200) {
			t.Errorf("errors.As found %#v in %v", fe, err)
		}
		for _, other := range []error{abeam.ErrInvalid, abeam.ErrUnflyable, abeam.ErrNoConvergence, io.EOF} {
			if got := errors.Is(err, other); got != (other == kind) {
				t.Errorf("errors.Is(%v, %v) is %v", err, other, got)
			}
		}
		if joined := errors.Join(io.ErrClosedPipe, err); !errors.Is(joined, kind) {
			t.Errorf("%v is lost in a joined error", kind)
		}
	}
}
