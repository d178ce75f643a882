package scene

import (
	"slices"

	"wheelroom/game/figure"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

// ladder is the part of the circuit beneath or beside the rows: rungs between
// rails, laid out from the diagram.
type ladder struct {
	columns  []column
	em       float64 // of its labels
	wide     float64 // of the first column's rungs
	named    bool    // contacts bear their names
	minus    float64 // right rail of the first column
	strip    []coilBox
	coilLeaf []int // by coil
}

// A column is a stack of rungs with its rails.
type column struct {
	x0, x1      float64 // from where the rungs begin to the minus rail
	top, bottom float64
	rails       [4]rail
	rungs       []*rung
	feeds       bool // it has the safety line
}

// rail is a vertical conductor at the left of a column.
type rail struct {
	bus    control.Bus
	x      float64
	y0, y1 float64 // from its source to its last tap; y1 < y0 where unused
	way    way
}

// The rails of a column, from the left.
const (
	plusRail = iota
	upRail
	downRail
	safeRail
	minusRail // at the right
)

var railBuses = [4]control.Bus{control.Plus, control.UpLine, control.DownLine, control.Safe}

// A rung is one coil with all that leads to it, or the safety line.
type rung struct {
	taps  []tap // what comes from the rails and meets
	tail  *node // what follows the meeting; nil where the only tap goes to the end
	to    control.Bus
	way   way
	y     float64 // axis of its first tap
	up, h float64 // room above that axis, and in all
	meet  float64 // where the taps meet
	w     float64
	floor bool      // drawn for one floor, standing for all
	bare  bool      // its contacts bear no names; the rung has one
	more  []node    // what of the safety line goes on in further lines
	moreY []float64 // their axes
	name  string
}

// A tap is a piece that hangs on a rail.
type tap struct {
	rail int
	body node
	y    float64
}

// coilBox is a coil shown alone, without its branch.
type coilBox struct {
	part string
	coil int
	name string
	em   float64 // of its name
	box  rect
	way  way
	line float64 // where the line is on which it hangs; 0 where its branch is left out
}

// measure gives a node its room.
func (c *circuitPicture) measure(n *node) {
	for i := range n.kids {
		c.measure(&n.kids[i])
	}
	k, g, p := &c.s.ink, c.reach(), c.branching()
	switch n.kind {
	case contactNode:
		n.w, n.up, n.down = 2*g+5*k.u, 0.9*g+1.5*k.u, 0.72*g+1.5*k.u
		if k.lecture {
			n.w += 3 * k.u
		}
		n.label = ""
		if c.named && !n.bare {
			n.label = c.s.label(n.part)
			n.w = max(n.w, figure.Measure(n.label, c.em, false)+0.75*c.em)
			n.up = c.over() + 1.0*c.em
		}
	case coilNode:
		n.label = c.s.label(n.part)
		n.w = figure.Measure(n.label, c.em, true) + 1.3*c.em + 8*k.u
		n.up, n.down = 0.78*c.em+2.5*k.u, 0.78*c.em+2.5*k.u
	case lampNode:
		n.label = c.s.label(n.part)
		n.w = figure.Measure(n.label, c.em, false) + 2.6*c.em
		n.up, n.down = 1.3*c.em, 0.75*c.em
	case seriesNode:
		n.w, n.up, n.down = 0, 0, 0
		for i := range n.kids {
			n.w += n.kids[i].w
			n.up, n.down = max(n.up, n.kids[i].up), max(n.down, n.kids[i].down)
		}
	case parallelNode:
		n.w, n.up, n.down = n.kids[0].w, n.kids[0].up, n.kids[0].down
		for i := 1; i < len(n.kids); i++ {
			n.w = max(n.w, n.kids[i].w)
			n.down += n.kids[i].up + n.kids[i].down
		}
		n.w += 2 * p
	case chainNode:
		n.w, n.up, n.down = 2*g+9*k.u, 0.9*g+1.5*k.u, 0.72*g+1.5*k.u
		n.label = ""
		if c.named && !n.bare {
			n.label = c.s.say("scene.chain-" + n.part)
			n.w = max(n.w, figure.Measure(n.label, c.em, false)+0.75*c.em)
			n.up = c.over() + 1.0*c.em
		}
	case bankNode:
		n.w, n.up, n.down = 0, 0, 0
		for i := range n.kids {
			kid := &n.kids[i]
			n.w, n.up, n.down = max(n.w, kid.w), max(n.up, kid.up), max(n.down, kid.down)
		}
		n.w, n.up, n.down = n.w+2*p, n.up+2*k.u, n.down+2*k.u+1.15*c.em
		n.w = max(n.w, c.rows.words.wide*c.em+1.2*c.em+p)
	}
}

// over is how high the base line of a contact's name lies over its axis.
func (c *circuitPicture) over() float64 { return 0.85*c.reach() + 0.3*c.em }

// branching is the lead before and behind pieces side by side.
func (c *circuitPicture) branching() float64 { return 6 * c.s.ink.u }

// returning is the room of the wire that leads back from the end of the safety
// line.
func (c *circuitPicture) returning() float64 { return c.reach() + 4*c.s.ink.u }

// wrapping is the room of the wire that leads from one line of the safety line
// to the next.
func (c *circuitPicture) wrapping() float64 { return 5 * c.s.ink.u }

// fold breaks a series too long for its column into lines of like length.
func (c *circuitPicture) fold(r *rung) {
	kids := r.taps[0].body.kids
	var breaks []int
	for lines := 2; ; lines++ {
		if breaks = c.broken(kids, lines); breaks != nil {
			break
		}
		if lines > len(kids) {
			return
		}
	}
	b := &r.taps[0].body
	end := b.end
	for i := len(breaks) - 1; i >= 0; i-- {
		first := kids[breaks[i]].leaf
		r.more = append(r.more, node{kind: seriesNode, leaf: first, end: end, kids: kids[breaks[i]:]})
		kids, end = kids[:breaks[i]:breaks[i]], first
	}
	slices.Reverse(r.more)
	b.kids, b.end = kids, end
	c.size(r)
}

// broken returns where so many lines of a series begin, the first left out;
// nil if one would be too long.
func (c *circuitPicture) broken(kids []node, lines int) []int {
	var at []int
	n := (len(kids) + lines - 1) / lines
	for i := 0; i < len(kids); i += n {
		wide := 0.0
		for _, kid := range kids[i:min(i+n, len(kids))] {
			wide += kid.w
		}
		if wide > c.wide-8*c.s.ink.u {
			return nil
		}
		if i > 0 {
			at = append(at, i)
		}
	}
	return at
}

// unname takes the names off a rung's contacts and gives it one of its own.
func (c *circuitPicture) unname(r *rung) {
	b := &r.taps[0].body
	for i := range r.more {
		b.kids, b.end = append(b.kids, r.more[i].kids...), r.more[i].end
	}
	r.more = nil
	strip(&r.taps[0].body)
	r.bare = true
	c.size(r)
	r.taps[0].body.up = c.over() + 1.0*c.em
	r.up, r.h = r.taps[0].body.up, r.h+r.taps[0].body.up-r.up
}

// endY is where the wire from the end of the safety line runs back.
func (c *circuitPicture) endY(r *rung) float64 {
	if n := len(r.more) - 1; n >= 0 {
		return r.moreY[n] + r.more[n].down + c.returning()*0.4
	}
	return r.y + r.taps[0].body.down + c.returning()*0.4
}

// size measures a rung.
func (c *circuitPicture) size(r *rung) {
	r.w, r.up, r.h = 0, 0, 0
	for i := range r.taps {
		b := &r.taps[i].body
		c.measure(b)
		r.w = max(r.w, b.w)
		if i == 0 {
			r.up = b.up
		}
		r.h += b.up + b.down
	}
	if r.tail != nil {
		c.measure(r.tail)
		r.w += r.tail.w + c.branching()
		grow := max(0, r.tail.up-r.up)
		r.up += grow
		r.h += grow
	}
	for i := range r.more {
		c.measure(&r.more[i])
		r.w = max(r.w, r.more[i].w)
		r.h += r.more[i].up + r.more[i].down + c.wrapping()
	}
	if r.to == control.Safe {
		r.h += c.returning()
		r.w += 12 * c.s.ink.u
	}
	r.h += 3 * c.s.ink.u
}

// stand puts a rung at y into its column and returns where the next may begin.
func (c *circuitPicture) stand(col *column, r *rung, top float64) float64 {
	r.y = top + r.up
	y, widest := r.y, 0.0
	for i := range r.taps {
		b := &r.taps[i].body
		if i > 0 {
			y += r.taps[i-1].body.down + b.up
		}
		r.taps[i].y = y
		widest = max(widest, b.w)
	}
	r.meet = col.x0 + widest
	r.moreY = r.moreY[:0]
	at := r.y + r.taps[0].body.down
	for i := range r.more {
		at += c.wrapping() + r.more[i].up
		r.moreY = append(r.moreY, at)
		at += r.more[i].down
	}
	col.rungs = append(col.rungs, r)
	return top + r.h
}

// drawLadder draws what of the rungs stands still.
func (c *circuitPicture) drawLadder(f *figure.Figure) {
	t := tracer{c: c, f: f}
	for i := range c.columns {
		t.column(&c.columns[i])
	}
	c.drawStrip(f)
}

// moveLadder draws current, blades and coils.
func (c *circuitPicture) moveLadder(f *figure.Figure, v *lift.View) {
	c.now = c.shownFloor(v)
	t := tracer{c: c, f: f, v: v}
	for i := range c.columns {
		t.column(&c.columns[i])
	}
	c.moveStrip(f, v)
}

// shownFloor is the floor whose circuits a bank shows: the chosen part's, else
// the one the car is nearest to.
func (c *circuitPicture) shownFloor(v *lift.View) int {
	if fl := c.s.floorOf(c.s.chosen); fl >= 0 {
		return fl
	}
	return clampInt(v.NearFloor, 0, len(c.floor)-1)
}

func clampInt(v, lo, hi int) int { return max(lo, min(hi, v)) }

// reach is half the length of a contact's symbol.
func (c *circuitPicture) reach() float64 {
	if c.s.ink.lecture {
		return 9 * c.s.ink.u
	}
	return min(8.5*c.s.ink.u, 0.85*c.em)
}
