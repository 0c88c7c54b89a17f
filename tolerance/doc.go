// Package tolerance judges a flown hold: from the log of a flight to what was flown,
// how it compares with the standard, and what to change on the next lap.
//
// # The way of a log
//
//	read     ReadCSV, ReadGPX            a Log with its findings
//	infer    Infer, InferAt              the hold, where it is not given
//	cut      Cut                         passages, entry, laps in four legs each
//	wind     EstimateWind                with its uncertainty, and the TAS
//	against  FAAInstrument and others    a Standard; VORRadial and others, a Guidance
//	judge    Judge                       excursions and a verdict for every item
//	advise   Advise                      the next lap, one line each
//	all      NewDebrief                  the above in order
//	invent   Plan.Log                    a synthetic log, for demonstrations and tests
//	write    Log.WriteCSV                a file that ReadCSV reads back
//
// # Conventions
//
// A log's track, and its heading, carry the north they were recorded in; positions are
// WGS-84. What comes out counts directions from the north of the pattern, but for a
// [WindEstimate] and an [Inferred] hold, which count from true north. Times are since the
// start of the log. The course frame is that of package hold: Along positive in the inbound
// direction, Abreast to the holding side.
//
// A [Standard] says how far; the [Clearance] says from what. Zero limits and zero
// targets are not judged, and the judgement says so.
//
// # Assumptions and accuracy
//
// The air moves at one wind and the aeroplane through it at one TAS for as long as
// the wind is estimated over; what departs from that goes into the stated
// uncertainty, as far as it looks like noise. Positions are good to 0.1 m within 60 NM
// of the fix up to latitude 75 degrees. Legs are cut by the rate of turn over ten
// seconds (eight samples, where those are longer), so corners are good to a second or a
// sample.
//
// # Sources
//
// The US practical test standard and FAA-S-ACS-8 for the instrument rating (secondary
// copies), FAA-S-ACS-11 (from memory), Regulation (EU) 1178/2011 Part-FCL Appendix 7;
// FAA Aeronautical Information Manual (AIM) 1-1-17, 5-3-8; GPX 1.1.
//
// NOT FOR NAVIGATION: see the caution of package abeam.
package tolerance
