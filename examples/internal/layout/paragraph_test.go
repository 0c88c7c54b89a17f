package layout

import (
	"bytes"
	"strings"
	"testing"
)

func TestParagraph(t *testing.T) {
	long := strings.Repeat("x", Columns)
	for _, c := range []struct {
		indent, margin int
		name, text     string
		want           string
	}{
		{0, 6, "Wind", "from  131\nat 19 kt", "Wind  from 131 at 19 kt\n"},
		{2, 8, "Wind", "calm", "  Wind  calm\n"},
		{2, 8, "", "calm", "        calm\n"},
		{2, 8, "Wind", "", "  Wind\n"},
		{0, 2, "a", "b " + long + " c", "a b\n  " + long + "\n  c\n"},
		{0, 4, "a", strings.Repeat("y", Columns-6) + " z", "a   " + strings.Repeat("y", Columns-6) + " z\n"},
		{0, 4, "a", strings.Repeat("y", Columns-5) + " z", "a   " + strings.Repeat("y", Columns-5) + "\n    z\n"},
	} {
		var out bytes.Buffer
		Paragraph(&out, c.indent, c.margin, c.name, c.text)
		if out.String() != c.want {
			t.Errorf("%q: got %q, want %q", c.text, out.String(), c.want)
		}
	}
}
