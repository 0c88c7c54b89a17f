package tolerance

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
)

// The figures of the standards. Source: FAA-S-ACS-8 task III.B and Part-FCL before the
// withdrawal of the en-route rating (both secondary copies), Part-FCL Appendix 7, FAA-S-ACS-11
// (from memory). None of them gives seconds, miles or a time of leaving.
func TestFiguresOfTheStandards(t *testing.T) {
	for _, tc := range []struct {
		s               Standard
		slow, fast      abeam.Knots
		heading         abeam.Degrees
		share           float64
		course          abeam.Degrees
		good, otherwise string
	}{
		{FAAInstrument(), 10, 10, 10, 0.75, 0, "satisfactory", "unsatisfactory"},
		{FAAAirlineTransport(), 10, 10, 10, 0, 0, "satisfactory", "unsatisfactory"},
		{EUInstrument(), 5, 5, 5, 0.5, 5, "pass", "fail"},
		{EUInstrumentEngineOut(), 5, 10, 10, 0.5, 5, "pass", "fail"},
		{EUEnRoute(), 5, 10, 10, 0, 10, "pass", "fail"},
	} {
		s := tc.s
		if err := s.Validate(); err != nil {
			t.Error(err)
		}
		if s.Airspeed.Under != tc.slow || s.Airspeed.Over != tc.fast || s.Altitude.Under != 100 || s.Altitude.Over != 100 ||
			s.Heading.Under != tc.heading || s.Heading.Over != tc.heading || s.Course.Scale != tc.share || s.Course.Degrees != tc.course ||
			s.Words(Within) != tc.good || s.Words(Beyond) != tc.otherwise {
			t.Errorf("%+v", s)
		}
		if s.LegTime.Set() || s.LegLength.Set() || s.Arrival.Set() || s.HoldingSide.Set() || s.Course.Set() != (tc.share > 0 || tc.course > 0) {
			t.Errorf("%v has figures that it does not give", s)
		}
		for _, source := range []string{s.Airspeed.Source, s.Altitude.Source, s.Heading.Source} {
			if source == "" {
				t.Errorf("%v has a figure without a source", s)
			}
		}
	}
}

// A standard of one limit is one, whichever it is and on whichever side; one of none is not.
func TestStandardOfOneLimit(t *testing.T) {
	for field, set := range map[string]func(s *Standard, x float64){
		"airspeed limit":     func(s *Standard, x float64) { s.Airspeed.Over = abeam.Knots(x) },
		"altitude limit":     func(s *Standard, x float64) { s.Altitude.Under = abeam.Feet(x) },
		"heading limit":      func(s *Standard, x float64) { s.Heading.Over = abeam.Degrees(x) },
		"course limit":       func(s *Standard, x float64) { s.Course.Scale = x },
		"leg time limit":     func(s *Standard, x float64) { s.LegTime.Under = time.Duration(x * 1e9) },
		"leg length limit":   func(s *Standard, x float64) { s.LegLength.Over = abeam.NM(x) },
		"arrival limit":      func(s *Standard, x float64) { s.Arrival.Over = time.Duration(x * 1e9) },
		"holding side limit": func(s *Standard, x float64) { s.HoldingSide.Over = abeam.NM(x) },
	} {
		s := Standard{Authority: "own", Met: "in", NotMet: "out"}
		set(&s, 0)
		var e *abeam.FieldError
		if err := s.Validate(); !errors.As(err, &e) || e.Field != "standard" || e.Op != "tolerance.Standard.Validate" {
			t.Errorf("no limit: %v", err)
		}
		for _, x := range []float64{1e-3, 1e6} {
			set(&s, x)
			if err := s.Validate(); err != nil {
				t.Errorf("%s of %v: %v", field, x, err)
			}
		}
		for _, x := range []float64{-1e-3, 1e6 + 1} {
			set(&s, x)
			if err := s.Validate(); !errors.As(err, &e) || !errors.Is(err, abeam.ErrInvalid) || e.Field != field {
				t.Errorf("%s of %v: %v", field, x, err)
			}
		}
	}
	for _, s := range []Standard{
		{Met: "in", NotMet: "out", Course: CourseLimit{Degrees: 5}}, {Authority: "own", NotMet: "out", Course: CourseLimit{Degrees: 5}}, {Authority: "own", Met: "in", Course: CourseLimit{Degrees: 5}},
		{Authority: "own", Met: "in", NotMet: "out", Course: CourseLimit{Degrees: abeam.Degrees(math.NaN())}},
	} {
		if err := s.Validate(); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("%+v: %v", s, err)
		}
	}
}
