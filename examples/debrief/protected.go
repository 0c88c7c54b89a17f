package main

import (
	"fmt"
	"math"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/hold/area"
	"github.com/holdingfix/abeam/tolerance"
)

// Protected is the flight from the first time over the fix to the last against the ICAO
// template and the reach of permitted entries. It is for comparison: what protects the hold is not known.
type Protected struct {
	IAS     float64 `json:"designed_for_kias"`
	Wind    float64 `json:"designed_for_kt_of_wind"`
	Samples int     `json:"samples"`
	Outside int     `json:"outside"`
	Margin  float64 `json:"margin_nm"` // the least; negative: outside
}

// protected measures the log against the template for the limit airspeed of the altitude
// and, where the leg is timed, its time. Where no template can be drawn there is none.
func (r *Report) protected(log tolerance.Log, flown tolerance.Flown, t task) {
	if t.clearance.Altitude == 0 {
		return
	}
	band, err := hold.ICAO().SpeedLimit(t.clearance.Altitude)
	if err != nil || band.Limit.IAS == 0 {
		return
	}
	design := area.Design{IAS: band.Limit.IAS, Altitude: t.clearance.Altitude, Outbound: flown.Pattern.Leg().Inbound()}
	template, err := design.Template()
	if err != nil {
		return
	}
	envelope, err := design.Envelope()
	if err != nil {
		return
	}
	around := template.Hold.With(envelope.All())
	span := flown.Span()
	e := around.Follow(func(yield func(hold.Point) bool) {
		for i := range log.Samples {
			s := &log.Samples[i]
			if s.Time < span.From || s.Time > span.To {
				continue
			}
			p, err := flown.Pattern.Locate(s2.LatLngFromDegrees(s.Lat, s.Lon))
			if err != nil { // too far off to have a place in the plane: outside all the same
				p = hold.Point{Along: abeam.NM(math.Inf(1))}
			}
			if !yield(p) {
				return
			}
		}
	})
	if math.IsInf(float64(e.Farthest), -1) { // no sample has a place
		return
	}
	r.Protected = &Protected{
		IAS: float64(design.IAS), Wind: float64(template.Lines.Wind),
		Samples: e.Points, Outside: e.Outside, Margin: round(-float64(e.Farthest)),
	}
}

func (p *Protected) words() string {
	if p == nil {
		return "no ICAO template without an assigned altitude, or for this altitude and leg."
	}
	inside := fmt.Sprintf("all %d samples inside, %.2f NM from the edge at the least", p.Samples, p.Margin)
	if p.Outside > 0 {
		inside = fmt.Sprintf("%d of %d samples OUTSIDE, by %.2f NM at the most", p.Outside, p.Samples, -p.Margin)
	}
	return fmt.Sprintf("%s, of the ICAO template for %.0f KIAS and %.0f kt of wind and the reach of its entries. For comparison only: it is not known what protects this hold.", inside, p.IAS, p.Wind)
}
