package wind

import (
	"fmt"
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
)

// SolveTAS finds the airspeed, and the heading, that make a track and groundspeed
// good in a wind:
//
//	TAS cos(correction) = groundspeed + w cos(from - track)
//	TAS sin(correction) = w sin(from - track)
//
// Source: the vector difference of ground and wind; American Practical Navigator
// (Bowditch), current sailing. Exact to rounding; singular where the ground vector
// is the wind itself and there is no airspeed.
//
// This is the well-posed way to an airspeed: it has one answer and loses nothing.
// Where a heading was read as well it is one quantity too many; hold it against the
// answer with [Triangle.Misclosure]. Where the heading was read instead of the track
// or the groundspeed, see [SolveTASOnHeading] and [SolveSpeeds].
//
// Track is any finite bearing, the groundspeed above 0 and at most
// [MaxGroundspeed].
//
// Errors: [abeam.ErrInvalid] for input out of range or a TAS above [MaxTAS];
// [abeam.ErrUnflyable] for a TAS of 0.
func SolveTAS(track abeam.Bearing, groundspeed abeam.Knots, w Wind) (Triangle, error) {
	const op = "wind.SolveTAS"
	if err := validateGround(op, "track", track, groundspeed, w); err != nil {
		return Triangle{}, err
	}
	c := w.Components(track)
	forward := groundspeed + c.Head
	tas, err := foundTAS(op, abeam.Knots(math.Sqrt(float64(forward*forward+c.Cross*c.Cross))))
	if err != nil {
		return Triangle{}, err
	}
	correction := abeam.Degrees(angle.Atan2(float64(c.Cross), float64(forward)))
	track = abeam.NewBearing(float64(track))
	return Triangle{
		Track: track, Heading: track.Add(correction), Correction: correction,
		TAS: tas, Groundspeed: groundspeed, Wind: w,
	}, nil
}

// SolveTASOnHeading finds the airspeed, and the track, from the groundspeed made on
// a heading in a wind:
//
//	TAS = w cos(from - heading) + sqrt(groundspeed² - (w sin(from - heading))²)
//
// Source: the law of cosines, solved for the side along the heading. Exact to
// rounding, with digits lost as the groundspeed comes down to the crosswind.
//
// The other sign of the root is the aeroplane blown backwards over its tail at the
// same groundspeed; it is not what a groundspeed read on a heading means, and is
// not given.
//
// Heading is any finite bearing, the groundspeed above 0 and at most
// [MaxGroundspeed].
//
// Errors: [abeam.ErrInvalid] for input out of range or a TAS above [MaxTAS];
// [abeam.ErrUnflyable] for a groundspeed below the crosswind, or below what the
// tailwind alone makes.
func SolveTASOnHeading(heading abeam.Bearing, groundspeed abeam.Knots, w Wind) (Triangle, error) {
	const op = "wind.SolveTASOnHeading"
	if err := validateGround(op, "heading", heading, groundspeed, w); err != nil {
		return Triangle{}, err
	}
	c := w.Components(heading)
	square := float64((groundspeed - c.Cross) * (groundspeed + c.Cross))
	if !(square >= 0) {
		return Triangle{}, check.Unflyable(op, "groundspeed", groundspeed,
			fmt.Sprintf("at least the crosswind of %v on heading %v", abeam.Knots(math.Abs(float64(c.Cross))), heading))
	}
	forward := abeam.Knots(math.Sqrt(square))
	tas, err := foundTAS(op, forward+c.Head)
	if err != nil {
		return Triangle{}, err
	}
	correction := abeam.Degrees(angle.Atan2(float64(c.Cross), float64(forward)))
	heading = abeam.NewBearing(float64(heading))
	return Triangle{
		Track: heading.Add(-correction), Heading: heading, Correction: correction,
		TAS: tas, Groundspeed: groundspeed, Wind: w,
	}, nil
}

// SolveSpeeds finds the airspeed and the groundspeed from a heading, the track made
// good on it and the wind. With c = heading - track:
//
//	TAS         = w sin(from - track) / sin(c)
//	groundspeed = w sin(from - heading) / sin(c)
//
// Source: the law of sines. Exact to rounding, but only as good as the angles: both
// speeds are the wind magnified by 1/sin(c), so that at 6 degrees of drift a degree
// misread is a sixth of the speed. Singular where heading and track are one or
// opposite; there the wind says nothing about the speeds.
//
// Heading and track are any finite bearings.
//
// Errors: [abeam.ErrInvalid] for input out of range, no correction, or a TAS above
// [MaxTAS]; [abeam.ErrUnflyable] where the wind cannot drift the aeroplane to that
// side of its heading.
func SolveSpeeds(heading, track abeam.Bearing, w Wind) (Triangle, error) {
	const op = "wind.SolveSpeeds"
	if err := check.Finite(op, "heading", heading); err != nil {
		return Triangle{}, err
	}
	if err := check.Finite(op, "track", track); err != nil {
		return Triangle{}, err
	}
	if err := w.validate(op); err != nil {
		return Triangle{}, err
	}
	heading, track = abeam.NewBearing(float64(heading)), abeam.NewBearing(float64(track))
	correction := heading.Sub(track)
	s, _ := angle.Sincos(float64(correction))
	if s == 0 {
		return Triangle{}, check.Invalid(op, "correction", correction, "other than 0° and 180°, where the wind does not tell the speeds")
	}
	onTrack, onHeading := w.Components(track), w.Components(heading)
	tas, err := foundTAS(op, onTrack.Cross/abeam.Knots(s))
	if err != nil {
		return Triangle{}, err
	}
	gs := onHeading.Cross / abeam.Knots(s)
	if !(gs > 0) {
		return Triangle{}, check.Unflyable(op, "groundspeed", gs,
			fmt.Sprintf("above 0 kt on track %v with heading %v in this wind", track, heading))
	}
	return Triangle{
		Track: track, Heading: heading, Correction: correction,
		TAS: tas, Groundspeed: gs, Wind: w,
	}, nil
}

func validateGround(op, field string, dir abeam.Bearing, groundspeed abeam.Knots, w Wind) error {
	if err := check.Finite(op, field, dir); err != nil {
		return err
	}
	if err := check.Above(op, "groundspeed", groundspeed, 0, MaxGroundspeed); err != nil {
		return err
	}
	return w.validate(op)
}

// foundTAS judges an airspeed that was computed: none at all is physics, more than
// any aeroplane has is a wrong input.
func foundTAS(op string, tas abeam.Knots) (abeam.Knots, error) {
	if !(tas > 0) {
		return 0, check.Unflyable(op, "TAS", tas, "above 0 kt to fly this in this wind")
	}
	tas = settle(tas, MaxTAS)
	if err := check.Above(op, "TAS", tas, 0, MaxTAS); err != nil {
		return 0, err
	}
	return tas, nil
}
