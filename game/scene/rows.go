package scene

import (
	"math"

	"wheelroom/game/figure"
	"wheelroom/physics/control"
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
	apart       float64 // of call contacts side by side
	top, bottom float64
	topUp       float64 // where the lines begin: level with the coils that watch them
	topDown     float64
	words       struct {
		call, floor []string
		wide        float64 // of the longest floor, in ems
		em          float64 // of the calls
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
	n := len(c.floor[fl].calls)
	for i := range c.floor[fl].calls {
		in, out, at := c.callAt(fl, i)
		if n > 1 {
			f.Line(dead, r.in, y, r.in, y+at)
			f.Line(dead, r.out, y, r.out, y+at)
			f.Line(dead, r.in, y+at, in, y+at)
			f.Line(dead, out, y+at, r.out, y+at)
			c.s.kindMark(f, c.floor[fl].calls[i].kind, (r.in+in)/2, y+at, 2.6*k.u, fade(figure.Ink))
		}
	}
	f.Mark(first, c.s.parts.call[fl])
	first = len(f.Items)
	f.Line(dead, r.tip, y-r.split, r.up, y-r.split)
	hop(f, dead, r.tip, r.down, y+r.split, r.hop, r.up)
	f.Mark(first, c.s.parts.direction[fl])
	f.Circle(plain(fade(figure.Ink)), r.plus, y, k.dead*1.5)
	if c.joins(upWay, y-r.split) {
		f.Circle(plain(fade(figure.Ink)), r.up, y-r.split, k.dead*1.62)
	}
	if d := k.dead * 1.5; c.joins(downWay, y+r.split) {
		f.Box(plain(fade(figure.Ink)), r.down-d, y+r.split-d, r.down+d, y+r.split+d, 0)
	}
	// The name stands before the contact; large type over it, clear of its blade.
	em := r.words.em
	if k.lecture {
		f.Text(fade(figure.Ink), figure.Face{Size: em, Align: figure.Middle}, (r.in+r.out)/2, y-c.overCalls(fl)-0.3*em, r.words.call[fl]).Part = c.s.parts.call[fl]
	} else {
		f.Text(fade(figure.Ink), figure.Face{Size: em, Align: figure.End}, r.in-0.45*em, y-0.42*em, r.words.call[fl]).Part = c.s.parts.call[fl]
	}
}

// joins reports whether a line goes on over the place where a row meets it, or
// the wire to the coil that watches it leaves there: else there is a corner,
// and no dot.
func (c *circuitPicture) joins(w way, y float64) bool {
	coil, at := c.monitorUp, c.rows.topUp
	if w == downWay {
		coil, at = c.monitorDown, c.rows.topDown
	}
	return c.lineTop(w) < y-1 || coil >= 0 && math.Abs(at-y) <= 1
}

// callAt is where the i-th call contact of a floor's row is: from in to out,
// at from the row's middle.
func (c *circuitPicture) callAt(fl, i int) (in, out, at float64) {
	r, u := &c.rows, c.s.ink.u
	n := len(c.floor[fl].calls)
	if n < 2 {
		return r.in, r.out, 0
	}
	return r.in + 11*u, r.out - 3*u, (float64(i) - float64(n-1)/2) * r.apart
}

// blade is how high the open blade of a call contact stands over it.
func (c *circuitPicture) blade(fl int) float64 {
	if len(c.floor[fl].calls) > 1 {
		return 0.55 * c.rows.apart
	}
	return min((c.rows.out-c.rows.in)*0.42, c.rows.most)
}

// overCalls is how far a row's call contacts reach over its middle.
func (c *circuitPicture) overCalls(fl int) float64 {
	return c.blade(fl) + float64(max(len(c.floor[fl].calls), 1)-1)/2*c.rows.apart
}

// kindMark is the sign of a kind of call: which way one wants to go, or a
// square for a call from the car.
func (s *Scene) kindMark(f *figure.Figure, kind control.CallKind, x, y, d float64, ink figure.Paint) {
	switch kind {
	case control.UpCall:
		f.Polygon(plain(ink), pt(x, y-d), pt(x+d, y+0.8*d), pt(x-d, y+0.8*d))
	case control.DownCall:
		f.Polygon(plain(ink), pt(x, y+d), pt(x+d, y-0.8*d), pt(x-d, y-0.8*d))
	case control.CarCall:
		f.Box(plain(ink), x-0.8*d, y-0.8*d, x+0.8*d, y+0.8*d, 0)
	default:
		f.Circle(plain(ink), x, y, d)
	}
}

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
	live, called := false, false
	for i := range l.calls {
		live = live || c.carries(l.calls[i].leaf)
		called = called || c.closed(v, l.calls[i].leaf)
	}
	wire := fade(c.wire(w, live))
	first := len(f.Items)
	if live {
		f.Line(wire, r.plus, y, r.in, y)
		f.Line(wire, r.out, y, r.pivot, y)
		c.joint(f, r.plus, y, neither, false)
	}
	blade := figure.Style{Stroke: figure.Paint{Role: figure.Ink, Alpha: a}, Width: k.line * 1.15, Round: true}
	for i := range l.calls {
		c.moveCall(f, v, fl, i, y, fade(c.wire(w, c.carries(l.calls[i].leaf))), blade)
	}
	if live {
		blade = wire
		blade.Dash = figure.Solid
	}
	ends := figure.Paint{Role: figure.Ink, Alpha: a}
	if live {
		ends = wire.Stroke
	}
	for i := first; i < len(f.Items); i++ {
		if f.Items[i].Part == "" {
			f.Items[i].Part = c.s.parts.call[fl]
		}
	}
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
		if c.joins(upWay, y-r.split) {
			c.joint(f, r.up, y-r.split, upWay, true)
		}
	}
	if w != downWay {
		// The wire to the down line passes before the up line, also while that
		// is live and was drawn over it.
		dead := fade(c.wire(neither, false))
		hop(f, dead, r.up-r.hop-1, r.up+r.hop+1, y+r.split, r.hop, r.up)
	}
	if w == downWay {
		hop(f, wire, r.tip, r.down, y+r.split, r.hop, r.up)
		if c.joins(downWay, y+r.split) {
			c.joint(f, r.down, y+r.split, downWay, true)
		}
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

// moveCall sets the blade of one call contact of a row and lays current on it.
func (c *circuitPicture) moveCall(f *figure.Figure, v *lift.View, fl, i int, y float64, wire, blade figure.Style) {
	k, r := &c.s.ink, &c.rows
	l := &c.floor[fl].calls[i]
	in, out, at := c.callAt(fl, i)
	y0, y := y, y+at
	first := len(f.Items)
	live := c.carries(l.leaf)
	ends := blade.Stroke
	if live {
		if at != 0 {
			f.Line(wire, r.in, y0, r.in, y)
			f.Line(wire, r.out, y, r.out, y0)
		}
		if in != r.in {
			f.Line(wire, r.in, y, in, y)
			f.Line(wire, out, y, r.out, y)
			c.s.kindMark(f, l.kind, (r.in+in)/2, y, 2.6*k.u, blade.Stroke)
		}
		blade = wire
		blade.Dash, ends = figure.Solid, wire.Stroke
	}
	if c.closed(v, l.leaf) {
		f.Line(blade, in, y, out, y)
	} else {
		f.Line(blade, in, y, lerp(in, out, 0.93), y-c.blade(fl))
	}
	c.terminal(f, in, y, ends, live)
	c.terminal(f, out, y, ends, live)
	f.Mark(first, l.part)
}

// followRow moves the targets of a row.
func (c *circuitPicture) followRow(fl int, y float64, off bool) {
	k, r, t := &c.s.ink, &c.rows, &c.s.targets
	t.move(r.spots.call[fl], rect{r.plus + 4*k.u, y - max(c.overCalls(fl), 1.2*k.t), r.out + 4*k.u, y + max(4*k.u, c.overCalls(fl))}, off)
	t.move(r.spots.direction[fl], rect{r.pivot - 3*k.u, y - r.split - 3*k.u, r.tip + 3*k.u, y + r.split + 3*k.u}, off)
}
