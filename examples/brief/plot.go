package main

import (
	"bytes"
	"fmt"
	"image/color"
	"math"
	"strconv"
	"time"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/examples/internal/whole"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/hold/area"
)

// Colours that stay apart for every kind of colour vision, and in grey.
var (
	grey   = color.NRGBA{130, 130, 130, 255}
	blue   = color.NRGBA{0, 90, 160, 255}
	orange = color.NRGBA{215, 100, 0, 255}
	green  = color.NRGBA{0, 120, 90, 255}
	black  = color.NRGBA{20, 20, 20, 255}
)

// plotStep is the time between two points of a drawn track.
const plotStep = time.Second / 2

// plot draws the still-air racetrack, the exact track in the wind, the track of the rule
// of thumb and the entry on a map with the hold's north up. The file is written whole or not at
// all.
func (b *Briefing) plot(name, format string) error {
	p := plot.New()
	p.Title.Text = fmt.Sprintf("%s, inbound %s, %v turns, wind %s at %.0f kt", b.Hold.Fix, deg(b.Hold.Inbound), b.Hold.Turns, deg(b.Wind.From), b.Wind.Speed)
	p.X.Label.Text = "NM east of the fix  (not for navigation)"
	p.Y.Label.Text = fmt.Sprintf("NM north of the fix, %v", b.Hold.North)
	p.Add(plotter.NewGrid())

	box := newBox()
	if err := b.drawProtected(p, box); err != nil {
		return err
	}
	entryTrack, err := b.entryPoints()
	if err != nil {
		return err
	}
	for _, track := range []struct {
		name    string
		circuit hold.Circuit // or the points
		points  []hold.Point
		colour  color.Color
		dashes  []vg.Length
	}{
		{"still air", b.still, nil, grey, []vg.Length{vg.Points(2), vg.Points(3)}},
		{"triple drift and " + minutes(b.still.Clock.Seconds()), b.thumb, nil, orange, []vg.Length{vg.Points(7), vg.Points(3)}},
		{"exact", b.exact, nil, blue, nil},
		{b.Entry.Kind.String() + " entry", hold.Circuit{}, entryTrack, green, []vg.Length{vg.Points(9), vg.Points(3), vg.Points(2), vg.Points(3)}},
	} {
		if track.circuit.Lap > 0 {
			samples, err := track.circuit.AppendTrack(nil, plotStep)
			if err != nil {
				return err
			}
			for _, s := range samples {
				track.points = append(track.points, s.At)
			}
		}
		if len(track.points) == 0 {
			continue // it cannot be flown in this wind
		}
		points := make(plotter.XYs, len(track.points))
		for i, at := range track.points {
			points[i] = b.onMap(at)
			box.include(points[i])
		}
		line, err := plotter.NewLine(points)
		if err != nil {
			return err
		}
		line.Color, line.Width, line.Dashes = track.colour, vg.Points(1.6), track.dashes
		p.Add(line)
		p.Legend.Add(track.name, line)
	}
	if err := b.drawFix(p, box); err != nil {
		return err
	}
	if err := b.drawWind(p, box); err != nil {
		return err
	}
	p.Legend.Top = true
	p.Legend.XOffs, p.Legend.YOffs = vg.Points(-6), vg.Points(-4)
	p.Title.Padding = vg.Points(4)

	width, height := box.fit(p)
	w, err := p.WriterTo(width, height, format)
	if err != nil {
		return err
	}
	var image bytes.Buffer
	if _, err := w.WriteTo(&image); err != nil {
		return err
	}
	return whole.Write(name, image.Bytes())
}

// drawProtected draws the edge of the template, and that of what permitted laps and entries
// reach uncorrected.
func (b *Briefing) drawProtected(p *plot.Plot, box *box) error {
	if b.Protected.Failed != "" {
		return nil
	}
	name := fmt.Sprintf("ICAO template, %.0f KIAS", b.Protected.IAS)
	for _, edge := range []struct {
		name   string
		area   area.Area
		dashes []vg.Length
	}{
		{name, b.Protected.template, nil},
		{"reach of laps and entries", b.Protected.reach, []vg.Length{vg.Points(1), vg.Points(3)}},
	} {
		outline, err := edge.area.Outline(0.01)
		if err != nil {
			return err
		}
		var points plotter.XYs
		for at := range outline {
			points = append(points, b.onMap(at))
			box.include(points[len(points)-1])
		}
		line, err := plotter.NewLine(append(points, points[0]))
		if err != nil {
			return err
		}
		line.Color, line.Width, line.Dashes = grey, vg.Points(1), edge.dashes
		p.Add(line)
		p.Legend.Add(edge.name, line)
	}
	return nil
}

// onMap turns a point of the course frame to east and north of the fix.
func (b *Briefing) onMap(at hold.Point) plotter.XY {
	s, c := math.Sincos(b.Hold.Inbound * math.Pi / 180)
	along, right := float64(at.Along), float64(at.Abreast)
	if b.Hold.Turns == hold.Left {
		right = -right
	}
	return plotter.XY{X: along*s + right*c, Y: along*c - right*s}
}

// drawFix marks the fix, and the inbound course as a line with its arrow at the fix.
func (b *Briefing) drawFix(p *plot.Plot, box *box) error {
	from := b.onMap(hold.Point{Along: abeam.NM(-float64(b.exact.Extent.Outbound))})
	course, err := plotter.NewLine(plotter.XYs{from, {}})
	if err != nil {
		return err
	}
	course.Color, course.Width, course.Dashes = black, vg.Points(0.7), []vg.Length{vg.Points(10), vg.Points(3), vg.Points(2), vg.Points(3)}
	head := box.size() * 0.03
	arrow, err := plotter.NewLine(plotter.XYs{
		b.onMap(hold.Point{Along: abeam.NM(-2 * head), Abreast: abeam.NM(0.7 * head)}), {},
		b.onMap(hold.Point{Along: abeam.NM(-2 * head), Abreast: abeam.NM(-0.7 * head)}),
	})
	if err != nil {
		return err
	}
	arrow.Color, arrow.Width = black, vg.Points(1)
	fix, err := plotter.NewScatter(plotter.XYs{{}})
	if err != nil {
		return err
	}
	fix.GlyphStyle = draw.GlyphStyle{Color: black, Radius: vg.Points(4), Shape: draw.TriangleGlyph{}}
	label, err := plotter.NewLabels(plotter.XYLabels{XYs: plotter.XYs{{}}, Labels: []string{b.Hold.Fix}})
	if err != nil {
		return err
	}
	label.Offset = vg.Point{X: vg.Points(7), Y: vg.Points(4)}
	p.Add(course, arrow, fix, label)
	p.Legend.Add("inbound course", course)
	return nil
}

// drawWind puts an arrow of where the wind goes into the band above the map.
func (b *Briefing) drawWind(p *plot.Plot, box *box) error {
	if b.Wind.Speed == 0 {
		return nil
	}
	s, c := math.Sincos((b.Wind.From + 180) * math.Pi / 180)
	half := box.band() * 0.35
	at := plotter.XY{X: box.minX + half, Y: box.maxY + box.margin() + box.band()/2}
	tip := plotter.XY{X: at.X + half*s, Y: at.Y + half*c}
	tail := plotter.XY{X: at.X - half*s, Y: at.Y - half*c}
	barb := func(side float64) plotter.XY {
		return plotter.XY{X: tip.X - half*0.6*s + side*half*0.3*c, Y: tip.Y - half*0.6*c - side*half*0.3*s}
	}
	arrow, err := plotter.NewLine(plotter.XYs{tail, tip, barb(1), tip, barb(-1)})
	if err != nil {
		return err
	}
	arrow.Color, arrow.Width = black, vg.Points(1.4)
	label, err := plotter.NewLabels(plotter.XYLabels{XYs: plotter.XYs{{X: at.X + 1.3*half, Y: at.Y}}, Labels: []string{fmt.Sprintf("wind %s at %.0f kt", deg(b.Wind.From), b.Wind.Speed)}})
	if err != nil {
		return err
	}
	p.Add(arrow, label)
	return nil
}

// box is what the map must show.
type box struct {
	minX, maxX, minY, maxY float64
}

func newBox() *box { return &box{} } // the fix is always shown

func (b *box) include(p plotter.XY) {
	b.minX, b.maxX = math.Min(b.minX, p.X), math.Max(b.maxX, p.X)
	b.minY, b.maxY = math.Min(b.minY, p.Y), math.Max(b.maxY, p.Y)
}

func (b *box) size() float64 { return math.Max(b.maxX-b.minX, b.maxY-b.minY) }

func (b *box) margin() float64 { return b.size() * 0.06 }

// band is the room above the map for the legend and the wind.
func (b *box) band() float64 { return b.size() * 0.2 }

// fit sets the axes and gives an image on which a mile east is as long as a mile north:
// the frame takes about 55 by 75 points beyond the map itself.
func (b *box) fit(p *plot.Plot) (width, height vg.Length) {
	p.X.Min, p.X.Max = b.minX-b.margin(), b.maxX+b.margin()
	p.Y.Min, p.Y.Max = b.minY-b.margin(), b.maxY+b.margin()+b.band()
	// The legend and the wind need a map at least as wide as this.
	if narrow := 0.8*b.size() - (p.X.Max - p.X.Min); narrow > 0 {
		p.X.Min, p.X.Max = p.X.Min-narrow/2, p.X.Max+narrow/2
	}
	p.X.Tick.Marker, p.Y.Tick.Marker = miles{}, miles{}
	spanX, spanY := p.X.Max-p.X.Min, p.Y.Max-p.Y.Min
	const longest = 560
	scale := longest / math.Max(spanX, spanY)
	return vg.Points(spanX*scale + 55), vg.Points(spanY*scale + 75)
}

// miles marks round distances: about five of them.
type miles struct{}

func (miles) Ticks(lo, hi float64) []plot.Tick {
	step := math.Pow(10, math.Floor(math.Log10((hi-lo)/5)))
	for _, k := range []float64{5, 2} {
		if (hi-lo)/(step*k) >= 4 {
			step *= k
			break
		}
	}
	var ticks []plot.Tick
	for i := math.Ceil(lo / step); i*step <= hi; i++ {
		ticks = append(ticks, plot.Tick{Value: i * step, Label: strconv.FormatFloat(math.Round(i*step*100)/100+0, 'g', -1, 64)})
	}
	return ticks
}
