package scene

import (
	"math"

	"wheelroom/game/figure"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

// circuitPicture is the control circuit: rows level with the landings, in
// which calls are steered to the up line or the down line, and beneath or
// beside them the remaining branches as rungs between the rails.
//
// Current is drawn where it flows: a wire is live while the element it leads
// to carries more than liveA.
type circuitPicture struct {
	s     *Scene
	place rect
	rows  rowColumns
	rungs []rung
	ladder

	starts                 []int // by branch: its first leaf; one more for the end
	floor                  []floorLeaves
	live                   []bool  // by leaf, at this instant
	monitorUp, monitorDown int     // leaves of the coils that watch the lines
	tailUp, tailDown       float64 // where the lines turn to their rails

	now int             // the floor a bank of like branches shows
	set map[string]bool // rungs drawn, by name
}

// liveA is the least current drawn as flowing, ampere: well under a lamp's,
// well over what an open contact leaks.
const liveA = 0.004

// floorLeaves are the leaves of one floor's row: its call contacts, side by
// side, and its direction switch; -1 for one the scheme has not.
type floorLeaves struct {
	calls        []rowCall
	above, below int
}

// rowCall is one call contact of a row.
type rowCall struct {
	leaf int
	part string
	kind control.CallKind
}

// way is what a wire belongs to: the up line, the down line or neither.
type way uint8

const (
	neither way = iota
	upWay
	downWay
)

func newCircuitPicture(s *Scene, place rect) *circuitPicture {
	c := arranged(s, place)
	c.draw(&s.still)
	c.aim()
	return c
}

// arranged is the picture laid out but not yet drawn.
func arranged(s *Scene, place rect) *circuitPicture {
	c := &circuitPicture{s: s, place: place, monitorUp: -1, monitorDown: -1}
	c.index()
	c.live = make([]bool, len(s.wiring.Leaves))
	c.arrange()
	return c
}

// index finds the leaves of every branch and of the floors' rows.
func (c *circuitPicture) index() {
	d := c.s.wiring.Diagram
	c.starts = make([]int, len(d.Branches)+1)
	leaf := 0
	for b := range d.Branches {
		c.starts[b] = leaf
		for leaf < len(c.s.wiring.Leaves) && c.s.wiring.Leaves[leaf].Branch == b {
			leaf++
		}
	}
	c.starts[len(d.Branches)] = leaf
	c.coilLeaf = make([]int, len(c.s.wiring.Coils))
	for i := range c.s.wiring.Leaves {
		if k := c.s.wiring.Leaves[i].Coil; k >= 0 {
			c.coilLeaf[k] = i
		}
	}
	c.floor = make([]floorLeaves, len(d.Floors))
	for f := range c.floor {
		c.floor[f] = floorLeaves{above: -1, below: -1}
	}
	for b := range d.Branches {
		br := &d.Branches[b]
		if br.Floor < 0 {
			continue
		}
		fl := &c.floor[br.Floor]
		switch {
		case br.From == control.Plus && br.To == control.Row(br.Floor):
			for leaf := c.starts[b]; leaf < c.starts[b+1]; leaf++ {
				if k, ok := c.s.wiring.Leaves[leaf].Body.(control.Contact); ok {
					fl.calls = append(fl.calls, rowCall{leaf: leaf, part: k.Part, kind: c.s.kindOf(br.Floor, k.Part)})
				}
			}
		case br.From == control.Row(br.Floor) && br.To == control.UpLine:
			fl.above = c.starts[b]
		case br.From == control.Row(br.Floor) && br.To == control.DownLine:
			fl.below = c.starts[b]
		}
	}
}

// flow notes where current flows.
func (c *circuitPicture) flow(v *lift.View) {
	for i := range c.live {
		c.live[i] = i < len(v.Amperes) && math.Abs(v.Amperes[i]) > liveA
	}
}

// any reports whether any leaf from a up to b carries current.
func (c *circuitPicture) any(a, b int) bool {
	for i := a; i < b; i++ {
		if c.live[i] {
			return true
		}
	}
	return false
}

func (c *circuitPicture) carries(leaf int) bool { return leaf >= 0 && c.live[leaf] }

// closed reports whether a contact is closed.
func (c *circuitPicture) closed(v *lift.View, leaf int) bool {
	return leaf < len(v.Contacts) && v.Contacts[leaf]
}

// wire is the style of a live wire of a way, or of a dead one.
func (c *circuitPicture) wire(w way, live bool) figure.Style {
	k := &c.s.ink
	if !live {
		return figure.Style{Stroke: solid(figure.Muted), Width: k.dead}
	}
	switch w {
	case upWay:
		return figure.Style{Stroke: solid(figure.Up), Width: k.live}
	case downWay:
		return figure.Style{Stroke: solid(figure.Down), Width: k.live, Dash: figure.Dashed}
	}
	return figure.Style{Stroke: solid(figure.Ink), Width: k.live * 0.85}
}

// joint is a dot where wires join: round on the up line, square on the down
// line.
func (c *circuitPicture) joint(f *figure.Figure, x, y float64, w way, live bool) {
	d := c.s.ink.dead * 1.5
	fill := solid(figure.Ink)
	if live {
		d = c.s.ink.live * 1.15
		switch w {
		case upWay:
			fill = solid(figure.Up)
		case downWay:
			fill = solid(figure.Down)
		}
	}
	if w == downWay {
		f.Box(plain(fill), x-d, y-d, x+d, y+d, 0)
		return
	}
	f.Circle(plain(fill), x, y, d*1.08)
}

// hop draws a wire along y from x0 to x1 that hops over the places given,
// which lie between them in rising order.
func hop(f *figure.Figure, st figure.Style, x0, x1, y, r float64, over ...float64) {
	f.Polyline(st)
	f.To(x0, y)
	for _, x := range over {
		if x-r <= x0 || x+r >= x1 {
			continue
		}
		const n = 8
		for i := 0; i <= n; i++ {
			sin, cos := math.Sincos(math.Pi * float64(i) / n)
			f.To(x-r*cos, y-r*sin)
		}
	}
	f.To(x1, y)
}

// draw is all that stands still.
func (c *circuitPicture) draw(f *figure.Figure) {
	c.drawRails(f)
	if !c.s.floors.windowed {
		for fl := range c.floor {
			c.drawRow(f, fl, c.s.rowY(c.s.floors.y(c.s.plan.Floors[fl].HeightM, 0)), 1)
		}
	}
	c.drawLadder(f)
}

// follow moves the places of the rows.
func (c *circuitPicture) follow(v *lift.View) {
	for fl := range c.floor {
		y := c.s.floors.y(c.s.plan.Floors[fl].HeightM, v.CarM)
		c.followRow(fl, c.s.rowY(y), c.s.floors.shown(y) < 0.5)
	}
}

// move draws current, blades and coils.
func (c *circuitPicture) move(f *figure.Figure, v *lift.View) {
	c.flow(v)
	g := c.s.floors
	first := len(f.Items)
	if g.windowed {
		for fl := range c.floor {
			y := g.y(c.s.plan.Floors[fl].HeightM, v.CarM)
			if a := g.shown(y); a > 0 {
				c.drawRow(f, fl, c.s.rowY(y), a)
			}
		}
	}
	c.moveLines(f, v)
	for fl := range c.floor {
		y := g.y(c.s.plan.Floors[fl].HeightM, v.CarM)
		if a := g.shown(y); a > 0 {
			c.moveRow(f, v, fl, c.s.rowY(y), a)
		}
	}
	if g.windowed {
		glide(f, first)
	}
	c.moveLadder(f, v)
}
