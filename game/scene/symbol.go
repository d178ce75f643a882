package scene

import (
	"wheelroom/game/figure"
	"wheelroom/physics/lift"
)

// contact draws a make or break contact with its leads, as IEC 60617 has it:
// the blade hinged at the left, open upward; a break contact's blade rests on
// a tick and is lifted off it.
func (t *tracer) contact(n *node, x0, x1, y float64) {
	c := t.c
	k := &c.s.ink
	f := t.f
	first := len(f.Items)
	mid := x0 + n.w/2
	g := c.reach()
	l, r := mid-g, mid+g
	leaf := n.leaf
	t.wire(x0, y, l, y, n.leaf, n.end)
	t.wire(r, y, x1, y, n.leaf, n.end)
	if t.still() {
		if n.breaks {
			f.Line(stroke(figure.Ink, k.fine), r, y, r, y-0.62*g)
		}
		if n.label != "" {
			f.Text(solid(figure.Ink), figure.Face{Size: c.em, Align: figure.Middle}, mid, y-c.over(), n.label)
		}
	} else {
		live := c.live[leaf]
		st := round(figure.Ink, k.line)
		if live {
			st = c.wire(t.way, true)
			st.Dash, st.Round = figure.Solid, true
		}
		ex, ey := r, y
		switch closed := c.closed(t.v, leaf); {
		case closed && n.breaks:
			ex, ey = r+0.12*g, y-0.42*g
			if live {
				f.Line(st, r, y, r, y-0.4*g)
			}
		case closed:
		case n.breaks:
			ex, ey = r-0.1*g, y+0.62*g
		default:
			ex, ey = r-0.15*g, y-0.8*g
		}
		f.Line(st, l, y, ex, ey)
		c.mover(f, n.part, (l+ex)/2, (y+ey)/2, g)
		c.terminal(f, l, y, st.Stroke, live)
		if !n.breaks {
			c.terminal(f, r, y, st.Stroke, live)
		}
	}
	part := n.part
	for i := first; i < len(f.Items); i++ {
		f.Items[i].Part = part
	}
}

// chain draws the contacts of several floors one behind the other as one:
// closed while all of them are, with a second stroke through its lead.
func (t *tracer) chain(n *node, x0, x1, y float64) {
	c := t.c
	k := &c.s.ink
	f := t.f
	mid, g := x0+n.w/2, c.reach()
	l, r := mid-g, mid+g
	t.wire(x0, y, l, y, n.leaf, n.end)
	t.wire(r, y, x1, y, n.leaf, n.end)
	if t.still() {
		for i := range 2 {
			x := l - (2.2+2.4*float64(i))*k.u
			f.Line(stroke(figure.Ink, k.fine), x-1.2*k.u, y+2.6*k.u, x+1.2*k.u, y-2.6*k.u)
		}
		if n.label != "" {
			f.Text(solid(figure.Ink), figure.Face{Size: c.em, Align: figure.Middle}, mid, y-c.over(), n.label)
		}
		return
	}
	closed := true
	for _, leaf := range n.chain {
		closed = closed && c.closed(t.v, leaf)
	}
	live := c.any(n.leaf, n.end)
	st := round(figure.Ink, k.line)
	if live {
		st = c.wire(t.way, true)
		st.Dash, st.Round = figure.Solid, true
	}
	if closed {
		f.Line(st, l, y, r, y)
	} else {
		f.Line(st, l, y, r-0.15*g, y-0.8*g)
	}
	c.terminal(f, l, y, st.Stroke, live)
	c.terminal(f, r, y, st.Stroke, live)
}

// terminal is the hollow end of a contact; a full dot is always a joint.
func (c *circuitPicture) terminal(f *figure.Figure, x, y float64, ink figure.Paint, live bool) {
	k := &c.s.ink
	d := k.dead*1.25 + 0.3
	if live {
		d = k.live * 0.72
	}
	hole := figure.Paint{Role: figure.Ground, Alpha: ink.Alpha}
	f.Circle(figure.Style{Fill: hole, Stroke: ink, Width: k.fine}, x, y, d)
}

// mover adds to a blade what moves it: the stem and head of a push-button, the
// wedge of a position switch. A relay's contact has none.
func (c *circuitPicture) mover(f *figure.Figure, part string, x, y, g float64) {
	k := &c.s.ink
	switch Code(part) {
	case "S":
		f.Line(stroke(figure.Ink, k.fine), x, y, x, y+0.62*g)
		f.Line(stroke(figure.Ink, k.fine), x-0.3*g, y+0.62*g, x+0.3*g, y+0.62*g)
	case "B":
		f.Polygon(plain(solid(figure.Ink)), pt(x-0.28*g, y), pt(x+0.28*g, y), pt(x+0.28*g, y+0.36*g))
	}
}

// coil is a coil's box with its name; filled while the part is in.
func (t *tracer) coil(n *node, x0, x1, y float64) {
	c := t.c
	k := &c.s.ink
	f := t.f
	first := len(f.Items)
	gap := 4 * k.u
	h := 0.78*c.em + 1*k.u
	b := rect{x1 - n.w + gap, y - h, x1 - gap, y + h}
	t.wire(x0, y, b.x0, y, n.leaf, n.end)
	t.wire(b.x1, y, x1, y, n.leaf, n.end)
	if !t.still() {
		c.coilFace(f, b, n.label, c.em, c.in(t.v, n.leaf), t.way)
	}
	part := n.part
	for i := first; i < len(f.Items); i++ {
		f.Items[i].Part = part
	}
}

// coilFace is the box of a coil.
func (c *circuitPicture) coilFace(f *figure.Figure, b rect, label string, em float64, in bool, w way) {
	k := &c.s.ink
	st := figure.Style{Fill: solid(figure.Panel), Stroke: solid(figure.Muted), Width: k.line}
	text := solid(figure.Ink)
	if in {
		st = figure.Style{Fill: solid(figure.Ink), Stroke: solid(figure.Ink), Width: k.line}
		switch w {
		case upWay:
			st.Fill = solid(figure.Up)
		case downWay:
			st.Fill = solid(figure.Down)
		}
		text = solid(figure.Ground)
	}
	f.Box(st, b.x0, b.y0, b.x1, b.y1, 0)
	f.Text(text, figure.Face{Size: em, Bold: true, Align: figure.Middle}, b.cx(), middle(b.cy(), em), label)
}

// in reports whether a coil's armature is in.
func (c *circuitPicture) in(v *lift.View, leaf int) bool {
	coil := int(c.s.wiring.Leaves[leaf].Coil)
	return coil >= 0 && coil < len(v.Relays) && v.Relays[coil]
}

// lamp is a crossed circle, its name before it.
func (t *tracer) lamp(n *node, x0, x1, y float64) {
	c := t.c
	k := &c.s.ink
	f := t.f
	first := len(f.Items)
	r := 0.62 * c.em
	x := x1 - 4*k.u - r
	t.wire(x0, y, x-r, y, n.leaf, n.end)
	t.wire(x+r, y, x1, y, n.leaf, n.end)
	lit := !t.still() && c.live[n.leaf]
	if t.still() || lit {
		fill := solid(figure.Panel)
		if lit {
			fill = solid(figure.Lamp)
		}
		f.Circle(sheet(fill, figure.Ink, k.fine), x, y, r)
		d := r * 0.7
		f.Line(stroke(figure.Ink, k.fine), x-d, y-d, x+d, y+d)
		f.Line(stroke(figure.Ink, k.fine), x-d, y+d, x+d, y-d)
	}
	if t.still() {
		f.Text(solid(figure.Ink), figure.Face{Size: c.em, Align: figure.End}, x-r-0.3*c.em, y-0.45*c.em, n.label)
	}
	part := n.part
	for i := first; i < len(f.Items); i++ {
		f.Items[i].Part = part
	}
}
