// Package paint puts figures on the screen with Ebitengine.
//
// What stands still is drawn once into a picture of its own; what moves becomes
// one soft-edged mesh a frame and one draw call, letters included. The vector
// package is not used: in Ebitengine v2.10.4 its anti-aliased circles and round
// joins cost some 11,000 path operations each.
package paint

import (
	"math"

	"github.com/hajimehoshi/ebiten/v2"

	"wheelroom/game/figure"
	"wheelroom/game/paint/mesh"
)

// A Painter draws one scene: a still figure and a moving one over it.
type Painter struct {
	atlas   *mesh.Atlas
	mesh    *mesh.Mesh
	scale   float64
	palette *figure.Palette

	letters  *ebiten.Image // the atlas on the graphics card
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
	p.draw(p.still, f)
}

// Draw puts the still picture on the screen's top left and the moving figure,
// unless nil, over it.
func (p *Painter) Draw(screen *ebiten.Image, moving *figure.Figure) {
	if p.still != nil {
		screen.DrawImage(p.still, &p.copy)
	}
	if moving != nil {
		p.draw(screen, moving)
	}
}

func (p *Painter) draw(to *ebiten.Image, f *figure.Figure) {
	p.build(f)
	p.upload()
	to.DrawTriangles32(p.vertices, p.mesh.Indices, p.letters, &p.blend)
}

// build makes the figure's mesh and dresses its vertices for Ebitengine.
func (p *Painter) build(f *figure.Figure) {
	p.mesh.Build(f, p.scale, p.palette)
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
