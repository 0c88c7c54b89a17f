package hold

import (
	"math"

	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
)

// frame is a flight in the course frame: x along the inbound course, y to the
// holding side, angles in degrees from x towards y. Left-hand patterns are mirrored
// into it, so every turn is positive. Speeds are in true airspeeds, times in seconds
// and distances in what the airspeed covers in a second.
type frame struct {
	wx, wy       float64 // where the wind goes
	w            float64 // its strength
	perRate      float64 // s/deg
	r            float64 // radius through the air
	sinIn, cosIn float64 // inbound heading
	g            float64 // inbound groundspeed
}

// set checks pattern and flight and resolves the wind. The inbound heading has sine
// -wy. With w below 1 the groundspeed g is positive on any course: its cosine
// sqrt(1 - wy²) exceeds sqrt(w² - wy²), which is |wx|.
func (fr *frame) set(op string, p *Pattern, f *Flight) error {
	// The usual leg first: it is what the speed of a sweep hangs on.
	timed := p.leg.kind == InboundTimed && p.leg.time > 0 && p.leg.time <= MaxLeg
	if !timed && !p.leg.ok() || !f.ok() {
		return reject(op, p, f)
	}
	rel := float64(f.Wind.From - p.inbound)
	if p.turn == Left {
		rel = -rel
	}
	s, c := angle.Sincos(rel)
	fr.w = float64(f.Wind.Speed / f.TAS)
	fr.perRate = 1 / float64(f.Rate)
	fr.r = fr.perRate * (180 / math.Pi)
	fr.wx, fr.wy = 0-fr.w*c, 0-fr.w*s // 0 -: calm has no sign
	fr.sinIn = fr.w * s
	fr.cosIn = math.Sqrt((1 - fr.sinIn) * (1 + fr.sinIn))
	fr.g = fr.cosIn + fr.wx
	if !(fr.g > 0) { // only by rounding, the wind within 1e-15 of the airspeed
		return check.Unflyable(op, "wind speed", f.Wind.Speed, "weak enough to make ground along the inbound course")
	}
	return nil
}

func reject(op string, p *Pattern, f *Flight) error {
	if err := p.leg.validate(op); err != nil {
		return err
	}
	return f.validate(op)
}
