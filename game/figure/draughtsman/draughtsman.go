// Package draughtsman judges the wires of a drawing as a careful one would:
// wires that cross hop, wires that meet have a dot, and a dot is always where
// three of them meet, not at a corner or within a wire, and never at a crossing,
// where one could not tell which it is. It is there for tests.
package draughtsman

import "wheelroom/game/figure"

// Wires are the level and upright pieces of wire in a drawing, and its dots.
type Wires struct {
	Across, Upright [][2]figure.Point
	Dots            []figure.Point
}

// Except tells by their parts of marks that only look like a wire or a dot; nil
// for none.
type Except struct {
	Upright func(part string) bool // upright lines that are no wire
	Dot     func(part string) bool // discs and boxes that are no dot between wires
}

func (e Except) upright(part string) bool { return e.Upright != nil && e.Upright(part) }
func (e Except) dot(part string) bool     { return e.Dot != nil && e.Dot(part) }

// dotMost is more than any dot's radius, and less than any other disc's.
const dotMost = 9.0

// Of takes a drawing apart.
func Of(f *figure.Figure, except Except) *Wires {
	w := &Wires{}
	for i := range f.Items {
		it := &f.Items[i]
		at := f.Of(it)
		inked := it.Style.Stroke.Role == figure.None && it.Style.Fill.Role == figure.Ink && !except.dot(it.Part)
		switch {
		case it.Shape == figure.Line && it.Style.Fill.Role == figure.None:
			for k := 1; k < len(at); k++ {
				level, plumb := close(at[k-1].Y, at[k].Y, 1e-6), close(at[k-1].X, at[k].X, 1e-6)
				if level && !plumb {
					w.Across = append(w.Across, [2]figure.Point{at[k-1], at[k]})
				} else if plumb && !level && !except.upright(it.Part) {
					w.Upright = append(w.Upright, [2]figure.Point{at[k-1], at[k]})
				}
			}
		case it.Shape == figure.Circle && inked && it.Radius < dotMost:
			w.Dots = append(w.Dots, at[0])
		case it.Shape == figure.Box && inked:
			w.Dots = append(w.Dots, figure.Point{X: (at[0].X + at[1].X) / 2, Y: (at[0].Y + at[1].Y) / 2})
		}
	}
	return w
}

func close(a, b, within float64) bool { return a-b < within && b-a < within }

// A Fault is something a careful draughtsman would not accept, and where it is.
type Fault struct {
	What string
	At   figure.Point
}

// Two things meet when they are this near, logical units.
const meets = 0.3

// along tells where v lies on the way from a to b: 0 off it, 1 at an end of it,
// 2 within it.
func along(v, a, b float64) int {
	switch lo, hi := min(a, b), max(a, b); {
	case v < lo-meets || v > hi+meets:
		return 0
	case v < lo+meets || v > hi-meets:
		return 1
	}
	return 2
}

// Judge lists every fault.
func (w *Wires) Judge() (wrong []Fault) {
	dotted := func(p figure.Point) bool {
		for _, d := range w.Dots {
			if close(d.X, p.X, 1) && close(d.Y, p.Y, 1) {
				return true
			}
		}
		return false
	}
	for _, h := range w.Across {
		for _, u := range w.Upright {
			p := figure.Point{X: u[0].X, Y: h[0].Y}
			i, j := along(p.X, h[0].X, h[1].X), along(p.Y, u[0].Y, u[1].Y)
			switch {
			case i == 2 && j == 2 && dotted(p):
				wrong = append(wrong, Fault{"dot at a crossing", p})
			case i == 2 && j == 2:
				wrong = append(wrong, Fault{"crossing without a hop", p})
			case i+j == 3 && !dotted(p):
				wrong = append(wrong, Fault{"joint without dot", p})
			}
		}
	}
	for _, d := range w.Dots {
		if n := w.leave(d); n < 3 {
			wrong = append(wrong, Fault{"dot without joint", d})
		} else if n > 3 {
			wrong = append(wrong, Fault{"dot at a crossing", d})
		}
	}
	return wrong
}

// leave counts the directions in which wires leave a dot, which covers what is
// a unit off.
func (w *Wires) leave(d figure.Point) int {
	left, right, up, down := 0, 0, 0, 0
	for _, h := range w.Across {
		if lo, hi := min(h[0].X, h[1].X), max(h[0].X, h[1].X); close(h[0].Y, d.Y, 1) {
			if lo < d.X-1 && hi > d.X-1 {
				left = 1
			}
			if hi > d.X+1 && lo < d.X+1 {
				right = 1
			}
		}
	}
	for _, u := range w.Upright {
		if lo, hi := min(u[0].Y, u[1].Y), max(u[0].Y, u[1].Y); close(u[0].X, d.X, 1) {
			if lo < d.Y-1 && hi > d.Y-1 {
				up = 1
			}
			if hi > d.Y+1 && lo < d.Y+1 {
				down = 1
			}
		}
	}
	return left + right + up + down
}
