package hold

import (
	"strconv"
	"strings"

	"github.com/holdingfix/abeam/internal/check"
)

// word is a word of a spoken text, in upper case.
type word struct {
	text string
	at   int  // byte of the text
	last bool // punctuation or the end follows: no name or number goes on
}

// split takes a text apart. Letters, figures and what is not punctuation make words; a
// point or colon between figures belongs to the number.
func split(text string) []word {
	var words []word
	start := -1
	end := func(i int) {
		if start >= 0 {
			words = append(words, word{text: upper(text[start:i]), at: start})
			start = -1
		}
	}
	for i := 0; i < len(text); i++ {
		b := text[i]
		switch {
		case strings.IndexByte(".:", b) >= 0 && start >= 0 && figure(text[i-1]) && i+1 < len(text) && figure(text[i+1]):
			// within a number
		case strings.IndexByte(",;.:!?\n\r", b) >= 0:
			end(i)
			if len(words) > 0 {
				words[len(words)-1].last = true
			}
		case strings.IndexByte(" \t-/'\"()", b) >= 0:
			end(i)
		case strings.HasPrefix(text[i:], "°"):
			end(i)
			i++
		case start < 0:
			start = i
		}
	}
	end(len(text))
	if len(words) > 0 {
		words[len(words)-1].last = true
	}
	return words
}

func figure(b byte) bool { return b >= '0' && b <= '9' }

// upper leaves all but ASCII letters alone: no other word of the phraseology has any.
func upper(s string) string {
	b := []byte(s)
	for i, c := range b {
		if c >= 'a' && c <= 'z' {
			b[i] = c - 'a' + 'A'
		}
	}
	return string(b)
}

// plain reports a word of ASCII letters and figures, as fixes and stations have them.
func plain(s string) bool {
	return s != "" && strings.Trim(s, "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789") == ""
}

// isAirway reports a designator such as V123 or UL607.
func isAirway(s string) bool {
	letters := len(s) - len(strings.TrimLeft(s, "ABCDEFGHIJKLMNOPQRSTUVWXYZ"))
	figures := len(s) - letters
	return letters >= 1 && letters <= 2 && figures >= 1 && figures <= 4 && strings.Trim(s[letters:], "0123456789") == ""
}

// spoken are the words for figures, with the pronunciations that some are given.
var spoken = map[string]string{
	"ZERO": "0", "ONE": "1", "TWO": "2", "THREE": "3", "FOUR": "4", "FIVE": "5", "SIX": "6", "SEVEN": "7", "EIGHT": "8", "NINE": "9",
	"WUN": "1", "TREE": "3", "FOWER": "4", "FIFE": "5", "AIT": "8", "NINER": "9",
	"TEN": "10", "ELEVEN": "11", "TWELVE": "12", "THIRTEEN": "13", "FOURTEEN": "14", "FIFTEEN": "15", "SIXTEEN": "16",
	"SEVENTEEN": "17", "EIGHTEEN": "18", "NINETEEN": "19",
	"TWENTY": "20", "THIRTY": "30", "FORTY": "40", "FIFTY": "50", "SIXTY": "60", "SEVENTY": "70", "EIGHTY": "80", "NINETY": "90",
}

// digitWords are the figures as they are read back.
var digitWords = [10]string{"ZERO", "ONE", "TWO", "THREE", "FOUR", "FIVE", "SIX", "SEVEN", "EIGHT", "NINER"}

// speak writes figures and points as words: "1.5" as ONE POINT FIVE.
func speak(figures string) string {
	var words []string
	for _, b := range []byte(figures) {
		switch {
		case figure(b):
			words = append(words, digitWords[b-'0'])
		case b == '.':
			words = append(words, "POINT")
		}
	}
	return strings.Join(words, " ")
}

// clip words a text for an error: quoted, one line, short.
func clip(s string) string {
	const most = 40
	if len(s) > most {
		s = s[:most] + "..."
	}
	return strconv.Quote(s)
}

// validName accepts what the reader would read as one name.
func validName(op, field, name string) error {
	if name == "" {
		return nil
	}
	if r := (reader{words: split(name[:min(len(name), maxName+1)])}); r.name() == name && r.done() {
		return nil
	}
	return check.Invalid(op, field, clip(name), "words of letters and figures in upper case that begin no other item, at most 40 in all")
}
