package plot

import (
	"math"

	"wheelroom/game/figure"
)

// A lettering sets the texts of one panel so that none touches another, and,
// where there is a place for it, none hides a curve.
type lettering struct {
	d     *drawing
	panel *Panel
	frame *Frame
	taken []figure.Rect
}

// words sets the texts of guides and marks, each on a patch of the
// sheet so that no line runs through it.
func (d *drawing) words(p *Panel, fr *Frame) {
	l := lettering{d: d, panel: p, frame: fr}
	em := d.ink.em
	for _, m := range p.Marks {
		if m.inside(fr) && m.Sign != Bare {
			at, r := fr.At(m.X, m.Y), 2.3*d.ink.dot
			l.taken = append(l.taken, figure.Rect{X0: at.X - r, Y0: at.Y - r, X1: at.X + r, Y1: at.Y + 0.6*r})
		}
	}
	for _, m := range p.Marks {
		if m.inside(fr) {
			l.mark(&m)
		}
	}
	for _, g := range p.Guides {
		w := figure.Measure(g.Text, em, false)
		if g.Vertical {
			at := fr.At(g.At, 0).X
			right, left := at+0.6*em, at-w-0.6*em
			l.set(g.Text, figure.Ink, pt(right, fr.Y0+1.25*em), pt(left, fr.Y0+1.25*em), pt(right, fr.Y1-0.6*em), pt(left, fr.Y1-0.6*em), pt(right, fr.Y0+2.7*em))
			continue
		}
		above, below := fr.At(0, g.At).Y-0.55*em, fr.At(0, g.At).Y+1.15*em
		l.set(g.Text, figure.Ink, pt(fr.X1, above), pt(fr.X1, below), pt(fr.X0, above), pt(fr.X0, below), pt((fr.X0+fr.X1-w)/2, above), pt((fr.X0+fr.X1-w)/2, below))
	}
}

func pt(x, y float64) figure.Point { return figure.Point{X: x, Y: y} }

// inside tells whether the mark lies in the frame.
func (m *Mark) inside(fr *Frame) bool {
	return m.X >= fr.Left && m.X <= fr.Right && m.Y >= fr.Lower && m.Y <= fr.Upper
}

// mark sets a mark's own text beside it.
func (l *lettering) mark(m *Mark) {
	em := l.d.ink.em
	at, w, gap := l.frame.At(m.X, m.Y), figure.Measure(m.Text, em, false), 2.3*l.d.ink.dot+0.35*em
	below, above := pt(at.X-w/2, at.Y+gap+0.75*em), pt(at.X-w/2, at.Y-gap-0.1*em)
	right, left := pt(at.X+gap, middle(at.Y, em)), pt(at.X-gap-w, middle(at.Y, em))
	first, last := below, above
	if m.Over {
		first, last = above, below
	}
	l.set(m.Text, m.Role, first, right, left, last,
		pt(at.X+gap, at.Y+1.5*em), pt(at.X-gap-w, at.Y+1.5*em), pt(at.X+gap, at.Y-1.1*em), pt(at.X-gap-w, at.Y-1.1*em))
}

// set writes a text at the first of the places, moved into the frame, where it
// touches nothing; or else where it hides no more than a piece of a curve; or
// else not at all.
func (l *lettering) set(text string, role figure.Role, places ...figure.Point) {
	if text == "" {
		return
	}
	em, fr := l.d.ink.em, l.frame
	w := figure.Measure(text, em, false)
	for _, hiding := range []bool{false, true} {
		for _, at := range places {
			x := math.Max(fr.X0+0.45*em, math.Min(at.X, fr.X1-0.45*em-w))
			r := figure.Rect{X0: x - 0.25*em, Y0: at.Y - 0.85*em, X1: x + w + 0.25*em, Y1: at.Y + 0.35*em}
			if r.Y0 < fr.Y0+1 || r.Y1 > fr.Y1-1 || !l.free(r) || !hiding && l.hides(r) {
				continue
			}
			l.taken = append(l.taken, r)
			l.d.f.Box(figure.Style{Fill: solid(figure.Panel)}, r.X0, r.Y0, r.X1, r.Y1, 2)
			l.d.f.Text(solid(role), figure.Face{Size: em}, x, at.Y, text)
			return
		}
	}
}

// free tells that no text or mark is there yet.
func (l *lettering) free(r figure.Rect) bool {
	for _, o := range l.taken {
		if r.Overlaps(o) {
			return false
		}
	}
	return true
}

// hides tells whether a curve or a guide runs through a place.
func (l *lettering) hides(r figure.Rect) bool {
	fr := l.frame
	through := func(a, b figure.Point) bool {
		from, to := 0.0, 1.0
		return clip(a.X, b.X, r.X0, r.X1, &from, &to) && clip(a.Y, b.Y, r.Y0, r.Y1, &from, &to)
	}
	for _, c := range l.panel.Curves {
		for i := 1; i < len(c.X); i++ {
			a, b := fr.At(c.X[i-1], c.Y[i-1]), fr.At(c.X[i], c.Y[i])
			if !math.IsNaN(a.X+a.Y+b.X+b.Y) && through(a, b) {
				return true
			}
		}
	}
	for _, g := range l.panel.Guides {
		if at := fr.At(g.At, g.At); g.Vertical && at.X > r.X0 && at.X < r.X1 || !g.Vertical && at.Y > r.Y0 && at.Y < r.Y1 {
			return true
		}
	}
	return false
}
