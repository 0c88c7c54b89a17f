package main

import (
	"fmt"
	"html"
	"math"
	"strconv"
	"strings"
)

// The colours are apart in lightness as well as in hue, for every kind of colour vision;
// what they mean is said by form, too: the exact circuit is dashed, an excursion is a
// triangle.
const (
	inkTrack  = "#123f73" // flown: dark blue
	inkExact  = "#c65d00" // exact: burnt orange
	inkBeyond = "#a3004f" // beyond a limit: deep crimson
	inkWithin = "#dcebdc" // within the limits: pale green
	inkLine   = "#555555"
	inkFaint  = "#c9c9c9"
)

// drawing collects the elements of one SVG.
type drawing struct {
	b             strings.Builder
	width, height float64
}

func newDrawing(width, height float64, title string) *drawing {
	d := &drawing{width: width, height: height}
	fmt.Fprintf(&d.b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %g %g" role="img"><title>%s</title>`+"\n", width, height, html.EscapeString(title))
	return d
}

func (d *drawing) end() string { return d.b.String() + "</svg>\n" }

// num keeps coordinates to a tenth of a unit: a page need not hold more.
func num(x float64) string { return strconv.FormatFloat(math.Round(x*10)/10+0, 'f', -1, 64) }

func (d *drawing) line(x1, y1, x2, y2 float64, style string) {
	fmt.Fprintf(&d.b, `<line x1="%s" y1="%s" x2="%s" y2="%s" %s/>`+"\n", num(x1), num(y1), num(x2), num(y2), style)
}

func (d *drawing) rect(x, y, w, h float64, style string) {
	fmt.Fprintf(&d.b, `<rect x="%s" y="%s" width="%s" height="%s" %s/>`+"\n", num(x), num(y), num(math.Max(0, w)), num(math.Max(0, h)), style)
}

func (d *drawing) text(x, y float64, style, format string, args ...any) {
	fmt.Fprintf(&d.b, `<text x="%s" y="%s" %s>%s</text>`+"\n", num(x), num(y), style, html.EscapeString(fmt.Sprintf(format, args...)))
}

// triangle is the mark of an excursion, its point at (x, y), above it or below.
func (d *drawing) triangle(x, y, up float64) {
	fmt.Fprintf(&d.b, `<path d="M%s %s l-5 %s h10 z" fill="%s"/>`+"\n", num(x), num(y), num(-9*up), inkBeyond)
}

// path draws a line through points; a NaN lifts the pen.
func (d *drawing) path(points [][2]float64, style string) {
	var b strings.Builder
	pen := "M"
	for _, p := range points {
		if math.IsNaN(p[0]) || math.IsNaN(p[1]) {
			pen = "M"
			continue
		}
		b.WriteString(pen + num(p[0]) + " " + num(p[1]))
		pen = "L"
	}
	fmt.Fprintf(&d.b, `<path d="%s" fill="none" %s/>`+"\n", b.String(), style)
}

// thin keeps every so many of n, so that a long log makes no huge page.
func thin(n int) int { return max(1, (n+3999)/4000) }

// ticks are round figures over a range, about as many as wanted.
func ticks(lo, hi float64, wanted int) []float64 {
	if !(hi > lo) {
		return nil
	}
	raw := (hi - lo) / float64(wanted)
	step := math.Pow(10, math.Floor(math.Log10(raw)))
	for _, m := range []float64{2, 5, 10} {
		if step*m >= raw {
			step *= m
			break
		}
	}
	var all []float64
	for i := math.Ceil(lo / step); i*step <= hi && len(all) < 4*wanted; i++ {
		all = append(all, i*step+0)
	}
	return all
}
