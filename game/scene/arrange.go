package scene

import (
	"slices"
	"strings"

	"wheelroom/game/figure"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

// Rungs that stand beneath the rows, most wanted first; what finds no room
// there or in a further column is shown as a coil alone.
var beneath = []string{"up", "down", "safety-line", "safety"}

// Places across the first column, in units of the picture from its left edge.
const (
	plusX, railX, railStep = 24.0, 40.0, 11.0
	minusX                 = 326.0
	circuitUnits           = 336.0
)

// Places of call contact, direction switch and lines: closer together where
// large type needs room beside them.
var (
	rowUsual   = [6]float64{74, 100, 130, 155, 190, 224}
	rowLecture = [6]float64{56, 84, 108, 132, 160, 190}
)

// Coils shown on a projector although their branches are not, most wanted
// first; there is no room for the others.
var lectured = []string{"relay.up-line", "relay.down-line", "relay.direction", "relay.stop", "relay.door", "relay.start", "relay.fast", "relay.slow", "relay.brake"}

// arrange places rows, rails and rungs in the picture's room.
func (c *circuitPicture) arrange() {
	k := &c.s.ink
	u := k.u
	c.em, c.named = k.small, !k.lecture
	c.placeRows()
	x0 := c.place.x0 + (railX+2*railStep+10)*u
	c.wide = c.minus - x0 - 12*u
	rungs := c.raise()
	for _, rg := range rungs {
		c.size(rg)
	}
	set := map[string]bool{}
	x := func(units float64) float64 { return c.place.x0 + units*u }
	main := column{x0: x0, x1: c.minus}
	for i := range main.rails {
		main.rails[i] = rail{bus: railBuses[i], x: x(railX + float64(i-1)*railStep), way: [4]way{neither, upWay, downWay, neither}[i]}
	}
	main.rails[plusRail].x = c.rows.plus
	y := c.tailDown + 5*u
	for _, name := range beneath {
		for _, rg := range rungs {
			if rg.name != name {
				continue
			}
			if rg.to == control.Safe && c.named && main.x0+rg.w > main.x1 {
				if c.fold(rg); y+rg.h > c.place.y1+2*u || main.x0+rg.w > main.x1+1 {
					c.unname(rg)
				}
			}
			if name == "safety" && !set["safety-line"] {
				continue
			}
			if y+rg.h <= c.place.y1+2*u && main.x0+rg.w <= main.x1+1 {
				y = c.stand(&main, rg, y)
				set[name] = true
			}
		}
	}
	main.feeds = set["safety-line"]
	c.ends(&main, c.tailDown)
	main.rails[plusRail].y0 = c.rows.top
	main.rails[upRail].y0, main.rails[downRail].y0 = c.tailUp, c.tailDown
	main.top, main.bottom = c.rows.top, y
	c.columns = append(c.columns, main)
	c.placeFurther(rungs, set)
	c.board(set)
	c.set = set
}

// placeRows gives the rows their places across, and the lines their tails.
func (c *circuitPicture) placeRows() {
	k := &c.s.ink
	u := k.u
	g := c.s.floors
	x := func(units float64) float64 { return c.place.x0 + units*u }
	c.minus = x(minusX)
	r := &c.rows
	at := rowUsual
	if k.lecture {
		at = rowLecture
	}
	r.plus, r.in, r.out, r.pivot, r.tip, r.up, r.down = x(plusX), x(at[0]), x(at[1]), x(at[2]), x(at[3]), x(at[4]), x(at[5])
	r.split = min(9*u, g.pitch*0.2)
	r.hop = min(4.6*u, r.split*0.9)
	if k.lecture {
		r.hop = min(6*u, r.split*0.9)
	}
	r.most, r.apart = 0.42*g.pitch, min(8*u, 0.27*g.pitch)
	if k.lecture {
		r.most = 0.25 * g.pitch
	}
	r.top = c.place.y0 + 1.75*k.t
	below := c.s.rowY(g.bottom) + r.split + 9*u
	if g.windowed {
		below = g.bottom + 9*u
	}
	c.tailUp, c.tailDown = below, below+8*u
	for f := range c.s.plan.Floors {
		r.words.floor = append(r.words.floor, c.s.say("scene.floor-of", "floor", c.s.plan.Floors[f].Name))
		r.words.wide = max(r.words.wide, figure.Measure(r.words.floor[f], 1, false))
		r.words.call = append(r.words.call, c.s.say("scene.call-of", "floor", c.s.plan.Floors[f].Name))
	}
	// Before its contact a name has the room from the rail; over it, on a
	// projector, there is room enough.
	r.words.em = k.t
	if !k.lecture {
		for f, name := range r.words.call {
			var em float64
			r.words.call[f], em = k.fit(name, k.t, r.in-0.45*k.t-r.plus-0.5*k.t, false)
			r.words.em = min(r.words.em, em)
		}
	}
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
				rl.y1 = max(rl.y1, c.endY(rg))
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
	line := func(part string, x, top, bottom, toX float64) {
		first := len(f.Items)
		f.Polyline(dead, pt(x, top), pt(x, bottom))
		if len(c.columns) > 0 && len(c.columns[0].rungs) > 0 {
			f.Line(dead, x, bottom, toX, bottom)
		}
		f.Mark(first, part)
	}
	col := &c.columns[0]
	line("relay.up-line", r.up, c.lineTop(upWay), c.tailUp, col.rails[upRail].x)
	line("relay.down-line", r.down, c.lineTop(downWay), c.tailDown, col.rails[downRail].x)
	base := c.place.y0 + em
	face := figure.Face{Size: em, Bold: true, Align: figure.Middle}
	f.Text(solid(figure.Ink), figure.Face{Size: em * 1.25, Bold: true, Align: figure.Middle}, r.plus, base, c.s.say("scene.plus"))
	up, down := c.s.say("scene.up-line"), c.s.say("scene.down-line")
	gap := (figure.Measure(up, em, true)+figure.Measure(down, em, true))/2 + 0.8*em
	mid := (r.up + r.down) / 2
	spread := max(gap, r.down-r.up) / 2
	f.Text(solid(figure.Up), face, mid-spread, base, up).Part = "relay.up-line"
	f.Text(solid(figure.Down), face, mid+spread, base, down).Part = "relay.down-line"
	f.Text(solid(figure.Ink), figure.Face{Size: em * 1.25, Bold: true, Align: figure.Middle}, col.x1, base, c.s.say("scene.minus"))
	c.drawHeads(f)
}

// drawHeads names the rails of the further columns.
func (c *circuitPicture) drawHeads(f *figure.Figure) {
	k := &c.s.ink
	base := c.place.y0 + k.t
	sign := figure.Face{Size: k.t * 1.25, Bold: true, Align: figure.Middle}
	for i := 1; i < len(c.columns); i++ {
		col := &c.columns[i]
		f.Text(solid(figure.Ink), sign, col.rails[plusRail].x, base, c.s.say("scene.plus"))
		f.Text(solid(figure.Ink), sign, col.x1, base, c.s.say("scene.minus"))
		if r := &col.rails[safeRail]; r.y1 > r.y0 {
			f.Text(solid(figure.Ink), figure.Face{Size: k.small}, r.x+k.u, base, c.s.say("scene.safe")).Part = "safety-line"
		}
	}
}

// board shows coils whose branches are not drawn: at the right of the rows,
// hung on the minus rail, their leads broken off.
func (c *circuitPicture) board(set map[string]bool) {
	k := &c.s.ink
	x0, x1 := c.rows.down+20*k.u, c.minus-9*k.u
	if k.lecture {
		x0 = c.rows.down + 12*k.u
	}
	top, bottom := c.rows.top+2*k.u, c.tailUp-6*k.u
	most := int((bottom - top) / (2.05 * c.em))
	// The two that watch the lines hang on them and come first.
	var wanted []coilBox
	for id, part := range c.s.wiring.Coils {
		name := strings.TrimPrefix(part, "relay.")
		if name == part && part != "cam" || set[name] {
			continue
		}
		if k.lecture && !slices.Contains(lectured[:min(most, len(lectured))], part) {
			continue
		}
		wanted = append(wanted, coilBox{part: part, coil: id, name: c.s.label(part), way: wayOf(name)})
	}
	slices.SortStableFunc(wanted, func(a, b coilBox) int { return rank(a.part) - rank(b.part) })
	c.rows.topUp, c.rows.topDown = c.rows.top, c.rows.top
	if len(wanted) == 0 {
		return
	}
	// The longest name makes all boxes wider, as far as the lines leave room.
	for i := range wanted {
		x0 = max(min(x0, x1-figure.Measure(wanted[i].name, c.em, true)-4*k.u), c.rows.down+10*k.u)
	}
	pitch := min((bottom-top)/float64(len(wanted)), 3.2*c.em)
	high := min(1.75*c.em, 0.8*pitch)
	for i := range wanted {
		y := top + (float64(i)+0.5)*pitch
		wanted[i].box = rect{x0, y - high/2, x1, y + high/2}
		wanted[i].name, wanted[i].em = k.fit(wanted[i].name, c.em, x1-x0-0.6*c.em, true)
		switch wanted[i].part {
		case "relay.up-line":
			c.rows.topUp, c.monitorUp, wanted[i].line = y, c.coilLeaf[wanted[i].coil], c.rows.up
		case "relay.down-line":
			c.rows.topDown, c.monitorDown, wanted[i].line = y, c.coilLeaf[wanted[i].coil], c.rows.down
		}
	}
	c.strip = wanted
}

// rank is the order of coils on the board.
func rank(part string) int {
	switch part {
	case "relay.up-line":
		return 0
	case "relay.down-line":
		return 1
	}
	return 2
}

// lineTop is where a line begins: level with the coil of the board that hangs
// on it, or with the highest row.
func (c *circuitPicture) lineTop(w way) float64 {
	if w == upWay {
		return min(c.rows.topUp, c.head(-c.rows.split))
	}
	return min(c.rows.topDown, c.head(c.rows.split))
}

// watch is the wire from a line to the coil that watches it.
func (c *circuitPicture) watch(f *figure.Figure, b *coilBox, live bool) {
	y, over := b.box.cy(), nowhere
	if b.way == upWay && c.lineTop(downWay) < y {
		over = c.rows.down
	}
	hop(f, c.wire(b.way, live), b.line, b.box.x0, y, c.rows.hop, over)
}

func (c *circuitPicture) drawStrip(f *figure.Figure) {
	k := &c.s.ink
	for i := range c.strip {
		b := &c.strip[i]
		first := len(f.Items)
		y := b.box.cy()
		f.Line(c.wire(neither, false), b.box.x1, y, c.minus, y)
		c.joint(f, c.minus, y, neither, false)
		if b.line > 0 {
			c.watch(f, b, false)
			if c.lineTop(b.way) < y-1 {
				c.joint(f, b.line, y, b.way, false)
			}
		} else {
			f.Line(figure.Style{Stroke: solid(figure.Muted), Width: k.fine, Dash: figure.Dotted}, b.box.x0-8*k.u, y, b.box.x0, y)
		}
		f.Mark(first, b.part)
	}
}

func (c *circuitPicture) moveStrip(f *figure.Figure, v *lift.View) {
	for i := range c.strip {
		b := &c.strip[i]
		first := len(f.Items)
		in := b.coil < len(v.Relays) && v.Relays[b.coil]
		y := b.box.cy()
		if c.carries(c.coilLeaf[b.coil]) {
			f.Line(c.wire(b.way, true), b.box.x1, y, c.minus, y)
			if b.line > 0 {
				c.watch(f, b, true)
			}
		}
		c.coilFace(f, b.box, b.name, b.em, in, b.way)
		f.Mark(first, b.part)
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
	if r.to == control.Safe {
		c.s.targets.add("safety-line", rect{col.x0, r.y - r.up, col.x1 - 12*c.s.ink.u, c.endY(r)})
	}
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
	for i := range r.more {
		c.aimNode(&r.more[i], col.x0, col.x1-12*c.s.ink.u, r.moreY[i])
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
