package tolerance

// FAAInstrument is the US instrument rating: 10 kt, 100 ft, 10 degrees, three quarters
// of full scale.
//
// Source: FAA practical test standard and FAA-S-ACS-8 task III.B (secondary copies);
// the words of the verdict from memory.
func FAAInstrument() Standard {
	const source = "FAA-S-ACS-8 III.B"
	return Standard{
		Authority: "FAA instrument rating", Edition: "FAA-S-ACS-8",
		Airspeed: either(knots10, source), Altitude: either(feet100, source), Heading: either(degrees10, source),
		Course: CourseLimit{Scale: 0.75, Source: source},
		Met:    "satisfactory", NotMet: "unsatisfactory",
	}
}

// FAAAirlineTransport is the US airline transport pilot certificate: 10 kt, 100 ft, 10
// degrees. It has the hold tracked accurately and left as near the time given as
// possible, and gives no figure for either.
//
// Source: FAA-S-ACS-11 (from memory).
func FAAAirlineTransport() Standard {
	const source = "FAA-S-ACS-11, from memory"
	return Standard{
		Authority: "FAA airline transport pilot", Edition: "FAA-S-ACS-11",
		Airspeed: either(knots10, source), Altitude: either(feet100, source), Heading: either(degrees10, source),
		Met: "satisfactory", NotMet: "unsatisfactory",
	}
}
