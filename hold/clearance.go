package hold

import (
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// Clearance is a holding clearance as it is spoken: the items of AIM 5-3-8 i, and what
// goes with them in FAA JO 7110.65 4-6-1 and 4-6-4. What was not said has its zero
// value. It is read by [ParseClearance] and written by [Clearance.String] and
// [Clearance.Readback]; clearances compare with ==.
//
// A Clearance holds what was said and not whether it makes sense: [Clearance.Findings]
// tells that, and [Clearance.Pattern] makes the pattern of it.
type Clearance struct {
	ClearedTo string // the clearance limit: CLEARED TO (fix)
	// Fix is the holding fix where the holding instruction names it: HOLD (direction) OF
	// (fix). Words of letters and figures in upper case: "TARNO", "15 DME FIX".
	Fix         string
	Direction   Octant // where the pattern lies from the fix
	Line        Line
	AsPublished bool
	LegTime     time.Duration // above 0 and at most MaxLeg, in hundredths of a minute
	LegMiles    abeam.NM      // above 0 and below 100, in hundredths
	Turn        Turn          // right unless said otherwise
	TurnSaid    bool          // always so if left
	EFC         ClockTime     // expect further clearance
	MaxIAS      abeam.Knots   // maximum holding airspeed, whole knots below 1000
	NoDelay     bool          // no delay expected
}

// HoldingFix is the fix to hold at: the one that the holding instruction names, or else
// the clearance limit, as in CLEARED TO TARNO, HOLD WEST, AS PUBLISHED.
func (c Clearance) HoldingFix() string {
	if c.Fix != "" {
		return c.Fix
	}
	return c.ClearedTo
}

// DistanceLeg gives the length of the outbound leg in miles, for a fix by DME or RNAV
// (AIM 5-3-8 j.5); false if the clearance gives none.
func (c Clearance) DistanceLeg() (abeam.NM, bool) { return c.LegMiles, c.LegMiles > 0 }

// Validate reports a field out of range as [abeam.ErrInvalid], a name among them that
// would not be read back as it is written. What [ParseClearance] gives is valid.
func (c Clearance) Validate() error { return c.validate("hold.Clearance.Validate") }

func (c Clearance) validate(op string) error {
	if err := validName(op, "clearance limit", c.ClearedTo); err != nil {
		return err
	}
	if err := validName(op, "fix", c.Fix); err != nil {
		return err
	}
	if c.Fix != "" && !c.Direction.known() {
		return check.Invalid(op, "fix", c.Fix, "given with a direction of holding")
	}
	if err := c.Direction.validate(op); err != nil {
		return err
	}
	if err := c.Line.validate(op); err != nil {
		return err
	}
	if !(c.LegTime >= 0 && c.LegTime <= MaxLeg && c.LegTime%minuteHundredth == 0) {
		return check.Invalid(op, "leg time", c.LegTime, "from 0 to 60 minutes, in hundredths")
	}
	if h := float64(c.LegMiles) * 100; !(h >= 0 && h < 1e4 && abeam.NM(math.Round(h)/100) == c.LegMiles) {
		return check.Invalid(op, "leg in miles", c.LegMiles, "from 0 to below 100 NM, in hundredths")
	}
	if err := c.Turn.validate(op); err != nil {
		return err
	}
	if c.Turn == Left && !c.TurnSaid {
		return check.Invalid(op, "turn", c.Turn, "right, if none was said")
	}
	if v := float64(c.MaxIAS); !(v >= 0 && v < 1000 && v == math.Trunc(v)) {
		return check.Invalid(op, "maximum holding airspeed", c.MaxIAS, "from 0 to 999 kt, in whole knots")
	}
	return nil
}
