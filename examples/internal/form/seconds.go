package form

import (
	"strconv"
	"time"

	"github.com/holdingfix/abeam"
)

// Seconds is a time that is typed as a number of seconds.
type Seconds time.Duration

// UnmarshalText reads a number from 0 to 3600, with decimals or without.
func (s *Seconds) UnmarshalText(text []byte) error {
	x, err := strconv.ParseFloat(string(text), 64)
	if err != nil || !(x >= 0 && x <= 3600) {
		return &abeam.FieldError{
			Op: "form.Seconds.UnmarshalText", Field: "seconds", Value: strconv.Quote(string(text)), Limit: "a number from 0 to 3600", Err: abeam.ErrInvalid,
		}
	}
	*s = Seconds(x * float64(time.Second))
	return nil
}
