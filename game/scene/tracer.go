package scene

import (
	"wheelroom/game/figure"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

// A tracer walks the rungs and draws them: without a view what stands still,
// with one what moves. Walking twice keeps the two in register.
type tracer struct {
	c   *circuitPicture
	f   *figure.Figure
	v   *lift.View
	way way
}

func (t *tracer) still() bool { return t.v == nil }

// wire draws from one place to another, live if any leaf of a..b-1 is.
func (t *tracer) wire(x0, y0, x1, y1 float64, a, b int) {
	if t.still() {
		t.f.Line(t.c.wire(t.way, false), x0, y0, x1, y1)
		return
	}
	if t.c.any(a, b) {
		st := t.c.wire(t.way, true)
		st.Round = st.Dash == figure.Solid
		t.f.Line(st, x0, y0, x1, y1)
	}
}

func (t *tracer) joint(x, y float64, a, b int) {
	live := !t.still() && t.c.any(a, b)
	if t.still() || live {
		t.c.joint(t.f, x, y, t.way, live)
	}
}

// column draws a column: rails first, then rungs.
func (t *tracer) column(col *column) {
	c := t.c
	t.way = neither
	// Rails, fed from their sources downward.
	for i := range col.rails {
		r := &col.rails[i]
		if r.y1 < r.y0 {
			continue
		}
		t.way = r.way
		if t.still() {
			w := c.s.ink.dead
			role := figure.Muted
			if i == plusRail {
				w, role = c.s.ink.bold, figure.Ink
			}
			t.f.Line(figure.Style{Stroke: solid(role), Width: w}, r.x, r.y0, r.x, r.y1)
			continue
		}
		t.rail(col, i)
	}
	t.way = neither
	if t.still() {
		t.f.Line(figure.Style{Stroke: solid(figure.Ink), Width: c.s.ink.bold}, col.x1, col.top, col.x1, col.bottom)
	}
	for _, r := range col.rungs {
		t.rung(col, r)
	}
}

// rail lays current on a rail, from its source to the live tap furthest from
// it. The safe rail of the column with the safety line is fed from below.
func (t *tracer) rail(col *column, i int) {
	rl := &col.rails[i]
	source := rl.y0
	if i == safeRail && col.feeds {
		source = rl.y1
		for _, r := range col.rungs {
			if r.to == control.Safe {
				source = t.c.endY(r)
			}
		}
	}
	low, high := source, source
	for _, r := range col.rungs {
		for j := range r.taps {
			tp := &r.taps[j]
			if tp.rail == i && t.c.any(tp.body.leaf, tp.body.end) {
				low, high = max(low, tp.y), min(high, tp.y)
			}
		}
	}
	if low > high {
		st := t.c.wire(t.way, true)
		st.Round = st.Dash == figure.Solid
		t.f.Line(st, rl.x, high, rl.x, low)
	}
}

// rung draws one rung.
func (t *tracer) rung(col *column, r *rung) {
	c := t.c
	for i := range r.taps {
		tp := &r.taps[i]
		t.way = r.way
		a, b := tp.body.leaf, tp.body.end
		if tp.rail == plusRail || tp.rail == safeRail {
			// Only what hangs on a line is drawn in the line's own manner.
			if r.tail == nil {
				t.way = neither
			}
		}
		t.lead(col, tp, a, b)
		end := r.meet
		if r.tail == nil {
			end = col.x1
			if r.to == control.Safe {
				end = col.x1 - 12*c.s.ink.u
			}
		}
		t.piece(&tp.body, col.x0, end, tp.y)
	}
	if r.bare && t.still() {
		t.f.Text(solid(figure.Ink), figure.Face{Size: c.em}, col.x0+3*c.s.ink.u, r.y-c.over(), c.s.say("scene.safety-line")).Part = "safety-line"
	}
	t.way = r.way
	if r.tail != nil {
		for i := 0; i+1 < len(r.taps); i++ {
			a, b := r.taps[i+1].body.leaf, r.taps[len(r.taps)-1].body.end
			t.wire(r.meet, r.taps[i].y, r.meet, r.taps[i+1].y, a, b)
		}
		t.joint(r.meet, r.y, r.tail.leaf, r.tail.end)
		t.piece(r.tail, r.meet, col.x1, r.y)
	}
	if r.to == control.Minus {
		if t.still() {
			c.joint(t.f, col.x1, r.y, neither, false)
		}
	}
	if r.to == control.Safe {
		// Further lines, then back to the head of the safe rail.
		a, b := r.taps[0].body.leaf, r.taps[0].body.end
		x, y, back := col.x1-12*c.s.ink.u, r.y, c.endY(r)
		t.way = neither
		for i := range r.more {
			line, at := &r.more[i], r.moreY[i]
			turn := at - line.up - c.wrapping()*0.5
			t.wire(x, y, x, turn, a, b)
			t.wire(x, turn, col.x0, turn, a, b)
			t.wire(col.x0, turn, col.x0, at, a, b)
			t.piece(line, col.x0, x, at)
			y = at
		}
		t.wire(x, y, x, back, a, b)
		safe := &col.rails[safeRail]
		t.wire(x, back, safe.x, back, a, b)
		if safe.goesOn(back) {
			t.joint(safe.x, back, a, b)
		}
	}
}

// lead is the wire from a rail to the rungs' beginning, hopping over the rails
// between.
func (t *tracer) lead(col *column, tp *tap, a, b int) {
	c := t.c
	rl := &col.rails[tp.rail]
	live := !t.still() && c.any(a, b)
	over := [3]float64{c.crossed(col, tp, tp.rail+1), c.crossed(col, tp, tp.rail+2), c.crossed(col, tp, tp.rail+3)}
	r := 3.4 * c.s.ink.u
	if !t.still() && !live {
		// It passes before the rails, also while they are live and were drawn
		// over it.
		for _, x := range over {
			if x == nowhere {
				continue
			}
			hop(t.f, c.wire(t.way, false), x-r-1, x+r+1, tp.y, r, x)
		}
		return
	}
	hop(t.f, c.wire(t.way, live), rl.x, col.x0, tp.y, r, over[0], over[1], over[2])
	if rl.goesOn(tp.y) {
		c.joint(t.f, rl.x, tp.y, rl.way, live)
	}
}

// goesOn reports whether a rail has more of itself both over a place and under
// it. At an end of it there is a corner, which bears no dot.
func (r *rail) goesOn(y float64) bool { return r.y0 < y-1 && y+1 < r.y1 }

// nowhere is a place far to the left of any figure.
const nowhere = -1e9

// crossed is where a tap's lead crosses a rail; off to the left where it does not.
func (c *circuitPicture) crossed(col *column, tp *tap, i int) float64 {
	if i >= len(col.rails) {
		return nowhere
	}
	r := &col.rails[i]
	if tp.y < r.y0-1 || tp.y > r.y1-1 {
		return nowhere
	}
	return r.x
}

// piece draws a node between two places on its axis.
func (t *tracer) piece(n *node, x0, x1, y float64) {
	c := t.c
	switch n.kind {
	case seriesNode:
		x := x0
		for i := range n.kids {
			kid := &n.kids[i]
			end := x + kid.w
			if i == len(n.kids)-1 {
				// A coil stands at the end of its rung; anything else follows on.
				if kid.kind == coilNode || kid.kind == lampNode {
					start := x1 - kid.w
					t.wire(x, y, start, y, n.leaf, n.end)
					x = start
				}
				end = x1
			}
			t.piece(kid, x, end, y)
			x = end
		}
	case parallelNode:
		p := c.branching()
		l, r := x0+p, x0+n.w-p
		t.wire(x0, y, l, y, n.leaf, n.end)
		t.wire(r, y, x1, y, n.leaf, n.end)
		at := y
		for i := range n.kids {
			kid := &n.kids[i]
			t.piece(kid, l, r, at)
			if i+1 < len(n.kids) {
				next := at + kid.down + n.kids[i+1].up
				t.wire(l, at, l, next, n.kids[i+1].leaf, n.end)
				t.wire(r, at, r, next, n.kids[i+1].leaf, n.end)
				t.joint(l, at, kid.leaf, n.end)
				t.joint(r, at, kid.leaf, n.end)
				at = next
			}
		}
	case bankNode:
		t.drawBank(n, x0, x1, y)
	case contactNode:
		t.contact(n, x0, x1, y)
	case chainNode:
		t.chain(n, x0, x1, y)
	case coilNode:
		t.coil(n, x0, x1, y)
	case lampNode:
		t.lamp(n, x0, x1, y)
	}
}

// drawBank draws one floor's circuit of a bank in a frame. All that is in the
// frame may be another floor's the next time, so it moves.
func (t *tracer) drawBank(n *node, x0, x1, y float64) {
	c := t.c
	k := &c.s.ink
	p := c.branching()
	// A coil stands at the end of its rung, also in a frame.
	box := rect{x0 + p*0.5, y - n.up + 1*k.u, x0 + n.w - p*0.5, y + n.down - 1*k.u}
	right := x0 + n.w - p
	if endsInCoil(&n.kids[0]) {
		box.x1, right = max(box.x1, x1-p*0.5), max(right, x1-p)
	}
	if t.still() {
		t.f.Box(figure.Style{Fill: sheer(figure.Steel, 0.10), Stroke: mixed(figure.Muted, 0.3), Width: k.hair, Dash: figure.Dotted}, box.x0, box.y0, box.x1, box.y1, 3*k.u)
		return
	}
	which := n.shown(c.now)
	kid := &n.kids[which]
	// Outside the frame runs what any floor's circuit carries.
	for pass := range 2 {
		u := *t
		if pass == 0 {
			u.v = nil
		}
		u.wire(x0, y, x0+p, y, n.leaf, n.end)
		u.wire(right, y, x1, y, n.leaf, n.end)
		u.piece(kid, x0+p, right, y)
	}
	em := c.em
	t.f.Text(solid(figure.Muted), figure.Face{Size: em, Align: figure.End}, box.x1-0.5*em, box.y1-0.35*em, c.rows.words.floor[n.floors[which]])
}

func endsInCoil(n *node) bool {
	if n.kind == seriesNode && len(n.kids) > 0 {
		return endsInCoil(&n.kids[len(n.kids)-1])
	}
	return n.kind == coilNode || n.kind == lampNode
}
