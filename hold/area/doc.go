// Package area is the protection of a holding pattern as ICAO draws it: how far an
// aeroplane may be carried from the pattern by the wind, by its errors of timing, heading
// and reaction, and by an entry.
//
// THIS IS NOT PROCEDURE DESIGN AND NOT FOR NAVIGATION. It computes for study and for
// checking other computations. An area that protects an aeroplane is designed, validated
// and published by those licensed to do so, from the current edition of the document; the
// edition read here is old, some lines are from memory and say so, and a pilot cannot know
// the limits of a design. See the caution of package abeam.
//
// # What to call
//
//	what an area is designed for, with the book's defaults    Design
//	those defaults written out                                Design.Filled
//	the lines of the template, unrounded                      Design.Lines
//	the calculation as the book carries it, NM or SI          Design.Book
//	the DME limit of the outbound leg                         Design.DMELimit
//	how far from the fix an aeroplane over the fix may be     Overhead, VORDME, Intersection, RNAV, Disc
//	height over obstacles in the area and its buffer          ObstacleClearance
//	the curve drawn from the lines                            Design.Template
//	what permitted flights can reach, from first principles   Design.Envelope, Design.Slower
//	where one of two areas reaches beyond the other           Area.Beyond
//	the area for a fix within a tolerance; with a buffer      Area.Over, Area.Grown
//	is a place inside, and how far from the edge              Area.Contains, Area.Distance
//	a track or a flown log against the area                   Area.Follow
//	what a set of flown tracks takes up                       Around
//	how often laps leave it, with a confidence interval       Area.Try by Exact, TripleDrift, Uncorrected
//	its outline in the course frame, and on WGS-84            Area.Outline, Area.OnGround
//
// # The template
//
// The book draws one racetrack in still air and lets the wind blow from everywhere: a point
// of the track reached t seconds after the fix becomes a circle of the radius w' t about it.
// The points have letters. The fix is a; an aeroplane begins its turn there 5 seconds later
// at the earliest (b) and 11 at the latest (c). The turn from c passes d, e, f and g, 45
// degrees of turn apart, the turn from b passes h, o and p at 180, 225 and 270 degrees. From
// g the outbound leg is flown 5 degrees to either side of the reciprocal, for the shortest
// time to i1 and i3, for the longest to i2 and i4. The inbound turns pass j, k and l, m, 45
// degrees apart, and end in n3 and n4. (The letters are from memory; that the radius is the
// wind times the time is published.)
//
// # The envelope
//
// The template joins a few letters by tangents. [Design.Envelope] takes every flight that the
// allowances permit: any delay, any outbound heading and time within them, any heading of
// arrival in its sector, and the wind from anywhere, uncorrected; and gives the smallest
// convex area around all of it, in closed form. It is for comparison: the template is
// generous where it reaches farther, and where the envelope does, a permitted flight leaves
// the template. Of a lap that is in two places: at the outbound end, where a flight that
// turns as early and flies as long as it may is 6 seconds of flight, and what the heading
// allows, beyond the legs that the book draws from g; and to the non-holding side, where the
// inbound turn may end as far beyond the course as the heading may be off.
//
// # Course frame
//
// As in package hold: origin at the fix; Along is positive in the inbound direction, so
// the pattern lies at negative Along; Abreast is positive to the holding side. A left-hand
// pattern is the mirror image of a right-hand one.
//
// # Assumptions
//
// Constant true airspeed, wind and rate of turn; a roll takes no room, it counts by the
// seconds allowed for it; the earth is flat over the area; no climb or descent.
//
// # Sources
//
// ICAO Doc 8168 (PANS-OPS) Vol II, 5th ed. 2006, with amendment 1 for its worked example.
// Every line names its paragraph and its class: published (read in the document or in a
// page-for-page copy), secondary (read in a text that cites it), derived (worked here) or
// from memory. What is from memory is checked against what it stands for, and where it
// fails that check the derived value takes its place: see [Lines].
package area
