package timing

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
)

// Seen is all that a strategy is told before a lap: what a pilot can know and observe.
// Before the first lap, Laps is 0 and what is observed on a lap is zero.
type Seen struct {
	Pattern hold.Pattern
	// Flight is the aeroplane and the air as the pilot knows them. Its wind is the
	// forecast; it may be wrong.
	Flight hold.Flight
	Start  Start // of the outbound clock
	Laps   int   // flown so far
	// Correction is the one that held the inbound course on the way to the fix,
	// heading less course, positive to the right. It is known before the first lap too.
	Correction abeam.Degrees

	Last    Plan          // what was asked for on the last lap
	Inbound time.Duration // wings level to the fix; negative if it was passed before
	ToAbeam time.Duration // over the fix to abeam on the first outbound heading; 0 if not passed on it
	RollOut hold.Point    // wings level inbound; Abreast is the error across the course
}

// Target is the inbound time that is wanted.
func (s *Seen) Target() time.Duration { return s.Pattern.Leg().Inbound() }

// OutboundHeadwind is the headwind on the still-air outbound heading, by the wind as the
// pilot knows it; negative is a tailwind.
func (s *Seen) OutboundHeadwind() abeam.Knots {
	return s.Flight.Wind.Components(s.Pattern.Outward()).Head
}

// Plan is what a strategy asks for: the next outbound heading and time.
type Plan struct {
	// Correction is the outbound heading less the still-air one (the reciprocal of the
	// inbound course), positive to the right.
	Correction abeam.Degrees
	// Outbound is the time by the clock at which the inbound turn begins, 0 to
	// [hold.MaxLeg].
	Outbound time.Duration
	// Start is where the clock starts; zero is the one of the trial.
	Start Start
	// Then is the correction after Change on the clock; a zero Change leaves it alone.
	Then   abeam.Degrees
	Change time.Duration
	// Abeams, above 0, has the inbound turn begin when a second watch, started over the
	// fix, reads so many times what it read abeam. Outbound is then not used.
	Abeams float64
}

// maxAbeams is beyond any rule that turns by the time abeam.
const maxAbeams = 10

// fault names what is wrong with the plan; written so that NaN fails.
func (p *Plan) fault() string {
	switch {
	case p.Correction-p.Correction != 0 || p.Then-p.Then != 0:
		return "an outbound heading that is not finite"
	case p.Outbound < 0 || p.Change < 0:
		return "a negative time"
	case p.Outbound > hold.MaxLeg || p.Change > hold.MaxLeg:
		return "a time above " + hold.MaxLeg.String()
	case !(p.Abeams >= 0 && p.Abeams <= maxAbeams):
		return "a multiple of the time abeam outside 0 to 10"
	case p.Start > AtWingsLevelOrAbeam:
		return "a start of the clock that is none"
	}
	return ""
}
