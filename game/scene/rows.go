package scene

import (
	"math"

	"wheelroom/game/figure"
	"wheelroom/physics/lift"
)

// rowColumns are the places across of a row, and the ends of its rails.
type rowColumns struct {
	plus        float64
	in, out     float64 // call contact
	pivot, tip  float64 // direction switch
	up, down    float64 // the lines
	split       float64 // of the switch's two contacts, from the row's middle
	hop         float64 // radius
	most        float64 // height of an open blade
	top, bottom float64
	topUp       float64 // where the lines begin: level with the coils that watch them
	topDown     float64
	words       struct {
		call, floor []string
		wide        float64 // of the longest floor, in ems
	}
	spots struct{ call, direction []int }
}

// drawRow is the still part of floor fl's row at y: its wires as if dead, its
// fixed contacts, and its name.
func (c *circuitPicture) drawRow(f *figure.Figure, fl int, y, shown float64) {
	k := &c.s.ink
	r := &c.rows
	a := shown
	if a >= 1 {
		a = 0
	}
	fade := func(role figure.Role) figure.Paint { return figure.Paint{Role: role, Alpha: a} }
	dead := figure.Style{Stroke: fade(figure.Muted), Width: k.dead}
	first := len(f.Items)
	f.Line(dead, r.plus, y, r.in, y)
	f.Line(dead, r.out, y, r.pivot, y)
	f.Mark(first, c.s.parts.call[fl])
	first = len(f.Items)
	f.Line(dead, r.tip, y-r.split, r.up, y-r.split)
	hop(f, dead, r.tip, r.down, y+r.split, r.hop, r.up)
	f.Mark(first, c.s.parts.direction[fl])
	f.Circle(plain(fade(figure.Ink)), r.plus, y, k.dead*1.5)
	f.Circle(plain(fade(figure.Ink)), r.up, y-r.split, k.dead*1.62)
	d := k.dead * 1.5
	f.Box(plain(fade(figure.Ink)), r.down-d, y+r.split-d, r.down+d, y+r.split+d, 0)
	// The name stands before the contact; large type over it, clear of its blade.
	em := k.t
	if k.lecture {
		f.Text(fade(figure.Ink), figure.Face{Size: em, Align: figure.Middle}, (r.in+r.out)/2, y-r.lift()-0.3*em, r.words.call[fl]).Part = c.s.parts.call[fl]
	} else {
		f.Text(fade(figure.Ink), figure.Face{Size: em, Align: figure.End}, r.in-0.45*em, y-0.42*em, r.words.call[fl]).Part = c.s.parts.call[fl]
	}
}

// lift is how high the open blade of a call contact stands over its row.
func (r *rowColumns) lift() float64 { return min((r.out-r.in)*0.42, r.most) }

// moveLines lays the current on the two lines.
func (c *circuitPicture) moveLines(f *figure.Figure, v *lift.View) {
	r := &c.rows
	c.moveLine(f, v, upWay, "relay.up-line", r.up, -r.split, r.topUp, c.tailUp, c.monitorUp, upRail)
	c.moveLine(f, v, downWay, "relay.down-line", r.down, r.split, r.topDown, c.tailDown, c.monitorDown, downRail)
}

// moveLine lays current on one line at x: up from the calls that feed it to
// the coil that watches it, and down to what hangs on its rail. Calls outside
// the window feed it at the window's edge.
func (c *circuitPicture) moveLine(f *figure.Figure, v *lift.View, w way, part string, x, split, top, bottom float64, monitor, rail int) {
	high, low := math.Inf(1), math.Inf(-1)
	for fl := range c.floor {
		leaf := c.floor[fl].above
		if w == downWay {
			leaf = c.floor[fl].below
		}
		if !c.carries(leaf) {
			continue
		}
		y := clamp(c.s.rowY(c.s.floors.y(c.s.plan.Floors[fl].HeightM, v.CarM))+split, c.head(split), c.tailUp)
		high, low = min(high, y), max(low, y)
	}
	if high > low {
		return
	}
	col := &c.columns[0]
	st := c.wire(w, true)
	tail := c.taps(col, rail)
	if c.carries(monitor) {
		high, low = min(high, top), max(low, top)
	}
	if tail {
		low = bottom
	}
	if high < low {
		f.Line(st, x, high, x, low).Part = part
	}
	if tail {
		f.Line(st, x, bottom, col.rails[rail].x, bottom).Part = part
	}
}

// head is the highest place at which a row can meet a line.
func (c *circuitPicture) head(split float64) float64 {
	g := c.s.floors
	y := g.top
	if g.windowed {
		y -= g.pitch * windowFade
	}
	return max(c.rows.top, c.s.rowY(y)+split)
}

// taps reports whether current leaves a column's rail anywhere.
func (c *circuitPicture) taps(col *column, rail int) bool {
	for _, rg := range col.rungs {
		for i := range rg.taps {
			if b := &rg.taps[i].body; rg.taps[i].rail == rail && c.any(b.leaf, b.end) {
				return true
			}
		}
	}
	return false
}

// moveRow lays current on a row and sets its blades.
func (c *circuitPicture) moveRow(f *figure.Figure, v *lift.View, fl int, y, shown float64) {
	k := &c.s.ink
	r := &c.rows
	l := &c.floor[fl]
	a := shown
	if a >= 1 {
		a = 0
	}
	w := neither
	switch {
	case c.carries(l.above):
		w = upWay
	case c.carries(l.below):
		w = downWay
	}
	fade := func(st figure.Style) figure.Style {
		st.Stroke.Alpha = a
		return st
	}
	live := c.carries(l.call)
	wire := fade(c.wire(w, live))
	first := len(f.Items)
	if live {
		f.Line(wire, r.plus, y, r.in, y)
		f.Line(wire, r.out, y, r.pivot, y)
	}
	blade := figure.Style{Stroke: figure.Paint{Role: figure.Ink, Alpha: a}, Width: k.line * 1.15, Round: true}
	if live {
		blade = wire
		blade.Dash = figure.Solid
	}
	called := l.call >= 0 && c.closed(v, l.call)
	if called {
		f.Line(blade, r.in, y, r.out, y)
	} else {
		f.Line(blade, r.in, y, lerp(r.in, r.out, 0.93), y-r.lift())
	}
	ends := figure.Paint{Role: figure.Ink, Alpha: a}
	if live {
		ends = wire.Stroke
		c.joint(f, r.plus, y, neither, false)
	}
	c.terminal(f, r.in, y, ends, live)
	c.terminal(f, r.out, y, ends, live)
	f.Mark(first, c.s.parts.call[fl])
	// The direction switch.
	first = len(f.Items)
	stand := lift.Between
	if fl < len(v.Direction) {
		stand = v.Direction[fl]
	}
	dy := 0.0
	switch stand {
	case lift.Above:
		dy = -r.split
	case lift.Below:
		dy = r.split
	}
	f.Line(blade, r.pivot, y, lerp(r.pivot, r.tip, 0.97), y+dy)
	if w == upWay {
		f.Line(wire, r.tip, y-r.split, r.up, y-r.split)
		c.joint(f, r.up, y-r.split, upWay, true)
	}
	if w != downWay {
		// The wire to the down line passes before the up line, also while that
		// is live and was drawn over it.
		dead := fade(c.wire(neither, false))
		hop(f, dead, r.up-r.hop-1, r.up+r.hop+1, y+r.split, r.hop, r.up)
	}
	if w == downWay {
		hop(f, wire, r.tip, r.down, y+r.split, r.hop, r.up)
		c.joint(f, r.down, y+r.split, downWay, true)
	}
	ink := figure.Paint{Role: figure.Ink, Alpha: a}
	c.terminal(f, r.pivot, y, ends, live)
	for _, o := range [...]struct {
		y  float64
		on bool
	}{{y - r.split, w == upWay}, {y + r.split, w == downWay}} {
		if o.on {
			c.terminal(f, r.tip, o.y, ends, true)
		} else {
			c.terminal(f, r.tip, o.y, ink, false)
		}
	}
	f.Mark(first, c.s.parts.direction[fl])
	if called {
		// The sign of a registered call, as at the landing.
		x, d := r.plus-13*k.u, min(5*k.u, c.s.floors.pitch*0.3)
		f.Circle(figure.Style{Stroke: figure.Paint{Role: figure.Call, Alpha: a}, Width: d * 0.42}, x, y, d)
		f.Circle(plain(figure.Paint{Role: figure.Call, Alpha: a}), x, y, d*0.36)
		f.Items[len(f.Items)-1].Part, f.Items[len(f.Items)-2].Part = c.s.parts.call[fl], c.s.parts.call[fl]
	}
}

// followRow moves the targets of a row.
func (c *circuitPicture) followRow(fl int, y float64, off bool) {
	k, r, t := &c.s.ink, &c.rows, &c.s.targets
	t.move(r.spots.call[fl], rect{r.plus + 4*k.u, y - max(r.lift(), 1.2*k.t), r.out + 4*k.u, y + 4*k.u}, off)
	t.move(r.spots.direction[fl], rect{r.pivot - 3*k.u, y - r.split - 3*k.u, r.tip + 3*k.u, y + r.split + 3*k.u}, off)
}
