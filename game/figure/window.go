package figure

// Window fills f with what is seen of g through a rectangle, enlarged scale
// times: the marks that reach into the rectangle, whole, with its top left as
// the origin. Whoever draws f cuts off what stands out of it. Nothing is
// stretched: every line, letter and dash is drawn anew at its size.
func (f *Figure) Window(g *Figure, through Rect, scale float64) {
	f.Reset((through.X1-through.X0)*scale, (through.Y1-through.Y0)*scale)
	for i := range g.Items {
		it := g.Items[i]
		if !g.near(&it).Overlaps(through) {
			continue
		}
		at := len(f.Points)
		for _, p := range g.Of(&it) {
			f.Points = append(f.Points, Point{(p.X - through.X0) * scale, (p.Y - through.Y0) * scale})
		}
		it.At = at
		it.Radius *= scale
		it.Size *= scale
		it.Style.Width *= scale
		it.Style.Phase *= scale
		f.Items = append(f.Items, it)
	}
}

// near is a box that holds all of an item, tips of mitres and letters of any
// shape as well; it is quicker to have than the true bounds.
func (f *Figure) near(it *Item) Rect {
	r := f.Frame(it)
	if it.Shape == Text {
		width := Measure(it.Text, it.Size, it.Bold)
		r.X0 -= width * float64(it.Align) / 2
		r.X1 = r.X0 + width
		return r.Grow(it.Size)
	}
	return r.Grow(it.Style.reach() * MitreLimit)
}
