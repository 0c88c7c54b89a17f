package tolerance

import (
	"fmt"
	"math"
	"math/bits"
	"strings"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// Quantity is one thing that a log may hold. Values are bits of a [Quantities].
type Quantity uint16

// The quantities. Time, latitude and longitude are in every sample.
const (
	Time Quantity = 1 << iota
	Latitude
	Longitude
	Altitude
	IAS
	Heading
	Groundspeed
	Track
	CDI // deviation as a share of full scale, positive where the aeroplane is right of course
	lastQuantity
)

// String names the quantity.
func (q Quantity) String() string {
	switch q {
	case Time:
		return "time"
	case Latitude:
		return "latitude"
	case Longitude:
		return "longitude"
	case Altitude:
		return "altitude"
	case IAS:
		return "indicated airspeed"
	case Heading:
		return "heading"
	case Groundspeed:
		return "groundspeed"
	case Track:
		return "track"
	case CDI:
		return "course deviation"
	}
	return "not a quantity"
}

// Quantities is a set of quantities. The zero Quantities is empty.
type Quantities uint16

// Has reports whether all of q is in the set.
func (qs Quantities) Has(q Quantity) bool { return Quantity(qs)&q == q }

// String lists the quantities.
func (qs Quantities) String() string {
	var names []string
	for q := Time; q < lastQuantity; q <<= 1 {
		if qs.Has(q) {
			names = append(names, q.String())
		}
	}
	return strings.Join(names, ", ")
}

// Sample is one moment of a log. A quantity that is not in Has is zero and means
// nothing.
type Sample struct {
	Time        time.Duration // since the start of the log
	Lat, Lon    float64       // WGS-84, degrees
	Altitude    abeam.Feet
	IAS         abeam.Knots
	Heading     abeam.Bearing // in the north of Log.HeadingNorth
	Groundspeed abeam.Knots
	Track       abeam.Bearing // in the north of Log.TrackNorth
	CDI         float64
	Line        int32 // of the file it came from; 0 if it came from none
	Has         Quantities
}

// Log is a flight as it was recorded, in the order of time. Readers put it in that
// order and tell in Findings what they met.
type Log struct {
	// Start is when the times count from; zero where the log does not say.
	Start        time.Time
	Samples      []Sample // times strictly increasing
	HeadingNorth abeam.North
	TrackNorth   abeam.North
	Findings     []Finding
	// Unused counts the lines and samples that were read and are not in Samples; each
	// is in a finding.
	Unused int
}

// Limits of a log that is read.
const (
	MaxSamples = 10_000_000
	MaxLine    = 64 << 10 // bytes
)

// validate holds a log to what its documentation promises: readers keep to it, a log put
// together otherwise may not.
func (l *Log) validate(op string) error {
	for i := range l.Samples {
		s := &l.Samples[i]
		if i > 0 && s.Time <= l.Samples[i-1].Time {
			return check.Invalid(op, fmt.Sprintf("time of sample %d", i), s.Time, "after that of the sample before")
		}
		if !(s.Lat >= -90 && s.Lat <= 90 && s.Lon >= -180 && s.Lon <= 180) {
			return check.Invalid(op, fmt.Sprintf("position of sample %d", i), [2]float64{s.Lat, s.Lon}, "on the globe")
		}
		for _, x := range [...]float64{float64(s.Altitude), float64(s.IAS), float64(s.Heading), float64(s.Groundspeed), float64(s.Track), s.CDI} {
			if !(math.Abs(x) <= 1e300) { // sums and differences of many stay finite
				return check.Invalid(op, fmt.Sprintf("sample %d", i), x, "finite")
			}
		}
	}
	return nil
}

// Has is what at least half of the samples hold.
func (l *Log) Has() Quantities {
	var counts [16]int
	for i := range l.Samples {
		for set := uint16(l.Samples[i].Has); set != 0; set &= set - 1 {
			counts[bits.TrailingZeros16(set)]++
		}
	}
	var has Quantities
	for k, n := range counts {
		if n > 0 && 2*n >= len(l.Samples) {
			has |= 1 << k
		}
	}
	return has
}
