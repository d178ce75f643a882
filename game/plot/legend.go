package plot

import "wheelroom/game/figure"

// legend lists curves, marks and bands by their words above the panels, in rows as
// wide as the sheet, and returns the height it took.
func (d *drawing) legend(x0, x1 float64) float64 {
	em := d.ink.em
	y := 0.4 * em
	type entry struct {
		text string
		pen  *Pen
		mark *Mark
		band *Band
	}
	var all []entry
	known := map[string]bool{"": true}
	for i := range d.sheet.Panels {
		p := &d.sheet.Panels[i]
		for j := range p.Curves {
			if c := &p.Curves[j]; !known[c.Name] {
				known[c.Name] = true
				all = append(all, entry{text: c.Name, pen: &c.Pen})
			}
		}
	}
	for i := range d.sheet.Panels {
		p := &d.sheet.Panels[i]
		for j := range p.Marks {
			if m := &p.Marks[j]; !known[m.Name] {
				known[m.Name] = true
				all = append(all, entry{text: m.Name, mark: m})
			}
		}
	}
	for i := range d.sheet.Panels {
		p := &d.sheet.Panels[i]
		for j := range p.Bands {
			if b := &p.Bands[j]; !known[b.Name] {
				known[b.Name] = true
				all = append(all, entry{text: b.Name, band: b})
			}
		}
	}
	if len(all) == 0 {
		return y
	}
	x := x0
	y += 1.2 * em
	for _, e := range all {
		sample := 2.6 * em
		if e.mark != nil {
			sample = 1.2 * em
		}
		wide := sample + 0.5*em + figure.Measure(e.text, em, false)
		if x > x0 && x+wide > x1 {
			x, y = x0, y+1.5*em
		}
		mid := y - figure.CapHeight*em/2
		switch {
		case e.band != nil:
			box := figure.Style{Fill: solid(figure.Panel), Stroke: solid(figure.Muted), Width: d.ink.hair}
			d.f.Box(box, x+0.1*em, mid-0.45*em, x+sample-0.1*em, mid+0.45*em, 0)
			d.f.Box(figure.Style{Fill: e.band.tint()}, x+0.1*em, mid-0.45*em, x+sample-0.1*em, mid+0.45*em, 0)
		case e.mark != nil:
			d.sample(e.mark, x+sample/2, mid)
		case e.pen.Alone:
			d.sign(e.pen.Sign, e.pen.Role, x+sample/2, mid, d.ink.dot)
		default:
			d.f.Line(d.style(*e.pen), x+0.1*em, mid, x+sample-0.1*em, mid)
			if e.pen.Dots {
				d.sign(e.pen.Sign, e.pen.Role, x+sample/2, mid, d.ink.dot)
			}
		}
		d.f.Text(solid(figure.Ink), figure.Face{Size: em}, x+sample+0.5*em, y, e.text)
		x += wide + 1.6*em
	}
	return y + 0.5*em
}

// sample draws a mark with its middle at a point.
func (d *drawing) sample(m *Mark, x, y float64) {
	if m.Sign == Triangle {
		y += 1.15 * d.ink.dot
	}
	d.sign(m.Sign, m.Role, x, y, d.ink.dot)
}
