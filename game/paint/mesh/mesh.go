// Package mesh turns a figure into triangles with soft edges: the pure half of
// paint, with no graphics library behind it, so that it can be tested anywhere.
//
// Units are device pixels, x right, y down, pixel centres at halves. Every
// edge is a band one pixel wide across which the alpha falls to 0, half inside
// and half outside. All triangles, letters included, take their pixels from
// one atlas, so that a whole figure is one draw call in drawing order.
//
// Edges that run along the axes are settled on whole pixels unless a mark's
// style says it glides. Curves become chords; there are no paths.
package mesh

import (
	"image/color"
	"math"

	"wheelroom/game/figure"
)

// A Vertex is a corner: where it is, which atlas pixel it takes, and the
// premultiplied colour that the pixel is multiplied by.
type Vertex struct{ X, Y, U, V, R, G, B, A float32 }

// A Mesh is a list of triangles, three indices each. It keeps its storage from
// one Build to the next; in steady state Build does not allocate.
type Mesh struct {
	Vertices []Vertex
	Indices  []uint32

	atlas   *Atlas
	palette *figure.Palette
	scale   float64

	// Scratch, one mark at a time.
	pixel   figure.Figure // the mark in pixels
	edge    []figure.Point
	thinner figure.Thinner
	dash    []figure.Point
	mark    []figure.Point // one dash
	next    []int32        // ring of corners while a polygon is cut up
	colour  tint
	prev    int // first vertex of the last section of a stroke, -1 for none
	bands   int // of a stroke, side by side
}

// New returns an empty mesh whose letters live in the atlas.
func New(atlas *Atlas) *Mesh { return &Mesh{atlas: atlas} }

// Tolerance is how far a chord may leave its curve, pixels: too little to see.
// Without a graphics card a frame's time goes by its triangles, most of which
// are smaller than a pixel; so nothing is cut finer than the eye can tell.
const tolerance = 0.1

// Build replaces the mesh by that of a figure, scale device pixels to the
// logical unit.
func (m *Mesh) Build(f *figure.Figure, scale float64, palette *figure.Palette) {
	m.Begin(scale, palette)
	for i := range f.Items {
		m.Add(f, &f.Items[i])
	}
}

// Begin empties the mesh, for marks to be added one by one.
func (m *Mesh) Begin(scale float64, palette *figure.Palette) {
	m.Vertices, m.Indices = m.Vertices[:0], m.Indices[:0]
	m.scale, m.palette = scale, palette
}

// Add adds one mark of a figure on top.
func (m *Mesh) Add(f *figure.Figure, it *figure.Item) {
	if it.Shape == figure.Text {
		m.text(it, f.Points[it.At])
	} else {
		m.shape(it, f.Of(it))
	}
}

// shape fills and strokes one mark.
func (m *Mesh) shape(it *figure.Item, points []figure.Point) {
	s := &it.Style
	width := 0.0
	if s.Stroke.Role != figure.None {
		width = s.Width * m.scale
	}
	if width <= 0 && s.Fill.Role == figure.None {
		return
	}
	closed := m.outline(it, points, &width)
	if s.Fill.Role != figure.None {
		frame := m.pixel.Frame(&m.pixel.Items[0])
		m.colour = blend(m.palette, s, frame)
		hidden := width >= 1 && s.Dash == figure.Solid && closed && opaque(s.Stroke)
		m.fill(m.edge, hidden)
	}
	if width <= 0 {
		return
	}
	m.colour = plain(m.palette.Colour(s.Stroke))
	if width < 1 {
		// A hairline is drawn a pixel wide and pale instead.
		m.colour.a[3] *= float32(width)
		width = 1
	}
	if mark, gap := s.Dash.Pattern(s.Width); mark > 0 {
		m.dashes(closed, width, mark*m.scale, gap*m.scale, s.Phase*m.scale, s.Round)
	} else {
		m.stroke(m.edge, closed, width, s.Round, s.Round)
	}
}

// outline puts the mark's edge into m.edge, in pixels, settled if it may be;
// the width of the stroke is settled with it.
func (m *Mesh) outline(it *figure.Item, points []figure.Point, width *float64) (closed bool) {
	m.pixel.Reset(0, 0)
	for _, p := range points {
		m.pixel.Points = append(m.pixel.Points, figure.Point{X: p.X * m.scale, Y: p.Y * m.scale})
	}
	m.pixel.Items = append(m.pixel.Items, *it)
	px := &m.pixel.Items[0]
	px.At, px.Radius = 0, it.Radius*m.scale
	if !it.Style.Glide {
		switch it.Shape {
		case figure.Box:
			*width = whole(*width)
			settleBox(m.pixel.Points, *width)
		case figure.Line, figure.Polygon:
			settleEdges(m.pixel.Points, it.Shape == figure.Polygon, width)
		}
	}
	m.edge, closed = m.pixel.Outline(px, tolerance, m.edge[:0])
	m.edge, closed = distinct(m.edge, closed)
	if it.Shape == figure.Line || it.Shape == figure.Polygon {
		// Curves that come as points are drawn for larger scales as well.
		m.edge = m.thinner.Thin(m.edge, tolerance/2)
	}
	return closed
}

// whole rounds the width of a line along the axes; hairlines stay pale.
func whole(width float64) float64 {
	if width < 1 {
		return width
	}
	return math.Round(width)
}

// settle moves the middle of a line of whole width so that its sides fall
// between pixels.
func settle(v, width float64) float64 {
	half := math.Ceil(width) / 2
	return math.Floor(v-half+0.5) + half
}

func settleBox(p []figure.Point, width float64) {
	for i := range p {
		p[i] = figure.Point{X: settle(p[i].X, width), Y: settle(p[i].Y, width)}
	}
}

// settleEdges settles those edges that run along an axis for a while.
func settleEdges(p []figure.Point, closed bool, width *float64) {
	n := len(p) - 1
	if closed {
		n++
	}
	any := false
	for i := range n {
		any = any || along(p[i], p[(i+1)%len(p)]) != neither
	}
	if !any {
		return
	}
	*width = whole(*width)
	for i := range n {
		a, b := &p[i], &p[(i+1)%len(p)]
		switch along(*a, *b) {
		case level:
			a.Y = settle(a.Y, *width)
			b.Y = a.Y
		case upright:
			a.X = settle(a.X, *width)
			b.X = a.X
		}
	}
}

// A course is how an edge runs.
type course int

const (
	neither course = iota
	level
	upright
)

// along tells how an edge runs; a short one belongs to a slope or a curve.
func along(a, b figure.Point) course {
	const short, straight = 4, 1e-6 // pixels
	dx, dy := math.Abs(b.X-a.X), math.Abs(b.Y-a.Y)
	switch {
	case max(dx, dy) < short:
		return neither
	case dy < straight:
		return level
	case dx < straight:
		return upright
	}
	return neither
}

// distinct drops points that lie on the one before them.
func distinct(p []figure.Point, closed bool) ([]figure.Point, bool) {
	const apart = 1e-3 // pixels
	same := func(a, b figure.Point) bool { return math.Abs(a.X-b.X) < apart && math.Abs(a.Y-b.Y) < apart }
	n := 0
	for i := range p {
		if n == 0 || !same(p[i], p[n-1]) {
			p[n] = p[i]
			n++
		}
	}
	for closed && n > 1 && same(p[0], p[n-1]) {
		n--
	}
	return p[:n], closed && n > 2
}

// A tint is the colour of a mark: from a to b across its frame, straight
// alpha, 0 to 1.
type tint struct {
	a, b   [4]float32
	shaded bool
	x0, y0 float64
	kx, ky float64 // share of the way per pixel
}

func plain(c color.NRGBA) tint {
	return tint{a: [4]float32{float32(c.R) / 255, float32(c.G) / 255, float32(c.B) / 255, float32(c.A) / 255}}
}

func blend(p *figure.Palette, s *figure.Style, frame figure.Rect) tint {
	t := plain(p.Colour(s.Fill))
	if s.Shade.Role == figure.None || frame.X1 <= frame.X0 || frame.Y1 <= frame.Y0 {
		return t
	}
	t.b, t.shaded = plain(p.Colour(s.Shade)).a, true
	t.x0, t.y0 = frame.X0, frame.Y0
	t.kx, t.ky = 0.5/(frame.X1-frame.X0), 0.5/(frame.Y1-frame.Y0)
	return t
}

func opaque(p figure.Paint) bool { return p.Alpha <= 0 || p.Alpha >= 1 }

// vertex adds a corner in the mark's colour with a share of its alpha.
func (m *Mesh) vertex(x, y float64, share float32) {
	c := m.colour.a
	if m.colour.shaded {
		t := float32(min(1, max(0, (x-m.colour.x0)*m.colour.kx+(y-m.colour.y0)*m.colour.ky)))
		for i := range c {
			c[i] += t * (m.colour.b[i] - c[i])
		}
	}
	a := c[3] * share
	m.Vertices = append(m.Vertices, Vertex{float32(x), float32(y), white, white, c[0] * a, c[1] * a, c[2] * a, a})
}

func (m *Mesh) triangle(a, b, c int) {
	m.Indices = append(m.Indices, uint32(a), uint32(b), uint32(c))
}

// quad adds the two triangles of a b c d, in order round it.
func (m *Mesh) quad(a, b, c, d int) {
	m.Indices = append(m.Indices, uint32(a), uint32(b), uint32(c), uint32(a), uint32(c), uint32(d))
}
