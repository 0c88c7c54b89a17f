package abeam_test

import (
	"testing"

	"github.com/holdingfix/abeam"
)

func TestNorth(t *testing.T) {
	for _, c := range []struct {
		in   abeam.North
		want string
	}{{abeam.True, "true"}, {abeam.Magnetic, "magnetic"}} {
		text, err := c.in.MarshalText()
		if err != nil || string(text) != c.want || c.in.String() != c.want {
			t.Errorf("got %q, %v and %q, want %q", text, err, c.in.String(), c.want)
		}
		var back abeam.North
		if err := back.UnmarshalText(text); err != nil || back != c.in {
			t.Errorf("%q read as %v, %v", text, back, err)
		}
	}
}

func TestNorthNotSaid(t *testing.T) {
	for _, n := range []abeam.North{0, 3, 255} {
		if got := n.String(); got != "not said" {
			t.Errorf("North(%d) is %q", uint8(n), got)
		}
		text, err := n.MarshalText()
		if text != nil {
			t.Errorf("North(%d) marshalled to %q", uint8(n), text)
		}
		wantFieldError(t, err, "abeam.North.MarshalText", "north", "true or magnetic")
	}
}
