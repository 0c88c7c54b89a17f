package hold

import (
	"fmt"
	"slices"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// The altitudes to which rules apply.
const (
	MinAltitude abeam.Feet = -2000
	MaxAltitude abeam.Feet = 65617
)

// Rules are the holding rules of one authority in one edition: speed limits and leg
// times by altitude, and the rule for the turns. They are plain values: take one from
// its constructor, change what the chart changes. The zero Rules say nothing and are
// rejected; there is no default authority.
type Rules struct {
	Authority string
	Edition   string
	Speeds    []SpeedBand // by rising UpTo
	// Minimum is the lowest indicated airspeed to hold at, at every altitude; zero does
	// not limit.
	Minimum abeam.Knots
	Legs    []LegBand // by rising UpTo
	// LegTimeIs says what the leg time is of: it is the inbound leg for the FAA, the
	// outbound leg in still air for ICAO.
	LegTimeIs LegTimeOf
	Turns     TurnRule
}

// SpeedBand is the speed limit up to an altitude, that altitude included.
type SpeedBand struct {
	UpTo   abeam.Feet
	Limit  SpeedLimit
	Source string
}

// LegBand is the leg time up to an altitude, that altitude included.
type LegBand struct {
	UpTo   abeam.Feet
	Time   time.Duration
	Source string
}

// SpeedLimit is a maximum holding airspeed. Where both figures are given the lesser
// speed is the limit; a zero figure does not limit.
type SpeedLimit struct {
	IAS  abeam.Knots // indicated
	Mach float64
}

// String gives "230 KIAS", "M 0.83" or "the lesser of 280 KIAS and M 0.80".
func (l SpeedLimit) String() string {
	ias := fmt.Sprintf("%.0f KIAS", float64(l.IAS))
	mach := fmt.Sprintf("M %.2f", l.Mach)
	switch {
	case l.IAS == 0 && l.Mach == 0:
		return "no limit"
	case l.Mach == 0:
		return ias
	case l.IAS == 0:
		return mach
	}
	return "the lesser of " + ias + " and " + mach
}

// LegTimeOf says which leg a leg time is of.
type LegTimeOf uint8

// What a leg time is of.
const (
	InboundTime          LegTimeOf = iota // AIM 5-3-8 j.4
	OutboundStillAirTime                  // ICAO Doc 8168 Vol I
)

// String says it in words.
func (o LegTimeOf) String() string {
	switch o {
	case InboundTime:
		return "inbound leg"
	case OutboundStillAirTime:
		return "outbound leg in still air"
	}
	return "not a leg"
}

// SpeedLimit is the band of the rules that holds at an altitude: the limit with its
// source. At the altitude of a boundary the lower band holds.
//
// Errors: [abeam.ErrInvalid] for an altitude outside [MinAltitude] to [MaxAltitude] or
// above all bands, or rules without bands.
func (r Rules) SpeedLimit(altitude abeam.Feet) (SpeedBand, error) {
	return band("hold.Rules.SpeedLimit", r, r.Speeds, altitude, func(b SpeedBand) abeam.Feet { return b.UpTo })
}

// LegTime is the band of the rules that holds at an altitude: the time of the leg named
// by LegTimeIs, with its source. At the altitude of a boundary the lower band holds.
//
// Errors: as for [Rules.SpeedLimit].
func (r Rules) LegTime(altitude abeam.Feet) (LegBand, error) {
	return band("hold.Rules.LegTime", r, r.Legs, altitude, func(b LegBand) abeam.Feet { return b.UpTo })
}

// TimedLeg is the leg of a time as the rules count it: the inbound leg by [TimedInbound],
// or the outbound leg by [TimedOutbound].
func (r Rules) TimedLeg(d time.Duration) Leg {
	if r.LegTimeIs == OutboundStillAirTime {
		return TimedOutbound(d)
	}
	return TimedInbound(d)
}

func band[B any](op string, r Rules, bands []B, altitude abeam.Feet, upTo func(B) abeam.Feet) (B, error) {
	var none B
	if err := check.Within(op, "altitude", altitude, MinAltitude, MaxAltitude); err != nil {
		return none, err
	}
	if len(bands) == 0 {
		return none, check.Invalid(op, "rules", r.String(), "with bands by altitude, as those of FAA and ICAO")
	}
	i := slices.IndexFunc(bands, func(b B) bool { return altitude <= upTo(b) })
	if i < 0 {
		return none, check.Invalid(op, "altitude", altitude, "within a band of the rules of "+r.String())
	}
	return bands[i], nil
}

// String names authority and edition.
func (r Rules) String() string {
	if r.Authority == "" {
		return "no authority"
	}
	return r.Authority + " (" + r.Edition + ")"
}

// Charted replaces the speed limits by the one figure charted at the fix, which
// governs at every altitude: AIM 5-3-8 j.2, a figure in parentheses.
func (r Rules) Charted(limit abeam.Knots) Rules {
	r.Speeds = []SpeedBand{{MaxAltitude, SpeedLimit{IAS: limit}, "as charted; AIM 5-3-8 j.2"}}
	return r
}

// legTimes are the leg times that FAA and ICAO share.
func legTimes(source string) []LegBand {
	return []LegBand{
		{14000, time.Minute, source},
		{MaxAltitude, 90 * time.Second, source},
	}
}
