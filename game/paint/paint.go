// Package paint puts figures on the screen with Ebitengine.
//
// What stands still is drawn once into a picture of its own. The screen keeps
// what was drawn on it; a frame paints only those rectangles again in which a
// mark has changed, each from the still picture and one soft-edged mesh, letters
// included.
//
// The vector package is not used: in Ebitengine v2.10.4 its anti-aliased circles
// and round joins cost some 11,000 path operations each.
package paint

import (
	"image"
	"math"

	"github.com/hajimehoshi/ebiten/v2"

	"wheelroom/game/figure"
	"wheelroom/game/paint/damage"
	"wheelroom/game/paint/mesh"
)

// A Painter draws one scene: a still figure and a moving one over it.
type Painter struct {
	atlas   *mesh.Atlas
	mesh    *mesh.Mesh
	scale   float64
	palette *figure.Palette
	watch   damage.Watch // over what moves

	screen   image.Rectangle // its bounds when drawn last
	fresh    bool            // the still picture has not been on it
	letters  *ebiten.Image   // the atlas on the graphics card
	still    *ebiten.Image
	vertices []ebiten.Vertex
	pixels   []byte
	blend    ebiten.DrawTrianglesOptions
	copy     ebiten.DrawImageOptions
}

// New returns a painter that sets texts in the two fonts, given as TrueType.
func New(regular, bold []byte) (*Painter, error) {
	atlas, err := mesh.NewAtlas(regular, bold)
	if err != nil {
		return nil, err
	}
	p := &Painter{atlas: atlas, mesh: mesh.New(atlas), scale: 1, palette: &figure.Paper}
	p.blend.ColorScaleMode = ebiten.ColorScaleModePremultipliedAlpha
	p.copy.Blend = ebiten.BlendCopy
	return p, nil
}

// SetStill draws what stands still, scale device pixels to the logical unit,
// on the palette's ground, and keeps the picture; scale and palette also serve
// the moving figures to come. Call it when the scene, the size or the theme
// changes.
func (p *Painter) SetStill(f *figure.Figure, scale float64, palette *figure.Palette) {
	if scale != p.scale || p.atlas.Crowded() {
		p.atlas.Reset()
	}
	p.scale, p.palette = scale, palette
	width, height := max(1, int(math.Ceil(f.Width*scale))), max(1, int(math.Ceil(f.Height*scale)))
	if p.still == nil || p.still.Bounds().Dx() != width || p.still.Bounds().Dy() != height {
		if p.still != nil {
			p.still.Deallocate()
		}
		p.still = ebiten.NewImage(width, height)
	}
	p.still.Fill(palette[figure.Ground])
	p.mesh.Build(f, scale, palette)
	p.draw(p.still)
	p.fresh = true
}

// Draw brings the screen up to the moving figure over the still picture, both
// at its top left, on the palette's ground. The screen must be as the last Draw
// left it, unless its size has changed, and SetStill must have been called.
func (p *Painter) Draw(screen *ebiten.Image, moving *figure.Figure) {
	if size := screen.Bounds(); size != p.screen || p.fresh {
		p.screen, p.fresh = size, false
		p.watch.Forget()
		screen.Fill(p.palette[figure.Ground])
	}
	for _, r := range p.watch.Look(moving, p.scale, p.still.Bounds().Intersect(p.screen)) {
		part, still := screen.RecyclableSubImage(r), p.still.RecyclableSubImage(r)
		p.copy.GeoM.Reset()
		p.copy.GeoM.Translate(float64(r.Min.X), float64(r.Min.Y))
		part.DrawImage(still, &p.copy)
		p.build(moving, r)
		p.draw(part)
		still.Recycle()
		part.Recycle()
	}
}

// build makes the mesh of those marks of the figure looked at last that reach
// into a rectangle.
func (p *Painter) build(f *figure.Figure, r image.Rectangle) {
	p.mesh.Begin(p.scale, p.palette)
	for i := range f.Items {
		if p.watch.Reaches(i, r) {
			p.mesh.Add(f, &f.Items[i])
		}
	}
}

// draw puts the mesh on an image.
func (p *Painter) draw(to *ebiten.Image) {
	p.upload()
	p.dress()
	to.DrawTriangles32(p.vertices, p.mesh.Indices, p.letters, &p.blend)
}

// dress makes the mesh's vertices into Ebitengine's.
func (p *Painter) dress() {
	p.vertices = p.vertices[:0]
	for i := range p.mesh.Vertices {
		v := &p.mesh.Vertices[i]
		p.vertices = append(p.vertices, ebiten.Vertex{
			DstX: v.X, DstY: v.Y, SrcX: v.U, SrcY: v.V,
			ColorR: v.R, ColorG: v.G, ColorB: v.B, ColorA: v.A,
		})
	}
}

// upload brings letters drawn since the last time to the graphics card.
func (p *Painter) upload() {
	changed := p.atlas.Changed()
	if changed.Empty() {
		return
	}
	mask := p.atlas.Mask
	if p.letters == nil || p.letters.Bounds() != mask.Rect {
		if p.letters != nil {
			p.letters.Deallocate()
		}
		p.letters = ebiten.NewImage(mask.Rect.Dx(), mask.Rect.Dy())
		changed = mask.Rect
	}
	p.pixels = p.pixels[:0]
	for y := changed.Min.Y; y < changed.Max.Y; y++ {
		at := mask.PixOffset(changed.Min.X, y)
		for _, a := range mask.Pix[at : at+changed.Dx()] {
			p.pixels = append(p.pixels, a, a, a, a)
		}
	}
	p.letters.SubImage(changed).(*ebiten.Image).WritePixels(p.pixels)
}
