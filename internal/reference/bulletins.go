package reference

import "embed"

// The bulletins are product text of the US National Weather Service, public domain,
// copied as data: 31 stations of one bulletin, and lines of others below their
// heading. The last line of aloft_older.txt carries a note of whoever copied it and
// is no line of a bulletin.
//
//go:embed aloft_*.txt
var bulletins embed.FS

// Bulletin gives the text of a winds-aloft bulletin by its file name without the
// ending.
func Bulletin(name string) (string, error) {
	text, err := bulletins.ReadFile(name + ".txt")
	return string(text), err
}
