// Package damage compares a figure with what it was a frame ago and says which
// rectangles of the screen have to be painted again. Most marks of a machine
// rest at any instant; only what moves, and what lies over or under it, costs
// anything.
//
// A rectangle is painted from the ground up: what stands still, then every mark
// that reaches into it, in order, cut off at its edge. So the picture is the
// same as if all of it had been painted, whichever marks overlap.
//
// Units are device pixels. The package is pure and draws nothing.
package damage

import (
	"image"

	"wheelroom/game/figure"
)

// A Watch remembers the figure seen last. The zero Watch has seen none. In
// steady state Look does not allocate.
type Watch struct {
	seen  figure.Figure
	boxes []image.Rectangle // of its marks
	next  []image.Rectangle
	known bool
	rects []image.Rectangle
	clip  image.Rectangle
}

// Forget makes the next Look damage everything: the scale, the colours or what
// lies beneath have changed.
func (w *Watch) Forget() { w.known = false }

// Look sees the figure of a new frame, scale pixels to the logical unit, and
// returns what has to be painted again inside the picture's rectangle. The
// slice is good until the next Look.
func (w *Watch) Look(f *figure.Figure, scale float64, picture image.Rectangle) []image.Rectangle {
	w.rects, w.next, w.clip = w.rects[:0], w.next[:0], picture
	if !w.known {
		w.seen.Reset(f.Width, f.Height)
		w.hurt(picture)
	}
	w.compare(f, scale)
	w.boxes, w.next = w.next, w.boxes
	w.seen.Reset(f.Width, f.Height)
	w.seen.Append(f)
	w.known = true
	return w.rects
}

// Reaches tells whether mark i of the figure seen last may have a pixel in r.
func (w *Watch) Reaches(i int, r image.Rectangle) bool { return w.boxes[i].Overlaps(r) }

// compare walks through the marks of both figures side by side, in order, and
// hurts the boxes of all that have no equal in the other. Marks that are found
// equal keep their order, so nothing between them can have changed places.
func (w *Watch) compare(f *figure.Figure, scale float64) {
	old, i := &w.seen, 0
	for j := range f.Items {
		it := &f.Items[j]
		i += w.gone(f, i, j)
		if i < len(old.Items) && same(old, &old.Items[i], f, it) {
			w.next = append(w.next, w.boxes[i])
			i++
			continue
		}
		box := Box(f, it, scale)
		w.next = append(w.next, box)
		if i < len(old.Items) && alike(&old.Items[i], it) {
			// A mark that has moved a little hurts one box, not two.
			if w.boxes[i].Overlaps(box) {
				box = box.Union(w.boxes[i])
			} else {
				w.hurt(w.boxes[i])
			}
			i++
		}
		w.hurt(box)
	}
	for ; i < len(old.Items); i++ {
		w.hurt(w.boxes[i])
	}
}

// ahead is how far Look searches for the fellow of a mark: more than any part
// has marks.
const ahead = 48

// gone hurts those old marks from i on that have been left out before new mark
// j and returns how many they are. A mark that merely is new leaves all.
func (w *Watch) gone(f *figure.Figure, i, j int) int {
	old := w.seen.Items
	if i >= len(old) || alike(&old[i], &f.Items[j]) {
		return 0
	}
	for k := 1; k <= ahead; k++ {
		if j+k < len(f.Items) && alike(&old[i], &f.Items[j+k]) {
			return 0
		}
		if i+k < len(old) && alike(&old[i+k], &f.Items[j]) {
			for n := range k {
				w.hurt(w.boxes[i+n])
			}
			return k
		}
	}
	return 0
}

// alike tells whether two marks may well be one and the same that has changed.
func alike(a, b *figure.Item) bool { return a.Shape == b.Shape && a.Part == b.Part }

// same tells whether two marks look the same.
func same(f *figure.Figure, a *figure.Item, g *figure.Figure, b *figure.Item) bool {
	if a.N != b.N || !alike(a, b) || a.Radius != b.Radius || a.From != b.From || a.To != b.To ||
		a.Style != b.Style || a.Text != b.Text || a.Size != b.Size || a.Bold != b.Bold || a.Align != b.Align {
		return false
	}
	p, q := f.Of(a), g.Of(b)
	for i := range p {
		if p[i] != q[i] {
			return false
		}
	}
	return true
}

// Alone is what a rectangle of its own costs, in pixels that could be painted
// meanwhile: two rectangles become one where that paints no more than so many
// pixels for nothing. Measured in Chromium without a graphics card.
const Alone = 3000

// hurt adds a box to what is to be painted, joined with others where that is
// cheaper. What is left may overlap; each is painted whole.
func (w *Watch) hurt(box image.Rectangle) {
	box = box.Intersect(w.clip)
	if box.Empty() {
		return
	}
	for i := 0; i < len(w.rects); i++ {
		r := w.rects[i]
		if u := r.Union(box); area(u) <= area(r)+area(box)+Alone {
			last := len(w.rects) - 1
			w.rects[i] = w.rects[last]
			w.rects, box, i = w.rects[:last], u, -1
		}
	}
	w.rects = append(w.rects, box)
}

func area(r image.Rectangle) int { return r.Dx() * r.Dy() }

// far is beyond any screen, pixels.
const far = 1 << 20

// Box returns whole pixels that hold all of a mark as it is painted: settled,
// with soft edges, tips of mitres, and letters that lean out of their advance.
func Box(f *figure.Figure, it *figure.Item, scale float64) image.Rectangle {
	if it.N == 0 {
		return image.Rectangle{}
	}
	const soft = 3 // pixels: half for settling, a width rounded up, and a sharp soft edge
	r := f.Bounds(it)
	switch s := &it.Style; {
	case it.Shape == figure.Text:
		r = r.Grow(0.1 * it.Size)
	case s.Stroke.Role != figure.None && it.Shape <= figure.Polygon && !s.Round && it.N > 2:
		r = r.Grow(s.Width / 2 * (figure.MitreLimit - 1))
	}
	whole := func(v float64) int { return int(max(-far, min(v*scale, far))) }
	return image.Rect(whole(r.X0)-soft, whole(r.Y0)-soft, whole(r.X1)+1+soft, whole(r.Y1)+1+soft)
}
