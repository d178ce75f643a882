package plot

import (
	"math"

	"wheelroom/game/figure"
	"wheelroom/physics/phrase"
)

// Draw lays the sheet out and returns it with the frames of its panels.
func (s *Sheet) Draw() (*figure.Figure, []Frame) {
	d := drawing{sheet: s, ink: newInks(s.Width), number: s.Number}
	if d.number == nil {
		d.number = plain
	}
	d.f.Reset(s.Width, 0)
	d.lay()
	return &d.f, d.frames
}

// A drawing is a sheet being drawn.
type drawing struct {
	sheet   *Sheet
	ink     inks
	number  func(phrase.Number) string
	f       figure.Figure
	thinner figure.Thinner
	x       scale
	ys      []scale
	frames  []Frame
}

func (d *drawing) write(v float64, decimals int) string { return d.number(phrase.Num(v, decimals)) }

// lay settles scales and places, then draws from the back to the front.
func (d *drawing) lay() {
	s, em := d.sheet, d.ink.em
	pad := 0.6 * em
	usual := math.Max(9.5*em, math.Min(0.26*s.Width, 17*em))

	d.ys = nil
	left := 0.0
	for i := range s.Panels {
		p := &s.Panels[i]
		h := p.Height
		if h == 0 {
			h = usual
		}
		y := d.scaleOf(p, h)
		d.ys = append(d.ys, y)
		for _, v := range y.ticks() {
			left = math.Max(left, figure.Measure(d.write(v, y.decimals), em, false))
		}
	}
	x0, x1 := pad+left+0.7*em, s.Width-pad-0.6*em
	d.x = d.across((x1 - x0) / em)

	y := d.legend(pad, x1)
	for i := range s.Panels {
		p := &s.Panels[i]
		h := p.Height
		if h == 0 {
			h = usual
		}
		// The label of the panel's axis stands above it, level text.
		y += 0.5 * em
		for _, label := range figure.Wrap(p.Y.Label, em, s.Width-2*pad, true) {
			y += 1.3 * em
			d.f.Text(solid(figure.Ink), figure.Face{Size: em, Bold: true}, pad, y-0.8*em, label)
		}
		d.frames = append(d.frames, Frame{X0: x0, X1: x1, Y0: y, Y1: y + h,
			Left: d.x.lo, Right: d.x.hi, Upper: d.ys[i].hi, Lower: d.ys[i].lo})
		d.panel(i)
		y += h + 0.55*em
	}
	y += 0.75 * em
	last := &d.frames[len(d.frames)-1]
	right := math.Inf(-1)
	for _, v := range d.x.ticks() {
		at := last.At(v, 0).X
		text := d.write(v, d.x.decimals)
		half := figure.Measure(text, em, false) / 2
		if at-half < right+0.5*em || at+half > s.Width-0.2*em {
			continue
		}
		right = at + half
		d.f.Text(solid(figure.Ink), figure.Face{Size: em, Align: figure.Middle}, at, y, text)
	}
	y += 0.2 * em
	for _, label := range figure.Wrap(s.X.Label, em, x1-pad, true) {
		y += 1.3 * em
		d.f.Text(solid(figure.Ink), figure.Face{Size: em, Bold: true, Align: figure.End}, x1, y, label)
	}
	d.f.Height = math.Ceil(y + 0.7*em)
}

// across is the scale to the right; room is its length in ems.
func (d *drawing) across(room float64) scale {
	x := &d.sheet.X
	most := max(int(room/3.3), 3)
	if x.Lo != 0 || x.Hi != 0 {
		return within(x.Lo, x.Hi, most)
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := range d.sheet.Panels {
		for _, c := range d.sheet.Panels[i].Curves {
			lo, hi = reach(c.X, lo, hi)
		}
	}
	if x.Zero {
		lo, hi = math.Min(lo, 0), math.Max(hi, 0)
	}
	return newScale(lo, hi, most)
}

// scaleOf is a panel's own scale for a height.
func (d *drawing) scaleOf(p *Panel, height float64) scale {
	most := max(int(height/(1.75*d.ink.em)), 3)
	if p.Y.Lo != 0 || p.Y.Hi != 0 {
		return within(p.Y.Lo, p.Y.Hi, most)
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, c := range p.Curves {
		for i, v := range c.Y {
			if x := &d.sheet.X; (x.Lo != 0 || x.Hi != 0) && (c.X[i] < x.Lo || c.X[i] > x.Hi) {
				continue
			}
			if !math.IsNaN(v) {
				lo, hi = math.Min(lo, v), math.Max(hi, v)
			}
		}
	}
	for _, g := range p.Guides {
		if !g.Vertical {
			lo, hi = math.Min(lo, g.At), math.Max(hi, g.At)
		}
	}
	if p.Y.Zero {
		lo, hi = math.Min(lo, 0), math.Max(hi, 0)
	}
	// A little air, so that no curve runs along an edge.
	air := 0.04 * (hi - lo)
	if lo != 0 {
		lo -= air
	}
	if hi != 0 {
		hi += air
	}
	return newScale(lo, hi, most)
}

func reach(x []float64, lo, hi float64) (float64, float64) {
	for _, v := range x {
		if !math.IsNaN(v) {
			lo, hi = math.Min(lo, v), math.Max(hi, v)
		}
	}
	return lo, hi
}
