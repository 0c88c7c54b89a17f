package wind

import (
	"fmt"
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
)

// Limits of a lap that is accepted.
const (
	// MinTurnRate is a circle of an hour.
	MinTurnRate abeam.Degrees = 0.1
	// MaxTurnRate is beyond any aeroplane that holds.
	MaxTurnRate abeam.Degrees = 30
	// MaxLeg is the longest straight leg.
	MaxLeg = time.Hour
)

// Lap is one circuit of a hold as it was flown and timed: from the fix round a
// turn, straight outbound on one heading, round a turn in the same direction, and
// straight inbound along the course to the fix. Airspeed, rate of turn and wind are
// constant. The side of the turns does not enter: either way they make one full
// circle. The zero Lap has no airspeed and is rejected.
type Lap struct {
	TAS        abeam.Knots   // above 0 and at most MaxTAS
	Rate       abeam.Degrees // of turn per second, MinTurnRate to MaxTurnRate
	Outbound   time.Duration // straight, from wings level to the next turn; 0 to MaxLeg
	Inbound    time.Duration // straight, from rolling out to the fix; above 0 and at most MaxLeg
	Correction abeam.Degrees // inbound heading - inbound course, positive to the right; within 90 degrees
	// Reversed says that the outbound leg was flown on a heading within 90
	// degrees of the inbound course, not of its reciprocal. It takes a wind along
	// the course of about a third of the airspeed to fly such a lap.
	Reversed bool
}

// WindFromLap finds the wind from a lap of a hold flown on an inbound course, the
// inverse of the exact circuit. It is in the north of the course.
//
// In the frame of the course (x inbound, y to the right) with the wind blowing
// towards (wx, wy), c the correction and T = 360/rate the time of a full circle, the
// two turns together displace the aeroplane in the air by nothing, and the lap
// closes on the fix when
//
//	TAS sin(c) + wy = 0
//	TAS tout uout   = -((TAS cos(c) + wx) tin, 0) - (wx, wy) (T + tout)
//
// uout being the direction of the outbound heading, of length 1. The first gives wy;
// the length of the second, with S = T + tout, is a quadratic in wx whose roots are
//
//	wx = (-TAS cos(c) tin ± sqrt((TAS tout)² - (wy S)²)) / (tin + S)
//
// and whose sign is the side of the outbound heading: uout along the course is -, +
// that root over TAS tout. Plus is therefore the ordinary lap, its outbound heading
// within 90 degrees of the reciprocal; minus is [Lap.Reversed]. Either makes ground
// inbound: the root is at most TAS tout cos(c), and so TAS cos(c) + wx is above 0.
//
// Source: derived here from the closure of the circuit. Exact to rounding for the
// times given. Singular where the root is 0, the outbound heading square to the
// course: there one second of timing moves the wind without bound.
//
// Errors: [abeam.ErrInvalid] for input out of range or a wind stronger than
// [MaxSpeed]; [abeam.ErrUnflyable] where no wind closes the lap, the outbound leg
// being too short for the correction.
func WindFromLap(course abeam.Bearing, lap Lap) (Wind, error) {
	const op = "wind.WindFromLap"
	if err := check.Finite(op, "inbound course", course); err != nil {
		return Wind{}, err
	}
	if err := lap.validate(op); err != nil {
		return Wind{}, err
	}
	tas, tout, tin := float64(lap.TAS), lap.Outbound.Seconds(), lap.Inbound.Seconds()
	s, c := angle.Sincos(float64(lap.Correction))
	wy := -tas * s
	span := 360/float64(lap.Rate) + tout
	out, aside := tas*tout, math.Abs(wy*span)
	square := (out - aside) * (out + aside)
	if !(square >= 0) {
		return Wind{}, check.Unflyable(op, "outbound", lap.Outbound,
			fmt.Sprintf("long enough to undo the crosswind of %.1f kt that the correction tells", math.Abs(wy)))
	}
	root := math.Sqrt(square)
	if lap.Reversed {
		root = -root
	}
	wx := (root - tas*c*tin) / (tin + span)
	return found(op, fromComponents(course, Components{Head: abeam.Knots(-wx), Cross: abeam.Knots(-wy)}))
}

// Validate reports a field outside its range as [abeam.ErrInvalid].
func (l Lap) Validate() error { return l.validate("wind.Lap.Validate") }

func (l Lap) validate(op string) error {
	if err := check.Above(op, "TAS", l.TAS, 0, MaxTAS); err != nil {
		return err
	}
	if err := check.Within(op, "rate of turn", l.Rate, MinTurnRate, MaxTurnRate); err != nil {
		return err
	}
	if !(l.Outbound >= 0 && l.Outbound <= MaxLeg) {
		return check.Invalid(op, "outbound", l.Outbound, fmt.Sprintf("from 0 to %v", MaxLeg))
	}
	if !(l.Inbound > 0 && l.Inbound <= MaxLeg) {
		return check.Invalid(op, "inbound", l.Inbound, fmt.Sprintf("above 0 and at most %v", MaxLeg))
	}
	if !(l.Correction > -90 && l.Correction < 90) {
		return check.Invalid(op, "correction", l.Correction, "within 90° of the course")
	}
	return nil
}
