package main

import (
	"math"
	"strings"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/tolerance"
)

// plan view: true north up, the fix at the origin, NM.
type planView struct {
	*drawing
	pattern    hold.Pattern
	scale      float64
	left, top  float64 // of the view, in NM
	north      float64 // degrees true of the inbound course
	flown      [][2]float64
	exact      [][2]float64
	excursions [][2]float64
}

// mapOf draws the track over the exact circuit.
func (r *Report) mapOf(log tolerance.Log, d tolerance.Debrief) string {
	v := &planView{pattern: d.Flown.Pattern}
	fix := v.pattern.Fix()
	v.north = float64(fix.Variation.True(v.pattern.Inbound()))
	v.collect(log, d)
	const size, margin = 620.0, 24.0
	v.drawing = newDrawing(size, size, "The track flown over the exact circuit")
	lo, hi := [2]float64{}, [2]float64{}
	for _, set := range [][][2]float64{v.flown, v.exact} {
		for _, p := range set {
			for k := range p {
				lo[k], hi[k] = math.Min(lo[k], p[k]), math.Max(hi[k], p[k])
			}
		}
	}
	span := math.Max(0.5, math.Max(hi[0]-lo[0], hi[1]-lo[1])) * 1.08
	v.scale = (size - 2*margin) / span
	v.left = (lo[0]+hi[0])/2 - span/2 - margin/v.scale
	v.top = (lo[1]+hi[1])/2 + span/2 + margin/v.scale
	v.draw(r, d)
	return v.end()
}

// How much of the way to the hold and from it is drawn.
const (
	arriving = 45 * time.Second
	leaving  = 20 * time.Second
)

// halo keeps a word readable over lines.
const halo = `paint-order="stroke" stroke="#ffffff" stroke-width="5" stroke-linejoin="round"`

// collect places the samples around the hold in the plane, and the exact circuit.
func (v *planView) collect(log tolerance.Log, d tolerance.Debrief) {
	span := d.Flown.Span()
	step := thin(len(log.Samples))
	for i := 0; i < len(log.Samples); i += step {
		s := log.Samples[i]
		// With something of the way to the hold and from it.
		if s.Time < span.From-arriving || s.Time > span.To+leaving {
			continue
		}
		if p, err := v.pattern.Locate(s2.LatLngFromDegrees(s.Lat, s.Lon)); err == nil {
			v.flown = append(v.flown, v.east(p))
		}
	}
	if d.NoWind == "" {
		if track, err := d.Exact.Circuit.AppendTrack(nil, time.Second); err == nil {
			for _, s := range track {
				v.exact = append(v.exact, v.east(s.At))
			}
		}
	}
	for _, e := range d.Judgement.Excursions {
		for i := range log.Samples {
			if s := log.Samples[i]; s.Time >= e.At {
				if p, err := v.pattern.Locate(s2.LatLngFromDegrees(s.Lat, s.Lon)); err == nil && e.Item <= tolerance.HoldingSideItem {
					v.excursions = append(v.excursions, v.east(p))
				}
				break
			}
		}
	}
}

// east turns the course frame to true north.
func (v *planView) east(p hold.Point) [2]float64 {
	s, c := math.Sincos(v.north * math.Pi / 180)
	right := float64(p.Abreast)
	if v.pattern.Turn() == hold.Left {
		right = -right
	}
	along := float64(p.Along)
	return [2]float64{along*s + right*c, along*c - right*s}
}

func (v *planView) x(east float64) float64  { return (east - v.left) * v.scale }
func (v *planView) y(north float64) float64 { return (v.top - north) * v.scale }

func (v *planView) at(points [][2]float64) [][2]float64 {
	out := make([][2]float64, len(points))
	for i, p := range points {
		out[i] = [2]float64{v.x(p[0]), v.y(p[1])}
	}
	return out
}

func (v *planView) draw(r *Report, d tolerance.Debrief) {
	// The inbound course, to the fix.
	s, c := math.Sincos(v.north * math.Pi / 180)
	reach := 0.0
	for _, p := range v.flown {
		reach = math.Max(reach, -(p[0]*s + p[1]*c))
	}
	v.line(v.x(-s*reach), v.y(-c*reach), v.x(0), v.y(0), `stroke="`+inkFaint+`" stroke-width="1.5"`)
	v.path(v.at(v.flown), `stroke="`+inkTrack+`" stroke-width="1.6" stroke-linejoin="round" data-line="flown"`)
	if len(v.exact) > 0 {
		v.path(v.at(v.exact), `stroke="`+inkExact+`" stroke-width="2.6" stroke-dasharray="9 5" data-line="exact"`)
	}
	for _, p := range v.excursions {
		v.triangle(v.x(p[0]), v.y(p[1]), 1)
	}
	// The fix: a triangle in a ring, with its name on the side away from the pattern.
	x, y := v.x(0), v.y(0)
	v.rect(x-4, y-4, 8, 8, `fill="#ffffff" stroke="#000000" stroke-width="1.8"`)
	side := 1.0 // the name stands on the non-holding side
	anchor := "end"
	if v.pattern.Turn() == hold.Left {
		side = -1
	}
	dx, dy := -side*c, -side*s
	if dx > 0 {
		anchor = "start"
	}
	v.text(x+14*dx, y+14*dy+5, `text-anchor="`+anchor+`" font-weight="bold" `+halo, "%s", r.Hold.Fix)
	v.lapNumbers(d)
	v.compass(r)
	v.distance()
}

// lapNumbers stand where the laps turn inbound.
func (v *planView) lapNumbers(d tolerance.Debrief) {
	for i, l := range d.Flown.Laps {
		if l.Inbound <= 0 {
			continue
		}
		p := v.east(l.Established)
		s, c := math.Sincos(v.north * math.Pi / 180)
		v.text(v.x(p[0])-10*s, v.y(p[1])+10*c+4, `text-anchor="middle" font-size="13" font-weight="bold" fill="`+inkTrack+`" `+halo, "%d", i+1)
	}
}

// compass draws true north and the wind in a corner.
func (v *planView) compass(r *Report) {
	const x, y = 40.0, 52.0
	v.line(x, y+22, x, y-22, `stroke="#000000" stroke-width="1.5"`)
	v.path([][2]float64{{x - 5, y - 12}, {x, y - 22}, {x + 5, y - 12}}, `stroke="#000000" stroke-width="1.5"`)
	v.text(x, y-28, `text-anchor="middle" font-size="12"`, "true N")
	if r.Wind == nil {
		return
	}
	from := float64(v.pattern.Fix().Variation.True(abeam.Bearing(r.Wind.From)))
	s, c := math.Sincos(from * math.Pi / 180)
	wx, wy := x+70, y
	v.line(wx+20*s, wy-20*c, wx-20*s, wy+20*c, `stroke="`+inkLine+`" stroke-width="2.5"`)
	for _, side := range []float64{-1, 1} {
		bs, bc := math.Sincos((from + side*28) * math.Pi / 180)
		v.line(wx-20*s, wy+20*c, wx-20*s+10*bs, wy+20*c-10*bc, `stroke="`+inkLine+`" stroke-width="2.5"`)
	}
	v.text(wx+30, wy+4, `font-size="12" `+halo, "wind %s%s/%.0f kt", bearing(r.Wind.From), strings.ToUpper(r.Hold.North.String()[:1]), r.Wind.Speed)
}

// distance is a bar of a round length.
func (v *planView) distance() {
	length := 1.0
	for length*v.scale > 200 {
		length /= 2
	}
	for length*v.scale < 60 {
		length *= 2
	}
	x, y := v.width-24-length*v.scale, v.height-18.0
	v.line(x, y, x+length*v.scale, y, `stroke="#000000" stroke-width="3"`)
	v.text(x+length*v.scale/2, y-7, `text-anchor="middle" font-size="12"`, "%g NM", length)
}
