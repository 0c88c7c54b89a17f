package area

import (
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
)

// DMELimit is the DME limit of the outbound leg of the design, for a hold inbound toward
// the station: [hold.DesignDMELimit] with the true airspeed and the rate of turn of the
// design, its outbound time, or the time its length takes at the true airspeed, and the
// altitude above the elevation of the station.
//
// Source: ICAO Doc 8168 Vol II (2006) I-4-3, Appendix C-13 and Diagram C-15.
//
// Errors: as [Design.Lines] and [hold.DesignDMELimit]; [abeam.ErrInvalid] for a station
// that is not valid or lies behind the fix, for which the formula is not at hand.
func (d Design) DMELimit(s hold.Station) (hold.DesignLimit, error) {
	if err := s.Validate(); err != nil {
		return hold.DesignLimit{}, err
	}
	if s.Course != hold.Toward {
		return hold.DesignLimit{}, check.Invalid("area.Design.DMELimit", "station course", s.Course, "toward the station")
	}
	l, err := d.Lines()
	if err != nil {
		return hold.DesignLimit{}, err
	}
	return hold.DesignDMELimit(s.Fix, l.TAS, l.Rate, d.Altitude-s.Elevation, l.Time)
}
