package scene

import (
	"wheelroom/game/figure"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

// Rungs that stand beneath the rows, most wanted first; what finds no room
// there or in a further column is shown as a coil alone.
var beneath = []string{"up", "down", "safety-line"}

// Places across the first column, in units of the picture from its left edge.
const (
	plusX, railX, railStep = 24.0, 40.0, 11.0
	inX, outX              = 66.0, 92.0
	pivotX, tipX           = 126.0, 152.0
	upX, downX             = 188.0, 224.0
	minusX                 = 326.0
	circuitUnits           = 336.0
)

// arrange places rows, rails and rungs in the picture's room.
func (c *circuitPicture) arrange(whole bool) {
	k := &c.s.ink
	u := k.u
	g := c.s.floors
	x := func(units float64) float64 { return c.place.x0 + units*u }
	first := min(c.place.w(), circuitUnits*u)
	right := c.place.x0 + first - (circuitUnits-minusX)*u
	c.em, c.named = k.small, !k.lecture

	r := &c.rows
	r.plus, r.in, r.out, r.pivot, r.tip, r.up, r.down = x(plusX), x(inX), x(outX), x(pivotX), x(tipX), x(upX), x(downX)
	r.split = min(9*u, g.pitch*0.2)
	r.hop = min(4.6*u, r.split*0.9)
	if k.lecture {
		r.hop = min(6*u, r.split*0.9)
	}
	r.top = c.place.y0 + 1.75*k.t
	c.minus = right

	// Tails of the two lines, turning to their rails.
	below := c.s.rowY(g.bottom) + r.split + 9*u
	if g.windowed {
		below = g.bottom + 9*u
	}
	r.bottom = below
	c.tailUp, c.tailDown = below, below+8*u

	for f := range c.s.plan.Floors {
		r.words.call = append(r.words.call, c.s.say("scene.call-of", "floor", c.s.plan.Floors[f].Name))
	}
	rungs := c.raise()
	for _, rg := range rungs {
		c.size(rg)
	}
	main := column{x0: x(railX + 2*railStep + 12), x1: right, top: c.place.y0, bottom: c.place.y1}
	for i := range main.rails {
		main.rails[i] = rail{bus: railBuses[i], x: x(railX + float64(i-1)*railStep), way: [4]way{neither, upWay, downWay, neither}[i]}
	}
	main.rails[plusRail].x = r.plus
	strip := c.stripHeight()
	y := c.tailDown + 4*u
	end := c.place.y1 - strip
	set := map[string]bool{}
	for _, name := range beneath {
		for _, rg := range rungs {
			if rg.name == name && y+rg.h <= end && main.x0+rg.w <= right+1 {
				y = c.set(&main, rg, y)
				set[name] = true
			}
		}
	}
	c.ends(&main, c.tailDown)
	main.rails[plusRail].y0 = r.top
	main.rails[upRail].y0, main.rails[downRail].y0 = c.tailUp, c.tailDown
	main.top, main.bottom = c.tailDown+6*u, y
	c.columns = append(c.columns, main)
	c.board(rungs, set, rect{c.place.x0 + 6*u, c.place.y1 - strip, right, c.place.y1})
}

// ends stretches the rails of a column to their lowest taps.
func (c *circuitPicture) ends(col *column, top float64) {
	for i := range col.rails {
		rl := &col.rails[i]
		rl.y0, rl.y1 = top, top-1
		for _, rg := range col.rungs {
			for j := range rg.taps {
				if rg.taps[j].rail == i {
					rl.y1 = max(rl.y1, rg.taps[j].y)
				}
			}
			if i == safeRail && rg.to == control.Safe {
				rl.y1 = max(rl.y1, rg.y+rg.taps[0].body.down+c.returning()*0.4)
			}
		}
	}
	// The safe rail begins at the end of the safety line, which may lie below
	// what it feeds.
	s := &col.rails[safeRail]
	s.y0 = s.y1
	for _, rg := range col.rungs {
		for j := range rg.taps {
			if rg.taps[j].rail == safeRail {
				s.y0 = min(s.y0, rg.taps[j].y)
			}
		}
	}
}

// drawRails draws the rails beside the rows, their names, and the tails of the
// lines.
func (c *circuitPicture) drawRails(f *figure.Figure) {
	k := &c.s.ink
	r := &c.rows
	em := k.t
	dead := c.wire(neither, false)
	line := func(part string, x, bottom, toX float64) {
		first := len(f.Items)
		f.Polyline(dead, pt(x, r.top), pt(x, bottom))
		if len(c.columns) > 0 && len(c.columns[0].rungs) > 0 {
			f.Line(dead, x, bottom, toX, bottom)
		}
		f.Mark(first, part)
	}
	col := &c.columns[0]
	line("relay.up-line", r.up, c.tailUp, col.rails[upRail].x)
	line("relay.down-line", r.down, c.tailDown, col.rails[downRail].x)
	base := c.place.y0 + em
	face := figure.Face{Size: em, Bold: true, Align: figure.Middle}
	f.Text(solid(figure.Ink), figure.Face{Size: em * 1.25, Bold: true, Align: figure.Middle}, r.plus, base, c.s.say("scene.plus"))
	up, down := c.s.say("scene.up-line"), c.s.say("scene.down-line")
	gap := (figure.Measure(up, em, true)+figure.Measure(down, em, true))/2 + 0.8*em
	mid := (r.up + r.down) / 2
	spread := max(gap, r.down-r.up) / 2
	f.Text(solid(figure.Up), face, mid-spread, base, up).Part = "relay.up-line"
	f.Text(solid(figure.Down), face, mid+spread, base, down).Part = "relay.down-line"
	if len(col.rungs) > 0 {
		f.Text(solid(figure.Ink), figure.Face{Size: em * 1.25, Bold: true, Align: figure.Middle}, col.x1, col.top-0.45*em, c.s.say("scene.minus"))
	}
}

// moveTails carries the lines' current to their rails.
func (c *circuitPicture) moveTails(f *figure.Figure, up, down bool) {
	col := &c.columns[0]
	if len(col.rungs) == 0 {
		return
	}
	if up {
		f.Line(c.wire(upWay, true), c.rows.up, c.tailUp, col.rails[upRail].x, c.tailUp).Part = "relay.up-line"
	}
	if down {
		f.Line(c.wire(downWay, true), c.rows.down, c.tailDown, col.rails[downRail].x, c.tailDown).Part = "relay.down-line"
	}
}

// boardColumns is how many coils stand side by side on the board.
const boardColumns = 4

// stripHeight is the room the board of coils needs.
func (c *circuitPicture) stripHeight() float64 {
	return float64(c.boardRows())*c.boardPitch() + 3*c.s.ink.u
}

func (c *circuitPicture) boardPitch() float64 { return 1.75*c.em + 4*c.s.ink.u }
func (c *circuitPicture) boardRows() int      { return 3 }

// board shows the coils whose branches are not drawn.
func (c *circuitPicture) board(rungs []*rung, set map[string]bool, place rect) {
	n := 0
	for id, part := range c.s.wiring.Coils {
		name := part
		if len(part) > 6 && part[:6] == "relay." {
			name = part[6:]
		} else if part != "cam" {
			continue
		}
		if set[name] || name == "up-line" || name == "down-line" {
			continue
		}
		w := place.w() / boardColumns
		x, y := place.x0+float64(n%boardColumns)*w, place.y0+float64(n/boardColumns)*c.boardPitch()+3*c.s.ink.u
		c.strip = append(c.strip, coilBox{part: part, coil: id, name: c.s.label(part), way: wayOf(name),
			box: rect{x + 1.5*c.s.ink.u, y, x + w - 1.5*c.s.ink.u, y + c.boardPitch() - 4*c.s.ink.u}})
		n++
	}
}

func (c *circuitPicture) drawStrip(f *figure.Figure) {
	for i := range c.strip {
		b := &c.strip[i]
		first := len(f.Items)
		c.coilFace(f, b.box, b.name, c.em, false, b.way)
		f.Mark(first, b.part)
	}
}

func (c *circuitPicture) moveStrip(f *figure.Figure, v *lift.View) {
	for i := range c.strip {
		b := &c.strip[i]
		if b.coil < len(v.Relays) && v.Relays[b.coil] {
			first := len(f.Items)
			c.coilFace(f, b.box, b.name, c.em, true, b.way)
			f.Mark(first, b.part)
		}
	}
}

// aim notes where the circuit's parts can be pointed at: rows from the top,
// then rungs, then the board.
func (c *circuitPicture) aim() {
	t := &c.s.targets
	n := len(c.floor)
	r := &c.rows
	r.spots.call, r.spots.direction = make([]int, n), make([]int, n)
	for fl := n - 1; fl >= 0; fl-- {
		r.spots.call[fl] = t.add(c.s.parts.call[fl], rect{})
		r.spots.direction[fl] = t.add(c.s.parts.direction[fl], rect{})
	}
	u := c.s.ink.u
	t.add("relay.up-line", rect{r.up - 4*u, r.top - 1.4*c.s.ink.t, r.up + 4*u, c.tailUp})
	t.add("relay.down-line", rect{r.down - 4*u, r.top - 1.4*c.s.ink.t, r.down + 4*u, c.tailDown})
	for i := range c.columns {
		for _, rg := range c.columns[i].rungs {
			c.aimRung(&c.columns[i], rg)
		}
	}
	for i := range c.strip {
		t.add(c.strip[i].part, c.strip[i].box)
	}
}

func (c *circuitPicture) aimRung(col *column, r *rung) {
	for i := range r.taps {
		end := r.meet
		if r.tail == nil {
			end = col.x1
			if r.to == control.Safe {
				end -= 12 * c.s.ink.u
			}
		}
		c.aimNode(&r.taps[i].body, col.x0, end, r.taps[i].y)
	}
	if r.tail != nil {
		c.aimNode(r.tail, r.meet, col.x1, r.y)
	}
}

// aimNode follows the same way as the tracer's piece.
func (c *circuitPicture) aimNode(n *node, x0, x1, y float64) {
	switch n.kind {
	case seriesNode:
		x := x0
		for i := range n.kids {
			kid := &n.kids[i]
			end := x + kid.w
			if i == len(n.kids)-1 {
				if kid.kind == coilNode || kid.kind == lampNode {
					x = x1 - kid.w
				}
				end = x1
			}
			c.aimNode(kid, x, end, y)
			x = end
		}
	case parallelNode:
		p := c.branching()
		for i := range n.kids {
			if i > 0 {
				y += n.kids[i-1].down + n.kids[i].up
			}
			c.aimNode(&n.kids[i], x0+p, x0+n.w-p, y)
		}
	case bankNode:
		// Its parts change with the floor shown; each is found elsewhere.
	case contactNode:
		c.s.targets.add(n.part, rect{x0, y - n.up, x0 + n.w, y + n.down})
	case coilNode, lampNode:
		c.s.targets.add(n.part, rect{x1 - n.w, y - n.up, x1, y + n.down})
	}
}
