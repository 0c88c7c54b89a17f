package area

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// Allowances are how far off a flight may be and still be protected. The zero Allowances
// are the published ones, [PublishedAllowances]; anything else stands as it is given, each
// zero in it a zero.
type Allowances struct {
	Bank     time.Duration // to establish the bank
	Reaction time.Duration // of the pilot, at the most
	Timing   time.Duration // of the outbound leg, early or late
	Heading  abeam.Degrees // of the outbound leg, to either side
	// None asks for a flight without any of them; the others are then zero.
	None bool
}

// PublishedAllowances are 5 seconds to establish the bank, 6 of reaction, 10 in the timing
// of the outbound leg and 5 degrees in its heading.
//
// Source: ICAO Doc 8168 Vol II table I-2-3-1.
func PublishedAllowances() Allowances {
	return Allowances{Bank: 5 * time.Second, Reaction: 6 * time.Second, Timing: 10 * time.Second, Heading: 5}
}

// The most that is allowed for.
const (
	MaxAllowance               = time.Minute
	MaxHeading   abeam.Degrees = 30
)

// filled gives the allowances that hold, once they are found in range.
func (a Allowances) filled(op string) (Allowances, error) {
	if a == (Allowances{}) {
		return PublishedAllowances(), nil
	}
	if a.None && a != (Allowances{None: true}) {
		return Allowances{}, check.Invalid(op, "allowances", a, "zero but for None where there are none")
	}
	for _, f := range []struct {
		name string
		time time.Duration
	}{{"bank establishment", a.Bank}, {"reaction", a.Reaction}, {"timing", a.Timing}} {
		if f.time < 0 || f.time > MaxAllowance {
			return Allowances{}, check.Invalid(op, f.name, f.time, "from 0s to "+MaxAllowance.String())
		}
	}
	if err := check.Within(op, "heading allowance", a.Heading, 0, MaxHeading); err != nil {
		return Allowances{}, err
	}
	return a, nil
}

// early and late are the seconds from a point where a turn is due to its beginning.
func (a Allowances) early() float64 { return a.Bank.Seconds() }
func (a Allowances) late() float64  { return (a.Bank + a.Reaction).Seconds() }
