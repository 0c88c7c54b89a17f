package entry

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
)

// Route is how an aeroplane comes to a VOR/DME hold. The zero Route is none and is
// rejected.
type Route uint8

// The routes.
const (
	_ Route = iota
	// InboundRadial: along the radial of the pattern, in the inbound direction.
	InboundRadial
	// ReciprocalRadial: along the same line from the other side, on the reciprocal of the
	// inbound course.
	ReciprocalRadial
	// ArcFromHoldingSide: by the DME arc of the fix, from the holding side.
	ArcFromHoldingSide
	// ArcFromOtherSide: by the DME arc of the fix, from the non-holding side.
	ArcFromOtherSide
	// OutboundEnd: along the radial, where the entry fix is the outbound end.
	OutboundEnd
)

// String says it in words.
func (r Route) String() string {
	switch r {
	case InboundRadial:
		return "along the inbound radial"
	case ReciprocalRadial:
		return "on the reciprocal of the inbound radial"
	case ArcFromHoldingSide:
		return "by the DME arc from the holding side"
	case ArcFromOtherSide:
		return "by the DME arc from the non-holding side"
	case OutboundEnd:
		return "along the radial to the outbound end"
	}
	return "no route"
}

// Arrival is the entry that a route to a VOR/DME hold leads to.
type Arrival struct {
	Route Route
	Entry Kind
	Track abeam.Bearing // on which the fix is reached
	Turn  hold.Turn     // at the fix: with the pattern, or the shorter way to Leg
	Leg   abeam.Bearing // the track after it, up to the DME limit
	Plan  Plan          // to be flown from the fix; zero at the outbound end
	Notes Notes
}

// Permits reports whether an entry of a kind may be flown by the route. What is not
// authorised is a finding, not an error.
func (a Arrival) Permits(kind Kind) bool { return kind != None && kind == a.Entry }

// VORDME gives the entry to a hold on the radial of a VOR/DME, by the route on which the
// fix is reached:
//
//	inbound radial       straight in: direct, the outbound leg to the DME limit
//	reciprocal of it     at the fix a turn to the holding side, onto a track 30 degrees
//	                     from the reciprocal, up to the DME limit: offset
//	DME arc              at right angles to the radial: direct from the non-holding side,
//	                     parallel from the holding side, as its sectors have it
//	outbound end         direct, along the radial only; parallel and offset entries are
//	                     not authorised
//
// The outbound end is taken to be reached on the inbound course, and the flight to go
// straight on to the fix; the source says no more than the line above. The plan flies legs
// on tracks of the [ICAO] rules; its Inbound is the leg time.
//
// Source: ICAO Doc 8168 Vol II App C-15 and II-4-1-8; that an arc takes the entry of
// its sector from memory of Vol I.
//
// Errors: [abeam.ErrInvalid] for a zero pattern, a route that is none, a DME that is zero
// or out of range, a leg time out of range; [abeam.ErrUnflyable] for a DME reading below
// the height.
func VORDME(p hold.Pattern, route Route, dme DME, leg time.Duration) (Arrival, error) {
	const op = "entry.VORDME"
	if err := notZero(op, &p); err != nil {
		return Arrival{}, err
	}
	if dme == (DME{}) {
		return Arrival{}, check.Invalid(op, "DME", "zero", "the readings over the fix and at the limit")
	}
	a := Arrival{Route: route, Entry: Direct}
	var angle abeam.Degrees // of the track at the fix, to the holding side
	switch route {
	case InboundRadial:
	case OutboundEnd:
		a.Notes = Notes(OnlyDirect)
	case ReciprocalRadial:
		a.Entry, angle = Teardrop, 180
	case ArcFromHoldingSide:
		a.Entry, angle = Parallel, -90
	case ArcFromOtherSide:
		angle = 90
	default:
		return Arrival{}, check.Invalid(op, "route", uint8(route), "InboundRadial (1) to OutboundEnd (5)")
	}
	a.Plan = ICAO().Plan(a.Entry, leg)
	a.Plan.DME, a.Plan.OffsetLimit = dme, 0 // the reading ends the offset track
	if err := a.Plan.validate(op); err != nil {
		return Arrival{}, err
	}
	a.Track = p.Inbound().Add(p.Turn().Apply(angle))
	if route == OutboundEnd {
		a.Plan, a.Turn, a.Leg = Plan{}, p.Turn(), p.Inbound()
		return a, nil
	}
	pr, err := Published(p, a.Entry, a.Track, leg)
	a.Turn, a.Leg = pr.First, pr.Heading
	return a, err
}
