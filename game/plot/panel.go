package plot

import (
	"math"

	"wheelroom/game/figure"
)

// panel draws one plot into its frame: sheet, grid, bands, curves, marks, and
// last the words, each on a patch of the sheet so that no line runs through.
func (d *drawing) panel(i int) {
	p, fr, y, k := &d.sheet.Panels[i], &d.frames[i], &d.ys[i], &d.ink
	em := k.em
	first := len(d.f.Items)
	d.f.Box(figure.Style{Fill: solid(figure.Panel)}, fr.X0, fr.Y0, fr.X1, fr.Y1, 0)
	for _, b := range p.Bands {
		top, low := fr.At(0, math.Min(b.To, y.hi)).Y, fr.At(0, math.Max(b.From, y.lo)).Y
		d.f.Box(figure.Style{Fill: b.tint()}, fr.X0, top, fr.X1, low, 0)
	}
	grid := figure.Style{Stroke: mixed(figure.Muted, 0.72), Width: k.hair}
	for _, v := range d.x.ticks() {
		if at := fr.At(v, 0).X; at > fr.X0+0.5 && at < fr.X1-0.5 {
			d.f.Line(grid, at, fr.Y0, at, fr.Y1)
		}
	}
	for _, v := range y.ticks() {
		at := fr.At(0, v).Y
		if at > fr.Y0+0.5 && at < fr.Y1-0.5 {
			d.f.Line(grid, fr.X0, at, fr.X1, at)
		}
		d.f.Line(figure.Style{Stroke: solid(figure.Muted), Width: k.hair}, fr.X0-0.3*em, at, fr.X0, at)
		d.f.Text(solid(figure.Ink), figure.Face{Size: em, Align: figure.End}, fr.X0-0.55*em, middle(at, em), d.write(v, y.decimals))
	}
	for _, v := range d.x.ticks() {
		at := fr.At(v, 0).X
		d.f.Line(figure.Style{Stroke: solid(figure.Muted), Width: k.hair}, at, fr.Y1, at, fr.Y1+0.3*em)
	}
	if y.lo < 0 && y.hi > 0 {
		at := fr.At(0, 0).Y
		d.f.Line(figure.Style{Stroke: solid(figure.Muted), Width: 1.4 * k.hair}, fr.X0, at, fr.X1, at)
	}
	for _, g := range p.Guides {
		st := figure.Style{Stroke: solid(g.Role), Width: 1.5 * k.hair, Dash: g.Dash}
		if g.Vertical {
			at := fr.At(g.At, 0).X
			d.f.Line(st, at, fr.Y0, at, fr.Y1)
		} else {
			at := fr.At(0, g.At).Y
			d.f.Line(st, fr.X0, at, fr.X1, at)
		}
	}
	// Thick lines under thin ones, so that both are seen where they run together.
	for _, heavy := range []bool{true, false} {
		for j := range p.Curves {
			if p.Curves[j].Pen.Heavy == heavy {
				d.curve(fr, &p.Curves[j])
			}
		}
	}
	d.f.Box(figure.Style{Stroke: solid(figure.Muted), Width: k.hair}, fr.X0, fr.Y0, fr.X1, fr.Y1, 0)
	for _, m := range p.Marks {
		if m.inside(fr) {
			at := fr.At(m.X, m.Y)
			d.sign(m.Sign, m.Role, at.X, at.Y, k.dot)
		}
	}
	d.words(p, fr)
	d.f.Mark(first, p.Part)
}

// style is a pen's line.
func (d *drawing) style(p Pen) figure.Style {
	w := d.ink.thin
	if p.Heavy {
		w = d.ink.thick
	}
	return figure.Style{Stroke: solid(p.Role), Width: w, Dash: p.Dash, Round: true}
}

// curve draws a line as far as it lies in the frame, then its marks.
func (d *drawing) curve(fr *Frame, c *Curve) {
	var run []figure.Point
	flush := func() {
		if len(run) > 1 {
			d.f.Polyline(d.style(c.Pen), d.thinner.Thin(run, 0.12)...)
		}
		run = run[:0]
	}
	for i := 1; i < len(c.X) && !c.Pen.Alone; i++ {
		x0, y0, x1, y1 := c.X[i-1], c.Y[i-1], c.X[i], c.Y[i]
		from, to := 0.0, 1.0
		if math.IsNaN(x0+y0+x1+y1) || !clip(x0, x1, fr.Left, fr.Right, &from, &to) || !clip(y0, y1, fr.Lower, fr.Upper, &from, &to) {
			flush()
			continue
		}
		if len(run) == 0 || from > 0 {
			flush()
			run = append(run, fr.At(x0+from*(x1-x0), y0+from*(y1-y0)))
		}
		run = append(run, fr.At(x0+to*(x1-x0), y0+to*(y1-y0)))
		if to < 1 {
			flush()
		}
	}
	flush()
	for _, i := range c.Heads {
		d.head(fr, c, i)
	}
	for i := range c.X {
		if x, y := c.X[i], c.Y[i]; c.Pen.Dots && x >= fr.Left && x <= fr.Right && y >= fr.Lower && y <= fr.Upper {
			at := fr.At(x, y)
			d.sign(c.Pen.Sign, c.Pen.Role, at.X, at.Y, d.ink.dot)
		}
	}
}

// clip narrows the share of a stretch from a to b that lies between two bounds,
// and tells whether any is left.
func clip(a, b, lo, hi float64, from, to *float64) bool {
	if a == b {
		return lo <= a && a <= hi
	}
	p, q := (lo-a)/(b-a), (hi-a)/(b-a)
	*from, *to = math.Max(*from, math.Min(p, q)), math.Min(*to, math.Max(p, q))
	return *from <= *to
}

// head draws an arrowhead along the curve at point i.
func (d *drawing) head(fr *Frame, c *Curve, i int) {
	a, b := fr.At(c.X[max(i-2, 0)], c.Y[max(i-2, 0)]), fr.At(c.X[min(i+2, len(c.X)-1)], c.Y[min(i+2, len(c.Y)-1)])
	l := math.Hypot(b.X-a.X, b.Y-a.Y)
	if !(l > 0) {
		return
	}
	ux, uy := (b.X-a.X)/l, (b.Y-a.Y)/l
	tip, r := fr.At(c.X[i], c.Y[i]), 1.3*d.ink.dot+0.8*d.style(c.Pen).Width
	at := func(along, aside float64) figure.Point {
		return figure.Point{X: tip.X + along*ux - aside*uy, Y: tip.Y + along*uy + aside*ux}
	}
	d.f.Polygon(figure.Style{Fill: solid(c.Pen.Role)}, at(r, 0), at(-r, -0.8*r), at(-r, 0.8*r))
}

// sign draws a mark.
func (d *drawing) sign(s Sign, role figure.Role, x, y, r float64) {
	st := figure.Style{Fill: solid(role), Stroke: solid(figure.Panel), Width: d.ink.hair}
	off := func(dx, dy float64) figure.Point { return pt(x+dx, y+dy) }
	switch s {
	case Disc:
		d.f.Circle(st, x, y, r)
	case Square:
		d.f.Box(st, x-0.9*r, y-0.9*r, x+0.9*r, y+0.9*r, 0)
	case Triangle:
		// It stands on the point, so that a mark close by stays in sight.
		d.f.Polygon(st, off(0, 0), off(-1.3*r, -2.3*r), off(1.3*r, -2.3*r))
	case Diamond:
		d.f.Polygon(st, off(0, -1.4*r), off(1.4*r, 0), off(0, 1.4*r), off(-1.4*r, 0))
	}
}
