package entry

// Manner says what is done about the wind. There is no default: the zero Manner is
// rejected.
type Manner uint8

// The manners of flying an entry.
const (
	_ Manner = iota
	// AsPublished is the procedure for still air: its headings and times, wherever the
	// wind blows them. The inbound course is intercepted after it.
	AsPublished
	// ForWind corrects heading and time of the entry leg so that the turn back ends on the
	// inbound course and the inbound leg takes its time.
	ForWind
)

// String gives "as published" or "corrected for the wind".
func (m Manner) String() string {
	switch m {
	case AsPublished:
		return "as published"
	case ForWind:
		return "corrected for the wind"
	}
	return "no manner"
}
