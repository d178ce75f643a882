package mesh

import (
	"image"
	"image/color"
	"math"

	"wheelroom/game/figure"
)

// rasterise is the slow twin of the graphics card: every pixel whose centre
// lies in a triangle takes the nearest atlas pixel times the corner colours,
// over what is there. An edge belongs to the triangle on its right or below it.
func rasterise(m *Mesh, width, height int, ground color.NRGBA) *image.RGBA {
	pix := make([][4]float64, width*height)
	for i := range pix {
		pix[i] = [4]float64{float64(ground.R) / 255, float64(ground.G) / 255, float64(ground.B) / 255, 1}
	}
	for i := 0; i < len(m.Indices); i += 3 {
		a, b, c := m.Vertices[m.Indices[i]], m.Vertices[m.Indices[i+1]], m.Vertices[m.Indices[i+2]]
		area := doubleArea(a, b, float64(c.X), float64(c.Y))
		if area == 0 {
			continue
		}
		if area < 0 {
			b, c, area = c, b, -area
		}
		for y := span(a.Y, b.Y, c.Y, height).Min; y < span(a.Y, b.Y, c.Y, height).Max; y++ {
			for x := span(a.X, b.X, c.X, width).Min; x < span(a.X, b.X, c.X, width).Max; x++ {
				px, py := float64(x)+0.5, float64(y)+0.5
				wa, wb, wc := doubleArea(b, c, px, py), doubleArea(c, a, px, py), doubleArea(a, b, px, py)
				if !within(wa, b, c) || !within(wb, c, a) || !within(wc, a, b) {
					continue
				}
				wa, wb, wc = wa/area, wb/area, wc/area
				at := func(p, q, r float32) float64 { return wa*float64(p) + wb*float64(q) + wc*float64(r) }
				mask := float64(m.atlas.Mask.AlphaAt(int(math.Floor(at(a.U, b.U, c.U))), int(math.Floor(at(a.V, b.V, c.V)))).A) / 255
				cover := mask * at(a.A, b.A, c.A)
				d := &pix[y*width+x]
				for k, v := range [...]float64{at(a.R, b.R, c.R), at(a.G, b.G, c.G), at(a.B, b.B, c.B)} {
					d[k] = v*mask + d[k]*(1-cover)
				}
			}
		}
	}
	out := image.NewRGBA(image.Rect(0, 0, width, height))
	for i, p := range pix {
		for k := range 4 {
			out.Pix[4*i+k] = uint8(math.Round(255 * min(1, max(0, p[k]))))
		}
	}
	return out
}

// doubleArea is twice the signed area of a b p, positive where p lies clockwise.
func doubleArea(a, b Vertex, x, y float64) float64 {
	return (float64(b.X)-float64(a.X))*(y-float64(a.Y)) - (float64(b.Y)-float64(a.Y))*(x-float64(a.X))
}

// within settles points on an edge: left and top edges are in.
func within(w float64, a, b Vertex) bool {
	if w != 0 {
		return w > 0
	}
	return b.Y < a.Y || b.Y == a.Y && b.X > a.X
}

type run struct{ Min, Max int }

func span(a, b, c float32, limit int) run {
	return run{max(0, int(math.Floor(float64(min(a, b, c))))), min(limit, int(math.Ceil(float64(max(a, b, c)))))}
}

// picture draws a figure through mesh and twin.
func picture(m *Mesh, f *figure.Figure, scale float64, p *figure.Palette) *image.RGBA {
	m.Build(f, scale, p)
	return rasterise(m, int(math.Ceil(f.Width*scale)), int(math.Ceil(f.Height*scale)), p[figure.Ground])
}
