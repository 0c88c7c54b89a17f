// Package reply is a circuit, or why there is none, as the programs give it in JSON.
package reply

import (
	"errors"
	"fmt"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/hold"
)

// Circuit is the figures of a circuit. Directions are in the north of the hold.
type Circuit struct {
	InboundHeading     float64 `json:"inbound_heading_deg"`
	InboundCorrection  float64 `json:"inbound_correction_deg"`
	InboundSpeed       float64 `json:"inbound_groundspeed_kt"`
	OutboundHeading    float64 `json:"outbound_heading_deg"`
	OutboundCorrection float64 `json:"outbound_correction_deg"`
	ToAbeam            float64 `json:"wings_level_to_abeam_s"`
	Clock              float64 `json:"outbound_clock_s"`
	Inbound            float64 `json:"inbound_s"`
	Lap                float64 `json:"lap_s"`
	Width              float64 `json:"width_nm"`
	Length             float64 `json:"length_nm"`
}

// Of takes the figures from a circuit.
func Of(c hold.Circuit) Circuit {
	return Circuit{
		InboundHeading: float64(c.InboundHeading), InboundCorrection: float64(c.InboundCorrection), InboundSpeed: float64(c.InboundGroundspeed),
		OutboundHeading: float64(c.OutboundHeading), OutboundCorrection: float64(c.OutboundCorrection),
		ToAbeam: c.ToAbeam.Seconds(), Clock: c.Clock.Seconds(), Inbound: c.Inbound.Seconds(), Lap: c.Lap.Seconds(),
		Width: float64(c.Extent.Width()), Length: float64(c.Extent.Length()),
	}
}

// Answer is a hold with its circuit.
type Answer struct {
	Caution string    `json:"caution"`
	Fix     string    `json:"fix,omitempty"`
	Course  float64   `json:"inbound_deg"`
	Turns   hold.Turn `json:"turns"`
	Leg     string    `json:"leg"`
	Circuit
	Notes    []string `json:"notes"`    // on the circuit
	Findings []string `json:"findings"` // on the clearance
}

// To puts an answer together.
func To(p hold.Pattern, c hold.Circuit, findings []hold.Finding) Answer {
	a := Answer{
		Caution: program.Caution, Fix: p.Fix().Ident, Course: float64(p.Inbound()), Turns: p.Turn(), Leg: p.Leg().String(),
		Circuit: Of(c), Notes: []string{}, Findings: []string{},
	}
	for n := range c.Notes.All() {
		a.Notes = append(a.Notes, n.String())
	}
	for _, f := range findings {
		a.Findings = append(a.Findings, f.String())
	}
	return a
}

// Refusal says why there is no circuit: which field had which value, and what it must be.
type Refusal struct {
	Caution string `json:"caution"`
	Error   string `json:"error"`
	Field   string `json:"field,omitempty"`
	Value   string `json:"value,omitempty"`
	Limit   string `json:"limit,omitempty"`
}

// Refuse takes a refusal from an error.
func Refuse(err error) Refusal {
	r := Refusal{Caution: program.Caution, Error: err.Error()}
	if at, ok := errors.AsType[*abeam.FieldError](err); ok {
		r.Field, r.Value, r.Limit = at.Field, fmt.Sprint(at.Value), at.Limit
	}
	return r
}
