package rungs

import (
	"strconv"

	"wheelroom/game/figure"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/relay"
)

// Widths of lines, logical units; a live wire is more than twice a dead one.
const (
	deadW  = 1.1
	liveW  = 2.9
	inkW   = 1.5
	fineW  = 1.0
	jointR = 2.3
)

// A pen draws the lines at one instant.
type pen struct {
	s    *Sheet
	f    *figure.Figure
	v    *lift.View
	live []bool // by leaf

	joints bool // drawn where two pieces meet
}

func ink(role figure.Role) figure.Paint { return figure.Paint{Role: role} }

func (p *pen) any(a, b int) bool {
	for i := a; i < b; i++ {
		if p.live[i] {
			return true
		}
	}
	return false
}

func wire(live bool) figure.Style {
	if live {
		return figure.Style{Stroke: ink(figure.Ink), Width: liveW, Round: true}
	}
	return figure.Style{Stroke: ink(figure.Muted), Width: deadW}
}

func (p *pen) wire(x0, y0, x1, y1 float64, live bool) { p.f.Line(wire(live), x0, y0, x1, y1) }

// line draws one branch with its number and its conductors.
func (p *pen) line(l *line) {
	f := p.f
	x0, x1 := p.s.x0, p.s.x1
	a, b := l.body.leaf, l.body.end
	live := p.any(a, b)
	top, bottom := l.parts[0], l.parts[len(l.parts)-1]
	f.Text(ink(figure.Muted), figure.Face{Size: em * 0.92, Align: figure.End}, number-6, top+0.35*em, strconv.Itoa(l.branch+1))
	f.Text(ink(figure.Ink), figure.Face{Size: em, Align: figure.End}, x0-gap, top+0.35*em, l.from)
	f.Text(ink(figure.Ink), figure.Face{Size: em}, x1+gap, bottom+0.35*em, l.to)
	for i, fold := range l.folds {
		y := l.parts[i]
		if i > 0 {
			// Back to the left, between the two parts.
			turn := p.turn(l, i)
			p.wire(x1, l.parts[i-1], x1, turn, live)
			p.wire(x1, turn, x0, turn, live)
			p.wire(x0, turn, x0, y, live)
		}
		p.row(fold, i > 0, x0, x1, y, live)
	}
	p.end(x0, top, l.start, live)
	p.end(x1, bottom, l.end, live)
}

// turn is the height at which a folded line runs back.
func (p *pen) turn(l *line, i int) float64 {
	up := 0.6 * em
	for k := range l.folds[i] {
		up = max(up, l.folds[i][k].up)
	}
	return l.parts[i] - up - wrap/2
}

// end is where a line meets a conductor: a dot, or a ring where it goes on as
// one other line and no third wire comes in.
func (p *pen) end(x, y float64, n relay.Node, live bool) {
	r := jointR + 0.6
	if live {
		r += 0.9
	}
	st := figure.Style{Fill: ink(figure.Ink)}
	if p.s.meet[n] < 3 {
		st = ring
	}
	p.f.Circle(st, x, y, r).Part = nodePart(n)
}

// ring is a place in a wire at which no third comes in; a dot is where three
// meet.
var ring = figure.Style{Fill: ink(figure.Ground), Stroke: ink(figure.Ink), Width: fineW}

func nodePart(n relay.Node) string { return "node." + strconv.Itoa(int(n)) }
func leafPart(leaf int) string     { return "leaf." + strconv.Itoa(leaf) }

// row draws pieces in series from x0 to x1; inside a line, where it is folded,
// the first of them has a joint before it as well.
func (p *pen) row(kids []piece, inside bool, x0, x1, y float64, live bool) {
	x := x0
	for i := range kids {
		k := &kids[i]
		if i == len(kids)-1 && (k.kind == coil || k.kind == lamp) {
			p.wire(x, y, x1-k.w, y, live)
			x = x1 - k.w
		}
		p.piece(k, x, x+k.w, y)
		// A parallel begins with a dot of its own.
		if p.joints && (i > 0 || inside) && k.kind != parallel {
			p.joint(x, y, live)
		}
		x += k.w
	}
	if x < x1 {
		p.wire(x, y, x1, y, live)
	}
}

// joint is a place between two pieces, to which a probe can be held.
func (p *pen) joint(x, y float64, live bool) {
	r := 2.6
	if live {
		r = 3.4
	}
	p.f.Circle(ring, x, y, r)
}

func (p *pen) piece(k *piece, x0, x1, y float64) {
	live := p.any(k.leaf, k.end)
	switch k.kind {
	case series:
		p.row(k.kids, false, x0, x1, y, live)
	case parallel:
		l, r := x0+lead, x1-lead
		p.wire(x0, y, l, y, live)
		p.wire(r, y, x1, y, live)
		at := y
		for i := range k.kids {
			kid := &k.kids[i]
			kidLive := p.any(kid.leaf, kid.end)
			p.piece(kid, l, l+kid.w, at)
			if l+kid.w < r {
				p.wire(l+kid.w, at, r, at, kidLive)
			}
			if i+1 < len(k.kids) {
				next := at + kid.down + k.kids[i+1].up
				below := p.any(k.kids[i+1].leaf, k.end)
				p.wire(l, at, l, next, below)
				p.wire(r, at, r, next, below)
				p.f.Circle(figure.Style{Fill: ink(figure.Ink)}, l, at, jointR)
				p.f.Circle(figure.Style{Fill: ink(figure.Ink)}, r, at, jointR)
				at = next
			}
		}
	case contact:
		p.contact(k, x0, x1, y)
	case coil:
		p.coil(k, x0, x1, y)
	case lamp:
		p.lamp(k, x0, x1, y)
	}
}

// contact as IEC 60617 has it: the blade hinged at the left; a break contact's
// blade rests on a tick.
func (p *pen) contact(k *piece, x0, x1, y float64) {
	f, live := p.f, p.live[k.leaf]
	first := len(f.Items)
	mid := x0 + k.w/2
	l, r := mid-reach, mid+reach
	p.wire(x0, y, l, y, live)
	p.wire(r, y, x1, y, live)
	st := figure.Style{Stroke: ink(figure.Ink), Width: inkW, Round: true}
	if live {
		st.Width = liveW
	}
	closed := k.leaf < len(p.v.Contacts) && p.v.Contacts[k.leaf]
	ex, ey := r, y
	switch {
	case closed && k.breaks:
		ex, ey = r+0.12*reach, y-0.42*reach
		f.Line(st, r, y, r, y-0.4*reach)
	case closed:
	case k.breaks:
		ex, ey = r-0.1*reach, y+0.62*reach
	default:
		ex, ey = r-0.15*reach, y-0.8*reach
	}
	if k.breaks {
		f.Line(figure.Style{Stroke: ink(figure.Ink), Width: fineW}, r, y, r, y-0.62*reach)
	}
	f.Line(st, l, y, ex, ey)
	f.Circle(ring, l, y, 1.9)
	if !k.breaks {
		f.Circle(ring, r, y, 1.9)
	}
	f.Text(ink(figure.Ink), figure.Face{Size: em, Align: figure.Middle}, mid, y-reach-0.38*em, k.label)
	f.Mark(first, leafPart(k.leaf))
}

// coil is a box with its name; in is filled.
func (p *pen) coil(k *piece, x0, x1, y float64) {
	f, live := p.f, p.live[k.leaf]
	first := len(f.Items)
	h := 0.85 * em
	p.wire(x0, y, x0+8, y, live)
	p.wire(x1-8, y, x1, y, live)
	in := false
	if c := p.s.wiring.Leaves[k.leaf].Coil; c >= 0 && int(c) < len(p.v.Relays) {
		in = p.v.Relays[c]
	}
	box := figure.Style{Fill: ink(figure.Panel), Stroke: ink(figure.Ink), Width: inkW}
	text := ink(figure.Ink)
	if in {
		box.Fill, text = ink(figure.Ink), ink(figure.Ground)
	}
	if live {
		box.Width = liveW
	}
	f.Box(box, x0+8, y-h, x1-8, y+h, 1.5)
	f.Text(text, figure.Face{Size: em, Bold: true, Align: figure.Middle}, (x0+x1)/2, y+0.35*em, k.label)
	f.Mark(first, leafPart(k.leaf))
}

// lamp is a crossed circle under its name.
func (p *pen) lamp(k *piece, x0, x1, y float64) {
	f, live := p.f, p.live[k.leaf]
	first := len(f.Items)
	mid := (x0 + x1) / 2
	p.wire(x0, y, mid-reach, y, live)
	p.wire(mid+reach, y, x1, y, live)
	disc := figure.Style{Fill: ink(figure.Panel), Stroke: ink(figure.Ink), Width: inkW}
	if live {
		disc.Fill = ink(figure.Lamp)
	}
	f.Circle(disc, mid, y, reach)
	c := 0.7 * reach
	cross := figure.Style{Stroke: ink(figure.Ink), Width: fineW}
	if live {
		cross.Stroke = ink(figure.LampInk)
	}
	f.Line(cross, mid-c, y-c, mid+c, y+c)
	f.Line(cross, mid-c, y+c, mid+c, y-c)
	f.Text(ink(figure.Ink), figure.Face{Size: em, Align: figure.Middle}, mid, y-reach-0.38*em, k.label)
	f.Mark(first, leafPart(k.leaf))
}

// glow lays a shade under what is pointed out.
func (p *pen) glow(m Marks) {
	shade := figure.Paint{Role: figure.Ink, Alpha: 0.10}
	lay := func(leaf int, st figure.Style) {
		if b, ok := p.box(leaf); ok {
			p.f.Box(st, b.x0, b.y0, b.x1, b.y1, 4)
		}
	}
	for _, leaf := range m.Path {
		lay(leaf, figure.Style{Fill: shade})
	}
	for _, leaf := range m.Blockers {
		lay(leaf, figure.Style{Stroke: ink(figure.Ink), Width: 1.4, Dash: figure.Dashed})
	}
	if m.Leaf >= 0 {
		lay(m.Leaf, figure.Style{Fill: shade, Stroke: ink(figure.Ink), Width: 1.6})
	}
}

// box is the place of a leaf that is shown.
func (p *pen) box(leaf int) (rect, bool) {
	if leaf < 0 || leaf >= len(p.s.boxes) || p.s.boxes[leaf] == (rect{}) {
		return rect{}, false
	}
	return p.s.boxes[leaf], true
}

// marks numbers the path, letters what blocks it, and sets the probes. Signs
// stand on the wires, clear of every name.
func (p *pen) marks(m Marks) {
	for i, leaf := range m.Path {
		p.sign(leaf, strconv.Itoa(i+1), true)
	}
	for i, leaf := range m.Blockers {
		p.sign(leaf, string(rune('a'+i%26)), false)
	}
	for i, n := range m.Probes {
		if at, ok := p.s.joints[relay.Node(n)]; ok && n >= 0 {
			p.badge(at.x, at.y, p.s.words(probeName(i)), i == 0)
		}
	}
}

// sign sets a badge before a leaf.
func (p *pen) sign(leaf int, text string, filled bool) {
	b, ok := p.box(leaf)
	if !ok {
		return
	}
	x := b.x0 + 6
	if l := &p.s.wiring.Leaves[leaf]; l.Contact < 0 {
		x = b.x0 - 6
	}
	p.badge(x, p.s.axes[leaf], text, filled)
}

// probeName is the sign of a probe.
func probeName(i int) phrase.Phrase {
	return phrase.Of([...]string{"circuit.probe-first", "circuit.probe-second"}[i%2])
}

// badge is a small disc with a sign on it, filled or hollow.
func (p *pen) badge(x, y float64, sign string, filled bool) {
	st, text := figure.Style{Fill: ink(figure.Ground), Stroke: ink(figure.Ink), Width: 1.4}, ink(figure.Ink)
	if filled {
		st.Fill, text = ink(figure.Ink), ink(figure.Ground)
	}
	size := em * 0.85
	p.f.Circle(st, x, y, max(7.2, figure.Measure(sign, size, true)/2+2.2))
	p.f.Text(text, figure.Face{Size: size, Bold: true, Align: figure.Middle}, x, y+0.35*size, sign)
}
