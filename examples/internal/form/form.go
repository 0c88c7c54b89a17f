// Package form reads named values as people type them: the query of a request, the
// fields of a page, a row of a table.
package form

import (
	"encoding"
	"errors"
	"maps"
	"net/url"
	"slices"
	"strings"

	"github.com/holdingfix/abeam"
)

// Form is one set of named values. The first that cannot be read is kept for [Form.Err];
// what is read after it is zero.
type Form struct {
	op  string
	get func(name string) string
	err error
}

// New gives the form whose texts get finds by name, empty where there is none. The op
// names the operation in errors.
func New(op string, get func(name string) string) *Form { return &Form{op: op, get: get} }

// Query gives the form of the values of a query, in which only the names may stand, each
// once: a slip in a name is no reason to go on without its value.
func Query(op string, values url.Values, names ...string) *Form {
	f := New(op, values.Get)
	for _, name := range slices.Sorted(maps.Keys(values)) {
		if !slices.Contains(names, name) {
			f.refuse(name, "unknown", "one of "+strings.Join(names, ", "))
		} else if len(values[name]) > 1 {
			f.refuse(name, "given more than once", "given once")
		}
	}
	return f
}

// Text is the value of the name as it stands.
func (f *Form) Text(name string) string {
	text := f.get(name)
	if text == "" {
		f.refuse(name, "missing", "given")
	}
	return text
}

// Err is the first error, which names the field, its value and its limit.
func (f *Form) Err() error { return f.err }

func (f *Form) refuse(name string, value any, limit string) {
	if f.err == nil {
		f.err = &abeam.FieldError{Op: f.op, Field: name, Value: value, Limit: limit, Err: abeam.ErrInvalid}
	}
}

// Read reads the value of the name in the form that its type has in text.
func Read[T any, P interface {
	*T
	encoding.TextUnmarshaler
}](f *Form, name string) (value T) {
	text := f.Text(name)
	if f.err != nil {
		return value
	}
	err := P(&value).UnmarshalText([]byte(text))
	if err == nil {
		return value
	}
	if unread, ok := errors.AsType[*abeam.FieldError](err); ok {
		f.refuse(name, unread.Value, unread.Limit)
	} else {
		f.err = err
	}
	var none T
	return none
}
