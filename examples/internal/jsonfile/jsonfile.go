// Package jsonfile reads the JSON files that the programs take.
package jsonfile

import (
	"bytes"
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"reflect"
)

// Max is far above any input in bytes and keeps a wrong file out of memory.
const Max = 1 << 20

// Read decodes one value of JSON from a file, or the demonstration where there is no
// name. Fields that are not known, anything after the value and a file larger than Max
// are errors; kind says in them what was read.
func Read[T any](kind, name string, demo []byte) (T, error) {
	var value, none T
	text := demo
	if name != "" {
		f, err := os.Open(name)
		if err != nil {
			return none, fmt.Errorf("%s: %w", kind, err)
		}
		defer f.Close()
		if text, err = io.ReadAll(io.LimitReader(f, Max+1)); err != nil {
			return none, fmt.Errorf("%s: %w", kind, err)
		}
		if len(text) > Max {
			return none, fmt.Errorf("%s %s: larger than %d bytes", kind, name, Max)
		}
	} else {
		name = "demo"
	}
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	err := d.Decode(&value)
	if err == nil {
		if _, more := d.Token(); !errors.Is(more, io.EOF) {
			err = fmt.Errorf("something follows the %s", kind)
		}
	}
	if wrong, ok := errors.AsType[*json.UnmarshalTypeError](err); ok {
		err = fmt.Errorf("%q is a %s, must be %s", wrong.Field, wrong.Value, form(wrong.Type))
	}
	if err != nil {
		return none, fmt.Errorf("%s %s, byte %d: %w", kind, name, d.InputOffset(), err)
	}
	return value, nil
}

// form is what JSON writes for a value of the type. Json itself would say the type in Go.
func form(t reflect.Type) string {
	if reflect.PointerTo(t).Implements(reflect.TypeFor[encoding.TextUnmarshaler]()) {
		return "a string"
	}
	switch t.Kind() {
	case reflect.Struct, reflect.Map:
		return "an object"
	case reflect.Slice, reflect.Array:
		return "a list"
	case reflect.String:
		return "a string"
	case reflect.Bool:
		return "true or false"
	}
	return "a number"
}
