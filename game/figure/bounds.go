package figure

import "math"

// A Rect spans from the top left to the bottom right. One with X1 < X0 is empty.
type Rect struct{ X0, Y0, X1, Y1 float64 }

// nothing is the empty rectangle, to begin a Union with.
var nothing = Rect{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}

// Union returns the smallest rectangle that holds both.
func (r Rect) Union(q Rect) Rect {
	return Rect{min(r.X0, q.X0), min(r.Y0, q.Y0), max(r.X1, q.X1), max(r.Y1, q.Y1)}
}

// Grow moves every side outwards.
func (r Rect) Grow(by float64) Rect {
	return Rect{r.X0 - by, r.Y0 - by, r.X1 + by, r.Y1 + by}
}

// Overlaps tells whether the two share more than an edge.
func (r Rect) Overlaps(q Rect) bool {
	return r.X0 < q.X1 && q.X0 < r.X1 && r.Y0 < q.Y1 && q.Y0 < r.Y1
}

// Holds tells whether the point is inside or on the edge.
func (r Rect) Holds(x, y float64) bool {
	return r.X0 <= x && x <= r.X1 && r.Y0 <= y && y <= r.Y1
}

// Bounds returns what an item covers, its stroke included but for the tips of
// mitres; of a text the ink, from the first advance to the last.
func (f *Figure) Bounds(it *Item) Rect {
	if it.Shape == Text {
		return f.ink(it)
	}
	return f.Frame(it).Grow(it.Style.reach())
}

// Frame returns the box of an item's edge, without its stroke: that across
// which its gradient runs.
func (f *Figure) Frame(it *Item) Rect {
	r := nothing
	for _, p := range f.Of(it) {
		r = r.Union(Rect{p.X, p.Y, p.X, p.Y})
	}
	switch it.Shape {
	case Circle:
		r = r.Grow(it.Radius)
	case Arc:
		r = sweep(f.Points[it.At], it.Radius, min(it.From, it.To), max(it.From, it.To))
	}
	return r
}

// sweep is the box of an arc: its ends, and the points furthest to each side
// that it passes.
func sweep(c Point, radius, from, to float64) Rect {
	const quarter = math.Pi / 2
	to = min(to, from+4*quarter)
	r := nothing
	add := func(angle float64) {
		sin, cos := math.Sincos(angle)
		x, y := c.X+radius*cos, c.Y+radius*sin
		r = r.Union(Rect{x, y, x, y})
	}
	add(from)
	for k := math.Ceil(from / quarter); k*quarter < to; k++ {
		add(k * quarter)
	}
	add(to)
	return r
}

func (f *Figure) ink(it *Item) Rect {
	at, em := f.Points[it.At], it.Size/unitsPerEm
	width := Measure(it.Text, it.Size, it.Bold)
	r := Rect{X0: at.X - width*float64(it.Align)/2, Y0: at.Y, Y1: at.Y}
	r.X1 = r.X0 + width
	for _, c := range it.Text {
		e := extentOf(c, it.Bold)
		r.Y0 = min(r.Y0, at.Y-float64(e.high)*em)
		r.Y1 = max(r.Y1, at.Y-float64(e.low)*em)
	}
	return r
}

// reach is how far a style's stroke goes beyond the edge.
func (s *Style) reach() float64 {
	if s.Stroke.Role == None {
		return 0
	}
	return s.Width / 2
}

// PartBounds returns what the marks of a part cover together; false if there
// are none.
func (f *Figure) PartBounds(part string) (Rect, bool) {
	r := nothing
	for i := range f.Items {
		if f.Items[i].Part == part {
			r = r.Union(f.Bounds(&f.Items[i]))
		}
	}
	return r, r.X0 <= r.X1
}

// PartAt returns the part of the topmost named mark at a point or no further
// from it than reach; "" if there is none.
func (f *Figure) PartAt(x, y, reach float64) string {
	var room [64]Point
	for i := len(f.Items) - 1; i >= 0; i-- {
		it := &f.Items[i]
		if it.Part == "" || !f.Bounds(it).Grow(reach).Holds(x, y) {
			continue
		}
		edge, closed := f.Outline(it, reach/4+0.25, room[:0])
		if it.Shape == Text || closed && inside(edge, x, y) ||
			touches(edge, closed, Rect{x, y, x, y}.Grow(reach+it.Style.reach())) {
			return it.Part
		}
	}
	return ""
}

// inside tells whether a point lies in a closed outline (even-odd).
func inside(edge []Point, x, y float64) bool {
	in := false
	for i, a := range edge {
		b := edge[(i+1)%len(edge)]
		if (a.Y > y) != (b.Y > y) && x < a.X+(y-a.Y)*(b.X-a.X)/(b.Y-a.Y) {
			in = !in
		}
	}
	return in
}

// touches tells whether any chord of an outline meets the rectangle.
func touches(edge []Point, closed bool, r Rect) bool {
	for i := range edge {
		j := i + 1
		if j == len(edge) {
			if !closed {
				return false
			}
			j = 0
		}
		if crosses(edge[i], edge[j], r) {
			return true
		}
	}
	return false
}

// crosses clips the chord a b to the rectangle and tells whether some is left.
func crosses(a, b Point, r Rect) bool {
	from, to := 0.0, 1.0
	return clip(a.X, b.X-a.X, r.X0, r.X1, &from, &to) && clip(a.Y, b.Y-a.Y, r.Y0, r.Y1, &from, &to)
}

func clip(start, run, low, high float64, from, to *float64) bool {
	if run == 0 {
		return low <= start && start <= high
	}
	enter, leave := (low-start)/run, (high-start)/run
	*from = max(*from, min(enter, leave))
	*to = min(*to, max(enter, leave))
	return *from <= *to
}
