package hold

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// The longest legs accepted, by time and over the ground.
const (
	MaxLeg    = time.Hour
	MaxLength = abeam.NM(500)
)

// LegKind is what is given of a leg; the rest of the circuit follows from it. The zero
// LegKind is none.
type LegKind uint8

// The kinds of leg.
const (
	_ LegKind = iota
	// InboundTimed gives the time of the inbound leg: AIM 5-3-8 j.4.
	InboundTimed
	// OutboundTimed gives the time of the outbound leg by the clock: ICAO Doc 8168 Vol I.
	OutboundTimed
	// OutboundDME gives the reading of the DME at the end of the outbound leg.
	OutboundDME
	// OutboundLength gives the distance along the course at the end of the outbound leg.
	OutboundLength
	// InboundLength gives the distance from wings level inbound to the fix.
	InboundLength
)

// String says it in words.
func (k LegKind) String() string {
	switch k {
	case InboundTimed:
		return "inbound leg by time"
	case OutboundTimed:
		return "outbound leg by time"
	case OutboundDME:
		return "outbound leg to a DME limit"
	case OutboundLength:
		return "outbound leg by length"
	case InboundLength:
		return "inbound leg by length"
	}
	return "not a leg"
}

// Leg is what ends the outbound leg. The zero Leg is none and is rejected. Legs compare
// with ==.
type Leg struct {
	kind     LegKind
	time     time.Duration // of the timed kinds
	distance abeam.NM      // the length, or the DME limit
	station  Station
}

// TimedInbound is the leg whose inbound part, from wings level to the fix, takes
// the given time, above 0 and at most [MaxLeg]. It is what the FAA's leg time
// means: AIM 5-3-8 j.4.
func TimedInbound(d time.Duration) Leg { return Leg{kind: InboundTimed, time: d} }

// TimedOutbound is the leg whose outbound part takes the given time by the clock, above
// 0 and at most [MaxLeg]: from wings level or abeam the fix, whichever is later, to the
// start of the inbound turn. It is what ICAO's leg time means, which is the same in every
// wind; the wind moves the heading, and the inbound time follows.
//
// Source: ICAO Doc 8168 Vol I (secondary copies); the start of the clock also AIM 5-3-8
// j.4(b) and CNATRA P-801.
func TimedOutbound(d time.Duration) Leg { return Leg{kind: OutboundTimed, time: d} }

// DMELimit is the leg that ends where the DME reads the limit: above the reading over the
// fix where the inbound leg leads toward the station, below it where it leads away, and
// above 0 and at most [MaxLength]. Readings are slant ranges at the altitude of the flight;
// neither may be smaller than its height above the station.
func DMELimit(s Station, limit abeam.NM) Leg {
	return Leg{kind: OutboundDME, distance: limit, station: s}
}

// LengthOutbound is the leg that ends at a distance from the fix along the course,
// above 0 and at most [MaxLength], as an RNAV system counts it: AIM 5-3-8 j.5.
func LengthOutbound(d abeam.NM) Leg { return Leg{kind: OutboundLength, distance: d} }

// LengthInbound is the leg whose inbound part, from wings level to the fix, has the
// given length over the ground, above 0 and at most [MaxLength]: what systems make of a
// coded length, AIM 5-3-8 j.7(a)(4).
func LengthInbound(d abeam.NM) Leg { return Leg{kind: InboundLength, distance: d} }

// Kind is what the leg gives.
func (l Leg) Kind() LegKind { return l.kind }

// Inbound is the time of the inbound leg; 0 where another kind is given.
func (l Leg) Inbound() time.Duration { return l.timeOf(InboundTimed) }

// Outbound is the time of the outbound leg by the clock; 0 where another kind is given.
func (l Leg) Outbound() time.Duration { return l.timeOf(OutboundTimed) }

func (l *Leg) timeOf(k LegKind) time.Duration {
	if l.kind != k {
		return 0
	}
	return l.time
}

// Length is the given length of the outbound or the inbound leg; 0 where another kind is
// given.
func (l Leg) Length() abeam.NM {
	if l.kind == OutboundDME {
		return 0
	}
	return l.distance
}

// DME gives the station and the limit of a leg of kind [OutboundDME]; both are zero where
// another kind is given.
func (l Leg) DME() (Station, abeam.NM) {
	if l.kind != OutboundDME {
		return Station{}, 0
	}
	return l.station, l.distance
}

// String describes the leg: "1m0s inbound", "to 15 NM DME", "5 NM outbound".
func (l Leg) String() string {
	switch l.kind {
	case InboundTimed:
		return l.time.String() + " inbound"
	case OutboundTimed:
		return l.time.String() + " outbound"
	case OutboundDME:
		return "to " + l.distance.String() + " DME"
	case OutboundLength:
		return l.distance.String() + " outbound"
	case InboundLength:
		return l.distance.String() + " inbound"
	}
	return "no leg"
}

func (l *Leg) ok() bool {
	switch l.kind {
	case InboundTimed, OutboundTimed:
		return l.time > 0 && l.time <= MaxLeg
	case OutboundLength, InboundLength:
		return l.distance > 0 && l.distance <= MaxLength
	case OutboundDME:
		if l.station.Course == Away {
			return l.station.ok() && l.distance > 0 && l.distance < l.station.Fix
		}
		return l.station.ok() && l.distance > l.station.Fix && l.distance <= MaxLength
	}
	return false
}

// field names what the leg gives, and its value.
func (l *Leg) field() (name string, value any) {
	switch l.kind {
	case OutboundTimed:
		return "outbound leg", l.time
	case OutboundDME:
		return "DME limit", l.distance
	case OutboundLength:
		return "outbound leg", l.distance
	case InboundLength:
		return "inbound leg", l.distance
	}
	return "inbound leg", l.time
}

// tooShort rejects a leg that no circuit has in a wind, and says why.
func (l *Leg) tooShort(op, why string) error {
	name, value := l.field()
	limit := "farther from the fix: "
	if l.kind == InboundTimed || l.kind == OutboundTimed {
		limit = "longer: "
	}
	return check.Unflyable(op, name, value, limit+why)
}

func (l *Leg) validate(op string) error {
	if l.ok() {
		return nil
	}
	if l.kind == 0 {
		return check.Invalid(op, "leg", "none", "one of TimedInbound, TimedOutbound, LengthInbound, LengthOutbound or DMELimit")
	}
	name, value := l.field()
	if l.kind == OutboundDME {
		if err := l.station.validate(op); err != nil {
			return err
		}
		return check.Invalid(op, name, value, l.station.limitRange())
	}
	if l.kind == OutboundLength || l.kind == InboundLength {
		return check.Invalid(op, name, value, "above 0 NM and at most "+MaxLength.String())
	}
	return check.Invalid(op, name, value, "above 0s and at most "+MaxLeg.String())
}
