package main

import (
	"bytes"
	"fmt"
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/timing"
)

// steps are the upper edges of the classes of a heat map: a few that can be told apart and
// named, rather than a gradient that must be guessed at.
var (
	inboundSteps = []float64{2, 5, 10, 20, 30, 60, 120}
	acrossSteps  = []float64{0.05, 0.1, 0.2, 0.5, 1, 2, 5}
)

// shades run from light for a small error to dark for a large one, evenly in lightness, so
// that they can be told apart in grey too.
var shades = []color.Color{
	color.NRGBA{255, 250, 220, 255}, color.NRGBA{254, 227, 160, 255}, color.NRGBA{253, 190, 110, 255}, color.NRGBA{245, 145, 85, 255},
	color.NRGBA{225, 95, 85, 255}, color.NRGBA{180, 50, 105, 255}, color.NRGBA{115, 30, 110, 255}, color.NRGBA{45, 15, 70, 255},
}

var nothing = color.NRGBA{205, 210, 215, 255} // where no leg of that time can be had

type fixedPalette []color.Color

func (p fixedPalette) Colors() []color.Color { return p }

// raster gives the classes of a map to the heat map: columns by wind angle from -180 to 180,
// rows by strength, as the grid has them.
type raster struct {
	m      *timing.Map
	angles []abeam.Degrees // rising
	shares []float64       // rising
	value  func(inbound float64, across abeam.NM) float64
	steps  []float64
}

func newRaster(m *timing.Map, g timing.Grid, steps []float64, value func(float64, abeam.NM) float64) raster {
	r := raster{m: m, angles: slices.Clone(g.Angles), shares: g.Shares, value: value, steps: steps}
	if i := slices.Index(r.angles, 180); i >= 0 { // the same wind at both edges
		r.angles = append(r.angles, -180)
	}
	slices.Sort(r.angles)
	return r
}

func (r raster) Dims() (c, rows int) { return len(r.angles), len(r.shares) }
func (r raster) X(c int) float64     { return float64(r.angles[c]) }
func (r raster) Y(row int) float64   { return r.shares[row] * 100 }

func (r raster) Z(c, row int) float64 {
	inbound, across, n := r.m.At(r.angles[c], r.shares[row])
	if n == 0 {
		return math.NaN()
	}
	return float64(class(r.value(inbound, across), r.steps))
}

// class is the number of the class of a value.
func class(x float64, steps []float64) int {
	k := 0
	for k < len(steps) && x >= steps[k] {
		k++
	}
	return k
}

// heatMaps draws the two maps of a strategy side by side.
func (a *atlas) heatMaps(o *timing.Outcome, format string) ([]byte, error) {
	last := len(o.Laps)
	left := mapPlot(fmt.Sprintf("Inbound time, lap %d", last), newRaster(&o.Map, a.grid, inboundSteps, func(t float64, _ abeam.NM) float64 { return t }))
	right := mapPlot(fmt.Sprintf("Across the course at roll-out, lap %d", last), newRaster(&o.Map, a.grid, acrossSteps, func(_ float64, x abeam.NM) float64 { return float64(x) }))
	return render(format, vg.Points(960), vg.Points(430), func(c draw.Canvas) {
		header(c, o.Strategy, "Mean error over "+a.wide.Grid+". Grey: no leg of that time can be had.")
		body := draw.Crop(c, 0, 0, 0, -vg.Points(48))
		const key = 74
		half := body.Size().X / 2
		left.Draw(draw.Crop(body, vg.Points(6), -half-vg.Points(key), 0, 0))
		legend(draw.Crop(body, half-vg.Points(key-4), -half, vg.Points(40), 0), inboundSteps, "s")
		right.Draw(draw.Crop(body, half+vg.Points(6), -vg.Points(key), 0, 0))
		legend(draw.Crop(body, 2*half-vg.Points(key-4), 0, vg.Points(40), 0), acrossSteps, "NM")
	})
}

func mapPlot(title string, r raster) *plot.Plot {
	p := plot.New()
	p.Title.Text = title
	p.Title.Padding = vg.Points(4)
	p.X.Label.Text = "wind from, relative to the inbound course"
	p.Y.Label.Text = "wind, % of TAS"
	h := plotter.NewHeatMap(r, fixedPalette(shades))
	h.Min, h.Max, h.NaN = 0, float64(len(shades)-1), nothing
	h.Rasterized = false
	p.Add(h)
	p.X.Tick.Marker = plot.ConstantTicks([]plot.Tick{
		{Value: -180, Label: "tail"}, {Value: -135}, {Value: -90, Label: "non-holding side"}, {Value: -45}, {Value: 0, Label: "head"},
		{Value: 45}, {Value: 90, Label: "holding side"}, {Value: 135}, {Value: 180, Label: "tail"},
	})
	return p
}

// legend draws the classes as a column of swatches.
func legend(c draw.Canvas, steps []float64, unit string) {
	style := plot.New().Legend.TextStyle
	size := vg.Points(13)
	c.FillText(style, vg.Point{X: c.Min.X, Y: c.Min.Y + size*vg.Length(len(shades))*1.25 + vg.Points(3)}, "mean, "+unit)
	for i := range shades {
		label := fmt.Sprintf("%g to %g", append([]float64{0}, steps...)[i], append(append([]float64{}, steps...), 0)[i])
		switch i {
		case 0:
			label = fmt.Sprintf("below %g", steps[0])
		case len(shades) - 1:
			label = fmt.Sprintf("%g and up", steps[len(steps)-1])
		}
		at := vg.Point{X: c.Min.X, Y: c.Min.Y + size*vg.Length(i)*1.25}
		c.SetColor(shades[i])
		c.Fill(vg.Rectangle{Min: at, Max: vg.Point{X: at.X + size*0.8, Y: at.Y + size}}.Path())
		c.FillText(style, vg.Point{X: at.X + size*0.8 + vg.Points(3), Y: at.Y + vg.Points(2)}, label)
	}
}

// header puts a title, a line of explanation and the caution above the picture.
func header(c draw.Canvas, title, line string) {
	p := plot.New()
	big := p.Title.TextStyle
	big.Font.Size, big.XAlign, big.YAlign = vg.Points(15), draw.XLeft, draw.YBottom
	c.FillText(big, vg.Point{X: c.Min.X + vg.Points(8), Y: c.Max.Y - vg.Points(20)}, title)
	small := p.Legend.TextStyle
	small.Font.Size = vg.Points(10)
	c.FillText(small, vg.Point{X: c.Min.X + vg.Points(8), Y: c.Max.Y - vg.Points(36)}, line+"  Not for navigation.")
}

// render draws to a format and gives the bytes of the file.
func render(format string, width, height vg.Length, paint func(draw.Canvas)) ([]byte, error) {
	var out bytes.Buffer
	switch format {
	case "svg":
		canvas := vgsvg.New(width, height)
		c := draw.New(canvas)
		background(c)
		paint(c)
		if _, err := canvas.WriteTo(&out); err != nil {
			return nil, err
		}
	case "png":
		canvas := vgimg.NewWith(vgimg.UseWH(width, height), vgimg.UseDPI(110))
		paint(draw.New(canvas))
		if _, err := (vgimg.PngCanvas{Canvas: canvas}).WriteTo(&out); err != nil {
			return nil, err
		}
	default:
		return nil, fmt.Errorf("no format %q", format)
	}
	return out.Bytes(), nil
}

func background(c draw.Canvas) {
	c.SetColor(color.White)
	c.Fill(c.Rectangle.Path())
}
