// Package wind is the moving air that a holding pattern is flown in.
//
// A [Wind] is where it blows from and how fast, in the one north of the
// computation; a [Reported] wind carries the north it came with and crosses by a
// variation. Headwind is positive against the course, crosswind positive from the
// right, and so is the wind correction angle it calls for.
//
// The wind triangle joins six quantities of which any four settle the other two; the
// Solve functions are named for what they find, each in closed form.
//
// [Air] is the standard atmosphere at a pressure altitude and a temperature; its
// methods convert between calibrated, equivalent and true airspeed and Mach number.
// [DesignTAS] is the rounder formula of procedure design.
//
// Decoders refuse what they do not know and say where; none guesses.
//
// # Where things are
//
//	wind and its norths       Wind, New, Wind.Components, Reported
//	course -> heading         SolveHeading
//	heading -> track          SolveTrack
//	track, heading -> wind    SolveWind
//	wind, ground -> TAS       SolveTAS, SolveTASOnHeading, SolveSpeeds
//	one quantity too many     Triangle.Misclosure
//	wind from what was flown  WindFromDrifts, WindFromLap
//	wind above the airspeed   CoursesMadeGood
//	drift                     MaxDrift, MaxDriftRule, OneInSixty
//	crosswind in the head     ClockCode, Sixths, AnglePlus20
//	atmosphere                StandardAir, MeasuredAir, Air.DensityAltitude
//	airspeeds                 Air.TASFromCAS and the other pairs, DesignFactor, DesignTAS
//	wind with height          Profile, OmnidirectionalWind, OmnidirectionalWindSI
//	winds-aloft forecasts     DecodeAloftGroup, DecodeAloftBulletin, AloftStation.Profile
//	METAR, ATIS               METARWind, TowerWind
//
// # Sources
//
//	wind triangle    USAF AFPAM 11-216 (1 Mar 2001) ch. 4; Bowditch, current sailing
//	atmosphere       ISO 2533:1975 (from memory, checked against tables)
//	airspeeds        isentropic flow (from memory, checked against tables)
//	procedure design ICAO Doc 8168 Vol II (2006), I-4-3-7; factor K from memory
//	winds aloft      US Navy CNATRA P-304 ch. 2, P-1246; FAA AC 00-45
//	METAR            WMO No. 306 FM 15, ICAO Annex 3 appendix 3 (from memory)
//	mental rules     common practice
//
// # Accuracy
//
// Laws are exact but for the rounding of float64: every inverse gives its forward
// back to 1e-9 of the airspeed, or better, away from the singularities that its
// documentation names. Rules of thumb state their worst error.
//
// NOT FOR NAVIGATION: see the caution of package abeam.
package wind
