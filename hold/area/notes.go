package area

import (
	"iter"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/noteset"
	"github.com/holdingfix/abeam/wind"
)

// Note is a remark on a result that is right as it stands but should be read with care.
type Note uint16

// The notes. Their values are bits of a [Notes].
const (
	// AboveSpeedLimit: the airspeed exceeds the limit of [hold.ICAO] at the altitude.
	AboveSpeedLimit Note = 1 << iota
	// AboveTurbulenceLimit: it exceeds that of [hold.ICAOTurbulence] too.
	AboveTurbulenceLimit
	// ShortLeg: the outbound leg ends at a distance that takes less than 1 minute at the true
	// airspeed: ICAO Doc 8168 Vol II II-4-1-4, there of DME legs.
	ShortLeg
	lastNote
)

// String says what the note means, for a reader.
func (n Note) String() string {
	switch n {
	case AboveSpeedLimit:
		return "the airspeed exceeds the holding speed limit of ICAO"
	case AboveTurbulenceLimit:
		return "the airspeed exceeds the holding speed limit of ICAO in turbulence"
	case ShortLeg:
		return "the outbound leg takes less than 1 min at the true airspeed"
	}
	return "not a note"
}

// Notes is a set of notes. The zero Notes is empty.
type Notes uint16

// Has reports whether the note is in the set.
func (ns Notes) Has(n Note) bool { return ns&Notes(n) != 0 }

// All gives the notes in the order of their declaration.
func (ns Notes) All() iter.Seq[Note] { return noteset.All(uint16(ns), lastNote) }

// String joins the notes with semicolons.
func (ns Notes) String() string { return noteset.Join(uint16(ns), lastNote) }

// notes are the remarks on a filled design whose length, if it has one, takes a time.
func (d Design) notes(leg time.Duration) Notes {
	var ns Notes
	for _, l := range []struct {
		rules hold.Rules
		note  Note
	}{{hold.ICAO(), AboveSpeedLimit}, {hold.ICAOTurbulence(), AboveTurbulenceLimit}} {
		if exceeds(l.rules, d.IAS, d.Altitude) {
			ns |= Notes(l.note)
		}
	}
	if d.Length != 0 && leg < time.Minute {
		ns |= Notes(ShortLeg)
	}
	return ns
}

// exceeds compares an airspeed with the limit of an altitude, which is in range. A Mach
// number is that of the indicated airspeed taken for the calibrated; the temperature does
// not enter it.
func exceeds(rules hold.Rules, ias abeam.Knots, altitude abeam.Feet) bool {
	band, _ := rules.SpeedLimit(altitude)
	if limit := band.Limit.IAS; limit != 0 && ias > limit {
		return true
	}
	if band.Limit.Mach == 0 {
		return false
	}
	air, _ := wind.StandardAir(altitude, 0)
	mach, err := air.MachFromCAS(ias)
	return err != nil || float64(mach) > band.Limit.Mach // there is none at Mach 1 and beyond
}
