// Package abeam is the vocabulary of holding pattern mathematics: the angles,
// speeds, distances and heights that every other package of the module speaks,
// and the errors they all return.
//
// NOT FOR NAVIGATION. The module computes; it does not fly. The clearance, the
// chart, the aircraft manual, local rules and licensed practice come first.
//
// # Conventions
//
// Directions are degrees clockwise from north and stay degrees: a trip through
// radians misplaces exact sector edges. [Bearing] is a direction in [0, 360),
// [Degrees] a signed difference in (-180, 180], positive clockwise (to the
// right). A decision at an edge is taken on [Degrees.Rounded].
//
// Wind is where it blows from. Every computation works in one north; what comes
// from outside says which ([North]), and [Variation], east positive, is the only
// crossing between the two.
//
// Speeds are [Knots], distances [NM] (1,852 m exactly), heights [Feet]; times
// are [time.Duration].
//
// # Words
//
//	hold, pattern      a racetrack flown lap after lap: turn, outbound leg, turn, inbound leg
//	fix                the point that the inbound leg ends on, passed once a lap
//	inbound course     the direction over the ground in which the fix is reached
//	holding side       the side of the inbound course that the pattern lies on: right with right turns
//	abeam              level with the fix: on the line through it at right angles to the course
//	clock              the outbound time as a pilot takes it, from one of the starts of timing.Start
//	heading, track     where the nose points, and the way made good over the ground
//	correction, crab   heading less track, held against a crosswind; drift is its opposite
//	IAS, CAS, TAS      airspeed as indicated, as calibrated, and true: through the air
//	entry              how the pattern is joined: direct, teardrop (ICAO's offset) or parallel
//	clearance          what air traffic control tells a pilot to fly
//	EFC                the time at which to expect further clearance; no clearance to leave
//	radial             a direction from a radio station (a VOR)
//	DME                the distance from a station, along the slant
//	still air          without wind
//
// # Errors
//
// An error wraps [ErrInvalid] (the input), [ErrUnflyable] (physics says no) or
// [ErrNoConvergence], in a [*FieldError] that names the operation, the field, the
// value and the limit. With a nil error every result is finite. No input panics.
//
// # Literals
//
// In Go a literal with a leading zero is octal: Bearing(070) is 56 degrees.
// Write 70, or [ParseBearing] of "070".
//
// # Where things are
//
//	wind       wind, components, the wind triangle
//	hold       clearance, pattern, limits, turns, the exact circuit in wind, its place
//	hold/area  protected airspace: the ICAO template, what permitted flights reach
//	entry      direct, parallel or teardrop, and the entry flown in wind
//	timing     the rules of thumb and how wrong they are, the outbound clock, leaving on time
//	tolerance  a flown hold judged, from the log to the debrief
//
// # Rules of the trade
//
// Each rule stands in one function, its source in the comment there; the figures it is
// checked against are tables of internal/reference, or tests of the package.
//
//	rule                                function                              checked by
//	wind triangle                       wind.SolveHeading and its inverses    wind_triangle.csv
//	airspeeds, standard atmosphere      wind.Air                              airspeed.csv, atmosphere.csv
//	winds-aloft groups                  wind.DecodeAloftGroup                 winds_aloft.csv
//	drift and crosswind in the head     wind.MaxDriftRule, wind.ClockCode     wind tests
//	speed limit by altitude             hold.Rules.SpeedLimit                 limits.csv, limits_more.csv
//	leg time by altitude                hold.Rules.LegTime                    limits.csv, limits_more.csv
//	rate and bank of turn               hold.TurnRule.At                      turns.csv
//	inbound course of a clearance       hold.Clearance.InboundCourse          clearance.csv, published holds
//	outbound heading and time           hold.Pattern.Circuit                  circuit.csv, quadrature
//	leg by DME or along the track       hold.DMELimit, hold.LengthOutbound    legs.csv, quadrature
//	holding template                    area.Design.Template                  area.csv, area.Design.Envelope
//	obstacle clearance in the buffer    area.ObstacleClearance                area.csv
//	entry by sectors                    entry.Rules.Choose                    entry.csv, literal tables
//	entry flown                         entry.Plan.Fly                        quadrature, hand geometry
//	start of the outbound clock         timing.Start                          timing.csv
//	half and full discrepancy           timing.HalfDiscrepancy                timing.csv
//	triple drift                        timing.TripleDrift                    timing.csv
//	3 minutes to slow                   timing.SlowAt                         timing.csv
//	leaving on time                     timing.PlanDeparture                  timing.csv
//	practical test standards            tolerance.Standard                    tolerance.csv
package abeam
