// Package sample draws one figure with every kind of mark in every style, for
// the tests of the outputs: they must show the same.
package sample

import (
	"math"

	"wheelroom/game/figure"
)

var (
	ink    = figure.Paint{Role: figure.Ink}
	muted  = figure.Paint{Role: figure.Muted}
	steel  = figure.Paint{Role: figure.Steel}
	brass  = figure.Paint{Role: figure.Brass}
	up     = figure.Paint{Role: figure.Up}
	down   = figure.Paint{Role: figure.Down}
	panel  = figure.Paint{Role: figure.Panel}
	ground = figure.Paint{Role: figure.Ground}
)

// Figure returns the sample, 640 by 400.
func Figure() *figure.Figure {
	f := new(figure.Figure)
	f.Reset(640, 400)
	wheel(f)
	wires(f)
	corners(f)
	letters(f)
	return f
}

// wheel shows shaded fills, rings, arcs and a concave ramp.
func wheel(f *figure.Figure) {
	first := len(f.Items)
	f.Circle(figure.Style{Fill: figure.Paint{Role: figure.Brass, Mix: 0.9}, Shade: figure.Paint{Role: figure.Brass, Mix: 0.65}, Stroke: ink, Width: 2.5}, 130, 130, 100)
	f.Circle(figure.Style{Stroke: steel, Width: 1.5, Dash: figure.Dotted}, 130, 130, 86)
	f.Arc(figure.Style{Stroke: ink, Width: 8, Round: true}, 130, 130, 60, -2.6, -2.1)
	f.Arc(figure.Style{Stroke: brass, Width: 5, Round: true}, 130, 130, 60, -2.6, -2.1)
	f.Arc(figure.Style{Stroke: down, Width: 4, Dash: figure.Dashed}, 130, 130, 60, 0.4, 2.8)
	f.Arc(figure.Style{Fill: panel, Stroke: muted, Width: 1}, 130, 130, 40, 3.4, 1)
	f.Polygon(figure.Style{Fill: brass, Shade: figure.Paint{Role: figure.Brass, Mix: -0.5}, Stroke: ink, Width: 1.5},
		figure.Point{X: 200, Y: 40}, figure.Point{X: 220, Y: 44}, figure.Point{X: 240, Y: 90}, figure.Point{X: 222, Y: 92}, figure.Point{X: 210, Y: 70}, figure.Point{X: 196, Y: 60})
	f.Circle(figure.Style{Fill: steel, Stroke: ink, Width: 2}, 130, 130, 16)
	f.Circle(figure.Style{Fill: ink}, 130, 130, 4)
	f.Mark(first, "wheel")
}

// wires shows straight lines of several widths, dashes, joints and a hop.
func wires(f *figure.Figure) {
	for i, w := range []float64{0.5, 1, 1.5, 2, 3, 4} {
		y := 30 + 16*float64(i)
		f.Line(figure.Style{Stroke: ink, Width: w}, 270, y, 340, y)
		f.Line(figure.Style{Stroke: ink, Width: w}, 350, y, 380, y+10)
		f.Line(figure.Style{Stroke: down, Width: w, Dash: figure.Dashed}, 390, y, 460, y)
		f.Line(figure.Style{Stroke: steel, Width: w, Dash: figure.Dotted}, 470, y+3, 530, y)
	}
	f.Polyline(figure.Style{Stroke: up, Width: 4}, figure.Point{X: 560, Y: 20}, figure.Point{X: 560, Y: 130}, figure.Point{X: 600, Y: 130}).Part = "up line"
	f.Arc(figure.Style{Stroke: up, Width: 4}, 608, 130, 8, math.Pi, 2*math.Pi)
	f.Line(figure.Style{Stroke: up, Width: 4}, 616, 130, 636, 130)
	f.Line(figure.Style{Stroke: steel, Width: 1.5}, 608, 20, 608, 160)
	f.Circle(figure.Style{Fill: up}, 560, 60, 5)
	f.Circle(figure.Style{Fill: panel, Stroke: ink, Width: 1.5}, 560, 100, 4)
}

// corners shows mitred, bevelled and round joins, caps and boxes.
func corners(f *figure.Figure) {
	for i, round := range []bool{false, true} {
		y := 190 + 60*float64(i)
		s := figure.Style{Stroke: ink, Width: 7, Round: round}
		f.Polyline(s, figure.Point{X: 260, Y: y}, figure.Point{X: 280, Y: y - 35}, figure.Point{X: 300, Y: y}, figure.Point{X: 310, Y: y - 40}, figure.Point{X: 315, Y: y})
		f.Polygon(s, figure.Point{X: 340, Y: y}, figure.Point{X: 360, Y: y - 35}, figure.Point{X: 390, Y: y})
		f.Polyline(s, figure.Point{X: 410, Y: y}, figure.Point{X: 470, Y: y}, figure.Point{X: 420, Y: y - 5})
		f.Line(s, 490, y-30, 520, y)
	}
	f.Box(figure.Style{Fill: panel, Stroke: muted, Width: 1}, 540.3, 170.3, 620, 200, 6)
	f.Box(figure.Style{Fill: up, Stroke: ink, Width: 1.5}, 540, 210, 580, 232, 2)
	f.Box(figure.Style{Stroke: ink, Width: 6}, 590, 212, 620, 242, 0)
	f.Box(figure.Style{Stroke: down, Width: 2, Dash: figure.Dashed}, 540, 250, 620, 280, 12)
	f.Box(figure.Style{Fill: figure.Paint{Role: figure.Fault, Alpha: 0.3}}, 30, 210, 130, 250, 20)
	curve := f.Polyline(figure.Style{Stroke: ink, Width: 2})
	curve.Part = "curve"
	for x := 0.0; x <= 200; x += 4 {
		f.To(20+x, 280-20*math.Sin(x/16))
	}
	f.Polygon(figure.Style{Fill: up}, figure.Point{X: 236, Y: 290}, figure.Point{X: 250, Y: 290}, figure.Point{X: 243, Y: 276})
}

// letters shows faces, sizes and alignments.
func letters(f *figure.Figure) {
	guide := figure.Style{Stroke: steel, Width: 1}
	f.Line(guide, 320, 300, 320, 390)
	f.Text(ink, figure.Face{Size: 14}, 320, 316, "start 0123456789")
	f.Text(ink, figure.Face{Size: 14, Bold: true}, 320, 334, "bold 1111.11 m/s")
	f.Text(down, figure.Face{Size: 14, Align: figure.Middle}, 320, 352, "middle: down relay <K>")
	f.Text(muted, figure.Face{Size: 11, Align: figure.End}, 320, 370, "end, eleven, Öl & Äther")
	f.Text(ink, figure.Face{Size: 28, Bold: true}, 20, 340, "Wheel & room")
	f.Text(up, figure.Face{Size: 18}, 20.5, 370.5, "Selector To AV 30°")
	f.Text(ground, figure.Face{Size: 13, Bold: true, Align: figure.Middle}, 560, 225.5, "up")
	f.Text(ink, figure.Face{Size: 9}, 480, 320, "nine point text: landing call G")
	f.Text(ink, figure.Face{Size: 40}, 480, 370, "¼ 16")
}
