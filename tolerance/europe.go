package tolerance

import "github.com/holdingfix/abeam"

const (
	knots10   abeam.Knots   = 10
	knots5    abeam.Knots   = 5
	feet100   abeam.Feet    = 100
	degrees5  abeam.Degrees = 5
	degrees10 abeam.Degrees = 10
)

const partFCL = "Part-FCL Appendix 7"

// EUInstrument is the instrument rating of the UK and the EU: 5 kt, 100 ft, 5 degrees,
// 5 degrees on radio aids, half scale on angular guidance and half the required
// navigation performance on linear guidance.
//
// Source: Regulation (EU) 1178/2011 Part-FCL Appendix 7; the words of the verdict from
// memory.
func EUInstrument() Standard {
	return Standard{
		Authority: "UK/EU instrument rating", Edition: partFCL,
		Airspeed: either(knots5, partFCL), Altitude: either(feet100, partFCL), Heading: either(degrees5, partFCL),
		Course: CourseLimit{Scale: 0.5, Degrees: 5, Source: partFCL},
		Met:    "pass", NotMet: "fail",
	}
}

// EUInstrumentEngineOut is [EUInstrument] with a simulated engine failure: airspeed +10
// and -5 kt, heading 10 degrees.
//
// Source: as there.
func EUInstrumentEngineOut() Standard {
	s := EUInstrument()
	s.Authority += ", engine out"
	s.Airspeed = Limit[abeam.Knots]{Under: knots5, Over: knots10, Source: partFCL}
	s.Heading = either(degrees10, partFCL)
	return s
}

// EUEnRoute is the en-route instrument rating of the EU, since withdrawn: +10 and -5
// kt, 100 ft, 10 degrees of heading and of course.
//
// Source: secondary copies of Part-FCL before the withdrawal.
func EUEnRoute() Standard {
	const source = "Part-FCL, en-route rating, withdrawn"
	s := EUInstrumentEngineOut()
	s.Authority, s.Edition = "EU en-route instrument rating", "withdrawn"
	s.Airspeed.Source, s.Altitude.Source, s.Heading.Source = source, source, source
	s.Course = CourseLimit{Degrees: degrees10, Source: source}
	return s
}
