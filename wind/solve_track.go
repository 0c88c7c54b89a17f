package wind

import (
	"fmt"
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
)

// SolveTrack finds the track made good on a heading, and the groundspeed:
//
//	tan(drift)   = -w sin(from - heading) / (TAS - w cos(from - heading))
//	groundspeed² = (TAS - w cos(from - heading))² + (w sin(from - heading))²
//
// Source: the vector sum along and across the heading; any navigation manual, e.g.
// USAF AFPAM 11-216 (1 Mar 2001) ch. 4. Exact to rounding. In a wind stronger than
// the TAS the track may lie behind the wing.
//
// Heading is any finite bearing, TAS above 0 and at most [MaxTAS]. Singular where
// the aeroplane hangs in a headwind as strong as its TAS.
//
// Errors: [abeam.ErrInvalid] for input out of range; [abeam.ErrUnflyable] where the
// groundspeed is zero and there is no track.
func SolveTrack(heading abeam.Bearing, tas abeam.Knots, w Wind) (Triangle, error) {
	const op = "wind.SolveTrack"
	if err := validateTriangle(op, "heading", heading, tas, w); err != nil {
		return Triangle{}, err
	}
	c := w.Components(heading)
	forward := tas - c.Head
	gs := abeam.Knots(math.Sqrt(float64(forward*forward + c.Cross*c.Cross)))
	if !(gs > 0) {
		return Triangle{}, check.Unflyable(op, "headwind", c.Head,
			fmt.Sprintf("other than the TAS of %v, which leaves no groundspeed and no track", tas))
	}
	correction := abeam.Degrees(angle.Atan2(float64(c.Cross), float64(forward)))
	heading = abeam.NewBearing(float64(heading))
	return Triangle{
		Track: heading.Add(-correction), Heading: heading, Correction: correction,
		TAS: tas, Groundspeed: gs, Wind: w,
	}, nil
}
