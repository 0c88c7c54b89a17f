package entry

import (
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
)

// frame is an entry in the course frame: x along the inbound course, y to the holding
// side, angles in degrees from x towards y, so that left-hand patterns are mirrored into
// right-hand ones and a turn with the pattern is positive. Speeds are in true airspeeds,
// times in seconds, distances in what the airspeed covers in a second.
type frame struct {
	wx, wy  float64 // where the wind goes
	perRate float64 // s/deg
	r       float64 // radius through the air
	v       float64 // the airspeed in NM/s
	at      dir     // the heading at the fix
	in      dir     // the inbound heading
	g       float64 // groundspeed on it
	top     dir     // the heading on which a turn is at right angles to the course
}

// dir is a heading with its sine and cosine.
type dir struct{ deg, sin, cos float64 }

func direction(deg float64) dir {
	s, c := angle.Sincos(deg)
	return dir{deg, s, c}
}

// along gives the direction of a vector.
func along(x, y float64) dir {
	n := math.Sqrt(x*x + y*y)
	return dir{angle.Atan2(y, x), y / n, x / n}
}

func (fr *frame) set(op string, p *hold.Pattern, f *hold.Flight, heading abeam.Bearing) error {
	if err := f.Validate(); err != nil {
		return err
	}
	if err := check.Finite(op, "heading", heading); err != nil {
		return err
	}
	c := f.Wind.Components(p.Inbound())
	fr.wx, fr.wy = 0-float64(c.Head/f.TAS), 0-float64(c.Cross/f.TAS)
	if p.Turn() == hold.Left {
		fr.wy = 0 - fr.wy
	}
	fr.perRate = 1 / float64(f.Rate)
	fr.r = fr.perRate * (180 / math.Pi)
	fr.v = float64(f.TAS) * (1.0 / 3600)
	fr.at = direction(float64(p.Turn().Apply(heading.Sub(p.Inbound()))))
	fr.in = fr.making(1, 0)
	fr.g = fr.in.cos + fr.wx
	if !(fr.g > 0) { // only by rounding, the wind within 1e-15 of the airspeed
		return check.Unflyable(op, "wind speed", f.Wind.Speed, "weak enough to make ground along the inbound course")
	}
	// Along is extreme where cos(h) + wx = 0.
	fr.top = dir{angle.Acos(0 - fr.wx), math.Sqrt((1 - fr.wx) * (1 + fr.wx)), 0 - fr.wx}
	return nil
}

// making gives the heading that makes good a track, of which (x, y) is the unit vector.
// Its part across the track undoes the wind's.
func (fr *frame) making(x, y float64) dir {
	across := fr.wx*y - fr.wy*x
	ahead := math.Sqrt((1 - across) * (1 + across))
	return along(ahead*x-across*y, ahead*y+across*x)
}

// heading or track, as b says.
func (fr *frame) flown(b Basis, deg float64) dir {
	d := direction(deg)
	if b == Track {
		return fr.making(d.cos, d.sin)
	}
	return d
}

// over is the velocity over the ground on a heading.
func (fr *frame) over(d dir) (x, y float64) { return d.cos + fr.wx, d.sin + fr.wy }

// turned is the place that a turn ends in, from the origin. Sense is 1 with the pattern,
// -1 against it.
func (fr *frame) turned(from, to dir, sense, through float64) (x, y float64) {
	t := through * fr.perRate
	return sense*fr.r*(to.sin-from.sin) + fr.wx*t, sense*fr.r*(from.cos-to.cos) + fr.wy*t
}

// through is the angle from one heading round to another in a sense, 0 to 360. A
// rounding behind the start is no circle.
func through(from, to dir, sense float64) float64 {
	d := sense * (to.deg - from.deg)
	for d < 0 {
		d += 360
	}
	for d > 360-hair {
		d -= 360
	}
	return max(0, d)
}

// hair is an angle below anything flown, far above the rounding of a heading.
const hair = 1e-9

// shorter is the turn to a heading by the shorter way; straight about, in the sense given.
func shorter(from, to dir, about float64) (sense, angle float64) {
	right := through(from, to, 1)
	if right <= 180+about*hair {
		return 1, right
	}
	return -1, 360 - right
}
