package figure

import "math"

// A Thinner leaves points out of lines. It keeps its storage from one line to
// the next; the zero value is ready.
type Thinner struct {
	keep []bool
	open []span
}

// A span is a stretch of a line between two points that stay.
type span struct{ a, b int }

// Thin leaves out the points of a line that lie within a distance of the line
// through those kept: the method of Douglas and Peucker. It works in place and
// returns what is left.
func (t *Thinner) Thin(line []Point, near float64) []Point {
	if len(line) < 3 {
		return line
	}
	t.keep = append(t.keep[:0], make([]bool, len(line))...)
	t.keep[0], t.keep[len(line)-1] = true, true
	for t.open = append(t.open[:0], span{0, len(line) - 1}); len(t.open) > 0; {
		s := t.open[len(t.open)-1]
		t.open = t.open[:len(t.open)-1]
		far, at := near, -1
		for i := s.a + 1; i < s.b; i++ {
			if off := line[i].toChord(line[s.a], line[s.b]); off > far {
				far, at = off, i
			}
		}
		if at >= 0 {
			t.keep[at] = true
			t.open = append(t.open, span{s.a, at}, span{at, s.b})
		}
	}
	n := 0
	for i, k := range t.keep {
		if k {
			line[n] = line[i]
			n++
		}
	}
	return line[:n]
}

// toChord returns how far p is from the line between a and b.
func (p Point) toChord(a, b Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	l := dx*dx + dy*dy
	if l == 0 {
		return math.Hypot(p.X-a.X, p.Y-a.Y)
	}
	t := max(0, min(1, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/l))
	return math.Hypot(p.X-a.X-t*dx, p.Y-a.Y-t*dy)
}
