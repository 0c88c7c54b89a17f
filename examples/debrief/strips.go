package main

import (
	"fmt"
	"math"

	"github.com/holdingfix/abeam/tolerance"
)

// strip is a figure over the time of the hold.
type strip struct {
	*drawing
	from, to float64 // s
	lo, hi   float64
}

const (
	stripWidth  = 1240.0
	stripLeft   = 64.0
	stripRight  = 16.0
	stripTop    = 26.0
	stripBottom = 26.0
)

func (s *strip) x(t float64) float64 {
	return stripLeft + (t-s.from)/(s.to-s.from)*(stripWidth-stripLeft-stripRight)
}

func (s *strip) y(v float64) float64 {
	return s.height - stripBottom - (v-s.lo)/(s.hi-s.lo)*(s.height-stripTop-stripBottom)
}

// stripOf draws one recorded quantity with its limits shaded; empty where it was not
// recorded.
func (r *Report) stripOf(log tolerance.Log, d tolerance.Debrief, item tolerance.Item, q tolerance.Quantity, of func(*tolerance.Sample) float64, target float64) string {
	span := d.Flown.Span()
	result := d.Judgement.Item(item)
	s := &strip{from: span.From.Seconds(), to: span.To.Seconds(), lo: math.Inf(1), hi: math.Inf(-1)}
	var points [][2]float64
	step := thin(len(log.Samples))
	for i := 0; i < len(log.Samples); i += step {
		if x := &log.Samples[i]; x.Time >= span.From && x.Time <= span.To && x.Has.Has(q) {
			v := of(x)
			points = append(points, [2]float64{x.Time.Seconds(), v})
			s.lo, s.hi = math.Min(s.lo, v), math.Max(s.hi, v)
		}
	}
	if len(points) == 0 {
		return ""
	}
	limited := result.Why == ""
	if limited {
		s.lo, s.hi = math.Min(s.lo, target-result.Under), math.Max(s.hi, target+result.Over)
	}
	pad := math.Max(5, 0.12*(s.hi-s.lo))
	s.lo, s.hi = s.lo-pad, s.hi+pad
	s.drawing = newDrawing(stripWidth, 190, item.String()+" over time")
	if limited {
		s.rect(s.x(s.from), s.y(target+result.Over), s.x(s.to)-s.x(s.from), s.y(target-result.Under)-s.y(target+result.Over), `fill="`+inkWithin+`" data-band="`+item.String()+`"`)
		s.line(s.x(s.from), s.y(target), s.x(s.to), s.y(target), `stroke="`+inkLine+`" stroke-dasharray="2 4"`)
	}
	s.axes(d, 4)
	for i := range points {
		points[i] = [2]float64{s.x(points[i][0]), s.y(points[i][1])}
	}
	s.path(points, `stroke="`+inkTrack+`" stroke-width="1.4" data-line="`+item.String()+`"`)
	for _, e := range d.Judgement.Excursions {
		if e.Item != item {
			continue
		}
		x, width := s.x(e.Span.From.Seconds()), s.x(e.Span.To.Seconds())-s.x(e.Span.From.Seconds())
		s.rect(x, stripTop, math.Max(2, width), s.height-stripTop-stripBottom, `fill="`+inkBeyond+`" fill-opacity="0.16"`)
		s.triangle(s.x(e.At.Seconds()), stripTop+9, 1)
	}
	title := fmt.Sprintf("%s, %s", item, item.Unit())
	if limited {
		title += fmt.Sprintf(": %g, limits -%g +%g", target, result.Under, result.Over)
	} else {
		title += ": " + result.Why
	}
	s.text(stripLeft, 16, `font-size="13" font-weight="bold"`, "%s", title)
	return s.end()
}

// axes draws the figures on the left, minutes below, and the laps.
func (s *strip) axes(d tolerance.Debrief, rows int) {
	for _, v := range ticks(s.lo, s.hi, rows) {
		s.line(stripLeft, s.y(v), stripWidth-stripRight, s.y(v), `stroke="`+inkFaint+`" stroke-width="0.7"`)
		s.text(stripLeft-6, s.y(v)+4, `text-anchor="end" font-size="12"`, "%g", v)
	}
	every := 60.0
	for (s.to-s.from)/every > 25 {
		every *= 2
	}
	for t := math.Ceil(s.from/every) * every; t <= s.to; t += every {
		s.line(s.x(t), s.height-stripBottom, s.x(t), s.height-stripBottom+4, `stroke="`+inkLine+`"`)
		s.text(s.x(t), s.height-8, `text-anchor="middle" font-size="11"`, "%s", clock(t))
	}
	for i, l := range d.Flown.Laps {
		if len(d.Flown.Laps) > 40 {
			break
		}
		x := s.x(l.Span().From.Seconds())
		s.line(x, stripTop-4, x, s.height-stripBottom, `stroke="`+inkLine+`" stroke-width="1"`)
		s.text(x+4, s.height-stripBottom-5, `font-size="11" fill="`+inkLine+`"`, "lap %d", i+1)
	}
}

// inboundStrip draws the inbound time of every lap against the target.
func (r *Report) inboundStrip(d tolerance.Debrief) string {
	s := &strip{from: 0, to: float64(len(r.Laps)), lo: 0, hi: r.Hold.Leg}
	for _, l := range r.Laps {
		s.hi = math.Max(s.hi, l.Inbound)
	}
	s.hi = s.hi*1.15 + 1
	s.drawing = newDrawing(stripWidth, 190, "inbound time of every lap")
	limited := d.Judgement.Item(tolerance.LegTimeItem).Why == ""
	if limited {
		over, under := r.leg.Over.Seconds(), r.leg.Under.Seconds()
		s.rect(s.x(0), s.y(r.Hold.Leg+over), s.x(s.to)-s.x(0), s.y(math.Max(0, r.Hold.Leg-under))-s.y(r.Hold.Leg+over), `fill="`+inkWithin+`" data-band="inbound time"`)
	}
	for _, v := range ticks(s.lo, s.hi, 4) {
		s.line(stripLeft, s.y(v), stripWidth-stripRight, s.y(v), `stroke="`+inkFaint+`" stroke-width="0.7"`)
		s.text(stripLeft-6, s.y(v)+4, `text-anchor="end" font-size="12"`, "%g", v)
	}
	width := math.Min(70, 0.6*(s.x(1)-s.x(0)))
	var labels []func() // over the line of the target
	for i, l := range r.Laps {
		x := s.x(float64(i)+0.5) - width/2
		s.rect(x, s.y(l.Inbound), width, s.y(0)-s.y(l.Inbound), `fill="`+inkTrack+`" data-bar="inbound"`)
		if len(r.Laps) > 40 {
			continue
		}
		label := clock(l.Inbound)
		if l.Inbound == 0 {
			label = "no leg"
		}
		labels = append(labels, func() { s.text(x+width/2, s.y(l.Inbound)-5, `text-anchor="middle" font-size="12" `+halo, "%s", label) })
		s.text(x+width/2, s.height-8, `text-anchor="middle" font-size="11"`, "lap %d", l.Lap)
	}
	if r.Hold.Leg > 0 {
		s.line(stripLeft, s.y(r.Hold.Leg), stripWidth-stripRight, s.y(r.Hold.Leg), `stroke="`+inkExact+`" stroke-width="2" stroke-dasharray="9 5"`)
	}
	for _, label := range labels {
		label()
	}
	why := d.Judgement.Item(tolerance.LegTimeItem).Why
	if why == "" {
		why = "limits shaded"
	}
	s.text(stripLeft, 16, `font-size="13" font-weight="bold"`, "inbound time, s: target %s (%s)", clock(r.Hold.Leg), why)
	return s.end()
}
