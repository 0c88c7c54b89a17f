package wind

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// Limits of a bulletin that is read.
const (
	MaxBulletin     = 1 << 20 // bytes
	MaxBulletinLine = 120     // bytes, without blanks at the end
)

// AloftBulletin is a winds-and-temperatures-aloft forecast. Every line of its text
// that is not blank is in exactly one of Heading, Stations and Failed.
type AloftBulletin struct {
	Heading  []Line // as they stand, the line of levels among them
	BasedOn  DayTime
	Valid    DayTime
	UseFrom  time.Duration // since midnight UTC; with UseTo, both 0 if not said
	UseTo    time.Duration
	Levels   []abeam.Feet // ascending
	Stations []AloftStation
	Failed   []FailedLine // see Err
}

// AloftStation is the forecast for one place.
type AloftStation struct {
	Name   string // three letters or digits
	Line   int    // of the text, from 1
	Levels []AloftLevel
}

// Line is a line of a text.
type Line struct {
	Number int // from 1
	Text   string
}

// FailedLine is a line that was not decoded, and why. Err is an
// [*abeam.FieldError] whose field names the line and the group.
type FailedLine struct {
	Line
	Err error
}

// Err joins the errors of the lines that failed; nil if all were decoded.
func (b AloftBulletin) Err() error {
	all := make([]error, len(b.Failed))
	for i, f := range b.Failed {
		all[i] = f.Err
	}
	return errors.Join(all...)
}

// DecodeAloftBulletin decodes the text of one US winds-and-temperatures-aloft
// bulletin (FB, formerly FD) in a single pass:
//
//	000
//	FBUS31 KWNO 310158
//	FD1US1
//	DATA BASED ON 310000Z
//	VALID 310600Z   FOR USE 0200-0900Z. TEMPS NEG ABV 24000
//	FT  3000    6000    9000   12000   18000   24000  30000  34000  39000
//	ABI      3114+02 3222-06 3232-10 3248-22 3473-32 359045 850053 329558
//
// Only the line of levels must be there. A group belongs to the level under whose
// figure, or the blanks before it, it stands: the low levels of a high station are
// missing, and their places are blank. A gap anywhere else is a fault. Groups are
// those of [DecodeAloftGroup].
//
// A line that cannot be decoded, whole or in one group, is listed in Failed with the
// reason, and the others are decoded all the same; look at Failed or Err before
// relying on a station's absence. So it goes with lower case, a line cut short, a
// station given twice, and bytes that are not text. A second heading ends the
// bulletin, because what follows it is of other times: it and all after it fail.
// Lines that are empty but for blanks and the marks of a transmission (SOH, ETX) are
// blank.
//
// Levels to 12,000 ft are true altitudes and those above pressure altitudes (from
// memory); winds are from true north.
//
// Source: US Navy CNATRA P-304 ch. 2; FAA AC 00-45, winds and temperatures aloft
// forecast; the layout as in bulletins of the US National Weather Service of 2026.
//
// Errors: [abeam.ErrInvalid] for a text of more than [MaxBulletin] bytes, or of blank
// lines only.
func DecodeAloftBulletin(text string) (AloftBulletin, error) {
	if len(text) > MaxBulletin {
		return AloftBulletin{}, check.Invalid(opBulletin, "length", len(text), fmt.Sprintf("at most %d bytes", MaxBulletin))
	}
	d := aloftDecoder{stationLine: map[string]int{}}
	for number := 1; text != ""; number++ {
		var line string
		line, text, _ = strings.Cut(text, "\n")
		if line = strings.TrimRight(line, " \t\r"); strings.Trim(line, " \t\r\x01\x03") != "" {
			d.line(Line{Number: number, Text: line})
		}
	}
	if d.Heading == nil && d.Stations == nil && d.Failed == nil {
		return AloftBulletin{}, check.Invalid(opBulletin, "text", quote(""), "a bulletin, not blank")
	}
	return d.AloftBulletin, nil
}

const opBulletin = "wind.DecodeAloftBulletin"

// aloftDecoder is a bulletin as far as it has been read.
type aloftDecoder struct {
	AloftBulletin
	columns     []aloftColumn
	headings    [headingKinds]bool // which have been read
	stationLine map[string]int
	endLine     int // where a second heading ended the bulletin
}

// line puts a line where it belongs.
func (d *aloftDecoder) line(l Line) {
	if d.endLine != 0 {
		d.fail(l, "", l.Text, "of one bulletin; a second heading stands on line %d", d.endLine)
		return
	}
	if len(l.Text) > MaxBulletinLine {
		d.fail(l, "", l.Text, "at most %d characters long", MaxBulletinLine)
		return
	}
	for i := range len(l.Text) {
		if c := l.Text[i]; c < ' ' || c > '~' {
			d.fail(l, "", l.Text, "plain text; byte %#02x stands in column %d", c, i+1)
			return
		}
	}
	if kind := headingOf(l.Text); kind != notHeading {
		d.heading(l, kind)
		return
	}
	d.station(l)
}

// heading takes a line above the stations, or ends the bulletin at a second one.
func (d *aloftDecoder) heading(l Line, kind headingKind) {
	if d.headings[kind] || d.columns != nil {
		d.endLine = l.Number
		d.fail(l, "", l.Text, "of one bulletin; this is a second heading")
		return
	}
	if limit := d.readHeading(kind, l.Text); limit != "" {
		d.fail(l, "", l.Text, "%s", limit)
		return
	}
	d.headings[kind] = true
	d.Heading = append(d.Heading, l)
}

// fail lists a line. At fault is a value, the line or a part of it; where tells which
// part.
func (d *aloftDecoder) fail(l Line, where, value, format string, args ...any) {
	field := fmt.Sprintf("line %d", l.Number)
	if where != "" {
		field += ", " + where
	}
	d.Failed = append(d.Failed, FailedLine{
		Line: l, Err: check.Invalid(opBulletin, field, quote(value), fmt.Sprintf(format, args...)),
	})
}
