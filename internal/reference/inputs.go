package reference

import (
	"bytes"
	"compress/gzip"
	"embed"
	"io"
)

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

//go:embed tracks/*.csv.gz
var tracks embed.FS

// Track gives the log of a real flight, a CSV file, by its file name without the
// ending. Their README says where they come from.
func Track(name string) ([]byte, error) {
	packed, err := tracks.ReadFile("tracks/" + name + ".csv.gz")
	if err != nil {
		return nil, err
	}
	plain, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil, err
	}
	return io.ReadAll(plain)
}
