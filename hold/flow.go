package hold

import (
	"math"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/wind"
)

// flow is the air that a varying flight meets, by the time since over the fix: true
// airspeed and wind in the course frame (x along the inbound course, y to the holding
// side), in NM/s.
type flow struct {
	v        *Varying
	from, up float64  // ft, ft/s
	until    float64  // when the ascent is over; before all time on a level flight
	last     air      // from then on
	tas      float64  // where it is constant
	curves   [2]curve // true airspeed by altitude, up to the bend and above
	bend     float64  // the tropopause, where the ascent passes it
	levels   []airLevel
	kinks    []float64 // times at which something ceases to be smooth, ascending
	tooSlow  bool      // a wind as strong as the airspeed was met
}

// air is what is met at one time.
type air struct{ v, wx, wy float64 }

// airLevel is a level of the profile.
type airLevel struct{ altitude, wx, wy float64 }

const perSecond = 1.0 / 3600 // NM/s in a knot

// newFlow makes the flow of a flight that has been validated. Levels and kinks go into
// the buffers, as far as they fit.
func newFlow(p *Pattern, v *Varying, levels []airLevel, kinks []float64) flow {
	fl := flow{v: v, from: float64(v.Ascent.From), until: math.Inf(-1), levels: levels, kinks: kinks}
	if v.CAS == 0 {
		fl.tas = float64(v.TAS) * perSecond
	}
	to, _ := v.Winds.At(v.Ascent.To) // validated, as is the airspeed
	fl.last.wx, fl.last.wy = p.windInFrame(to)
	fl.last.v = fl.exact(float64(v.Ascent.To))
	climb := float64(v.Ascent.To - v.Ascent.From)
	if climb == 0 {
		return fl
	}
	fl.up = math.Copysign(float64(v.Ascent.PerMinute)/60, climb)
	fl.until = climb / fl.up
	var buffer [64]wind.Level
	all := v.Winds.AppendLevels(buffer[:0])
	lo, hi := min(v.Ascent.From, v.Ascent.To), max(v.Ascent.From, v.Ascent.To)
	if v.CAS != 0 {
		fl.bend = math.Inf(1)
		if lo < tropopause && tropopause < hi {
			fl.bend = float64(tropopause)
			fl.curves[1].fit(fl.bend, float64(hi), fl.exact)
		}
		fl.curves[0].fit(float64(lo), math.Min(fl.bend, float64(hi)), fl.exact)
	}
	for i, l := range all {
		// Those between, and the next on either side.
		if i+1 < len(all) && all[i+1].Altitude <= lo || i > 0 && all[i-1].Altitude >= hi {
			continue
		}
		wx, wy := p.windInFrame(l.Wind)
		levels = append(levels, airLevel{float64(l.Altitude), wx, wy})
		kinks = fl.kinkAt(kinks, float64(l.Altitude))
	}
	if v.CAS != 0 {
		kinks = fl.kinkAt(kinks, float64(tropopause))
	}
	fl.levels, fl.kinks = levels, append(kinks, fl.until)
	return fl
}

// tropopause is where the lapse of the standard atmosphere ends: 11 km.
//
// Source: ISO 2533:1975, as package wind has it.
const tropopause abeam.Feet = 11000 / 0.3048

// windInFrame gives where a wind goes, in NM/s along the course and to the holding side.
func (p *Pattern) windInFrame(w wind.Wind) (wx, wy float64) {
	rel := float64(w.From - p.inbound)
	if p.turn == Left {
		rel = -rel
	}
	s, c := angle.Sincos(rel)
	speed := float64(w.Speed) * perSecond
	return 0 - speed*c, 0 - speed*s
}

// kinkAt adds the time at which an altitude is passed on the way.
func (fl *flow) kinkAt(kinks []float64, altitude float64) []float64 {
	if t := (altitude - fl.from) / fl.up; t > 0 && t < fl.until {
		return append(kinks, t)
	}
	return kinks
}

// handOver adds the time at which a turn limited by rate comes to be limited by bank, or
// the other way: the airspeed is then g tan(bank)/rate. It changes one way with altitude,
// so the time is found by bisection.
func (fl *flow) handOver(kinks []float64, limit *turnLimit) []float64 {
	if fl.up == 0 {
		return kinks
	}
	at := limit.pull / limit.rate
	over := func(t float64) bool { return fl.airspeed(fl.from+fl.up*t) > at }
	lo, hi := 0.0, fl.until
	side := over(lo)
	if over(hi) == side {
		return kinks
	}
	for range 40 {
		if mid := (lo + hi) / 2; over(mid) == side {
			lo = mid
		} else {
			hi = mid
		}
	}
	return append(kinks, hi)
}

// airspeed is the true airspeed at an altitude within the ascent, in NM/s.
func (fl *flow) airspeed(altitude float64) float64 {
	switch {
	case fl.tas != 0:
		return fl.tas
	case altitude <= fl.bend:
		return fl.curves[0].at(altitude)
	}
	return fl.curves[1].at(altitude)
}

// exact is the airspeed without the curves. It is subsonic between two altitudes at which
// it is.
func (fl *flow) exact(altitude float64) float64 {
	tas, _ := fl.v.tas(abeam.Feet(altitude))
	return float64(tas) * perSecond
}

// altitude at a time.
func (fl *flow) altitude(t float64) float64 {
	if t >= fl.until {
		return float64(fl.v.Ascent.To)
	}
	return fl.from + fl.up*math.Max(0, t)
}

// at is the air at a time.
func (fl *flow) at(t float64) air {
	a := fl.last
	if t < fl.until {
		altitude := fl.altitude(t)
		a.v = fl.airspeed(altitude)
		a.wx, a.wy = fl.windAt(altitude)
	}
	if !(a.v*a.v > a.wx*a.wx+a.wy*a.wy) {
		fl.tooSlow = true
	}
	return a
}

// windAt interpolates by components, as [wind.Profile.At] does.
func (fl *flow) windAt(altitude float64) (wx, wy float64) {
	var a, b *airLevel
	for i := range fl.levels[1:] {
		a, b = &fl.levels[i], &fl.levels[i+1]
		if altitude <= b.altitude {
			break
		}
	}
	share := (altitude - a.altitude) / (b.altitude - a.altitude)
	return a.wx + share*(b.wx-a.wx), a.wy + share*(b.wy-a.wy)
}

// crab is the heading that makes the course good, and the groundspeed on it.
func (a air) crab() (heading, along float64) {
	s := -a.wy / a.v
	c := math.Sqrt((1 - s) * (1 + s))
	return math.Asin(s), a.v*c + a.wx
}
