package entry

import (
	"iter"
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/clock"
)

// Leg is one straight leg or one turn of a flown entry.
type Leg struct {
	Phase   Phase
	Turn    hold.Turn     // of a turn
	Through abeam.Degrees // angle of a turn, 0 on a straight leg; a turn may exceed 180
	Heading abeam.Bearing // flown, or rolled out on
	// Track and Groundspeed are those of a straight leg; 0 for a turn, where they change.
	Track       abeam.Bearing
	Groundspeed abeam.Knots
	Start       time.Duration // since over the fix
	Time        time.Duration
	From        hold.Point
}

// Flown is an entry as flown through a steady wind: from over the fix to wings level on
// the inbound course and on it to the fix. [Plan.Fly] gives one.
type Flown struct {
	Entry  Kind
	Manner Manner

	// EntryHeading is what the turn at the fix ends on, EntryTrack what it makes good;
	// FixTurn says which way the turn goes, Through how far.
	EntryHeading abeam.Bearing
	EntryTrack   abeam.Bearing
	FixTurn      hold.Turn
	Through      abeam.Degrees
	// EntryTime is from wings level on the entry heading to the next turn; Clock is what
	// a pilot's clock shows then, started wings level or, on a direct entry, wings level
	// or abeam the fix, whichever is later.
	EntryTime time.Duration
	Clock     time.Duration
	Return    hold.Turn // the turn back

	// Established is wings level on the inbound course, ToEstablish the time until then
	// from over the fix. Inbound is from there to the fix; negative if the fix is behind.
	Established hold.Point
	ToEstablish time.Duration
	Inbound     time.Duration
	// Total is the time from over the fix to over it again, or to being established
	// beyond it.
	Total time.Duration

	// Extent is how far the entry strays: Astray on the non-holding side, Beyond the fix,
	// Widest on the holding side, Outbound the other way along the course.
	Extent hold.Extent
	Notes  Notes

	dme     abeam.NM // the reading that ends the leg, 0 where its time does
	path    [most]stretch
	n       int
	inbound abeam.Bearing
	turn    hold.Turn
	v       float64 // NM/s
	rate    float64 // deg/s
	wx, wy  float64 // NM/s
}

// stretch is a piece with its time on the clock.
type stretch struct {
	piece
	start, time time.Duration
}

// fill takes the results from the path; false if a time is beyond a Duration.
func (fl *Flown) fill(p *hold.Pattern, f *hold.Flight, fr *frame, pa *path) bool {
	fl.inbound, fl.turn = p.Inbound(), p.Turn()
	fl.v, fl.rate, fl.wx, fl.wy = fr.v, float64(f.Rate), fr.wx*fr.v, fr.wy*fr.v
	fl.n = pa.n
	for i := range fl.n {
		s := &fl.path[i]
		s.piece, s.start = pa.pieces[i], fl.Total
		var ok bool
		if s.time, ok = clock.Duration(s.t); !ok {
			return false
		}
		switch s.phase {
		case FixTurn:
			fl.FixTurn, fl.Through = fl.side(s.sense), abeam.Degrees(s.through)
		case EntryLeg:
			fl.EntryTime, fl.Clock, fl.EntryHeading = s.time, s.time, fl.compass(s.from)
			if wait, ok := clock.Duration(-s.x / s.gx); fl.Entry == Direct && ok {
				fl.Clock -= min(s.time, max(0, wait))
			}
			fl.EntryTrack = fl.compass(along(s.gx, s.gy).deg)
		case ReturnTurn:
			fl.Return = fl.side(s.sense)
		case InboundLeg:
			fl.Inbound = s.time
		}
		if fl.Total += s.time; s.time > 0 && fl.Total < 0 { // each fits, the sum does not
			return false
		}
	}
	v := fr.v
	fl.ToEstablish = fl.Total - fl.Inbound
	fl.Established = hold.Point{Along: abeam.NM(pa.pieces[fl.n-1].x * v)}
	reach := func(x float64) abeam.NM {
		if x <= onCourse {
			return 0
		}
		return abeam.NM(x * v)
	}
	fl.Extent = hold.Extent{
		Beyond: reach(pa.beyond), Outbound: reach(pa.outbound),
		Widest: reach(pa.widest), Astray: reach(pa.astray),
	}
	if fl.Inbound < 0 {
		fl.Notes |= Notes(BeyondFix)
		fl.Total = fl.ToEstablish
		fl.n--
	}
	return true
}

// compass turns an angle of the course frame into a direction.
func (fl *Flown) compass(deg float64) abeam.Bearing {
	if fl.turn == hold.Left {
		deg = 0 - deg
	}
	return abeam.NewBearing(float64(fl.inbound) + deg)
}

func (fl *Flown) side(sense int8) hold.Turn {
	if sense == -1 {
		return fl.turn.Opposite()
	}
	return fl.turn
}

// Offset is how far from the reciprocal of the inbound course
// the track of the entry leg lies: to the holding side, negative to the other.
func (fl Flown) Offset() abeam.Degrees {
	return fl.turn.Apply(fl.inbound.Reciprocal().Sub(fl.EntryTrack))
}

// Legs gives the turns and straight legs in the order in which they are flown, without turns
// of no angle. The sequence can be ranged over again.
func (fl Flown) Legs() iter.Seq[Leg] {
	return func(yield func(Leg) bool) {
		for i := range fl.n {
			s := &fl.path[i]
			l := Leg{
				Phase: s.phase, Heading: fl.compass(s.to), Start: s.start, Time: s.time,
				From: hold.Point{Along: abeam.NM(s.x * fl.v), Abreast: abeam.NM(s.y * fl.v)},
			}
			if s.sense != 0 {
				l.Turn, l.Through = fl.side(s.sense), abeam.Degrees(s.through)
			} else {
				l.Track = fl.compass(along(s.gx, s.gy).deg)
				l.Groundspeed = abeam.Knots(math.Hypot(s.gx, s.gy) * fl.v * 3600)
			}
			if !yield(l) {
				return
			}
		}
	}
}
