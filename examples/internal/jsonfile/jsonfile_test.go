package jsonfile

import (
	"testing"

	"github.com/holdingfix/abeam"
)

type value struct {
	Fix struct {
		Variation abeam.Variation `json:"variation"`
		Names     []string        `json:"names"`
		Far       bool            `json:"far"`
		DME       *float64        `json:"dme_nm"`
	} `json:"fix"`
	Ident string `json:"ident"`
}

// A value of another kind is named with the kind that is wanted, in words of JSON.
func TestWrongKind(t *testing.T) {
	for text, want := range map[string]string{
		`{"fix": 1}`:                     `demo demo, byte 10: "fix" is a number, must be an object`,
		`{"fix": {"variation": 9}}`:      `demo demo, byte 25: "fix.variation" is a number, must be a string`,
		`{"fix": {"names": "one"}}`:      `demo demo, byte 25: "fix.names" is a string, must be a list`,
		`{"fix": {"far": 0}}`:            `demo demo, byte 19: "fix.far" is a number, must be true or false`,
		`{"fix": {"dme_nm": "12"}}`:      `demo demo, byte 25: "fix.dme_nm" is a string, must be a number`,
		`{"ident": 3}`:                   `demo demo, byte 12: "ident" is a number, must be a string`,
		`{"idents": "TARNO"}`:            `demo demo, byte 19: json: unknown field "idents"`,
		`{"ident": "TARNO"} {}`:          `demo demo, byte 20: something follows the demo`,
		`{"fix": {"variation": "nine"}}`: `demo demo, byte 30: abeam.Variation.UnmarshalText: variation is "nine", must be a size from 0 to 180 degrees followed by E or W: invalid input`,
	} {
		if got, err := Read[value]("demo", "", []byte(text)); err == nil || err.Error() != want || got.Ident != "" {
			t.Errorf("%s: %+v, %v, want %s", text, got, err, want)
		}
	}
	if got, err := Read[value]("demo", "", []byte(`{"ident": "TARNO", "fix": {"variation": "9W"}}`)); err != nil || got.Ident != "TARNO" || got.Fix.Variation != -9 {
		t.Errorf("%+v, %v", got, err)
	}
}
