package wind

import (
	"fmt"
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
)

// MaxTAS is the largest true airspeed accepted, above every subsonic airspeed.
const MaxTAS abeam.Knots = 800

// Triangle is a solved wind triangle: air vector + wind = ground vector. The
// angles are in the one north of the wind that was given.
type Triangle struct {
	Track       abeam.Bearing // made good over the ground
	Heading     abeam.Bearing // where the nose points
	Correction  abeam.Degrees // heading - track; positive is to the right of the track
	TAS         abeam.Knots
	Groundspeed abeam.Knots
	Wind        Wind
}

// Drift is the angle from heading to track, positive to the right: the opposite
// of the correction.
func (t Triangle) Drift() abeam.Degrees { return abeam.NewDegrees(-float64(t.Correction)) }

// SolveHeading finds the heading that makes a course good, and the groundspeed:
//
//	sin(correction) = w sin(from - course) / TAS
//	groundspeed     = TAS cos(correction) - w cos(from - course)
//
// Source: law of sines and projection on the course; any navigation manual, e.g.
// USAF AFPAM 11-216 (1 Mar 2001) ch. 4. Exact to rounding.
//
// Course is any finite bearing, TAS above 0 and at most [MaxTAS].
//
// Errors: [abeam.ErrInvalid] for input out of range; [abeam.ErrUnflyable] where the
// crosswind is stronger than the TAS or the groundspeed along the course is not
// positive. A crosswind equal to the TAS leaves no airspeed along the course.
func SolveHeading(course abeam.Bearing, tas abeam.Knots, w Wind) (Triangle, error) {
	const op = "wind.SolveHeading"
	if err := validateTriangle(op, "course", course, tas, w); err != nil {
		return Triangle{}, err
	}
	c := w.Components(course)
	s := float64(c.Cross / tas)
	if !(math.Abs(s) <= 1) {
		return Triangle{}, check.Unflyable(op, "crosswind", abeam.Knots(math.Abs(float64(c.Cross))),
			fmt.Sprintf("at most the TAS of %v on course %v", tas, course))
	}
	along := tas * abeam.Knots(math.Sqrt((1-s)*(1+s)))
	gs := along - c.Head
	if c.Head > 0 {
		// The same without the difference, which rounding would decide where the
		// wind is as strong as the TAS: TAS² - w² = along² - head².
		gs = (tas - w.Speed) * (tas + w.Speed) / (along + c.Head)
	}
	if !(gs > 0) {
		return Triangle{}, check.Unflyable(op, "headwind", c.Head,
			fmt.Sprintf("weak enough to make ground along course %v at TAS %v", course, tas))
	}
	wca := abeam.Degrees(angle.Asin(s))
	track := abeam.NewBearing(float64(course))
	return Triangle{
		Track: track, Heading: track.Add(wca), Correction: wca,
		TAS: tas, Groundspeed: gs, Wind: w,
	}, nil
}

func validateTriangle(op, field string, dir abeam.Bearing, tas abeam.Knots, w Wind) error {
	if err := check.Finite(op, field, dir); err != nil {
		return err
	}
	if err := check.Above(op, "TAS", tas, 0, MaxTAS); err != nil {
		return err
	}
	return w.validate(op)
}
