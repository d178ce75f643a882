package bench

import (
	"math"
	"strconv"

	"wheelroom/game/figure"
	"wheelroom/physics/bench"
)

// A Look is how a ring is to be shown.
type Look struct {
	Width  float64
	Words  Words
	CarM   float64 // where the brush stands
	Chosen int     // terminal that a key moves, from 0; -1 for none
}

// Radii of the ring as shares of the drawing's width.
const (
	lampR   = 0.447
	studR   = 0.345
	studW   = 0.046
	joinR   = 0.376
	numberR = 0.283
	shoeR   = 0.313
	shoeW   = 0.018
	hubR    = 0.062
)

// Ring draws the ring as it stands behind the wheel: terminals with their
// numbers, joined ones with their bar and their lamp, and the brush.
func Ring(r *bench.Report, look Look) *figure.Figure {
	f := &figure.Figure{}
	f.Reset(look.Width, look.Width)
	d := ringDrawing{r: r, look: look, f: f, k: newInks(0.8 * look.Width), c: look.Width / 2, s: look.Width}
	span := r.Plan.Selector.SpanDeg * math.Pi / 180
	d.lowest = -math.Pi/2 - span/2
	d.perM = span / r.Plan.TravelM()
	d.draw()
	return f
}

type ringDrawing struct {
	r      *bench.Report
	look   Look
	f      *figure.Figure
	k      inks
	c, s   float64
	lowest float64 // screen angle of the lowest landing
	perM   float64 // radians
}

func (d *ringDrawing) angle(yM float64) float64 { return d.lowest + yM*d.perM }

func (d *ringDrawing) draw() {
	f, k, c := d.f, &d.k, d.c
	plate := figure.Style{Fill: solid(figure.Panel), Shade: mixed(figure.Brass, 0.9), Stroke: solid(figure.Ink), Width: k.thin}
	f.Circle(plate, c, c, 0.398*d.s)
	pitch := d.r.Ring.PitchM() * d.perM
	half := d.r.Plan.Selector.TerminalWidth / 2 * pitch

	d.lamps()
	d.joins()
	edge := math.Min(k.thin, 0.12*pitch*studR*d.s)
	brush := d.angle(d.look.CarM)
	reach := d.r.Plan.Selector.BrushWidth / 2 * pitch
	em := math.Min(k.small, math.Max(9, 0.75*pitch*numberR*d.s))
	wide := figure.Measure("88", em, false) + 0.3*em
	step := every(math.Max(wide, 1.15*em), pitch*numberR*d.s)
	for i, t := range d.r.Terminals {
		a := d.lowest + t.AngleDeg*math.Pi/180
		first := len(f.Items)
		touched := math.Abs(t.HeightM-d.look.CarM)*d.perM < half+reach
		d.stud(a, half, edge, t.Floor != "", touched)
		if i == d.look.Chosen {
			grow := half + 2.5*edge/(studR*d.s)
			w := studW*d.s + 5*edge
			for _, side := range [...]float64{-1, 1} {
				f.Arc(line(solid(figure.Ink), k.thick), c, c, studR*d.s+side*w/2, a-grow, a+grow)
				p, q := polar(c, c, studR*d.s-w/2, a+side*grow), polar(c, c, studR*d.s+w/2, a+side*grow)
				f.Line(line(solid(figure.Ink), k.thick), p.X, p.Y, q.X, q.Y)
			}
		}
		if i%step == 0 && math.Abs(math.Remainder(a-brush, 2*math.Pi))*numberR*d.s > 0.9*em+0.02*d.s {
			p := polar(c, c, numberR*d.s, a)
			f.Text(solid(figure.Muted), figure.Face{Size: em, Align: figure.Middle}, p.X, middle(p.Y, em), strconv.Itoa(i))
		}
		f.Mark(first, terminalPart(i))
	}
	d.brush(brush, reach)
}

// stud is one terminal; a lit one is under the brush and feeds a lamp.
func (d *ringDrawing) stud(a, half, edge float64, live, touched bool) {
	f, c, r, w := d.f, d.c, studR*d.s, studW*d.s
	inner := edge / r
	outline, fill := solid(figure.Ink), mixed(figure.Brass, 0.3)
	switch {
	case !live:
		outline, fill = solid(figure.Muted), solid(figure.Panel)
	case touched:
		fill = solid(figure.Lamp)
	}
	f.Arc(line(outline, w), c, c, r, a-half, a+half)
	f.Arc(line(fill, w-2*edge), c, c, r, a-half+inner, a+half-inner)
}

// joins are the bars that join the terminals of a floor, bent round over any
// that lie between.
func (d *ringDrawing) joins() {
	f, k, c := d.f, &d.k, d.c
	for fl, floor := range d.r.Plan.Floors {
		var at []float64
		for _, t := range d.r.Terminals {
			if t.Floor == floor.Name {
				at = append(at, d.lowest+t.AngleDeg*math.Pi/180)
			}
		}
		if len(at) == 0 {
			continue
		}
		first := len(f.Items)
		r := joinR * d.s
		mid := (at[0] + at[len(at)-1]) / 2
		to := d.lampAt(fl)
		p := polar(c, c, r, mid)
		st := line(solid(figure.Ink), k.thin)
		f.Line(st, p.X, p.Y, to.X, to.Y)
		if len(at) > 1 {
			f.Arc(line(solid(figure.Ink), k.thin), c, c, r, at[0], at[len(at)-1])
		}
		for _, a := range at {
			p, q := polar(c, c, studR*d.s, a), polar(c, c, r, a)
			f.Line(st, p.X, p.Y, q.X, q.Y)
			if len(at) > 1 {
				f.Circle(figure.Style{Fill: solid(figure.Ink)}, q.X, q.Y, 1.3*k.thin)
			}
		}
		f.Mark(first, lampPart(floor.Name))
	}
	d.lampFaces()
}

func (d *ringDrawing) lampAt(fl int) figure.Point {
	return polar(d.c, d.c, lampR*d.s, d.angle(d.r.Plan.Floors[fl].HeightM))
}

// lamps is a place for what lies under the joins.
func (d *ringDrawing) lamps() {
	// The landings, as ticks on the edge of the plate.
	for _, floor := range d.r.Plan.Floors {
		a := d.angle(floor.HeightM)
		p, q := polar(d.c, d.c, 0.392*d.s, a), polar(d.c, d.c, 0.404*d.s, a)
		d.f.Line(line(solid(figure.Muted), d.k.thin), p.X, p.Y, q.X, q.Y)
	}
}

// lampFaces are the position lamps round the ring: lit squares with the
// floor's name, smaller where floors are many.
func (d *ringDrawing) lampFaces() {
	f, k := d.f, &d.k
	floors := d.r.Plan.Floors
	gap := math.Inf(1)
	for i := 1; i < len(floors); i++ {
		gap = math.Min(gap, (floors[i].HeightM-floors[i-1].HeightM)*d.perM*lampR*d.s)
	}
	em := math.Min(1.05*k.em, math.Max(7, gap/2.0))
	for fl, floor := range floors {
		p := d.lampAt(fl)
		w := math.Max(1.5*em, figure.Measure(floor.Name, em, true)+0.6*em)
		lit := d.r.Ring.Feeds(fl, d.look.CarM)
		first := len(f.Items)
		f.Box(lampStyle(lit, k), p.X-w/2, p.Y-0.75*em, p.X+w/2, p.Y+0.75*em, 0.2*em)
		f.Text(lampText(lit), figure.Face{Size: em, Bold: true, Align: figure.Middle}, p.X, middle(p.Y, em), floor.Name)
		f.Mark(first, lampPart(floor.Name))
	}
}

func lampStyle(lit bool, k *inks) figure.Style {
	if lit {
		return sheet(solid(figure.Lamp), solid(figure.Ink), k.thin*1.3)
	}
	return sheet(solid(figure.Panel), mixed(figure.Muted, 0.3), k.thin)
}

func lampText(lit bool) figure.Paint {
	if lit {
		return solid(figure.LampInk)
	}
	return solid(figure.Muted)
}

// brush is the arm on the shaft and its shoe before the terminals.
func (d *ringDrawing) brush(a, half float64) {
	f, k, c := d.f, &d.k, d.c
	first := len(f.Items)
	tip := polar(c, c, (shoeR-shoeW/2)*d.s, a)
	wide, slim := 0.016*d.s, 0.008*d.s
	nx, ny := -math.Sin(a), math.Cos(a)
	arm := figure.Style{Fill: mixed(figure.Brass, 0.35), Stroke: solid(figure.Ink), Width: k.thin}
	f.Polygon(arm, figure.Point{X: c + nx*wide, Y: c + ny*wide}, figure.Point{X: tip.X + nx*slim, Y: tip.Y + ny*slim},
		figure.Point{X: tip.X - nx*slim, Y: tip.Y - ny*slim}, figure.Point{X: c - nx*wide, Y: c - ny*wide})
	r := shoeR * d.s
	e := math.Min(k.thin, 0.25*half*r)
	f.Arc(line(solid(figure.Ink), shoeW*d.s), c, c, r, a-half, a+half)
	f.Arc(line(mixed(figure.Steel, 0.1), shoeW*d.s-2*e), c, c, r, a-half+e/r, a+half-e/r)
	f.Circle(figure.Style{Fill: mixed(figure.Steel, 0.5), Shade: mixed(figure.Steel, -0.1), Stroke: solid(figure.Ink), Width: k.thin}, c, c, hubR*d.s)
	f.Circle(figure.Style{Fill: solid(figure.Ink)}, c, c, 0.3*hubR*d.s)
	f.Mark(first, "brush")
}
