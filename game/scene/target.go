package scene

import (
	"math"
	"strings"

	"wheelroom/game/figure"
)

// A target is one place at which a part is seen. A part may be seen at many:
// the first is its own, the others are its twins.
type target struct {
	part string
	box  rect
	off  bool // out of the window just now
	disc bool // it is round: pointed out by a circle
}

// targets are all places, in reading order: shaft, wheel, circuit, chart, and
// in each from the top down.
type targets struct {
	list  []target
	first map[string]int // look-up only
	order []string       // parts, in reading order, each once
}

// add notes a place and returns its index, by which it can be moved.
func (t *targets) add(part string, box rect) int {
	if t.first == nil {
		t.first = map[string]int{}
	}
	if _, ok := t.first[part]; !ok {
		t.first[part] = len(t.list)
		t.order = append(t.order, part)
	}
	t.list = append(t.list, target{part: part, box: box})
	return len(t.list) - 1
}

// move puts a place elsewhere; off hides it.
func (t *targets) move(i int, box rect, off bool) { t.list[i].box, t.list[i].off = box, off }

// discShare is the half side of a round part's box to its radius: the box stays
// clear of what stands round it.
const discShare = 0.86

// leastTarget is the least size of a place one can point at, logical units.
const leastTarget = 24

// At returns the part under a point, "" for none. Of several the smallest is
// meant; a small part may be missed by a little.
func (s *Scene) At(x, y float64) string {
	best, least := "", math.Inf(1)
	for i := range s.targets.list {
		t := &s.targets.list[i]
		if t.off {
			continue
		}
		b := t.box
		grownX, grownY := max(0, (leastTarget-b.w())/2), max(0, (leastTarget-b.h())/2)
		g := rect{b.x0 - grownX, b.y0 - grownY, b.x1 + grownX, b.y1 + grownY}
		if !g.has(x, y) {
			continue
		}
		// Inside the part itself its size decides; in the margin, how far off.
		score := b.w() * b.h()
		if !b.has(x, y) {
			dx, dy := max(b.x0-x, x-b.x1, 0), max(b.y0-y, y-b.y1, 0)
			score = 1e6 + math.Hypot(dx, dy)
		}
		if score < least {
			best, least = t.part, score
		}
	}
	return best
}

// Parts returns every part shown, in reading order, each once.
func (s *Scene) Parts() []string { return s.targets.order }

// Box returns where a part is, and whether it is shown at this instant. A part
// seen at several places is where it was shown first.
func (s *Scene) Box(part string) (x0, y0, x1, y1 float64, ok bool) {
	i, ok := s.targets.first[part]
	if !ok {
		return 0, 0, 0, 0, false
	}
	for ; i < len(s.targets.list); i++ {
		if t := &s.targets.list[i]; t.part == part && !t.off {
			return t.box.x0, t.box.y0, t.box.x1, t.box.y1, true
		}
	}
	return 0, 0, 0, 0, false
}

// floorKinds are the kinds of part that one floor has; they are twins. Calls
// and buttons come in several kinds and are known by how they begin.
var floorKinds = map[string]bool{
	"lamp": true, "rim": true, "advance-up": true, "advance-down": true, "direction": true,
	"landing": true, "vane": true, "row": true,
}

func ofFloor(kind string) bool {
	return floorKinds[kind] || strings.HasPrefix(kind, "call") || strings.HasPrefix(kind, "button")
}

// twins reports whether two parts are the same thing seen twice, or belong to
// the same floor.
func twins(a, b string) bool {
	if a == b {
		return true
	}
	ka, fa, oka := strings.Cut(a, ".")
	kb, fb, okb := strings.Cut(b, ".")
	return oka && okb && fa == fb && ofFloor(ka) && ofFloor(kb)
}

// pointOut lays a shade under the chosen part and, lighter, under its twins,
// and rings the chosen part itself.
func (s *Scene) pointOut(f *figure.Figure) {
	if s.chosen == "" {
		return
	}
	u := s.ink.u
	for i := range s.targets.list {
		t := &s.targets.list[i]
		if t.off || !twins(s.chosen, t.part) {
			continue
		}
		st := plain(sheer(figure.Ink, 0.10))
		if t.part == s.chosen {
			st = figure.Style{Fill: sheer(figure.Ink, 0.16), Stroke: solid(figure.Ink), Width: s.ink.line}
		}
		b := t.box.inset(-1.6 * u)
		if t.disc {
			r := b.w() / 2 / discShare
			f.Circle(figure.Style{Stroke: solid(figure.Ink), Width: s.ink.bold * 1.6}, b.cx(), b.cy(), r).Part = t.part
			continue
		}
		f.Box(st, b.x0, b.y0, b.x1, b.y1, 3.5*u).Part = t.part
	}
}
