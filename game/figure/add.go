package figure

// Each of these adds one mark on top of what is there and returns it, so that
// a caller may name its Part. The pointer is good until the next mark is added.

// Line adds a straight line.
func (f *Figure) Line(s Style, x0, y0, x1, y1 float64) *Item {
	it := f.add(Line, s)
	f.To(x0, y0)
	f.To(x1, y1)
	return it
}

// Polyline adds an open line through the points; To continues it.
func (f *Figure) Polyline(s Style, points ...Point) *Item {
	return f.through(Line, s, points)
}

// Polygon adds a closed shape with these corners; To adds further corners.
func (f *Figure) Polygon(s Style, points ...Point) *Item {
	return f.through(Polygon, s, points)
}

// To adds a point to the line or polygon added last.
func (f *Figure) To(x, y float64) {
	last := len(f.Items) - 1
	if last < 0 || f.Items[last].Shape > Polygon {
		panic("figure: To without a line or polygon")
	}
	f.point(x, y)
}

// Circle adds a circle about x, y.
func (f *Figure) Circle(s Style, x, y, radius float64) *Item {
	it := f.add(Circle, s)
	it.Radius = radius
	f.point(x, y)
	return it
}

// Arc adds part of a circle about x, y; angles in radians, clockwise as seen,
// 0 to the right.
func (f *Figure) Arc(s Style, x, y, radius, from, to float64) *Item {
	it := f.add(Arc, s)
	it.Radius, it.From, it.To = radius, from, to
	f.point(x, y)
	return it
}

// Box adds a rectangle between two opposite corners; radius rounds its corners.
func (f *Figure) Box(s Style, x0, y0, x1, y1, radius float64) *Item {
	it := f.add(Box, s)
	it.Radius = radius
	f.point(min(x0, x1), min(y0, y1))
	f.point(max(x0, x1), max(y0, y1))
	return it
}

// A Face is how a text is set. Size is its em in logical units.
type Face struct {
	Size  float64
	Bold  bool
	Align Align
}

// Text adds one line of text with its base line at y.
func (f *Figure) Text(fill Paint, face Face, x, y float64, text string) *Item {
	it := f.add(Text, Style{Fill: fill})
	it.Text, it.Size, it.Bold, it.Align = text, face.Size, face.Bold, face.Align
	f.point(x, y)
	return it
}

// Mark names the part for every item from index first on that has none yet:
// note len(f.Items), draw the part, Mark it.
func (f *Figure) Mark(first int, part string) {
	for i := first; i < len(f.Items); i++ {
		if f.Items[i].Part == "" {
			f.Items[i].Part = part
		}
	}
}

// Append adds the marks of g on top, at the places they have in g.
func (f *Figure) Append(g *Figure) {
	item, point := len(f.Items), len(f.Points)
	f.Items = append(f.Items, g.Items...)
	f.Points = append(f.Points, g.Points...)
	for i := item; i < len(f.Items); i++ {
		f.Items[i].At += point
	}
}

// Of returns the points of an item of f.
func (f *Figure) Of(it *Item) []Point { return f.Points[it.At : it.At+it.N] }

func (f *Figure) add(shape Shape, s Style) *Item {
	f.Items = append(f.Items, Item{Shape: shape, Style: s, At: len(f.Points)})
	return &f.Items[len(f.Items)-1]
}

func (f *Figure) point(x, y float64) {
	f.Points = append(f.Points, Point{x, y})
	f.Items[len(f.Items)-1].N++
}

func (f *Figure) through(shape Shape, s Style, points []Point) *Item {
	it := f.add(shape, s)
	f.Points = append(f.Points, points...)
	it.N = len(points)
	return it
}
