package hold

import (
	"strconv"
	"strings"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// MaxClearance is the length in bytes of the longest text that [ParseClearance] reads.
const MaxClearance = 1000

// ParseClearance reads a holding clearance in the words of the FAA's phraseology:
//
//	CLEARED TO (fix), HOLD (direction), AS PUBLISHED
//	HOLD (direction) OF (fix) ON (radial, course, bearing, track, airway or route),
//	(number) MINUTE or MILE LEG, LEFT or RIGHT TURNS, EXPECT FURTHER CLEARANCE (time)
//	MAXIMUM HOLDING AIRSPEED IS (knots)
//	NO DELAY EXPECTED
//
// in any order and each at most once, in upper or lower case, with punctuation or
// without; a comma keeps numbers apart that would run together. A line is "THE 063
// RADIAL", "THE TARNO 063 RADIAL", "THE 063 RADIAL OF TARNO", "COURSE 075", "V123",
// "VICTOR ONE TWO THREE", "AIRWAY V123" or "ROUTE (name)". Numbers are figures or words
// ("zero six three", "niner", "one point five", "one and a half"), times "1835",
// "18:35Z" or "one eight three five". Directions may be written as N, NE and so on,
// miles as NM. A call sign is not part of a clearance.
//
// Source: FAA JO 7110.65 4-6-1, and 4-6-4 from secondary copies; AIM 5-3-8 i. Numbers in
// words: AIM 4-2-8 and 4-2-9 (from memory).
//
// Errors: [abeam.ErrInvalid] for a text that is empty or longer than [MaxClearance], or
// that cannot be read: the Field then names the word by its number and its byte in the
// text, the Limit what would have been read there. What can be read but should be
// queried is told by [Clearance.Findings].
func ParseClearance(text string) (Clearance, error) {
	if len(text) > MaxClearance {
		return Clearance{}, check.Invalid(opParse, "length of the text", len(text), "at most "+strconv.Itoa(MaxClearance)+" bytes")
	}
	r := &reader{words: split(text)}
	if r.done() {
		return Clearance{}, check.Invalid(opParse, "text", clip(text), "a clearance")
	}
	var c Clearance
	var said [items]bool
	for !r.done() {
		begin := r.next
		which, err := r.item(&c)
		if err != nil {
			return Clearance{}, err
		}
		if said[which] {
			return Clearance{}, r.fail(begin, "said only once")
		}
		said[which] = true
	}
	return c, nil
}

// The items that may be said once. Minutes and miles are two: both are a finding.
const (
	itemLimit = iota
	itemHold
	itemLine
	itemMinutes
	itemMiles
	itemTurn
	itemEFC
	itemPublished
	itemNoDelay
	itemSpeed
	items
)

// item reads one item into the clearance and says which it was.
func (r *reader) item(c *Clearance) (int, error) {
	switch {
	case r.take("CLEARED"):
		return itemLimit, r.limit(c)
	case r.take("HOLD"):
		return itemHold, r.hold(c)
	case r.take("ON"):
		return itemLine, r.line(&c.Line)
	case r.take("LEFT"):
		return itemTurn, r.turns(c, Left)
	case r.take("RIGHT"):
		return itemTurn, r.turns(c, Right)
	case r.take("EFC"):
		return itemEFC, r.efc(c)
	case r.take("EXPECT"):
		if err := r.need("FURTHER", "CLEARANCE"); err != nil {
			return 0, err
		}
		return itemEFC, r.efc(c)
	}
	return r.legOrRemark(c)
}

func (r *reader) legOrRemark(c *Clearance) (int, error) {
	begin := r.next
	switch {
	case r.take("AS"):
		c.AsPublished = true
		return itemPublished, r.need("PUBLISHED")
	case r.take("NO"):
		c.NoDelay = true
		return itemNoDelay, r.need("DELAY", "EXPECTED")
	case r.take("MAXIMUM"):
		return itemSpeed, r.maximum(c)
	}
	if n := r.number(); n != "" {
		return r.leg(c, n, begin)
	}
	return 0, r.fail(begin, "an item of a holding clearance, such as HOLD, ON, LEFT TURNS or EXPECT FURTHER CLEARANCE")
}

func (r *reader) limit(c *Clearance) error {
	if err := r.need("TO"); err != nil {
		return err
	}
	begin := r.next
	if c.ClearedTo = r.name(); c.ClearedTo == "" {
		return r.fail(begin, "the name of a fix")
	}
	return nil
}

func (r *reader) hold(c *Clearance) error {
	begin := r.next
	c.Direction = r.octant()
	switch {
	case c.Direction == 0 && r.peek() == "AS":
		return nil
	case c.Direction == 0:
		return r.fail(begin, "a direction of holding: NORTH, NORTHEAST and so on")
	case !r.take("OF"):
		return nil
	}
	begin = r.next
	if c.Fix = r.name(); c.Fix == "" {
		return r.fail(begin, "the name of a fix")
	}
	return nil
}

// octant reads a direction in one word or two, NORTH EAST, or its letters.
func (r *reader) octant() Octant {
	w := r.peek()
	if (w == "NORTH" || w == "SOUTH") && !r.words[r.next].last {
		if second := r.words[r.next+1].text; second == "EAST" || second == "WEST" {
			w += second
			r.next++
		}
	}
	for o := North; o <= Northwest; o++ {
		if w == upper(o.String()) || w == o.letters() {
			r.next++
			return o
		}
	}
	return 0
}

func (o Octant) letters() string {
	return [...]string{"N", "NE", "E", "SE", "S", "SW", "W", "NW"}[o-1]
}

func (r *reader) turns(c *Clearance, turn Turn) error {
	c.Turn, c.TurnSaid = turn, true
	r.take("HAND")
	if r.take("TURNS", "TURN") {
		return nil
	}
	return r.fail(r.next, "TURNS")
}

// leg reads what the number that began the item counts.
func (r *reader) leg(c *Clearance, n string, begin int) (int, error) {
	if !strings.Contains(n, ".") && r.take("AND") {
		r.take("A", "ONE")
		if err := r.need("HALF"); err != nil {
			return 0, err
		}
		n += ".5"
	}
	hundredths, ok := parseHundredths(n)
	item := itemMiles
	switch {
	case r.take("MINUTE", "MINUTES", "MIN"):
		item = itemMinutes
	case r.take("NAUTICAL"):
		if !r.take("MILE", "MILES") {
			return 0, r.fail(r.next, "MILE")
		}
	case !r.take("MILE", "MILES", "NM"):
		return 0, r.fail(r.next, "MINUTE or MILE after a number")
	}
	r.take("DME")
	r.take("LEG", "LEGS")
	if item == itemMinutes {
		if !ok || hundredths > 6000 {
			return 0, r.fail(begin, "above 0 and at most 60 minutes, in hundredths")
		}
		c.LegTime = time.Duration(hundredths) * minuteHundredth
		return item, nil
	}
	if !ok {
		return 0, r.fail(begin, "above 0 and below 100 miles, in hundredths")
	}
	c.LegMiles = abeam.NM(float64(hundredths) / 100)
	return item, nil
}

const minuteHundredth = time.Minute / 100

// parseHundredths reads a number above 0 and below 100 with up to two decimals.
func parseHundredths(n string) (int, bool) {
	whole, decimals, _ := strings.Cut(n, ".")
	if len(whole) > 2 || len(decimals) > 2 {
		return 0, false
	}
	h, err := strconv.Atoi(whole + (decimals + "00")[:2])
	return h, err == nil && h > 0
}

func (r *reader) maximum(c *Clearance) error {
	if err := r.need("HOLDING"); err != nil {
		return err
	}
	if !r.take("AIRSPEED", "SPEED") {
		return r.fail(r.next, "AIRSPEED")
	}
	r.take("IS")
	begin := r.next
	v, err := strconv.Atoi(r.number())
	if err != nil || v < 1 || v > 999 {
		return r.fail(begin, "a speed from 1 to 999 knots")
	}
	c.MaxIAS = abeam.Knots(v)
	r.take("KNOTS", "KNOT", "KT", "KIAS")
	return nil
}

func (r *reader) efc(c *Clearance) error {
	r.take("AT", "TIME")
	begin := r.next
	var ok bool
	if c.EFC, ok = parseClock(r.clockFigures()); !ok {
		return r.fail(begin, "a time of four figures, 0000 to 2359")
	}
	if !r.ended() {
		r.take("Z", "ZULU", "UTC")
	}
	return nil
}

// clockFigures reads a time as it is said, 1835, 18:35, 18 35, 1835Z or in words, and
// gives its figures.
func (r *reader) clockFigures() string {
	w := strings.TrimSuffix(r.peek(), "Z")
	hour, minute, colon := strings.Cut(w, ":")
	if !colon && (len(w) < 2 || !written(w)) {
		return r.number()
	}
	r.next++
	if colon {
		if len(hour) == 1 {
			hour = "0" + hour
		}
		return hour + minute
	}
	if second := strings.TrimSuffix(r.peek(), "Z"); len(w) == 2 && !r.ended() && len(second) == 2 && written(second) {
		r.next++
		return w + second
	}
	return w
}

func parseClock(figures string) (ClockTime, bool) {
	if len(figures) != 4 || strings.Trim(figures, "0123456789") != "" {
		return ClockTime{}, false
	}
	n, _ := strconv.Atoi(figures) // four figures are a number
	c, err := NewClockTime(n/100, n%100)
	return c, err == nil
}
