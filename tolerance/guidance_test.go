package tolerance

import (
	"math"
	"testing"

	"github.com/holdingfix/abeam"
)

// Deviations worked by hand, 3 NM before the fix and 0.3 NM to the holding side: the
// angle at the station is atan(0.3/3) = 5.71, atan(0.3/8) = 2.15 and atan(0.3/2) = 8.53
// degrees.
func TestDeviationOnTheGuidance(t *testing.T) {
	for _, c := range []struct {
		g              Guidance
		along, abreast float64
		want           float64
		ok             bool
	}{
		{VORRadial(0), -3, 0.3, 0.571059, true},
		{VORRadial(5), -3, 0.3, 0.2147585, true},
		{VORRadial(-5), -3, 0.3, 0.853077, true},
		{VORRadial(0), -3, -0.3, -0.571059, true},
		{Localizer(5), -3, 0.3, 0.8590341, true},
		{VORRadial(0), -0.9, 0.3, 0, false},
		{VORRadial(0), -1, 0.3, 1.669924, true},
		{VORRadial(0), -1, 0, 0, true}, // blind nearer than 1 NM
		{VORRadial(0), math.Nextafter(-1, 0), 0, 0, false},
		{Guidance{Angle: 10}, 0, 0.3, 0, false}, // abeam the station
		{GPSEnRoute(), -3, 0.3, 0.06, true},
		{WAASEnRoute(), -3, 0.3, 0.15, true},
		{GPSTerminal(), -3, 0.3, 0.3, true},
		{GPSApproach(), -3, -0.3, -1, true},
		{Guidance{}, -3, 0.3, 0, false},
	} {
		if got, ok := c.g.deviation(c.along, c.abreast); ok != c.ok || math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%v, station at %v, %v abreast: %v, %v", c.g, c.g.Station, c.abreast, got, ok)
		}
	}
}

// The limit on a scale: the share, or the angle where it is less.
func TestCourseLimitOnTheGuidance(t *testing.T) {
	for _, c := range []struct {
		l    CourseLimit
		g    Guidance
		want float64
	}{
		{CourseLimit{Scale: 0.75}, VORRadial(0), 0.75},
		{CourseLimit{Scale: 0.5, Degrees: 5}, VORRadial(0), 0.5},
		{CourseLimit{Scale: 0.75, Degrees: 5}, VORRadial(0), 0.5},
		{CourseLimit{Scale: 0.25, Degrees: 5}, VORRadial(0), 0.25},
		{CourseLimit{Degrees: 10}, VORRadial(0), 1},
		{CourseLimit{Degrees: 10}, GPSTerminal(), 0},
		{CourseLimit{Scale: 0.5, Degrees: 5}, GPSTerminal(), 0.5},
		{CourseLimit{Scale: 0.5, Degrees: 5}, Localizer(5), 0.5},
		{CourseLimit{Scale: 0.5, Degrees: 1}, Localizer(5), 0.4},
		{CourseLimit{}, VORRadial(0), 0},
	} {
		if got := c.l.of(c.g); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%+v on %v: %v", c.l, c.g, got)
		}
	}
}

func TestGuidanceErrors(t *testing.T) {
	for _, g := range []Guidance{
		{Name: "x"}, {Angle: 10, Distance: 1}, {Angle: -1}, {Distance: abeam.NM(math.NaN())}, {Angle: 10, Station: 1e9}, {Angle: 10, Blind: -1},
	} {
		if g.validate("test") == nil {
			t.Errorf("%+v passes", g)
		}
	}
}
