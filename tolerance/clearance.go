package tolerance

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/wind"
)

// Clearance is what a flown hold is judged against: the pattern, and the targets from
// which a standard counts. A zero target is none, and its item is not judged.
type Clearance struct {
	Pattern  hold.Pattern
	Altitude abeam.Feet  // assigned
	IAS      abeam.Knots // assigned or chosen
	Guidance Guidance    // of the inbound course
	// LegLength is the length of the inbound leg where the clearance gives one.
	LegLength abeam.NM
	// Leave is the time to leave the fix, since the start of the log.
	Leave time.Duration
}

func (c Clearance) validate(op string) error {
	if c.Pattern.Leg() == (hold.Leg{}) {
		return check.Invalid(op, "pattern", "zero", "one that hold.NewPattern gave")
	}
	if err := check.Within(op, "altitude assigned", c.Altitude, hold.MinAltitude, hold.MaxAltitude); err != nil {
		return err
	}
	if err := check.Within(op, "airspeed assigned", c.IAS, 0, wind.MaxTAS); err != nil {
		return err
	}
	if err := check.Within(op, "leg length", c.LegLength, 0, 100); err != nil {
		return err
	}
	if c.Leave < 0 {
		return check.Invalid(op, "time to leave", c.Leave, "0s or more")
	}
	return c.Guidance.validate(op)
}
