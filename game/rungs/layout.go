package rungs

import (
	"wheelroom/game/figure"
	"wheelroom/physics/control"
	"wheelroom/physics/relay"
)

// A piece is a contact, a coil or a lamp, or pieces behind or beside one
// another; leaves leaf to end-1 lie in it.
type piece struct {
	kind        kind
	leaf, end   int
	kids        []piece
	w, up, down float64
	breaks      bool
	label       string
}

type kind uint8

const (
	contact kind = iota
	coil
	lamp
	series
	parallel
)

// build makes the piece of a body whose first leaf is *leaf, and gives it its
// room.
func (s *Sheet) build(b control.Body, leaf *int) piece {
	p := piece{leaf: *leaf}
	switch b := b.(type) {
	case control.Contact:
		p.kind, p.breaks = contact, b.Breaks
		p.label = s.Label(*leaf)
		*leaf++
		p.w = max(2*reach+34, figure.Measure(p.label, em, false)+14)
		p.up, p.down = reach+1.35*em, 0.8*reach
	case control.Coil, control.Lamp:
		p.kind = coil
		if _, is := b.(control.Lamp); is {
			p.kind = lamp
		}
		p.label = s.Label(*leaf)
		*leaf++
		p.w = figure.Measure(p.label, em, true) + 26
		p.up, p.down = 1.05*em, 1.05*em
		if p.kind == lamp {
			p.w, p.up = figure.Measure(p.label, em, false)+14, reach+1.35*em
		}
	case control.Series:
		p.kind = series
		for _, part := range b {
			kid := s.build(part, leaf)
			p.kids = append(p.kids, kid)
			p.w += kid.w
			p.up, p.down = max(p.up, kid.up), max(p.down, kid.down)
		}
	case control.Parallel:
		p.kind = parallel
		for i, part := range b {
			kid := s.build(part, leaf)
			p.kids = append(p.kids, kid)
			p.w = max(p.w, kid.w)
			if i == 0 {
				p.up, p.down = kid.up, kid.down
			} else {
				p.down += kid.up + kid.down
			}
		}
		p.w += 2 * lead
	}
	p.end = *leaf
	if (p.kind == series || p.kind == parallel) && len(p.kids) == 1 {
		return p.kids[0]
	}
	return p
}

// lay puts the lines under one another.
func (s *Sheet) lay(o Options) {
	d := s.wiring.Diagram
	leaf := 0
	left, right := 0.0, 0.0
	for b := range d.Branches {
		br := &d.Branches[b]
		l := line{branch: b, body: s.build(br.Body, &leaf), from: s.busName(br.From), to: s.busName(br.To),
			start: s.wiring.Node(br.From), end: s.wiring.Node(br.To)}
		if o.Floor >= 0 && br.Floor >= 0 && br.Floor != o.Floor {
			continue
		}
		s.lines = append(s.lines, l)
		left, right = max(left, figure.Measure(l.from, em, false)), max(right, figure.Measure(l.to, em, false))
	}
	left, right = number+left+gap, right+gap+4
	room := max(o.Width-left-right, 220)
	// A line folds between pieces in series only; the widest piece decides.
	for i := range s.lines {
		room = max(room, widest(&s.lines[i].body))
	}
	s.x0, s.x1 = left, left+room
	s.size.x = s.x1 + right
	y := 0.6 * em
	for i := range s.lines {
		y = s.stand(&s.lines[i], y, room) + apart
	}
	s.size.y = y
}

// widest is the width of the widest piece at which a line cannot fold.
func widest(p *piece) float64 {
	if p.kind != series {
		return p.w
	}
	w := 0.0
	for i := range p.kids {
		w = max(w, p.kids[i].w)
	}
	return w
}

// stand folds a line into its room, places it from y down, and returns where
// it ends.
func (s *Sheet) stand(l *line, y, room float64) float64 {
	kids := []piece{l.body}
	if l.body.kind == series {
		kids = l.body.kids
	}
	for len(kids) > 0 {
		n, w := 0, 0.0
		for n < len(kids) && (n == 0 || w+kids[n].w <= room) {
			w += kids[n].w
			n++
		}
		l.folds = append(l.folds, kids[:n:n])
		kids = kids[n:]
	}
	x0, x1 := s.x0, s.x1
	for i, fold := range l.folds {
		up, down := 0.6*em, 0.6*em
		for k := range fold {
			up, down = max(up, fold[k].up), max(down, fold[k].down)
		}
		if i > 0 {
			y += wrap
		}
		y += up
		l.parts = append(l.parts, y)
		s.place(fold, x0, x1, y)
		y += down
	}
	s.spot(l.start, x0, l.parts[0])
	s.spot(l.end, x1, l.parts[len(l.parts)-1])
	return y
}

// place gives pieces in series between two places on an axis the places of
// their leaves and joints. What ends a line stands at its end.
func (s *Sheet) place(kids []piece, x0, x1, y float64) {
	x := x0
	for i := range kids {
		k := &kids[i]
		if last := i == len(kids)-1; last && (k.kind == coil || k.kind == lamp) {
			x = x1 - k.w
		}
		s.placePiece(k, x, x+k.w, y)
		x += k.w
	}
}

func (s *Sheet) placePiece(p *piece, x0, x1, y float64) {
	switch p.kind {
	case series:
		s.place(p.kids, x0, x1, y)
	case parallel:
		at := y
		for i := range p.kids {
			s.placePiece(&p.kids[i], x0+lead, x1-lead, at)
			if i+1 < len(p.kids) {
				at += p.kids[i].down + p.kids[i+1].up
			}
		}
	default:
		mid := x0 + p.w/2
		s.boxes[p.leaf] = rect{mid - p.w/2 + 2, y - p.up + 2, mid + p.w/2 - 2, y + p.down}
		s.axes[p.leaf] = y
		b := s.boxes[p.leaf]
		s.spots = append(s.spots, Spot{Leaf: p.leaf, Node: -1, X0: b.x0, Y0: b.y0, X1: b.x1, Y1: b.y1})
		l := &s.wiring.Leaves[p.leaf]
		s.spot(l.From, x0, y)
		s.spot(l.To, x0+p.w, y)
	}
}

// spot notes a place of a node.
func (s *Sheet) spot(n relay.Node, x, y float64) {
	const d = 7
	if _, known := s.joints[n]; !known {
		s.joints[n] = point{x, y}
	}
	s.spots = append(s.spots, Spot{Leaf: -1, Node: int(n), X0: x - d, Y0: y - d, X1: x + d, Y1: y + d})
}
