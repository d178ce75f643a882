package mesh

import (
	"fmt"
	"image"
	"image/draw"
	"math"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"

	"wheelroom/game/figure"
)

// An Atlas holds the letters that have been used, each as a mask at its size
// in pixels and its place within the pixel, and one white block for everything
// else. It grows downwards and never moves a letter, so texture coordinates,
// in pixels of the atlas, stay good until Reset.
type Atlas struct {
	Mask *image.Alpha

	fonts  [2]*sfnt.Font
	digits [2][10]sfnt.GlyphIndex // tabular figures
	buffer sfnt.Buffer
	raster vector.Rasterizer

	cells  map[letter]cell
	dirty  image.Rectangle
	x, y   int // where the next letter of the row goes
	height int // of the row
}

// A letter is one glyph as it falls on the pixels. Size is in 64ths of a
// pixel, dx and dy in quarters.
type letter struct {
	r      rune
	size   int32
	bold   bool
	dx, dy uint8
}

// A cell is where a letter lies in the atlas and, from the whole pixel of the
// pen, on the screen. An empty one has no ink.
type cell struct {
	at   image.Rectangle
	x, y int
}

const (
	atlasWidth = 1024
	atlasStart = 256
	atlasLimit = 4096 // rows; further letters are left out until Reset
	white      = 2    // texture coordinate inside the white block
	quarters   = 4    // places of a letter within a pixel
)

// NewAtlas reads the two weights as TrueType.
func NewAtlas(regular, bold []byte) (*Atlas, error) {
	a := new(Atlas)
	for i, data := range [...][]byte{regular, bold} {
		f, err := sfnt.Parse(data)
		if err != nil {
			return nil, fmt.Errorf("font: %w", err)
		}
		a.fonts[i] = f
		if err := a.findFigures(i); err != nil {
			return nil, err
		}
	}
	a.Reset()
	return a, nil
}

// findFigures looks the tabular figures up by name: the font reader does not
// apply the font's tnum feature.
func (a *Atlas) findFigures(weight int) error {
	names := [...]string{"zero.tf", "one.tf", "two.tf", "three.tf", "four.tf", "five.tf", "six.tf", "seven.tf", "eight.tf", "nine.tf"}
	f := a.fonts[weight]
	for g := range f.NumGlyphs() {
		name, err := f.GlyphName(&a.buffer, sfnt.GlyphIndex(g))
		if err != nil {
			return fmt.Errorf("font: name of glyph %d: %w", g, err)
		}
		for d := range names {
			if name == names[d] {
				a.digits[weight][d] = sfnt.GlyphIndex(g)
			}
		}
	}
	for d, g := range a.digits[weight] {
		if g == 0 {
			return fmt.Errorf("font: no glyph named %s", names[d])
		}
	}
	return nil
}

// Reset forgets all letters: for a new scale.
func (a *Atlas) Reset() {
	a.Mask = image.NewAlpha(image.Rect(0, 0, atlasWidth, atlasStart))
	a.cells = make(map[letter]cell)
	block := image.Rect(0, 0, 2*white, 2*white)
	draw.Draw(a.Mask, block, image.Opaque, image.Point{}, draw.Src)
	a.x, a.y, a.height = block.Dx()+1, 0, block.Dy()
	a.dirty = a.Mask.Rect
}

// Crowded reports that half of the atlas is used up: many sizes have come and
// gone, and a Reset is due.
func (a *Atlas) Crowded() bool { return a.y > atlasLimit/2 }

// Changed returns the part of the mask drawn since it was last asked.
func (a *Atlas) Changed() image.Rectangle {
	r := a.dirty
	a.dirty = image.Rectangle{}
	return r
}

// letter returns a letter's cell, drawing it on first use.
func (a *Atlas) letter(l letter) cell {
	c, ok := a.cells[l]
	if !ok {
		c = a.draw(l)
		a.cells[l] = c
	}
	return c
}

func (a *Atlas) draw(l letter) cell {
	weight := 0
	if l.bold {
		weight = 1
	}
	f := a.fonts[weight]
	g, err := f.GlyphIndex(&a.buffer, l.r)
	if '0' <= l.r && l.r <= '9' {
		g = a.digits[weight][l.r-'0']
	}
	if err != nil {
		return cell{}
	}
	outline, err := f.LoadGlyph(&a.buffer, g, fixed.Int26_6(l.size), nil)
	if err != nil || len(outline) == 0 {
		return cell{}
	}
	dx, dy := float32(l.dx)/quarters, float32(l.dy)/quarters
	ink := outline.Bounds()
	x0, y0 := floor(ink.Min.X, dx), floor(ink.Min.Y, dy)
	w, h := floor(ink.Max.X, dx)+1-x0, floor(ink.Max.Y, dy)+1-y0
	at, ok := a.place(w, h)
	if !ok {
		return cell{}
	}

	a.raster.Reset(w, h)
	on := func(p fixed.Point26_6) (float32, float32) {
		return float32(p.X)/64 + dx - float32(x0), float32(p.Y)/64 + dy - float32(y0)
	}
	for _, s := range outline {
		x, y := on(s.Args[0])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			a.raster.MoveTo(x, y)
		case sfnt.SegmentOpLineTo:
			a.raster.LineTo(x, y)
		case sfnt.SegmentOpQuadTo:
			x1, y1 := on(s.Args[1])
			a.raster.QuadTo(x, y, x1, y1)
		case sfnt.SegmentOpCubeTo:
			x1, y1 := on(s.Args[1])
			x2, y2 := on(s.Args[2])
			a.raster.CubeTo(x, y, x1, y1, x2, y2)
		}
	}
	a.raster.Draw(a.Mask, at, image.Opaque, image.Point{})
	a.dirty = a.dirty.Union(at)
	return cell{at, x0, y0}
}

func floor(v fixed.Int26_6, shift float32) int {
	return int(math.Floor(float64(float32(v)/64 + shift)))
}

// place finds room for a letter, a pixel from its neighbours, row by row.
func (a *Atlas) place(w, h int) (image.Rectangle, bool) {
	if a.x+w > atlasWidth {
		a.x, a.y, a.height = 0, a.y+a.height+1, 0
	}
	if w > atlasWidth || a.y+h > atlasLimit {
		return image.Rectangle{}, false
	}
	for a.y+h > a.Mask.Rect.Dy() {
		a.grow()
	}
	at := image.Rect(a.x, a.y, a.x+w, a.y+h)
	a.x += w + 1
	a.height = max(a.height, h)
	return at, true
}

func (a *Atlas) grow() {
	bigger := image.NewAlpha(image.Rect(0, 0, atlasWidth, 2*a.Mask.Rect.Dy()))
	copy(bigger.Pix, a.Mask.Pix)
	a.Mask = bigger
	a.dirty = bigger.Rect
}

// text adds the letters of a text, each on its quarter of a pixel; the base
// line is settled on a whole one unless the text glides.
func (m *Mesh) text(it *figure.Item, at figure.Point) {
	if it.Style.Fill.Role == figure.None {
		return
	}
	m.colour = plain(m.palette.Colour(it.Style.Fill))
	size := it.Size * m.scale
	x := at.X * m.scale
	if it.Align != figure.Start {
		x -= figure.Measure(it.Text, size, it.Bold) * float64(it.Align) / 2
	}
	row, dy := math.Floor(at.Y*m.scale+0.5), uint8(0)
	if it.Style.Glide {
		row, dy = quarter(at.Y * m.scale)
	}
	for _, r := range it.Text {
		column, dx := quarter(x)
		c := m.atlas.letter(letter{r, int32(math.Round(size * 64)), it.Bold, dx, dy})
		if !c.at.Empty() {
			m.letter(c, column, row)
		}
		x += figure.Advance(r, it.Bold) * size
	}
}

// quarter splits a length into whole pixels and quarters.
func quarter(v float64) (whole float64, quarters4 uint8) {
	q := math.Floor(v*quarters + 0.5)
	whole = math.Floor(q / quarters)
	return whole, uint8(q - whole*quarters)
}

func (m *Mesh) letter(c cell, column, row float64) {
	at := len(m.Vertices)
	x, y := column+float64(c.x), row+float64(c.y)
	w, h := float64(c.at.Dx()), float64(c.at.Dy())
	m.vertex(x, y, 1)
	m.vertex(x+w, y, 1)
	m.vertex(x+w, y+h, 1)
	m.vertex(x, y+h, 1)
	for i, p := range [...]image.Point{c.at.Min, {X: c.at.Max.X, Y: c.at.Min.Y}, c.at.Max, {X: c.at.Min.X, Y: c.at.Max.Y}} {
		m.Vertices[at+i].U, m.Vertices[at+i].V = float32(p.X), float32(p.Y)
	}
	m.quad(at, at+1, at+2, at+3)
}
