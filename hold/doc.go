// Package hold is the holding pattern: its clearance values and limits, the
// aeroplane's turn, and the exact circuit flown in a steady wind.
//
// # The exact circuit
//
// An aeroplane at constant true airspeed V in a constant wind w turns at a
// constant rate and flies a timed inbound leg. Its two turns add up to a full
// circle, so their displacements through the air cancel whatever the outbound
// heading, and the circuit closes on the fix when
//
//	V t_out u_out = -( g t_in + w (T + t_out) )
//
// with u_out the direction of the outbound heading, w the way the wind blows (not whence),
// T the time of a full circle and g the inbound velocity over the ground. In components, x
// is along the inbound course and y to the holding side. The modulus is a quadratic for the
// outbound time, the direction is the outbound heading: [Pattern.Outbound] and
// [Pattern.Circuit] are closed forms.
//
// A [Leg] is given by its inbound or outbound time, its inbound or outbound length, or a
// DME limit. The circuits that close make a family with one parameter, and each kind of
// leg picks one of it: by the closed form where there is one, by a root of one unknown
// otherwise.
//
// Along the whole circuit the ground velocity turns one way through one full
// circle, so the track is convex and the inbound course is its tangent: flown
// exactly it never reaches the non-holding side, and every extreme has a closed
// form too.
//
// # Clearance and place
//
// [ParseClearance] reads what was cleared; [Clearance.Findings] tells what to ask about
// it, [Clearance.Pattern] makes the pattern. [Pattern.Locate] takes a position on WGS-84
// into the course frame, and [Circuit.Progress] tells how far round the circuit that is.
//
// # What varies along the circuit
//
// A climb or a descent through a wind that changes, a finite rate of roll, a late turn,
// different turns at the two ends: [Pattern.VaryingCircuit] integrates the motion and finds
// the lap that closes; [Pattern.Shuttle] strings such laps together from one altitude to
// another. [Sweep] solves the closed form over a grid of flights on every core.
//
// # Where things are
//
//	fix, pattern, leg          Fix, NewPattern, StandardPattern, TimedInbound, TimedOutbound,
//	                           LengthInbound, LengthOutbound, DMELimit
//	speed limits, leg times    FAA, ICAO, Canada, Australia and the like; Rules.SpeedLimit, Rules.LegTime
//	turn                       TurnRule.At, RateAtBank, BankAtRate, Radius, RNPTurn
//	aeroplane and air          NewFlight
//	heading and time outbound  Pattern.Outbound
//	the whole circuit          Pattern.Circuit, Pattern.ShortestInbound
//	any heading and time       Pattern.Fly
//	track, places on WGS-84    Circuit.Track, Circuit.Positions
//	where on the pattern       Pattern.Locate, Pattern.Place, Circuit.Progress
//	clearance                  ParseClearance, Clearance.Findings, Clearance.Readback, Clearance.Pattern
//	climb, roll, other winds   Pattern.VaryingCircuit, Pattern.Shuttle
//	many at once               Sweep
//	DME                        SlantRange, DesignDMELimit
//
// # Course frame
//
// Origin at the fix; Along is positive in the inbound direction, so the pattern
// lies at negative Along; Abreast is positive to the holding side. A left-hand
// pattern is the mirror image of a right-hand one.
//
// # Assumptions
//
// Constant TAS, wind and rate of turn, and rolls that take no time, but for what a
// [Varying] says; the earth is flat over the pattern until [Circuit.Positions] places
// it on WGS-84. All directions are in the one north of the pattern.
//
// # Sources
//
// FAA Aeronautical Information Manual (AIM) 5-3-8, 2023 and later; ICAO Doc 8168
// (PANS-OPS) Vol I and II, 5th ed. 2006; AFMAN 11-217 Vol 1, 3 Jan 2005; FAA JO
// 7110.65 4-6-1 and 4-6-4. Each figure names its paragraph.
//
// NOT FOR NAVIGATION: see the caution of package abeam.
package hold
