// Package wind is the moving air that a holding pattern is flown in.
//
// A [Wind] is where it blows from and how fast, in the one north of the
// computation; a [Reported] wind carries the north it came with and crosses by a
// variation. Headwind is positive against the course, crosswind positive from the
// right, and so is the wind correction angle it calls for.
//
// The wind triangle joins six quantities; the Solve functions are named for what
// they find, each in closed form.
//
// [Air] is the standard atmosphere at a pressure altitude and a temperature
// ([StandardAir], [MeasuredAir]); its methods convert between calibrated,
// equivalent and true airspeed and Mach number. [DesignTAS] is the rounder formula
// of procedure design.
//
// NOT FOR NAVIGATION: see the caution of package abeam.
package wind
