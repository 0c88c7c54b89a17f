// Package entry is joining the hold: when to slow down, which entry the direction at the
// fix calls for and how far that decision is from being another, and the entry as it is
// flown through the wind.
//
// # The decision
//
// [Rules] are values, one constructor an authority: [FAA], [FAARNAV], [ICAO], [AirForce].
// They know whether their sectors are counted by heading or by track, and whether their
// teardrop is a heading or a track. [Rules.Choose] takes the direction that the rules ask
// for, [Rules.ChooseInWind] the heading and the wind. A [Decision] has both edges of the
// sector, and all that may be flown. [VORDME] decides by route, radial or DME arc.
//
// # The flight
//
// [Rules.Plan] is what the rules have flown, to be changed where a chart differs.
// [Plan.Fly] flies it in one of two manners: [AsPublished], the still-air headings and
// times, blown off by the wind and with an intercept of the course after them; or
// [ForWind], corrected so that the turn back ends on the inbound course and the inbound
// leg takes its time. [Published] is the still-air procedure alone, without an aeroplane.
//
// A [Flown] tells the headings to fly and the times, where and when the inbound course is
// regained, and how far the entry strays; [Flown.Legs] is its sequence of turns and legs,
// [Flown.Track] and [Flown.Positions] its ground track. [Rules.Compare] flies all that is
// permitted and puts first what strays least. [Flown.Actions] is the list for the fix.
//
// # Where things are
//
//	which entry, how near another   Rules.Choose, Rules.ChooseInWind
//	VOR/DME routes                  VORDME
//	in still air                    Published
//	flown through the wind          Rules.Plan, Plan.Fly, Flown.Legs, Flown.Track
//	all that is permitted           Rules.Compare
//	when to slow, on the way        Approaching.Slow
//	what to do at the fix           Flown.Actions
//
// # Assumptions
//
// As package hold: constant TAS, wind and rate of turn, rolls without time, a flat earth
// over the pattern, one north; places in its course frame. The fix is crossed exactly,
// wings level on the heading given. The inbound time counts from wings level on the
// course.
//
// # Sources
//
// FAA Aeronautical Information Manual (AIM) 5-3-8, 2023 and later; ICAO Doc 8168
// (PANS-OPS) Vol I (secondary copies) and Vol II, 5th ed. 2006; AFMAN 11-217 Vol 1
// (secondary copies); CNATRA flight training manuals. Each figure names its paragraph.
//
// NOT FOR NAVIGATION: see the caution of package abeam.
package entry
