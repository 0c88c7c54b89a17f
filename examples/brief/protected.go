package main

import (
	"fmt"
	"io"
	"slices"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/hold/area"
)

// Protected is the ICAO template for the hold, and what the flight leaves of it; of the entry
// what it leaves of the reach of permitted entries, which the template does not draw. It is
// for comparison: what protects this hold, by whose rules and for which speed, a pilot cannot
// know.
type Protected struct {
	IAS  float64 `json:"designed_for_kias"`
	Wind float64 `json:"designed_for_kt_of_wind,omitempty"`
	// The least distances from the edge, negative outside; none of what cannot be flown.
	Exact *float64 `json:"exact_lap_margin_nm,omitempty"`
	Thumb *float64 `json:"triple_drift_lap_margin_nm,omitempty"`
	Entry *float64 `json:"entry_margin_nm,omitempty"`
	// Reach is how far a flight that corrects for nothing comes beyond the template.
	Reach  *float64 `json:"uncorrected_flight_beyond_nm,omitempty"`
	Failed string   `json:"failed,omitempty"`

	template, reach area.Area
}

// protected draws the template for the highest airspeed that the rules have at the
// altitude, from overhead the fix.
func (b *Briefing) protected() error {
	design := area.Design{IAS: b.limit.IAS, Altitude: b.task.altitude}
	if b.limit.IAS == 0 { // the limit is a Mach number, or there is none
		design.IAS = b.task.holding
	}
	switch b.task.pattern.Leg().Kind() {
	case hold.InboundTimed, hold.OutboundTimed:
		design.Outbound = b.still.Straight
	default:
		design.Length = abeam.NM(b.Speed.TAS * b.still.Straight.Hours())
	}
	template, err := design.Template()
	if err != nil {
		b.Protected = Protected{IAS: float64(design.IAS), Failed: reason(err)}
		return nil
	}
	envelope, err := design.Envelope()
	if err != nil {
		return err
	}
	p := Protected{IAS: float64(design.IAS), Wind: float64(template.Lines.Wind), template: template.Hold, reach: envelope.All()}
	beyond, _ := template.Hold.Beyond(envelope.Hold)
	p.Reach = new(max(0, float64(beyond)))
	if p.Exact, err = margin(template.Hold, b.exact); err != nil {
		return err
	}
	if b.thumb.Lap > 0 {
		if p.Thumb, err = margin(template.Hold, b.thumb); err != nil {
			return err
		}
	}
	track, err := b.entryPoints()
	if err != nil {
		return err
	}
	if len(track) > 0 {
		p.Entry = new(-float64(p.reach.Follow(slices.Values(track)).Farthest))
	}
	b.Protected = p
	return nil
}

// margin is the least distance of a lap from the edge.
func margin(a area.Area, c hold.Circuit) (*float64, error) {
	track, err := c.Track(time.Second)
	if err != nil {
		return nil, err
	}
	e := a.Follow(func(yield func(hold.Point) bool) {
		for s := range track {
			if !yield(s.At) {
				return
			}
		}
	})
	return new(-float64(e.Farthest)), nil
}

func (b *Briefing) writeProtected(w io.Writer) {
	p := b.Protected
	if p.Failed != "" {
		writePara(w, "Protected", fmt.Sprintf("no ICAO template for %.0f KIAS: %s.", p.IAS, p.Failed))
		return
	}
	laps := "the exact lap " + leaves(*p.Exact)
	if p.Thumb != nil {
		laps += ", that of triple drift " + leaves(*p.Thumb)
	}
	if p.Entry != nil {
		laps += "; of the reach of permitted entries the entry " + leaves(*p.Entry)
	}
	writePara(w, "Protected", fmt.Sprintf("against the ICAO template for %.0f KIAS and %.0f kt of wind from anywhere, from overhead the fix: %s. A flight within the allowances that corrects for nothing comes up to %.2f NM beyond the template. For comparison only: it is not known what protects this hold.",
		p.IAS, p.Wind, laps, *p.Reach))
}

func leaves(margin float64) string {
	if margin < 0 {
		return fmt.Sprintf("GOES %.2f NM OUTSIDE", -margin)
	}
	return fmt.Sprintf("leaves %.2f NM", margin)
}
