// Package layout lays text out for a terminal.
package layout

import (
	"fmt"
	"io"
	"strings"
)

// Columns keeps every line on a narrow terminal.
const Columns = 84

// Paragraph wraps a text at [Columns] with its name, indented, in a margin of a width. A
// word that is longer stands on a line of its own.
func Paragraph(w io.Writer, indent, margin int, name, text string) {
	line := fmt.Sprintf("%*s%-*s", indent, "", margin-indent, name)
	empty := true
	for _, word := range strings.Fields(text) {
		if !empty && len(line)+1+len(word) > Columns {
			fmt.Fprintln(w, line)
			line, empty = strings.Repeat(" ", margin), true
		}
		if !empty {
			line += " "
		}
		line += word
		empty = false
	}
	fmt.Fprintln(w, strings.TrimRight(line, " "))
}
