// Package timing is the clock of the hold: when to slow down, where the outbound clock
// starts, the rules of thumb that pilots correct the next lap by and how wrong they are, and
// leaving on time. The exact answer that the rules approximate is the Circuit of package hold.
//
// # Rules and strategies
//
// A [TimingRule] chooses the next outbound time, a [DriftRule] the next outbound heading; both
// say where they come from, how sure that is and what a pilot must know to use them. [Compose]
// makes a [Strategy] of the two. A strategy of your own is a name and a function from what a
// pilot has [Seen] to a [Plan]: see the example of [Trial.AppendLaps].
//
// # Flying and measuring
//
// A [Trial] flies a strategy lap after lap in one hold, as a pilot does: roll out on the
// inbound heading, join the course ([Intercept]), time the legs; without error or with the
// seeded errors of a [Scatter]. A [Study] does so over a [Grid] of airspeeds, winds and legs
// with all processors, and gives distributions. [Study.Fit] finds the numbers of a rule on one
// part of a grid and tries them on the rest. [Settle] derives when a rule settles.
//
// # Assumptions
//
// As in package hold: constant TAS and wind over a lap, constant rate of turn, rolls that take
// no time. The correction held inbound is the one that makes the course good in the wind of
// that lap: the needle shows it. Winds of a grid are equally likely from all around and in all
// its strengths; a quantile over a grid means no more than that.
//
// # Where things are
//
// A law is a function of times or angles; a rule is a value that a [Strategy] is made of.
//
//	when to slow              SlowAt, SlowWithin
//	the outbound clock        Start
//	outbound time, laws       FullDiscrepancy, HalfDiscrepancy, Proportional, SecondsPerKnot,
//	                          SecondsPerKnotPerMinute, Quotient
//	outbound time, rules      LegTime, ByFull, ByHalf, ByGain, InProportion, BySecondsPerKnot,
//	                          BySecondsPerKnotPerMinute, TwiceAbeam, AtLeast30, FirstThen
//	outbound heading, laws    TripleDrift, DriftMultiple, CrabFromBearing
//	outbound heading, rules   NoDrift, SingleDrift, DoubleDrift, ThreeTimes, Multiple,
//	                          TripleThenSingle, BySide, ByTurns, AtLeast20
//	all of them               TimingRules, DriftRules, Strategies
//	found here                Lopsided, Tenths (fitted); ByQuotient, ByOutbound (derived)
//	exact                     Exact, Measured
//	convergence               Settle, SettleInProportion, Sensitivity
//	flying, measuring         Trial, Study, Grid, Outcome, Spread, Map
//	fitting                   Study.Fit, Study.Score, Family, Loss
//	leaving on time           PlanDeparture, DepartureWindows, WithinPattern, LimitsOf, LoseTime
//	without communications    LostCommunications
//	fuel                      Fuel
//
// # Sources
//
// FAA Aeronautical Information Manual (AIM) 5-3-8 and 5-4-10, 2023 and later; US Navy flight
// training manuals CNATRA P-340, P-801, P-871, P-1244; 14 CFR 91.185. A rule whose source is
// `common practice` is taught in many places and published with authority in none.
//
// NOT FOR NAVIGATION: see the caution of package abeam.
package timing
