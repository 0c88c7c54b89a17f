package hold

import (
	"strconv"

	"github.com/holdingfix/abeam"
)

// line reads what follows ON.
func (r *reader) line(l *Line) error {
	r.take("THE")
	switch {
	case r.take("AIRWAY"):
		l.Kind = Airway
		begin := r.next
		if l.Name = r.airway(); l.Name == "" {
			return r.fail(begin, "the designator of an airway, such as V123")
		}
		return nil
	case r.take("ROUTE"):
		l.Kind = Route
		begin := r.next
		if l.Name = r.name(); l.Name == "" {
			return r.fail(begin, "the name of a route")
		}
		return nil
	}
	if l.Kind = r.lineKind(); l.Kind != 0 { // RADIAL 063
		if err := r.degrees(l); err != nil {
			return err
		}
		return r.station(l)
	}
	if l.Name = r.airway(); l.Name != "" {
		l.Kind = Airway
		if !r.ended() {
			r.take("AIRWAY")
		}
		return nil
	}
	l.Name = r.name()
	if err := r.degrees(l); err != nil {
		return err
	}
	if l.Kind = r.lineKind(); l.Kind == 0 {
		return r.fail(r.next, "RADIAL, COURSE, BEARING or TRACK")
	}
	return r.station(l)
}

// lineKind reads the kind of a line that is given in degrees.
func (r *reader) lineKind() LineKind {
	for k := Radial; k.numbered(); k++ {
		if r.take(upper(k.String())) {
			return k
		}
	}
	return 0
}

func (r *reader) degrees(l *Line) error {
	begin := r.next
	n := r.number()
	d, err := strconv.Atoi(n)
	if err != nil || len(n) > 3 || d > 360 {
		return r.fail(begin, "three figures from 000 to 360")
	}
	l.Bearing = abeam.NewBearing(float64(d))
	r.take("DEGREES", "DEGREE")
	return nil
}

// station reads the station that a radial or bearing is of, unless it was said before.
func (r *reader) station(l *Line) error {
	begin := r.next
	if !r.take("OF", "FROM") {
		return nil
	}
	if l.Name != "" {
		return r.fail(begin, "another item: the station is "+clip(l.Name))
	}
	begin = r.next
	if l.Name = r.name(); l.Name == "" {
		return r.fail(begin, "the name of a station")
	}
	return nil
}

// airwayLetters are the airways that are spoken by a word.
var airwayLetters = map[string]string{"VICTOR": "V", "JET": "J", "QUEBEC": "Q", "TANGO": "T"}

// airway reads a designator, V123 or VICTOR ONE TWO THREE; nothing if there is none.
func (r *reader) airway() string {
	begin := r.next
	if isAirway(r.peek()) {
		r.next++
		return r.words[begin].text
	}
	if letter := airwayLetters[r.peek()]; letter != "" {
		r.next++
		if a := letter + r.number(); isAirway(a) && !r.words[begin].last {
			return a
		}
	}
	r.next = begin
	return ""
}
