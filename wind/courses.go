package wind

import (
	"fmt"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
)

// Courses is the range of courses that can be made good in a wind: all of them
// while the airspeed is the greater, and a fan about the downwind course when it is
// not. The zero Courses holds no course.
type Courses struct {
	Downwind  abeam.Bearing // the middle of the range
	HalfWidth abeam.Degrees // from the middle to either edge; 180 is every course
	Open      bool          // the edges themselves are not in the range
}

// CoursesMadeGood finds the courses that can be made good at a TAS in a wind w:
//
//	w < TAS: every course
//	w = TAS: less than 90 degrees from downwind, the edges not included
//	w > TAS: within asin(TAS/w) of downwind, the edges included
//
// Source: the crosswind on the course may not exceed the TAS, and ground must be
// made forward; from [SolveHeading]'s law of sines. Exact to rounding.
//
// TAS is above 0 and at most [MaxTAS]. Errors: [abeam.ErrInvalid] for input out of
// range.
func CoursesMadeGood(tas abeam.Knots, w Wind) (Courses, error) {
	const op = "wind.CoursesMadeGood"
	if !validTriangle(0, tas, w) {
		return Courses{}, describeTriangle(op, "course", 0, tas, w)
	}
	c := Courses{Downwind: w.From.Reciprocal(), HalfWidth: 180}
	switch {
	case w.Speed > tas:
		c.HalfWidth = abeam.Degrees(angle.Asin(float64(tas / w.Speed)))
	case w.Speed == tas:
		c.HalfWidth, c.Open = 90, true
	}
	return c, nil
}

// Contains reports whether a course is in the range. The decision at an edge is
// taken to [abeam.Quantum]. A course that is not finite is in no range.
func (c Courses) Contains(course abeam.Bearing) bool {
	off, half := course.Sub(c.Downwind).Rounded().Abs(), c.HalfWidth.Rounded()
	return half > 0 && (off < half || off == half && !c.Open)
}

// Check is [Courses.Contains] with a reason.
//
// Errors: [abeam.ErrInvalid] for a course that is not finite; [abeam.ErrUnflyable]
// for one beyond the range, naming the edges.
func (c Courses) Check(course abeam.Bearing) error {
	const op = "wind.Courses.Check"
	if err := check.Finite(op, "course", course); err != nil {
		return err
	}
	if c.Contains(course) {
		return nil
	}
	left, right := c.Edges()
	return check.Unflyable(op, "course", course,
		fmt.Sprintf("right of %.1f° and left of %.1f°, near downwind", float64(left), float64(right)))
}

// Edges gives the courses at the two ends of the range, left and right of downwind.
// They are one and the same, upwind, when every course can be made good.
func (c Courses) Edges() (left, right abeam.Bearing) {
	return c.Downwind.Add(-c.HalfWidth), c.Downwind.Add(c.HalfWidth)
}
