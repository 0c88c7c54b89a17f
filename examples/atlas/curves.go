package main

import (
	"fmt"
	"image/color"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"github.com/holdingfix/abeam/timing"
)

// Colours that stay apart for every kind of colour vision; line and mark differ too.
var (
	colours = []color.Color{
		color.NRGBA{0, 90, 160, 255}, color.NRGBA{215, 100, 0, 255}, color.NRGBA{0, 130, 100, 255}, color.NRGBA{180, 50, 120, 255},
		color.NRGBA{90, 90, 90, 255}, color.NRGBA{150, 120, 0, 255}, color.NRGBA{80, 170, 220, 255}, color.NRGBA{20, 20, 20, 255},
	}
	dashes = [][]vg.Length{nil, {vg.Points(6), vg.Points(3)}, {vg.Points(2), vg.Points(2)}, {vg.Points(8), vg.Points(2), vg.Points(2), vg.Points(2)}}
	marks  = []draw.GlyphDrawer{draw.CircleGlyph{}, draw.SquareGlyph{}, draw.TriangleGlyph{}, draw.CrossGlyph{}, draw.PlusGlyph{}, draw.RingGlyph{}, draw.BoxGlyph{}, draw.PyramidGlyph{}}
)

// shown are the strategies whose convergence is drawn: one of each kind, so that the lines
// can be told apart.
func shown() []string {
	triple, byTime := timing.ThreeTimes(), timing.ByOutbound()
	var names []string
	for _, t := range []timing.TimingRule{timing.LegTime(), timing.ByHalf(), timing.ByFull(), timing.InProportion(), timing.BySecondsPerKnot(), timing.Lopsided()} {
		names = append(names, timing.Compose("", t, triple).Name)
	}
	return append(names, timing.Compose("", timing.FirstThen(timing.Tenths(), timing.Lopsided()), byTime).Name, timing.Compose("", timing.ByQuotient(), byTime).Name)
}

func outcomeOf(r timing.Results, name string) (*timing.Outcome, bool) {
	for i := range r.Outcomes {
		if r.Outcomes[i].Strategy == name {
			return &r.Outcomes[i], true
		}
	}
	return nil, false
}

// convergence draws the error of the inbound time lap by lap: the median and the error that
// one lap in twenty exceeds, for light aircraft and jets in usual winds.
func (a *atlas) convergence(format string) ([]byte, error) {
	sets := []timing.Results{a.sets[1], a.sets[3]}
	var plots []*plot.Plot
	for _, q := range []struct {
		p    float64
		name string
		top  float64
	}{{0.5, "median", 30}, {0.95, "one lap in twenty is worse", 120}} {
		for _, set := range sets {
			p := plot.New()
			p.Title.Text = q.name + ": " + strings.SplitN(set.Grid, ",", 2)[0]
			p.Title.Padding = vg.Points(4)
			p.X.Label.Text = "lap"
			p.Y.Label.Text = "error of the inbound time, s"
			p.Add(plotter.NewGrid())
			for k, name := range shown() {
				o, ok := outcomeOf(set, name)
				if !ok {
					return nil, fmt.Errorf("no strategy %q", name)
				}
				var points plotter.XYs
				for i, l := range o.Laps {
					points = append(points, plotter.XY{X: float64(i + 1), Y: min(q.top, l.Inbound.AbsQuantile(q.p))})
				}
				line, glyphs, err := plotter.NewLinePoints(points)
				if err != nil {
					return nil, err
				}
				style(line, glyphs, k)
				p.Add(line, glyphs)
			}
			p.X.Min, p.X.Max = 0.8, float64(a.study.Laps)+0.2
			p.Y.Min, p.Y.Max = 0, q.top
			p.X.Tick.Marker = laps(a.study.Laps)
			plots = append(plots, p)
		}
	}
	return render(format, vg.Points(960), vg.Points(760), func(c draw.Canvas) {
		header(c, "How the strategies converge", sets[0].Grid+"; "+sets[1].Grid+". Errors beyond an axis lie on its edge.")
		body := draw.Crop(c, 0, 0, vg.Points(62), -vg.Points(46))
		w, h := body.Size().X/2, body.Size().Y/2
		for i, p := range plots {
			x, y := vg.Length(i%2), vg.Length(1-i/2)
			p.Draw(draw.Crop(body, x*w+vg.Points(6), -(1-x)*w-vg.Points(10), y*h, -(1-y)*h-vg.Points(4)))
		}
		keyBelow(c, shown())
	})
}

func style(line *plotter.Line, glyphs *plotter.Scatter, k int) {
	line.Color, line.Width, line.Dashes = colours[k%len(colours)], vg.Points(1.5), dashes[k%len(dashes)]
	if glyphs != nil {
		glyphs.GlyphStyle = draw.GlyphStyle{Color: colours[k%len(colours)], Radius: vg.Points(2.8), Shape: marks[k%len(marks)]}
	}
}

// keyBelow names the lines in two columns at the foot of the picture.
func keyBelow(c draw.Canvas, names []string) {
	text := plot.New().Legend.TextStyle
	text.Font.Size = vg.Points(10)
	rows := (len(names) + 1) / 2
	for k, name := range names {
		col, row := k/rows, k%rows
		at := vg.Point{X: c.Min.X + vg.Points(20) + vg.Length(col)*c.Size().X/2, Y: c.Min.Y + vg.Points(46) - vg.Length(row)*vg.Points(14)}
		ls := draw.LineStyle{Color: colours[k%len(colours)], Width: vg.Points(1.5), Dashes: dashes[k%len(dashes)]}
		c.StrokeLine2(ls, at.X, at.Y+vg.Points(4), at.X+vg.Points(30), at.Y+vg.Points(4))
		c.DrawGlyph(draw.GlyphStyle{Color: colours[k%len(colours)], Radius: vg.Points(2.8), Shape: marks[k%len(marks)]}, vg.Point{X: at.X + vg.Points(15), Y: at.Y + vg.Points(4)})
		c.FillText(text, vg.Point{X: at.X + vg.Points(36), Y: at.Y}, name)
	}
}

func laps(n int) plot.ConstantTicks {
	var ticks plot.ConstantTicks
	step := max(1, n/10)
	for i := 1; i <= n; i += step {
		ticks = append(ticks, plot.Tick{Value: float64(i), Label: fmt.Sprint(i)})
	}
	return ticks
}

// comparison draws every strategy as three bars from the median to the error that one in
// twenty exceeds: the first, the second and the third lap.
func (a *atlas) comparison(format string) ([]byte, error) {
	sets := []timing.Results{a.sets[1], a.sets[3]}
	n := len(sets[0].Outcomes)
	const longest = 120
	var plots []*plot.Plot
	for i, set := range sets {
		p := plot.New()
		p.Title.Text = set.Grid
		p.Title.Padding = vg.Points(4)
		p.X.Label.Text = "error of the inbound time, s: median to one in twenty"
		p.Add(plotter.NewGrid())
		for lap := range 3 {
			for k, o := range set.Outcomes {
				y := float64(n-k) + 0.25 - 0.25*float64(lap)
				l := o.Laps[lap]
				from, to := min(longest, l.Inbound.AbsQuantile(0.5)), min(longest, l.Inbound.AbsQuantile(0.95))
				line, err := plotter.NewLine(plotter.XYs{{X: from, Y: y}, {X: to, Y: y}})
				if err != nil {
					return nil, err
				}
				line.Color, line.Width = lapColours[lap], vg.Points(3)
				dot, err := plotter.NewScatter(plotter.XYs{{X: from, Y: y}})
				if err != nil {
					return nil, err
				}
				dot.GlyphStyle = draw.GlyphStyle{Color: lapColours[lap], Radius: vg.Points(3), Shape: draw.CircleGlyph{}}
				p.Add(line, dot)
			}
		}
		var ticks plot.ConstantTicks
		for k, o := range set.Outcomes {
			label := o.Strategy
			if i > 0 {
				label = " " // a tick without a label is a minor one, and gets no line
			}
			ticks = append(ticks, plot.Tick{Value: float64(n - k), Label: label})
		}
		p.Y.Tick.Marker = ticks
		p.Y.Tick.Label.Font.Size = vg.Points(10)
		p.X.Min, p.X.Max, p.Y.Min, p.Y.Max = 0, longest, 0.3, float64(n)+0.7
		plots = append(plots, p)
	}
	return render(format, vg.Points(1060), vg.Points(90+float64(n)*26), func(c draw.Canvas) {
		header(c, "All strategies side by side", "Dot: median. End of the bar: one in twenty is worse. Bars that reach the edge go on. Upper bar: lap 1; middle: lap 2; lower: lap 3.")
		body := draw.Crop(c, 0, 0, 0, -vg.Points(46))
		split := body.Size().X * 0.62
		plots[0].Draw(draw.Crop(body, vg.Points(6), split-body.Size().X-vg.Points(6), 0, 0))
		plots[1].Draw(draw.Crop(body, split+vg.Points(6), -vg.Points(14), 0, 0))
	})
}

var lapColours = []color.Color{color.NRGBA{215, 100, 0, 255}, color.NRGBA{0, 90, 160, 255}, color.NRGBA{20, 20, 20, 255}}
